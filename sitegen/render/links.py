"""Links: where every page lies, and the relative way from one to another.

Relative, and naming `index.html`, so that a folder opened from a disk works like one on a host.
"""

SHEETS = "sheets/index.html"
"""The page that tells the age of a printed sheet. It is printed in QR codes, so it never moves."""
DISPUTES = "disputes/index.html"
"""The register of disputes."""
WATERS = "water/index.html"
"""The page of the archive's waters."""


def relative(here: str, there: str) -> str:
    """The link from one page's path to another's; a fragment may follow.

    >>> relative("recipes/blue/index.html", "bench/index.html"), relative("index.html", "bench/index.html")
    ('../../bench/index.html', 'bench/index.html')
    """
    return "../" * here.count("/") + there


def recipe_path(slug: str) -> str:
    """The page of a recipe."""
    return f"recipes/{slug}/index.html"


def sheet_place(code: str, revision: int) -> str:
    """Where a sheet's own revision is told of; the form of a batch code, so that either is read.

    >>> sheet_place("IB-07", 3)
    'sheets/index.html#IB-07.3'
    """
    return f"{SHEETS}#{code}.{revision}"


def troubles_path(slug: str) -> str:
    """The page of a recipe's troubles."""
    return f"recipes/{slug}/troubles.html"


def process_troubles_path(process: str) -> str:
    """The page of a process's troubles."""
    return f"troubles/{process}/index.html"


def substance_path(card: str) -> str:
    """The page of a substance."""
    return f"substances/{card}/index.html"


def process_path(process: str) -> str:
    """The page of a process."""
    return f"processes/{process}/index.html"


def trial_path(slug: str) -> str:
    """The page of an entry of the journal."""
    return f"journal/{slug}/index.html"


def verdict_path(verdict: str | None) -> str:
    """The journal's page of one verdict, or (None) of all entries; an entry's own folder begins with its day."""
    return f"journal/{verdict}/index.html" if verdict else "journal/index.html"


def water_place(water: str) -> str:
    """A water of the archive on the page of all."""
    return f"{WATERS}#{water}"


def mixture_path(mixture: str) -> str:
    """A mixture (`recipe/mixture`) on the page of its recipe."""
    owner = mixture.partition("/")[0]
    return f"{recipe_path(owner)}#{mixture_anchor(mixture, owner)}"


def picture_path(file: str) -> str:
    """Where a picture of the archive's `images/` lies in the output."""
    return f"images/{file}"


def card_anchor(number: int) -> str:
    """The element id, on the home page, of the card of a recipe that the edition lacks; it tells no slug."""
    return f"reserved-{number + 1}"


def mixture_anchor(mixture: str, recipe: str) -> str:
    """The element id of a mixture on a recipe's page; foreign mixtures carry their recipe's name.

    >>> mixture_anchor("blue/part-a", "blue"), mixture_anchor("stocks/citric", "blue")
    ('mix-part-a', 'mix-stocks--citric')
    """
    owner, _, local = mixture.partition("/")
    return f"mix-{local}" if owner == recipe else f"mix-{owner}--{local}"

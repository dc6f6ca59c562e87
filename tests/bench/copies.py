"""Archives of many recipes as files: the demo's, copied under other names, with its journal and its own card.

A copy refers to its own copies of the recipes that the demo's refers to, but for the stock bottles of every second
one, which are the demo's: there is a recipe that half of the archive draws on.
"""

import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from tests.bench.generated import code
from tests.bench.many import CONTENT

SHELF = "stocks"
CARD = "clove"
FOLDERS = ("recipes", "journal", "substances", "troubles", "disputes")


def demo_texts() -> dict[str, str]:
    """The demo's files by their path."""
    paths = [CONTENT / "archive.yaml", *(path for name in FOLDERS for path in sorted((CONTENT / name).glob("*.yaml")))]
    return {path.relative_to(CONTENT).as_posix(): path.read_text(encoding="utf-8") for path in paths}


def demo_pictures() -> frozenset[str]:
    """The demo's pictures by their path below `images/`."""
    return frozenset(path.name for path in (CONTENT / "images").iterdir())


def copied(count: int) -> dict[str, str]:
    """The texts of an archive of at least so many recipes: whole copies of the demo, itself the first."""
    texts = demo_texts()
    recipes = [name for name in texts if name.startswith("recipes/")]
    for number in range(1, -(-count // len(recipes))):
        texts |= _copy(demo_texts(), number)
    return texts


def _copy(texts: Mapping[str, str], number: int) -> Iterator[tuple[str, str]]:
    shared = {SHELF} if number % 2 else set()
    slugs = {Path(name).stem for name in texts if name.startswith("recipes/")} - shared
    trials = {Path(name).stem for name in texts if name.startswith("journal/")}
    named = "|".join(sorted((*slugs, *trials, CARD), key=len, reverse=True))
    # What names a recipe, an entry or the card; words of sentences that happen to be the same stay.
    leads = r"^ *(?:recipe|solved by): |\((?:amount|mixture|recipe|substance|trouble):|^ +"
    names = re.compile(rf"((?:{leads})(?:[a-z-]+/)?(?:{named}))(?=[/):]|$)", re.MULTILINE)
    codes = {}
    for place, name in enumerate(name for name in texts if name.startswith("recipes/")):
        if Path(name).stem in slugs:
            codes[_code_of(texts[name])] = f"C{code(100 * number + place)}"
    coded = re.compile("|".join(codes))
    for name, text in texts.items():
        folder, _, file = name.partition("/")
        stem = Path(file).stem
        if folder not in ("recipes", "journal", "substances") or stem in shared:
            continue
        told = names.sub(rf"\1-{number}", coded.sub(lambda match: codes[match[0]], text))
        told = re.sub(r"^(title|name): (.+)$", rf"\1: \2 {number}", told, count=1, flags=re.MULTILINE)
        yield (
            f"{folder}/{stem}-{number}.yaml",
            told.replace(f"[whole {CARD}, dried {CARD} bud]", f"[whole {CARD} {number}]"),
        )


def _code_of(text: str) -> str:
    found = re.search(r"^code: (.+)$", text, re.MULTILINE)
    assert found
    return found[1]

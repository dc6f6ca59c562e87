"""No leak: nothing that is for supporters stands in any byte of the public edition, packed or not."""

import hashlib
import io
from collections.abc import Mapping
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from PIL import Image

from tests.editions.bytes_of import PACKED, PICTURES
from tests.editions.conftest import AFTER, Found, compiled
from tests.editions.planted import FIGURES, SHOWN, TRIAL_PICTURES, Planted, mark, planted


def leaks(found: Found, marks: Mapping[str, str]) -> list[str]:
    """Where a mark stands. Its middle is sought: words may be cut at the end, or packed at the beginning."""
    middles = {place: word[2:9].encode() for place, word in marks.items()}
    return [f"{place} in {name}" for name, data in found for place, word in middles.items() if word in data.lower()]


def pixels(content: bytes) -> str:
    return hashlib.sha256(Image.open(io.BytesIO(content)).convert("RGB").tobytes()).hexdigest()


def test_every_mark_stands_in_the_supporters_edition(archive: Planted, supporters: Mapping[str, bytes]) -> None:
    """Or the search for it in the public edition would prove nothing."""
    whole = b"\n".join(data.lower() for data in supporters.values()) + "\n".join(supporters).encode()
    hidden = {place for place, word in archive.marks.items() if word.encode() not in whole}
    assert hidden == {f"{name} metadata" for name in PLANTED_PICTURES}, "only cameras' data are published nowhere"


PLANTED_PICTURES = (
    "image file",
    "stage file",
    "file",
    "teased file",
    "step file",
    "deep file",
    "after file",
    "poster file",
    *TRIAL_PICTURES,
)


def test_no_mark_stands_in_the_public_edition(public: Found, archive: Planted) -> None:
    assert len(archive.marks) > 90
    assert sum(len(data) for _, data in public) > 1_000_000
    assert leaks(public, archive.marks) == []


def test_no_figure_of_supporters_stands_in_the_public_edition(public: Found) -> None:
    # A list of digests holds every short figure by chance.
    plain = [(name, data) for name, data in public if not name.startswith("manifest.json")]
    texts = [(name, data) for name, data in plain if not name.endswith(PACKED) and "(" not in name]
    texts += [(name, data) for name, data in plain if name.endswith(("(text)", "(about)"))]
    assert [(n, f) for n, data in texts for f in FIGURES if f.encode() in data and not n.startswith("substances")] == []


def test_no_picture_of_supporters_is_among_the_public_ones(
    public: Found, archive: Planted, supporters: Mapping[str, bytes]
) -> None:
    published = {name: data for name, data in supporters.items() if name.endswith(PICTURES)}
    assert {name for name in published if not name.endswith(".webp")} == set(archive.pictures)
    secret = {pixels(data) for name, data in published.items() if "shared.png" not in name}
    shown = {name: pixels(data) for name, data in public if name.endswith(PICTURES) and data[:1] in b"\x89\xffR"}
    assert "images/shared.png" in shown
    assert all(name.startswith("images/shared.png") for name in shown)
    assert len(secret) >= 6
    assert not secret & set(shown.values())


def test_the_files_of_the_public_edition_are_those_of_its_recipes(build: Path) -> None:
    folder = build / "public"
    assert [p.name for p in (folder / "recipes").iterdir() if p.is_dir()] == ["open"]
    assert [p.name for p in (folder / "processes").iterdir() if p.is_dir()] == ["salt"]


def test_the_journal_holds_the_entries_of_its_readers_and_of_these_what_they_may_see(build: Path) -> None:
    folder = build / "public" / "journal"
    assert sorted(p.name for p in folder.iterdir()) == [
        "2026-02-02-tried-long-ago",
        "2026-03-03-tried-by-all",
        "failed",
        "index.html",
    ]
    page = BeautifulSoup((folder / "2026-03-03-tried-by-all" / "index.html").read_bytes(), "html.parser")
    assert [row.get_text(" ", strip=True) for row in page.select(".tried tbody tr")] == [
        "Sodium chloride in Salt bath 20\xa0g 25\xa0g +25\xa0%"
    ]
    assert len(page.select(".bottles li")) == 1
    assert not page.select("#conditions"), "its only condition is a water of supporters"
    assert not page.select("#solved, .outcome img, .outcome + p")


def test_title_and_teaser_are_shown_where_the_author_allows_it_and_nothing_beside(build: Path, public: Found) -> None:
    home = BeautifulSoup((build / "public" / "index.html").read_bytes(), "html.parser")
    (card,) = home.select("#reserved-1")
    assert card.get_text(" ", strip=True) == f"{SHOWN[0]} for {SHOWN[2]} {SHOWN[1]}"
    assert card.find("a") is None
    assert not home.select("#reserved-2")
    elsewhere = [name for name, data in public if SHOWN[0].encode() in data and not name.startswith("index.html")]
    assert elsewhere == []


def test_links_to_what_is_lacking_are_text_or_lead_to_the_card(build: Path) -> None:
    home = BeautifulSoup((build / "public" / "index.html").read_bytes(), "html.parser")
    links = {a.get_text(): a["href"] for a in home.select(".welcome a")}
    assert links == {"the open one": "recipes/open/index.html", "the named one": "index.html#reserved-1"}
    assert "the closed one" in home.select_one(".welcome").get_text()  # type: ignore[union-attr]
    page = BeautifulSoup((build / "public" / "recipes/open/index.html").read_bytes(), "html.parser")
    about = {a.get_text(): a["href"] for a in page.select(".about a")}
    assert about == {"the named one": "../../index.html#reserved-1"}


@pytest.mark.parametrize("edition", ["public", "supporters"])
def test_no_link_is_dead(edition: str, build: Path, supporters: Mapping[str, bytes]) -> None:
    folder = build / "public"
    files = (
        supporters
        if edition == "supporters"
        else {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}
    )
    dead = []
    for path, content in files.items():
        if path.endswith(".html"):
            dead += [f"{path}: {link}" for link in dead_links(path, content, files)]
    assert dead == []


def dead_links(path: str, content: bytes, files: Mapping[str, bytes]) -> list[str]:
    found = []
    for element in BeautifulSoup(content, "html.parser").select("[href], [src]"):
        link = str(element.get("href") or element.get("src"))
        if "://" in link:
            continue
        file, _, place = link.partition("#")
        parts = path.split("/")[:-1] if file else path.split("/")
        for part in file.split("/") if file else ():
            parts = parts[:-1] if part == ".." else [*parts, part]
        target = "/".join(parts)
        if target not in files or (place and f'id="{place}"'.encode() not in files[target]):
            found.append(link)
    return found


def test_an_edition_without_teasers_does_not_tell_that_there_is_another(tmp_path: Path) -> None:
    without = planted(sealed=False)
    for path, text in without.texts.items():
        without.texts[path] = text.replace("teaser: A sentence that may be read.\n", "")
    folder = compiled(without, tmp_path) / "public"
    whole = b"".join(p.read_bytes() for p in folder.rglob("*.*") if p.suffix in (".html", ".json") and p.is_file())
    assert b"may be named" not in whole
    assert b"friends of the mill" not in whole
    assert b"supporters" not in whole


def test_a_recipe_opens_on_its_day(tmp_path: Path, build: Path) -> None:
    later = f"recipes/{mark('later slug')}/index.html"
    assert not (build / "public" / later).exists()
    opened = compiled(planted(sealed=False), tmp_path, day=AFTER) / "public"
    assert mark("later title").encode() in (opened / later).read_bytes()
    home = (opened / "index.html").read_bytes()
    assert mark("later title").encode() in home
    assert mark("title").encode() not in home


def test_what_was_public_once_leaves_with_the_next_compile(tmp_path: Path) -> None:
    opened = planted(sealed=False)
    compiled(opened, tmp_path, day=AFTER)
    folder = compiled(opened, tmp_path) / "public"
    assert mark("later title").encode() not in b"".join(p.read_bytes() for p in folder.rglob("*.html"))
    assert [p.name for p in folder.parent.iterdir() if p.name.startswith(".")] == []

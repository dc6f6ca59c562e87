"""A sealed edition in a real browser, opened from the disk: the Python half and the browser's half agree."""

import base64
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from sitegen.read.theme import read_theme
from sitegen.sealing.container import Content, name_of, seal, unseal
from sitegen.sealing.keys import new_keys, wrap_all
from tests.editions.conftest import OTHER, WORDS
from tests.editions.planted import Planted, mark
from tests.sealing.test_keys import GCM, Vector, repeatable

OFFLINE = ("file://", "blob:", "data:", "about:")
LEFT = "net::ERR_ABORTED"
"""A request that ended because the page was left."""
OPENED = ".foot button"

Visit = Callable[..., Page]


@pytest.fixture
def visit(browser: Browser, build: Path) -> Iterator[Visit]:
    """Open the sealed edition; at the end nothing may have been requested or complained about."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    wrong: list[str] = []

    def visit(folder: Path = build / "supporters", *, after: str = "", quiet: bool = True) -> Page:
        page = context.new_page()
        page.on("request", lambda r: None if r.url.startswith(OFFLINE) else wrong.append(f"request {r.url}"))
        if quiet:
            page.on("requestfailed", lambda r: wrong.append(f"failed {r.url}") if r.failure != LEFT else None)
            page.on("pageerror", lambda e: wrong.append(f"error {e}"))
            page.on("console", lambda m: wrong.append(f"{m.type} {m.text}") if m.type in ("error", "warning") else None)
        page.goto((folder / "index.html").as_uri() + after)
        return page

    yield visit
    context.close()
    assert wrong == []


def open_with(page: Page, passphrase: str) -> Page:
    page.get_by_label("Your passphrase").fill(passphrase)
    page.get_by_role("button", name="Open").click()
    expect(page.locator(OPENED)).to_be_visible(timeout=30_000)
    return page


@pytest.mark.parametrize("passphrase", [WORDS, OTHER, WORDS.upper().replace(" ", "-")])
def test_each_passphrase_opens_the_edition(visit: Visit, passphrase: str) -> None:
    page = open_with(visit(), passphrase)
    expect(page).to_have_title("Bench book of the mill")
    assert mark("title") in page.content()


def test_a_wrong_passphrase_is_told_kindly_and_shows_nothing(visit: Visit, archive: Planted) -> None:
    page = visit()
    page.get_by_label("Your passphrase").fill("tide mill feather")
    page.get_by_role("button", name="Open").click()
    expect(page.get_by_role("alert")).to_contain_text("do not open this edition")
    assert not any(word in page.content() for word in archive.marks.values())
    expect(page.get_by_role("button", name="Open")).to_be_enabled()
    open_with(page, WORDS)


def test_pages_scripts_pictures_search_and_sheets_lie_behind_it(visit: Visit) -> None:
    page = open_with(visit(), WORDS)
    page.get_by_role("link", name="Open print").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Open print")
    assert re.search(r"index\.html\?[a-z2-7]{24}$", page.url)
    expect(page.locator("main")).to_contain_text(mark("stage do"))
    expect(page.locator("main")).to_contain_text(mark("note"))
    for image in page.locator("img:not([loading=lazy])").all():
        expect(image).to_have_js_property("complete", value=True)
    for image in page.locator("main img").all():
        image.scroll_into_view_if_needed()
        expect(image).not_to_have_js_property("naturalWidth", 0)
    expect(page.locator("#calculator")).to_be_visible()
    with page.expect_download() as saved:
        page.get_by_role("link", name="Sheet, A4").first.click()
    assert saved.value.suggested_filename == "open-sheet-a4.pdf"
    assert Path(saved.value.path()).read_bytes().startswith(b"%PDF-")
    page.go_back()
    page.locator("#words").fill(mark("symptom"))
    found = page.locator("#found a").first
    expect(found).to_have_attribute("href", re.compile(r"^\?[a-z2-7]{24}"))
    found.click()
    expect(page.locator("main")).to_contain_text(mark("remedy"))


def test_the_calculator_keeps_its_state_in_the_address(visit: Visit) -> None:
    page = open_with(visit(), WORDS)
    page.get_by_role("link", name="Open print").first.click()
    expect(page.locator("#calculator")).to_be_visible()
    page.evaluate("location.hash = '#mix=bath&ask=factor&amount=3'")
    address = page.url
    page.reload()
    expect(page.locator("#calculator")).to_be_visible()
    assert page.url.partition("#")[0] == address.partition("#")[0]
    assert "mix=bath" in page.url


def test_an_address_with_a_path_opens_that_page(visit: Visit) -> None:
    page = open_with(visit(after=f"#/recipes/{mark('slug')}/index.html"), WORDS)
    expect(page.get_by_role("heading", level=1)).to_contain_text(mark("title"))
    assert mark("slug") not in page.url, "the host's log tells no name"


def test_closing_forgets_the_keys(visit: Visit) -> None:
    page = open_with(visit(), WORDS)
    page.reload()
    expect(page.locator(OPENED)).to_be_visible()
    page.get_by_role("button", name="Close this edition").click()
    expect(page.get_by_label("Your passphrase")).to_be_visible()
    page.reload()
    expect(page.get_by_label("Your passphrase")).to_be_visible()


def test_a_changed_byte_is_refused(visit: Visit, build: Path, tmp_path: Path) -> None:
    folder = tmp_path / "changed"
    shutil.copytree(build / "supporters", folder)
    for path in (folder / "sealed").iterdir():
        text = path.read_text()
        at = len(text) // 2
        path.write_text(text[:at] + ("A" if text[at] != "A" else "B") + text[at + 1 :])
    page = visit(folder)
    page.get_by_label("Your passphrase").fill(WORDS)
    page.get_by_role("button", name="Open").click()
    expect(page.get_by_role("alert")).to_contain_text("changed or damaged")
    assert mark("title") not in page.content()


def test_two_swapped_containers_are_refused(visit: Visit, build: Path, tmp_path: Path) -> None:
    folder = tmp_path / "swapped"
    shutil.copytree(build / "supporters", folder)
    paths = sorted((folder / "sealed").iterdir())
    texts = [path.read_text().split('"')[3] for path in paths]
    for path, text in zip(paths, texts[1:] + texts[:1], strict=True):
        path.write_text(f'traysideSealed("{path.stem}","{text}");\n')
    page = visit(folder)
    page.get_by_label("Your passphrase").fill(WORDS)
    page.get_by_role("button", name="Open").click()
    expect(page.get_by_role("alert")).to_contain_text("changed or damaged")


def test_a_missing_container_is_told(visit: Visit, build: Path, tmp_path: Path) -> None:
    folder = tmp_path / "missing"
    shutil.copytree(build / "supporters", folder)
    shutil.rmtree(folder / "sealed")
    page = visit(folder, quiet=False)
    page.get_by_label("Your passphrase").fill(WORDS)
    page.get_by_role("button", name="Open").click()
    expect(page.get_by_role("alert")).to_contain_text("missing")


@pytest.fixture
def opening(browser: Browser) -> Iterator[Page]:
    """The script that opens, alone, on a page that may use the browser's cipher."""
    context = browser.new_context()
    page = context.new_page()
    page.goto((Path(__file__).parent / "nothing.html").as_uri())
    page.evaluate(read_theme().assets["unsealing.js"].decode())
    yield page
    context.close()


HELP = """
const bytes = (hex) => Uint8Array.from(hex.match(/../g) ?? [], (pair) => parseInt(pair, 16));
const hex = (data) => [...new Uint8Array(data)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
"""


# RFC 7914, section 11, in the browser.
@pytest.mark.parametrize(
    ("secret", "salt", "rounds", "derived"),
    [
        ("passwd", "salt", 1, "55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc"),
        ("Password", "NaCl", 80000, "4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56"),
    ],
)
def test_the_browser_stretches_as_rfc_7914_says(
    opening: Page, secret: str, salt: str, rounds: int, derived: str
) -> None:
    script = f"""async ([secret, salt, rounds]) => {{ {HELP}
      return hex(await traysideUnsealing.stretch(secret, new TextEncoder().encode(salt), rounds, 256)); }}"""
    assert opening.evaluate(script, [secret, salt, rounds]) == derived


@pytest.mark.parametrize("case", GCM, ids=lambda case: case.number)
def test_the_browser_opens_the_cases_of_mcgrew_and_viega(opening: Page, case: Vector) -> None:
    script = f"""async ([key, nonce, bound, sealed]) => {{ {HELP}
      const cipher = await traysideUnsealing.cipherOf(bytes(key));
      const algorithm = {{ name: "AES-GCM", iv: bytes(nonce), additionalData: bytes(bound) }};
      return hex(await crypto.subtle.decrypt(algorithm, cipher, bytes(sealed))); }}"""
    assert opening.evaluate(script, [case.key, case.nonce, case.bound, case.sealed + case.tag]) == case.plain


def test_what_the_browser_seals_python_opens(opening: Page) -> None:
    keys = new_keys(repeatable())
    name = name_of("recipes/here/index.html", keys)
    script = f"""async ([raw, name]) => {{ {HELP}
      const keys = await traysideUnsealing.keysOf(bytes(raw));
      const cipher = await crypto.subtle.importKey("raw", bytes(raw).slice(0, 32), "AES-GCM", false, ["encrypt"]);
      const head = new TextEncoder().encode('{{"path":"recipes/here/index.html","type":"text/html","size":3}}');
      const plain = new Uint8Array(8192);
      new DataView(plain.buffer).setUint32(0, head.length);
      plain.set(head, 4);
      plain.set([1, 2, 3], 4 + head.length);
      const iv = crypto.getRandomValues(new Uint8Array(12));
      const additionalData = new TextEncoder().encode(`trayside file 1 ${{name}}`);
      const sealed = await crypto.subtle.encrypt({{ name: "AES-GCM", iv, additionalData }}, cipher, plain);
      return [await traysideUnsealing.nameOf("recipes/here/index.html", keys), hex(iv) + hex(sealed)]; }}"""
    named, container = opening.evaluate(script, [(keys.content + keys.names).hex(), name])
    assert named == name
    content = Content(path="recipes/here/index.html", type="text/html", data=b"\x01\x02\x03")
    assert unseal(bytes.fromhex(container), name, keys) == content


def test_what_python_wraps_the_browser_unwraps(opening: Page) -> None:
    keys = new_keys(repeatable())
    copies = [
        {name: base64.b64encode(getattr(copy, name)).decode() for name in ("salt", "nonce", "sealed")}
        | {"rounds": copy.rounds}
        for copy in wrap_all(keys, [OTHER, WORDS], repeatable(1))
    ]
    script = f"""async ([typed, copies]) => {{ {HELP}
      const raw = await traysideUnsealing.unwrap(typed, copies);
      return raw && hex(raw); }}"""
    assert opening.evaluate(script, [f" {WORDS.title()} ", copies]) == (keys.content + keys.names).hex()
    assert opening.evaluate(script, ["another", copies]) is None


def test_nothing_of_the_edition_stands_in_the_sealed_folder(build: Path, archive: Planted) -> None:
    files = {
        p.relative_to(build / "supporters").as_posix(): p for p in (build / "supporters").rglob("*") if p.is_file()
    }
    whole = "\n".join(files).encode() + b"".join(p.read_bytes() for p in files.values())
    assert not [place for place, word in archive.marks.items() if word[2:9].encode() in whole]
    assert WORDS.encode() not in whole
    assert b"Open print" not in whole, "not even what is public"
    names = [path for path in files if not path.startswith("assets/")]
    odd = [path for path in names if not re.fullmatch(r"sealed/[a-z2-7]{24}\.js", path)]
    assert sorted(odd) == ["archive.json", "index.html", "manifest.json"]
    assert len([p for p in names if p.startswith("sealed/")]) % 64 == 0
    assert len({files[p].stat().st_size for p in names if p.startswith("sealed/")}) <= 12


def test_two_compiles_have_no_container_in_common(build: Path) -> None:
    first = {p.stem for p in (build / "supporters" / "sealed").iterdir()}
    keys = new_keys(repeatable(5))
    content = Content(path="index.html", type="text/html", data=b"")
    assert name_of("index.html", keys) not in first
    assert seal(content, keys, repeatable(6)) != seal(content, keys, repeatable(7))

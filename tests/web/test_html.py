"""Every page of the demo by the Nu HTML checker (npm `vnu-jar`, run by Java): no error and no warning.

The pages are served on loopback, since to the checker a file's `'self'` is nobody. Of the checker's words only one
is put aside: that a content security policy blocks an inline script, where that script is a block of data, which
no browser runs (HTML, "prepare the script element", step 12: a data block is left before the policy is asked).
"""

import json
import re
import subprocess
import threading
from collections.abc import Iterator
from datetime import date
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest

from sitegen.cli.building import prepare
from sitegen.read.theme import read_theme
from sitegen.render.bundle import bundle
from sitegen.render.edition import editions
from sitegen.render.sealed import sealed_edition, sealing
from sitegen.render.site import pages
from tests.java import BRIEFLY

ROOT = Path(__file__).parents[2]
KEPT = ROOT / ".cache" / "npm"
CHECKER = "vnu-jar@26.9.27"
JAR = KEPT / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"
DAY = date(2026, 11, 25)
DATA_BLOCK = re.compile(r'<script type="application/(ld\+)?json"')

Message = dict[str, Any]


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: Any) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def jar() -> Path:
    """The checker, fetched once; a machine without npm or Java fails here, it does not skip."""
    if not JAR.is_file():
        KEPT.mkdir(parents=True, exist_ok=True)
        wanted = ["install", "--prefix", str(KEPT), "--ignore-scripts", "--no-audit", "--no-fund", CHECKER]
        subprocess.run(["npm", *wanted], check=True, capture_output=True)
    return JAR


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's pages: each edition, the page that opens a sealed one, and the first page of a bundle."""
    root = tmp_path_factory.mktemp("pages")
    ready, theme = prepare(ROOT / "content"), read_theme()
    assert ready.loaded.archive
    made = editions(ready.loaded.archive, DAY)
    for edition in made:
        for page in pages(edition.computed, theme, edition.name, ready.pictures):
            put(root / edition.name / page.path, page.content)
    opening = next(sealed_edition(made[-1], (), theme, sealing(("seven plain words of no secret at all",), bytes)))
    put(root / "sealed" / "index.html", opening.content)
    for name, content in theme.assets.items():
        put(root / "sealed" / "assets" / name, content)
    put(root / "bundle" / "start.html", next(bundle(made[-1], theme, ready.pictures, "a4")).content)
    return root


def put(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)


@pytest.fixture(scope="module")
def address(folder: Path) -> Iterator[str]:
    """Where the pages are served."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_address[1]}"
    server.shutdown()
    server.server_close()
    thread.join()


def said(jar: Path, addresses: list[str]) -> list[Message]:
    """Everything the checker says of the pages."""
    loopback = ["allow-forbidden-hosts=true", "allowed-address-type=all"]
    settings = [f"-Dnu.validator.servlet.{setting}" for setting in loopback]
    command = ["java", *BRIEFLY, *settings, "-jar", str(jar), "--format", "json", *addresses]
    result = subprocess.run(command, check=False, capture_output=True, text=True, timeout=900)
    found: list[Message] = json.loads(result.stderr)["messages"]
    return found


def about_data(message: Message) -> bool:
    """Whether a policy is said to block an inline script that is a block of data."""
    blocked = message["message"].startswith("Inline script violates Content Security Policy")
    return blocked and bool(DATA_BLOCK.search(message.get("extract", "")))


def test_the_checker_finds_nothing_on_any_page_of_the_demo(jar: Path, folder: Path, address: str) -> None:
    paths = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.html"))
    assert len(paths) > 400
    found = [m for m in said(jar, [f"{address}/{path}" for path in paths]) if not about_data(m)]
    assert [f"{m.get('url')}:{m.get('lastLine')}: {m['message']}" for m in found] == []


def test_the_checker_speaks_up_where_something_is_wrong(jar: Path, folder: Path, address: str) -> None:
    page = (folder / "bundle" / "start.html").read_bytes()
    broken = page.replace(b"<h2>", b"<h2><center>").replace(b"</head>", b"<script>1</script></head>")
    (folder / "broken.htm").write_bytes(
        broken.replace(b"default-src 'none';", b"default-src 'none'; script-src 'self';")
    )
    found = said(jar, [f"{address}/broken.htm"])
    assert any("center" in m["message"] for m in found)
    assert any("Inline script" in m["message"] and not about_data(m) for m in found)

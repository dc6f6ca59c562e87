"""`trayside proof --published`: folders, and a host on this machine's loopback."""

import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import BaseHTTPRequestHandler, SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result

import sitegen.cli.published as module
from tests.cli.terminal import run

KEPT = """
title: Kept print
code: KX-01
summary: For supporters.
process: iron-blue
edition: supporters
revision: 1
revised: 2026-05-06
credits: own
mixtures:
  bath: {name: Bath, contains: {water: 1 l}}
hazards: {wear: Gloves., disposal: Local rules decide.}
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small archive of two editions beside its build."""
    root = tmp_path_factory.mktemp("published")
    assert run("start", root / "mine").exit_code == 0
    settings = root / "mine" / "archive.yaml"
    kept = [line for line in settings.read_text().splitlines() if not line.startswith(("editions:", "address:"))]
    settings.write_text("\n".join([*kept, "editions: [public, supporters]"]) + "\n")
    (root / "mine" / "recipes" / "kept.yaml").write_text(KEPT)
    result = run("compile", "--archive", root / "mine", "--out", root / "build")
    assert result.exit_code == 0, result.stderr
    return root


@pytest.fixture
def online(made: Path, tmp_path: Path) -> Path:
    """What lies on the host: a copy of the public edition."""
    return Path(shutil.copytree(made / "build" / "public", tmp_path / "www"))


def proof(made: Path, where: object, *more: str) -> Result:
    return run("proof", "--archive", made / "mine", "--build", made / "build", "--published", str(where), *more)


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: Any) -> None:
        """Say nothing."""


@contextmanager
def served(handler: Any) -> Iterator[str]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def test_a_whole_copy_is_found_as_compiled(made: Path, online: Path) -> None:
    result = proof(made, online)
    assert result.exit_code == 0, result.stderr
    assert "as compiled, and nothing else is there" in result.stdout


def test_missing_stale_and_left_over_are_listed(made: Path, online: Path) -> None:
    (online / "index.html").write_text("old")
    (online / "bench" / "index.html").unlink()
    (online / "old-page.html").write_text("x")
    result = proof(made, online)
    assert result.exit_code == 1
    for words in ("stale      index.html", "missing    bench/index.html", "left over  old-page.html", "3 differences"):
        assert words in result.stderr


def test_what_belongs_to_a_higher_edition_is_said_first(made: Path, online: Path) -> None:
    (online / "a-first.html").write_text("x")
    shutil.copytree(made / "build" / "supporters" / "recipes" / "kept", online / "recipes" / "kept")
    result = proof(made, online)
    assert result.exit_code == 1
    assert result.stderr.startswith("4 files belong to a higher edition")
    assert "recipes/kept/index.html  (of `supporters`)" in result.stderr.splitlines()[1]


def test_the_whole_higher_edition_in_the_wrong_place_is_noticed(made: Path) -> None:
    result = proof(made, made / "build" / "supporters")
    assert result.exit_code == 1
    assert "recipes/kept/index.html  (of `supporters`)" in result.stderr
    assert "index.html  (of `supporters`)" in result.stderr


def test_an_edition_can_be_named(made: Path) -> None:
    assert proof(made, made / "build" / "supporters", "--edition", "supporters").exit_code == 0
    result = proof(made, made / "build" / "supporters", "--edition", "nobody")
    assert (result.exit_code, "error[unknown-edition]" in result.stderr) == (2, True)


def test_a_history_folder_is_not_walked(made: Path, online: Path) -> None:
    (online / ".git").mkdir()
    (online / ".git" / "HEAD").write_text("ref: x")
    assert proof(made, online).exit_code == 0


def test_what_was_not_compiled_cannot_be_compared(made: Path, online: Path, tmp_path: Path) -> None:
    result = run("proof", "--archive", made / "mine", "--build", tmp_path / "none", "--published", online)
    assert (result.exit_code, "error[not-compiled]" in result.stderr) == (2, True)
    result = proof(made, tmp_path / "nowhere")
    assert (result.exit_code, "error[nothing-published]" in result.stderr) == (2, True)


def test_a_host_is_compared_path_by_path(made: Path, online: Path) -> None:
    with served(partial(Quiet, directory=str(online))) as address:
        assert proof(made, address).exit_code == 0
        shutil.copytree(made / "build" / "supporters" / "recipes" / "kept", online / "recipes" / "kept")
        (online / "index.html").write_text("old")
        result = proof(made, address)
    assert result.exit_code == 1
    assert "recipes/kept/index.html  (of `supporters`)" in result.stderr
    assert "stale      index.html" in result.stderr


def test_what_an_older_upload_listed_and_this_one_does_not_is_found(made: Path, online: Path) -> None:
    (online / "old-page.html").write_text("x")
    (online / "manifest.json").write_text('{"sha256": {"old-page.html": "00"}}')
    with served(partial(Quiet, directory=str(online))) as address:
        result = proof(made, address)
    assert "left over  old-page.html" in result.stderr


def test_a_host_that_answers_everything_is_not_taken_at_its_word(made: Path, online: Path) -> None:
    class Home(Quiet):
        def send_error(self, *_: Any, **__: Any) -> None:
            """A page instead of "not found"."""
            self.send_response(200)
            self.end_headers()
            self.wfile.write(b"welcome")

    with served(partial(Home, directory=str(online))) as address:
        assert proof(made, address).exit_code == 0


def test_a_host_that_leads_elsewhere_is_not_followed(made: Path) -> None:
    class Away(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            self.send_response(302)
            self.send_header("Location", "http://localhost.example:1/")
            self.end_headers()

        def log_message(self, *_: Any) -> None:
            """Say nothing."""

    with served(Away) as address:
        result = proof(made, address)
    assert (result.exit_code, "leads to another host" in result.stderr) == (2, True)


def test_an_answer_that_is_too_large_is_not_read_to_its_end(
    made: Path, online: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "LARGEST", (online / "manifest.json").stat().st_size)
    (online / "index.html").write_bytes(b"x" * 10_000_000)
    with served(partial(Quiet, directory=str(online))) as address:
        result = proof(made, address)
    assert result.exit_code == 1
    assert "no answer  index.html" in result.stderr


def test_a_host_that_is_silent_is_given_up(made: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "PATIENCE", 0.2)
    waiting = threading.Event()

    class Silent(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            waiting.wait(2)

        def log_message(self, *_: Any) -> None:
            """Say nothing."""

    with served(Silent) as address:
        result = proof(made, address)
        waiting.set()
    assert (result.exit_code, "does not answer" in result.stderr) == (2, True)


def test_an_address_nobody_listens_at_is_said(made: Path) -> None:
    result = proof(made, "http://127.0.0.1:9/")
    assert (result.exit_code, "error[no-answer]" in result.stderr) == (2, True)


def test_the_open_files_of_a_sealed_edition_are_looked_for_too(made: Path, online: Path, tmp_path: Path) -> None:
    build = Path(shutil.copytree(made / "build", tmp_path / "build"))
    (build / "supporters" / "manifest.json").write_text('{"sha256": {"sealed/abc.js": "00", "index.html": "11"}}')
    shutil.copytree(made / "build" / "supporters" / "recipes" / "kept", online / "recipes" / "kept")
    result = run("proof", "--archive", made / "mine", "--build", build, "--published", online)
    assert result.exit_code == 1
    assert "recipes/kept/index.html  (of `supporters`)" in result.stderr

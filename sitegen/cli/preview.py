"""`trayside preview`: compile, serve on this machine only, and reload the page on every save.

An error shows its list in the page and in the terminal; the last good build stays behind it.
"""

import mimetypes
import os
import socket
import tempfile
import webbrowser
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from html import escape
from pathlib import Path
from typing import Any

import click
from livereload import Server
from livereload.handlers import LiveReloadHandler
from livereload.watcher import Watcher
from tornado.ioloop import PeriodicCallback

from sitegen.cli.building import Asked, build, prepare
from sitegen.cli.shell import archive_option, find_archive, refusals, stderr_console, tell, this_day
from sitegen.problems import Problem, Refusal
from sitegen.read.shipped import shipped
from sitegen.read.theme import read_theme
from sitegen.render.keeping import Kept
from sitegen.report import show, summary
from sitegen.write import WriteError

LOOK_EVERY_MS = 200
LOOPBACK = "127.0.0.1"
CSP_NAME = b"Content-Security-Policy"

StartResponse = Callable[[str, list[tuple[str, str]]], Any]


@dataclass(slots=True)
class Desk:
    """What is being previewed: the last good build below `out`, and the problems of the last save."""

    folder: Path
    out: Path
    problems: tuple[Problem, ...] = ()
    texts: dict[str, str] = field(default_factory=dict)
    edition: str = ""
    failure: str = ""
    kept: Kept = field(default_factory=Kept)

    def rebuild(self) -> None:
        """Compile again; a mistake keeps the last good build."""
        self.failure = ""
        today = this_day()
        ready = prepare(self.folder, today)
        tell(ready.loaded)
        self.problems, self.texts = ready.loaded.problems.in_order(), dict(ready.loaded.sources.texts)
        if ready.loaded.problems.failed:
            return
        try:
            asked = Asked(today=today, kept=self.kept)
            for name, count in build(ready, self.out, read_theme(), stderr_console(), asked):
                self.edition = name  # the last edition holds what all before it hold
                click.echo(f"{name}: {count} files", err=True)
        except WriteError as error:
            self.failure = f"{error.path}: {error.reason}"
            click.echo(f"error[not-written] {self.failure}", err=True)

    @property
    def broken(self) -> bool:
        """Whether the last save has an error."""
        return bool(self.failure) or any(p.level == "error" for p in self.problems)

    def answer(self, environ: dict[str, Any], start: StartResponse) -> Iterable[bytes]:
        """A WSGI application: the problem list while there is one, else the file asked for."""
        path = environ.get("PATH_INFO", "/")
        found = self._file(path)
        is_page = path.endswith("/") or path.endswith(".html")
        if self.broken and is_page:
            return _respond(start, "200 OK", "text/html; charset=utf-8", self._problem_page())
        if found is None:
            return _respond(
                start,
                "404 Not Found",
                "text/html; charset=utf-8",
                _page("Not here", f"<p>{escape(path)}</p>"),
            )
        kind = mimetypes.guess_type(found.name)[0] or "application/octet-stream"
        content = found.read_bytes()
        if kind == "text/html":
            # The page's own policy forbids the script that reloads it; the preview alone goes without.
            content = content.replace(CSP_NAME, b"X-Policy-When-Published", 1)
            kind += "; charset=utf-8"
        return _respond(start, "200 OK", kind, content)

    def _file(self, path: str) -> Path | None:
        root = (self.out / self.edition).resolve()
        wanted = (root / path.lstrip("/")).resolve()
        if wanted.is_dir():
            wanted /= "index.html"
        return wanted if wanted.is_relative_to(root) and wanted.is_file() else None

    def _problem_page(self) -> bytes:
        said = "\n\n".join(show(p, self.texts) for p in self.problems)
        head = self.failure or summary(self.problems)
        body = f"<p>{escape(head)}. The last good build is kept; save the file and this page comes back.</p>"
        return _page("Not compiled", f"{body}<pre>{escape(said)}</pre>")


def _page(title: str, body: str) -> bytes:
    style = "body{font:16px/1.5 sans-serif;max-width:60rem;margin:2rem auto;padding:0 1rem}pre{overflow:auto}"
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title>'
        f"<style>{style}</style></head><body><h1>{escape(title)}</h1>{body}</body></html>"
    ).encode()


def _respond(start: StartResponse, status: str, kind: str, content: bytes) -> Iterable[bytes]:
    start(status, [("Content-Type", kind), ("Content-Length", str(len(content))), ("Cache-Control", "no-store")])
    return [content]


class _Eager(Watcher):  # type: ignore[misc]  # the library is untyped
    """Looks for saved files often enough that a reload follows within a second."""

    def start(self, callback: Callable[[], None]) -> bool:
        PeriodicCallback(callback, LOOK_EVERY_MS).start()
        return True


@click.command("preview", short_help="Compile, serve here, reload on save.")
@archive_option
@click.option(
    "--port",
    type=click.IntRange(1, 65_535),
    default=5577,
    show_default=True,
    help="Port on this machine's loopback address.",
)
@click.option("--open", "open_browser", is_flag=True, help="Open the browser.")
def preview_command(folder: Path | None, port: int, *, open_browser: bool) -> None:
    """Compile the archive, serve it on this machine only, and reload the page whenever a file is saved.

    The newest edition is shown, which holds everything. Stop it with Ctrl-C.
    """
    with refusals():
        place = find_archive(folder)
        check_port(port)
    with tempfile.TemporaryDirectory(prefix="trayside-") as scratch:
        desk = Desk(folder=place, out=Path(scratch))
        desk.rebuild()
        address = f"http://{LOOPBACK}:{port}/"
        click.echo(f"{address}  (Ctrl-C stops it)", err=True)
        if open_browser:
            webbrowser.open(address)
        serve(desk, port)


def check_port(port: int) -> None:
    """`Refusal` where it cannot be listened on: said before the archive is compiled and a browser opened."""
    with socket.socket() as probe:
        if os.name == "posix":  # as the server itself will ask: a port that was just left is free
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((LOOPBACK, port))
        except OSError as error:
            reason = (error.strerror or "it cannot be used").casefold()
            raise Refusal(
                "port-not-free",
                f"port {port} of this machine cannot be served: {reason}",
                f"stop the other preview, or take another port: `--port {port + 1 if port < 65_535 else 5577}`",
            ) from error


def serve(desk: Desk, port: int) -> None:
    """Serve until interrupted; rebuild when a file of the archive or the theme is saved."""
    server = Server(desk.answer, watcher=_Eager())
    LiveReloadHandler.DEFAULT_RELOAD_TIME = 0  # the library's three seconds of silence would drop a second save
    for watched in (desk.folder, shipped("themes")):
        server.watch(str(watched), desk.rebuild)
    server.serve(port=port, host=LOOPBACK, debug=False, live_css=False, restart_delay=0)

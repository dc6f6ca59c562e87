"""A host on this machine alone, slow or faulty where a test wants it so."""

from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Event


class Host(ThreadingHTTPServer):
    """Serves a folder. Shards of the search wait for `go`; addresses that begin with `gone` are not there."""

    def __init__(self, folder: Path) -> None:
        """`folder` is the site's."""
        super().__init__(("127.0.0.1", 0), partial(_Handler, directory=str(folder)))
        self.go = Event()
        self.go.set()
        self.gone = ""

    @property
    def address(self) -> str:
        """Where the site begins."""
        return f"http://127.0.0.1:{self.server_port}"


class _Handler(SimpleHTTPRequestHandler):
    server: Host

    def do_GET(self) -> None:
        if self.path.startswith("/search/") and self.path.endswith(".js"):
            self.server.go.wait(20)
        if self.server.gone and self.path.startswith(self.server.gone):
            self.send_error(404)
            return
        super().do_GET()

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  # the name is the standard library's
        """Says nothing."""

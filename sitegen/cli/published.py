"""Looking at what is published, for `trayside proof --published`: a folder, or a host that is asked for listed paths.

A host is asked only for what a manifest lists: ours, those of higher editions and the one it has itself. Each
answer has a limit of size and time, all together have one of time, and no question leaves the host.
"""

import http.client
import os
import time
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path
from typing import Any, Final
from urllib.error import HTTPError
from urllib.parse import quote, urljoin, urlsplit
from urllib.request import HTTPRedirectHandler, OpenerDirector, Request, build_opener

import click

from sitegen.cli.building import Ready
from sitegen.problems import Refusal
from sitegen.read.theme import read_theme
from sitegen.render.edition import edition_pages, editions
from sitegen.render.manifest import MANIFEST, Hashes, hash_of, read_manifest
from sitegen.render.published import Compiled, Difference, differences, to_ask

LARGEST: Final = 64 * 1024 * 1024
"""Bytes of one answer."""
PATIENCE: Final = 20.0
"""Seconds for one answer to go on."""
ALL_PATIENCE: Final = 900.0
"""Seconds for all of them."""
AT_ONCE: Final = 6
_GONE: Final = (403, 404, 410)
"""Object stores answer 403 for what is not there when they list nothing."""
_NOWHERE: Final = "trayside-asks-for-what-is-not-there.html"
_SHOWN: Final = 40
SEALED: Final = "sealed/"
"""Where a sealed edition keeps its containers."""


Open = Callable[[str], Hashes]
"""The files of an edition as they are before sealing."""


def compiled_builds(build: Path, editions: tuple[str, ...], edition: str | None, clear: Open) -> Compiled:
    """What was compiled below `build`. `Refusal` for an unknown edition or one that is not compiled.

    Of a higher edition that lies there sealed, or not at all, the `clear` files are looked for as well: it is
    those that must not be found.
    """
    wanted = edition or editions[0]
    if wanted not in editions:
        listed = ", ".join(f"`{name}`" for name in editions)
        raise Refusal("unknown-edition", f"there is no edition `{wanted}`", f"the editions are {listed}")
    above = editions[editions.index(wanted) + 1 :]
    return Compiled(
        edition=wanted,
        files=_manifest(build / wanted),
        higher={name: _above(build / name, name, clear) for name in above},
    )


def _above(folder: Path, name: str, clear: Open) -> Hashes:
    if not (folder / MANIFEST).is_file():
        return clear(name)
    files = _manifest(folder)
    return {**clear(name), **files} if any(path.startswith(SEALED) for path in files) else files


def compare(compiled: Compiled, where: str) -> tuple[Difference, ...]:
    """What differs at a web address or in a folder. `Refusal` when it cannot be looked at at all."""
    if urlsplit(where).scheme in ("http", "https"):
        return _online(compiled, where.rstrip("/") + "/")
    folder = Path(where)
    if not folder.is_dir():
        raise Refusal(
            "nothing-published", f"there is no folder `{where}`", "name a folder, or an address with https://"
        )
    return differences(compiled, dict(_in_folder(folder)))


def published_as_compiled(ready: Ready, where: str, build: Path, edition: str | None, *, today: date) -> bool:
    """Whether what is published is what was compiled; says what is not, leaks of a higher edition first."""
    archive = ready.loaded.archive
    assert archive, "problems were looked at first"

    def clear(name: str) -> Hashes:
        view = next(e for e in editions(archive, today) if e.name == name)
        return {page.path: hash_of(page.content) for page in edition_pages(view, read_theme(), ready.pictures)}

    compiled = compiled_builds(build, archive.settings.editions, edition, clear)
    found = compare(compiled, where)
    _say(compiled, found, where)
    return not found


def _say(compiled: Compiled, found: tuple[Difference, ...], where: str) -> None:
    if not found:
        click.echo(
            f"{where}: {len(compiled.files)} files of `{compiled.edition}` are as compiled, and nothing else is there"
        )
        return
    leaks = [d for d in found if d.of]
    if leaks:
        click.echo(f"{len(leaks)} files belong to a higher edition: take them away first", err=True)
    for one in found[:_SHOWN]:
        click.echo(f"  {one.kind:<9}  {one.path}" + (f"  (of `{one.of}`)" if one.of else ""), err=True)
    if len(found) > _SHOWN:
        click.echo(f"  and {len(found) - _SHOWN} more", err=True)
    click.echo(f"{where}: {len(found)} differences from what was compiled as `{compiled.edition}`", err=True)


def _manifest(folder: Path) -> dict[str, str]:
    try:
        return read_manifest((folder / MANIFEST).read_bytes(), f"{folder / MANIFEST}")
    except OSError as error:
        raise Refusal(
            "not-compiled",
            f"there is no compiled edition in `{folder}`",
            "compile first, or name the folder with --build",
        ) from error


def _in_folder(folder: Path) -> Iterator[tuple[str, str]]:
    """Every file with its hash; the history of a version control folder is not walked."""
    for root, names, files in os.walk(folder):
        if ".git" in names:
            names.remove(".git")
        for name in files:
            path = Path(root) / name
            yield path.relative_to(folder).as_posix(), hash_of(path.read_bytes())


def _online(compiled: Compiled, address: str) -> tuple[Difference, ...]:
    host = _Host(address)
    nowhere = host.fetch(_NOWHERE)
    there = host.fetch(MANIFEST)
    if isinstance(there, _NoAnswer):
        raise Refusal("no-answer", f"`{address}` does not answer: {there.reason}", "check the address and try again")
    try:
        listed = read_manifest(there, MANIFEST) if there else {}
    except Refusal:
        listed = {}
    asked = to_ask(compiled, listed)
    with ThreadPoolExecutor(max_workers=AT_ONCE) as workers:
        answers = zip(asked, workers.map(host.fetch, asked), strict=True)
        return differences(compiled, dict(_hashes(answers, compiled, nowhere)))


def _hashes(
    answers: Iterable[tuple[str, "bytes | _NoAnswer | None"]], compiled: Compiled, nowhere: "bytes | _NoAnswer | None"
) -> Iterator[tuple[str, str | None]]:
    """By path: the hash of what is there. A host's page for everything that is not there is nothing."""
    for path, content in answers:
        if isinstance(content, _NoAnswer):
            yield path, None
        elif content is not None and (path in compiled.files or content != nowhere):
            yield path, hash_of(content)


class _NoAnswer:
    """Why nothing can be said of a path."""

    def __init__(self, reason: str) -> None:
        self.reason = reason


class _SameHost(HTTPRedirectHandler):
    """Follows a host's own redirects only: what another host says is not what was published here."""

    def redirect_request(  # noqa: PLR0913, PLR0917  # as the library calls it
        self, req: Request, fp: Any, code: int, msg: str, headers: Any, newurl: str
    ) -> Request | None:
        if urlsplit(newurl).hostname != urlsplit(req.full_url).hostname:
            raise HTTPError(req.full_url, code, "it leads to another host", headers, fp)
        return super().redirect_request(req, fp, code, msg, headers, newurl)


class _Host:
    """One host, asked for single paths below an address."""

    def __init__(self, address: str) -> None:
        self.address = address
        self.opener: OpenerDirector = build_opener(_SameHost)
        self.until = time.monotonic() + ALL_PATIENCE

    def fetch(self, path: str) -> bytes | _NoAnswer | None:
        """The bytes there, None where nothing is."""
        if time.monotonic() > self.until:
            return _NoAnswer("all together took too long")
        request = Request(urljoin(self.address, quote(path)), headers={"Accept-Encoding": "identity"})  # noqa: S310  # only http and https get here
        try:
            with self.opener.open(request, timeout=PATIENCE) as answer:
                return self._read(answer)
        except HTTPError as error:
            return None if error.code in _GONE else _NoAnswer(f"status {error.code}: {error.reason}")
        except (OSError, http.client.HTTPException, ValueError) as error:
            return _NoAnswer(str(getattr(error, "reason", error)) or "it broke off")

    def _read(self, answer: Any) -> bytes | _NoAnswer:
        """The body, a piece at a time, so that neither a large nor a slow one holds everything up."""
        end, pieces, size = min(self.until, time.monotonic() + PATIENCE), [], 0
        while piece := answer.read(65_536):
            pieces.append(piece)
            size += len(piece)
            if size > LARGEST:
                return _NoAnswer("it is too large")
            if time.monotonic() > end:
                return _NoAnswer("it took too long")
        return b"".join(pieces)

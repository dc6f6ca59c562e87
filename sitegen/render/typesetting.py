"""Typesetting: PDF/UA-1 files by Typst from the theme's `print` files and data. What is set is each sheet's module.

Only data goes in, as JSON that a template reads as values. No file is read, no font of the machine is used and the
date is given, so equal data give equal bytes anywhere.
"""

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from hashlib import sha256
from typing import Any, Final, Literal

import segno
import typst

Paper = Literal["a4", "letter"]
TYPST_PAPER: Final[dict[Paper, str]] = {"a4": "a4", "letter": "us-letter"}

Json = str | int | float | None | Mapping[str, Any] | Sequence[Any]

CODES: Final = 8192
"""How many codes are remembered: a recipe's stands on its sheets, its booklets and its labels."""
ROOM: Final = 300_000_000
"""Bytes that are remembered of what was set: the same sheet stands in several editions."""
EPOCH: Final = 719_163
"""The ordinal of 1970-01-01."""
_MAIN: Final = "main.typ"
_PROBE: Final = b'#set document(title: "-")\n#sys.inputs.text'
_NO_GLYPH: Final = "\N{WHITE VERTICAL RECTANGLE}"


def set_pdf(files: Mapping[str, bytes], data: Mapping[str, Mapping[str, Json]], on: int) -> bytes:
    """A tagged PDF (PDF/UA-1) of `files`, among them `main.typ`; `on` is its date in seconds since 1970, UTC.

    `data` become JSON files beside them. Each has a field `lacking`: a character that no font of the setter holds
    is shown as an empty box, and `lacking` names it. `typst.TypstError` when the theme's own files cannot be set.
    """
    try:
        return _set({**files, **_json(data)}, on)
    except typst.TypstError:
        lacking = sorted(c for c in set("".join(_texts(data))) if not _has_glyph(c))
        if not lacking:
            raise
        table = str.maketrans(dict.fromkeys(lacking, _NO_GLYPH))
        boxed = {name: {**_translated(page, table), "lacking": _named(page, lacking)} for name, page in data.items()}
        return _set({**files, **_json(boxed)}, on)


def ask(files: Mapping[str, bytes], data: Mapping[str, Json], mark: str) -> list[Any]:
    """The values that `main.typ` marks with `<mark>` in its metadata: what only the setter can measure."""
    whole = {**files, **{name: json.dumps(page, ensure_ascii=False).encode() for name, page in data.items()}}
    found = json.loads(_MEMORY.found(_key(whole, mark), lambda: _asked(whole, mark)))
    assert isinstance(found, list), "one value a mark"
    return found


def _asked(files: Mapping[str, bytes], mark: str) -> bytes:
    compiler = typst.Compiler(dict(files), font_paths=_fonts())  # type: ignore[type-var]  # documented, not in its hints
    return compiler.query(f"<{mark}>", field="value").encode()


@lru_cache(maxsize=1)
def _fonts() -> typst.Fonts:
    """The bundled fonts alone, loaded once."""
    return typst.Fonts(include_system_fonts=False)


@lru_cache(maxsize=CODES)
def qr_code(address: str) -> str:
    """The address as a QR code with its quiet zone of four modules (ISO/IEC 18004), as SVG text."""
    if not address:
        return ""
    drawn: str = segno.make_qr(address, error="m").svg_inline(border=4)
    return drawn.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)


def _json(data: Mapping[str, Mapping[str, Json]]) -> dict[str, bytes]:
    return {name: json.dumps(page, ensure_ascii=False).encode() for name, page in data.items()}


def _named(page: Json, lacking: Sequence[str]) -> str:
    """Those of the lacking characters that stand in this page."""
    held = set("".join(_texts(page)))
    return ", ".join(f"U+{ord(c):04X}" for c in lacking if c in held)


@lru_cache(maxsize=1)
def _compiler() -> typst.Compiler:
    """The one compiler, without the machine's fonts. Making one costs more than setting a sheet."""
    return typst.Compiler(ignore_system_fonts=True)


class Memory:
    """What was set, by what it was set from: the first that come, as long as there is room.

    Editions set their sheets in the same order. If the oldest went to make room, each would be gone when it is needed.
    """

    def __init__(self, room: int) -> None:
        self._room = room
        self._kept: dict[bytes, bytes] = {}

    def found(self, key: bytes, work: Callable[[], bytes]) -> bytes:
        """What is known by the key, else what `work` gives."""
        if (known := self._kept.get(key)) is not None:
            return known
        made = work()
        if len(made) <= self._room:
            self._room -= len(made)
            self._kept[key] = made
        return made


_MEMORY: Final = Memory(ROOM)


def _key(files: Mapping[str, bytes], *more: object) -> bytes:
    """A digest of everything that something is set from."""
    told = [(name, sha256(content).hexdigest()) for name, content in files.items()]
    return sha256(repr((told, more)).encode()).digest()


def _set(files: Mapping[str, bytes], on: int, inputs: Mapping[str, str] | None = None) -> bytes:
    given = dict(inputs or {})
    return _MEMORY.found(_key(files, on, given), lambda: _setting(files, on, given))


def _setting(files: Mapping[str, bytes], on: int, inputs: Mapping[str, str]) -> bytes:
    # The files go in each time: a compiler forgets those that are in memory once it has set them.
    pdf = _compiler().compile(
        dict(files),  # type: ignore[type-var]  # documented, but not in its hints
        format="pdf",
        pdf_standards=["ua-1"],
        sys_inputs=dict(inputs),
        timestamp=on,
    )
    assert isinstance(pdf, bytes), "a PDF is one file"
    return pdf


def _texts(value: Json) -> Iterator[str]:
    """Every text of a value, keys left out."""
    if isinstance(value, str):
        yield value
    elif value is not None and not isinstance(value, int | float):
        for part in value.values() if isinstance(value, Mapping) else value:
            yield from _texts(part)


def _translated(value: Json, table: Mapping[int, str]) -> Any:
    """The value with every text of it translated, keys left out."""
    if isinstance(value, str):
        return value.translate(table)
    if value is None or isinstance(value, int | float):
        return value
    if isinstance(value, Mapping):
        return {key: _translated(part, table) for key, part in value.items()}
    return [_translated(part, table) for part in value]


@lru_cache(maxsize=4096)
def _has_glyph(character: str) -> bool:
    """Whether a bundled font holds it: PDF/UA-1 refuses text without glyphs, so it is simply tried."""
    try:
        _set({_MAIN: _PROBE}, 0, {"text": character})
    except typst.TypstError:
        return False
    return True

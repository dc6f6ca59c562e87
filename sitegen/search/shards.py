"""Shards: postings as text, and a long list cut into pieces that are loaded one by one.

A posting is a document's number and the weight of a word in it. Numbers are written as the gap to the
one before, five bits a sign, the last sign below 32; the weight is one sign. Twin of `search-rank.js`.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

SIGNS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"
HEAVIEST: Final = 63
"""The greatest weight of a posting."""
_VALUE: Final = {sign: value for value, sign in enumerate(SIGNS)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Shard:
    """One file of the index: its name and what it holds, ready for JSON."""

    name: str
    data: object


def gap(number: int) -> str:
    """A number of zero or more, five bits a sign, the lowest first.

    >>> gap(0), gap(31), gap(32), gap(1000)
    ('A', 'f', 'gB', 'of')
    """
    if number < 32:  # by far the most
        return SIGNS[number]
    text = ""
    while number > 31:
        text += SIGNS[32 + (number & 31)]
        number >>= 5
    return text + SIGNS[number]


def numbers(text: str, *, weighed: bool) -> Iterator[tuple[int, int]]:
    """The documents of a list of postings with their weights; 1 where none is written."""
    at, number = 0, -1
    while at < len(text):
        step = shift = 0
        while (value := _VALUE[text[at]]) > 31:
            step += (value & 31) << shift
            shift, at = shift + 5, at + 1
        number += step + (value << shift) + 1
        at += 1
        if weighed:
            yield number, _VALUE[text[at]]
            at += 1
        else:
            yield number, 1


def in_gaps(documents: Iterable[int]) -> str:
    """Ascending document numbers without weights."""
    last, text = -1, []
    for document in documents:
        text.append(gap(document - last - 1))
        last = document
    return "".join(text)


def digits(number: int, width: int) -> str:
    """A number in a fixed number of signs, six bits each, the highest first."""
    return "".join(SIGNS[(number >> 6 * place) & 63] for place in reversed(range(width)))


def undigits(text: str) -> int:
    """The number that `digits` wrote."""
    number = 0
    for sign in text:
        number = number << 6 | _VALUE[sign]
    return number


def spread(lines: Iterable[tuple[str, str]], size: int) -> list[list[str]]:
    """Lines of a key and what it says, in shards that `spread_to` finds by the key, of `size` signs on an average."""
    held = [(key, f"{key}\t{said}") for key, said in lines]
    found: list[list[str]] = [[] for _ in range(sum(len(line) + 1 for _, line in held) // size | 1)]
    for key, line in held:
        found[spread_to(key, len(found))].append(line)
    return found


def spread_to(key: str, shards: int) -> int:
    """The shard of a key: its bytes as one number, modulo the number of shards, which is odd.

    >>> spread_to("first bath", 7)
    3
    """
    return int.from_bytes(key.encode(), "big") % shards


def line_of(shard: str, key: str) -> str | None:
    """What a shard of lines says of a key."""
    return next((line[len(key) + 1 :] for line in shard.split("\n") if line.startswith(f"{key}\t")), None)


def cut(lines: Iterable[str], size: int) -> Iterator[list[str]]:
    """Lines in order, as many to a shard as stay under `size` signs, at least one."""
    held: list[str] = []
    length = 0
    for line in lines:
        if held and length + len(line) > size:
            yield held
            held, length = [], 0
        held.append(line)
        length += len(line) + 1
    if held:
        yield held

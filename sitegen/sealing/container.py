"""Containers: one sealed file each, under a name that tells nothing and of a size that tells little.

Layout of what is encrypted: four bytes with the length of the head (big-endian), the head as JSON (`path`,
`type`, `size`), the content, zeros up to a usual size. The container's name is bound to it: swapped files
do not open.
"""

import base64
import hashlib
import hmac
import json
from dataclasses import dataclass
from typing import Final

from sitegen.sealing.keys import NONCE_BYTES, Keys, decrypt, encrypt
from sitegen.sealing.passphrase import Randomness

SMALLEST: Final = 8 * 1024
LARGEST_STEP: Final = 1024 * 1024
NAME_BYTES: Final = 15
_LABEL: Final = "trayside file 1 "


class Damaged(ValueError):
    """A container that was changed, cut, renamed, or made under other keys."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """A file of an edition: its path there, its media type, its bytes."""

    path: str
    type: str
    data: bytes


def name_of(path: str, keys: Keys) -> str:
    """The container's name: a keyed digest of the path, 24 small letters and digits."""
    digest = hmac.digest(keys.names, path.encode(), hashlib.sha256)[:NAME_BYTES]
    return base64.b32encode(digest).decode().lower()


def padded_size(size: int) -> int:
    """The usual size that so many bytes are filled up to: doubling from 8 KiB, from 1 MiB in steps of it.

    >>> padded_size(1), padded_size(8193), padded_size(3_000_000)
    (8192, 16384, 3145728)
    """
    if size > LARGEST_STEP:
        return -(-size // LARGEST_STEP) * LARGEST_STEP
    return max(SMALLEST, 1 << (size - 1).bit_length())


def seal(content: Content, keys: Keys, random: Randomness) -> bytes:
    """The container: a fresh nonce, then the sealed bytes with their tag."""
    head = {"path": content.path, "type": content.type, "size": len(content.data)}
    packed = json.dumps(head, ensure_ascii=False, separators=(",", ":")).encode()
    plain = len(packed).to_bytes(4, "big") + packed + content.data
    plain += bytes(padded_size(len(plain)) - len(plain))
    nonce = random(NONCE_BYTES)
    return nonce + encrypt(keys.content, nonce, plain, _bound(name_of(content.path, keys)))


def unseal(container: bytes, name: str, keys: Keys) -> Content:
    """What a container of that name holds. `Damaged` when a single bit is not as it was."""
    plain = decrypt(keys.content, container[:NONCE_BYTES], container[NONCE_BYTES:], _bound(name))
    if plain is None:
        raise Damaged(name)
    start = 4 + int.from_bytes(plain[:4], "big")
    head = json.loads(plain[4:start])
    return Content(path=head["path"], type=head["type"], data=plain[start : start + head["size"]])


def _bound(name: str) -> bytes:
    return (_LABEL + name).encode()

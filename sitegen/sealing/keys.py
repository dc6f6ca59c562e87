"""Keys: what opens an edition, and a wrapped copy of it for each passphrase.

The keys are new at every compile, so a passphrase that is left out opens nothing that is compiled later.
PBKDF2-HMAC-SHA256 (RFC 8018) stretches a passphrase; AES-256-GCM (NIST SP 800-38D) wraps.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.kdf.pbkdf2 import PBKDF2HMAC

from sitegen.sealing.passphrase import Randomness, normal

ROUNDS: Final = 600_000
"""Never lower; a guesser pays them for every guess, a reader once."""
KEY_BYTES: Final = 32
SALT_BYTES: Final = 16
NONCE_BYTES: Final = 12
_WRAP_LABEL: Final = b"trayside key 1"


@dataclass(frozen=True, slots=True, kw_only=True)
class Keys:
    """`content` seals every file of an edition, `names` hides what each is called."""

    content: bytes
    names: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrapped:
    """The keys under one passphrase."""

    salt: bytes
    nonce: bytes
    sealed: bytes
    rounds: int = ROUNDS


def new_keys(random: Randomness) -> Keys:
    """Keys for one compile of one edition."""
    return Keys(content=random(KEY_BYTES), names=random(KEY_BYTES))


def stretch(passphrase: str, salt: bytes, rounds: int) -> bytes:
    """The 256-bit key of a passphrase, in its normal form."""
    return pbkdf2(normal(passphrase).encode(), salt, rounds, KEY_BYTES)


def pbkdf2(secret: bytes, salt: bytes, rounds: int, length: int) -> bytes:
    """PBKDF2-HMAC-SHA256, bare."""
    return PBKDF2HMAC(algorithm=SHA256(), length=length, salt=salt, iterations=rounds).derive(secret)


def encrypt(key: bytes, nonce: bytes, plain: bytes, bound: bytes) -> bytes:
    """AES-256-GCM: the sealed bytes and their 16-byte tag; `bound` is not hidden, but cannot be changed either."""
    return AESGCM(key).encrypt(nonce, plain, bound)


def decrypt(key: bytes, nonce: bytes, sealed: bytes, bound: bytes) -> bytes | None:
    """What `encrypt` was given, or None when a bit of key, nonce, bytes or `bound` is another."""
    try:
        return AESGCM(key).decrypt(nonce, sealed, bound)
    except (InvalidTag, ValueError):  # the latter for what is too short to hold a nonce or a tag
        return None


def wrap(keys: Keys, passphrase: str, random: Randomness) -> Wrapped:
    """The keys under a passphrase, with a salt and a nonce of their own."""
    salt, nonce = random(SALT_BYTES), random(NONCE_BYTES)
    sealed = encrypt(stretch(passphrase, salt, ROUNDS), nonce, keys.content + keys.names, _WRAP_LABEL)
    return Wrapped(salt=salt, nonce=nonce, sealed=sealed)


def wrap_all(keys: Keys, passphrases: Iterable[str], random: Randomness) -> tuple[Wrapped, ...]:
    """One copy for each passphrase, ordered by salt so that the order given does not show."""
    different = dict.fromkeys(normal(passphrase) for passphrase in passphrases)
    return tuple(sorted((wrap(keys, each, random) for each in different), key=lambda w: w.salt))


def unwrap(wrapped: Iterable[Wrapped], passphrase: str) -> Keys | None:
    """The keys, or None when the passphrase opens none of the copies."""
    for copy in wrapped:
        both = decrypt(stretch(passphrase, copy.salt, copy.rounds), copy.nonce, copy.sealed, _WRAP_LABEL)
        if both:
            return Keys(content=both[:KEY_BYTES], names=both[KEY_BYTES:])
    return None

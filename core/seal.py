"""The seal: content locked under its name, with a key that only the passcode unwraps.

A sealed content is ``MAGIC``, a version byte, a random nonce of 96 bits, and AES-256-GCM over
the content with the version and the name as associated data (NIST SP 800-38D).  The random key
never works by itself: each purpose has a key of its own, HMAC-SHA256 of that purpose (RFC 2104),
so that a name tells nothing about the key that locks.  ``cryptography`` is an optional part of
the program and is looked for only when something is sealed or opened.
"""

import hashlib
import hmac
import secrets
import unicodedata
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from core.errors import BadFile, Damaged, WorkroomError

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

MAGIC = b"\x93SEALED"
VERSION = 1
SHORTEST_PASSCODE = 6
PASSCODE_WARNING = (
    "Nobody can bring back a lost passcode: without it, nothing that is sealed can ever be opened"
    " again. Write it down on paper, and keep it apart from the tablet and from the backups"
)

_HEAD = MAGIC + bytes([VERSION])
_NONCE_BYTES, _TAG_BYTES, _KEY_BYTES, _SALT_BYTES = 12, 16, 32, 16
_UNSEEN = {"Cc", "Cf", "Cs", "Co", "Cn"}
"""Kinds of signs that no keyboard shows (Unicode's general categories)."""
_WRAPPED = 1
"""The number of the wrapped key's format."""
_MOST_MEMORY = 256 * 1024 * 1024
"""What a passcode may cost in bytes; a file made to do harm asks for gigabytes."""


class WrongPasscode(WorkroomError):
    """The passcode does not open what is sealed."""


class WeakPasscode(WorkroomError):
    """The passcode is too short to protect anything."""


class NoSealing(WorkroomError):
    """This device has not the part of the program that seals."""


class Seal:
    """A random key of 256 bits that seals content, and makes names that tell nothing."""

    __slots__ = ("_key",)

    def __init__(self, key: bytes) -> None:
        if len(key) != _KEY_BYTES:
            raise ValueError("a seal's key has 32 bytes")
        self._key = key

    def __repr__(self) -> str:
        return f"<Seal {self.key_id}>"

    @classmethod
    def new(cls) -> "Seal":
        return cls(secrets.token_bytes(_KEY_BYTES))

    @property
    def key_id(self) -> str:
        """Return 16 hex characters that tell this seal from others, and nothing of its key."""
        return hmac.digest(self._for("key id"), b"", "sha256")[:8].hex()

    def name(self, text: str) -> str:
        """Return 32 hex characters for a text: always the same with this seal."""
        return hmac.digest(self._for("names"), _bytes_of(text), "sha256")[:16].hex()

    def seal(self, content: bytes, name: str) -> bytes:
        """Lock ``content`` so that it opens only under ``name``.

        Raises ``NoSealing``.
        """
        nonce = secrets.token_bytes(_NONCE_BYTES)
        return _HEAD + nonce + lock(self._for("content"), nonce, content, _HEAD + _bytes_of(name))

    def open(self, sealed: bytes, name: str) -> bytes:
        """Return what was sealed under ``name``.

        Raises ``Damaged`` where anything was changed, or it was sealed under another name or
        with another seal; ``NoSealing``.
        """
        start = len(_HEAD) + _NONCE_BYTES
        if not is_sealed(sealed) or len(sealed) < start + _TAG_BYTES:
            raise Damaged("This is not a sealed file, or only a part of one. Nothing was changed")
        if sealed[len(MAGIC)] != VERSION:
            raise Damaged(
                "This was sealed in a way that this program does not know; it may be damaged, or"
                " from a newer program. Nothing was changed"
            )
        nonce = sealed[len(_HEAD) : start]
        content = unlock(self._for("content"), nonce, sealed[start:], _HEAD + _bytes_of(name))
        if content is None:
            raise Damaged(
                "A sealed file cannot be opened: it was damaged, changed or put in another's place,"
                " or it belongs to another seal. Nothing was changed: bring it back from a backup"
            )
        return content

    def _for(self, purpose: str) -> bytes:
        return _derived(self._key, purpose)


def wrap(seal: Seal, passcode: str, *, n: int = 2**16) -> dict[str, Any]:
    """Return the seal's key locked with a passcode, ready for JSON.

    ``n`` is what the passcode costs to try (scrypt, RFC 7914; 2**16 takes 64 MB).  Raises
    ``WeakPasscode``, ``NoSealing``.
    """
    if len(_plain(passcode)) < SHORTEST_PASSCODE:
        raise WeakPasscode(
            f"A passcode needs at least {SHORTEST_PASSCODE} letters, digits or signs; blanks"
            " before and after it do not count. Nothing was sealed: choose a longer one"
        )
    if any(unicodedata.category(sign) in _UNSEEN for sign in _plain(passcode)):
        raise WeakPasscode(
            "The passcode has a sign that cannot be seen, and could not be typed again. Nothing was"
            " sealed: choose one of letters, digits and signs that can be seen"
        )
    salt, nonce = secrets.token_bytes(_SALT_BYTES), secrets.token_bytes(_NONCE_BYTES)
    cost = {"format": _WRAPPED, "kdf": "scrypt", "n": n, "r": 8, "p": 1}
    wrapped = {**cost, "salt": salt.hex(), "key_id": seal.key_id}
    key = _wrapping_key(passcode, salt, n, 8, 1)
    locked = lock(key, nonce, seal._key, _bound(wrapped))
    return {**wrapped, "nonce": nonce.hex(), "key": locked.hex()}


def unwrap(wrapped: Mapping[str, Any], passcode: str) -> Seal:
    """Return the seal that a passcode opens.

    Raises ``WrongPasscode``; ``BadFile`` where ``wrapped`` is not what ``wrap`` makes, or asks
    for more work than any passcode is worth; ``NoSealing``.
    """
    n, r, p = _cost(wrapped)
    salt = _hex(wrapped, "salt", _SALT_BYTES)
    nonce = _hex(wrapped, "nonce", _NONCE_BYTES)
    locked = _hex(wrapped, "key", _KEY_BYTES + _TAG_BYTES)
    _hex(wrapped, "key_id", 8)
    key = unlock(_wrapping_key(passcode, salt, n, r, p), nonce, locked, _bound(wrapped))
    if key is None:
        raise WrongPasscode(
            "This passcode does not open it. Nothing was changed: look at capital letters and the"
            " language of the keyboard, and try again"
        )
    return Seal(key)


def is_sealed(content: bytes) -> bool:
    """Tell whether a content begins as everything sealed does."""
    return content.startswith(MAGIC)


def lock(key: bytes, nonce: bytes, content: bytes, bound: bytes) -> bytes:
    """Return AES-256-GCM of a content, its tag of 16 bytes behind it."""
    return bytes(_cipher(key).encrypt(nonce, content, bound))


def unlock(key: bytes, nonce: bytes, locked: bytes, bound: bytes) -> bytes | None:
    """Return the content again; ``None`` where the tag does not hold."""
    cipher = _cipher(key)
    from cryptography.exceptions import InvalidTag

    try:
        return bytes(cipher.decrypt(nonce, locked, bound))
    except InvalidTag:
        return None


def stretch(passcode: bytes, salt: bytes, n: int, r: int, p: int, length: int) -> bytes:
    """Return a key from a passcode, at a cost (scrypt, RFC 7914)."""
    room = 128 * r * (n + p + 2) + 1024 * 1024
    return hashlib.scrypt(passcode, salt=salt, n=n, r=r, p=p, maxmem=room, dklen=length)


def _wrapping_key(passcode: str, salt: bytes, n: int, r: int, p: int) -> bytes:
    try:
        return _derived(stretch(_bytes_of(_plain(passcode)), salt, n, r, p, _KEY_BYTES), "wrapping")
    except (MemoryError, ValueError):  # OpenSSL says ValueError where it finds no room
        raise NoSealing(
            "This device has too little memory free to open the seal. Nothing was changed: close"
            " other programs and try again"
        ) from None


def _cipher(key: bytes) -> "AESGCM":
    try:
        from cryptography.hazmat.primitives.ciphers.aead import AESGCM
    except ImportError:
        raise NoSealing(
            "This device cannot seal or open what is sealed: the part “cryptography” is not"
            " installed. Nothing was changed, and everything that is not sealed works as before"
        ) from None
    return AESGCM(key)


def _derived(key: bytes, purpose: str) -> bytes:
    return hmac.digest(key, f"pins-to-seams seal 1: {purpose}".encode(), "sha256")


def _plain(passcode: str) -> str:
    """Return a passcode as any keyboard types it (NFKC), without blanks around it."""
    return unicodedata.normalize("NFKC", passcode).strip()


def _bytes_of(text: str) -> bytes:
    return text.encode("utf-8", "surrogatepass")


def _bound(wrapped: Mapping[str, Any]) -> bytes:
    """Return what a wrapped key is bound to, so that none of it can be changed."""
    fields = ("format", "kdf", "n", "r", "p", "salt", "key_id")
    return "/".join(str(wrapped[field]) for field in fields).encode()


def _cost(wrapped: Mapping[str, Any]) -> tuple[int, int, int]:
    if not isinstance(wrapped, Mapping):
        raise _no_key("is not an object with named fields")
    if _whole(wrapped, "format") != _WRAPPED or wrapped.get("kdf") != "scrypt":
        raise _no_key("is of a kind this program does not know")
    n, r, p = (_whole(wrapped, field) for field in ("n", "r", "p"))
    if not (2**14 <= n <= 2**20 and n & (n - 1) == 0 and 1 <= r <= 16 and 1 <= p <= 4):
        raise _no_key("asks for work that no passcode needs")
    if 128 * n * r > _MOST_MEMORY:
        raise _no_key("asks for more memory than a tablet can spare")
    return n, r, p


def _whole(wrapped: Mapping[str, Any], field: str) -> int:
    value = wrapped.get(field)
    if type(value) is not int:  # True is an int too
        raise _no_key(f"has no whole number as its {field}")
    return value


def _hex(wrapped: Mapping[str, Any], field: str, length: int) -> bytes:
    value = wrapped.get(field)
    try:
        content = bytes.fromhex(value) if isinstance(value, str) else b""
    except ValueError:
        content = b""
    if len(content) != length or content.hex() != value:
        raise _no_key(f"has a {field} that is damaged")
    return content


def _no_key(wrong: str) -> BadFile:
    return BadFile("the wrapped key", f"{wrong}. Nothing was changed")

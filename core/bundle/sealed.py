"""A sealed bundle: a zip of numbered members that tell nothing, bound to each other.

``sealed.json`` holds the wrapped key, how many members there are, and a random mark of this
bundle.  Each member is sealed under the mark, its own number and the number of all, so that none
can be taken away, added, swapped or brought in from another bundle of the same seal.  Its
own name is inside it; the first holds the list of all names.
"""

import json
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from core.bundle.directory import MOST_MEMBERS
from core.bundle.members import Members
from core.bundle.names import SEALED, refuse_unsafe
from core.bundle.refusals import BadBundle, NeedsPasscode, inside, shown
from core.errors import Damaged
from core.file.field import Field
from core.file.fitting_file import parse
from core.seal import Seal, unwrap

FORMAT = "pins-to-seams-sealed/1"
_NAMES = "names.json"


@dataclass(frozen=True, slots=True)
class Envelope:
    """One sealed bundle: its seal, its own mark, and how many members it has."""

    seal: Seal
    mark: str
    count: int

    @classmethod
    def new(cls, seal: Seal, members: int) -> "Envelope":
        """Return an envelope for this many members and the list of their names."""
        return cls(seal, secrets.token_hex(16), members + 1)

    def head(self, wrapped: Mapping[str, Any]) -> bytes:
        """Return ``sealed.json``."""
        told = {"format": FORMAT, "mark": self.mark, "members": self.count, "key": dict(wrapped)}
        return json.dumps(told, indent=1).encode()

    def names(self, names: Sequence[str]) -> bytes:
        """Return the first member: the list of what the others are."""
        return self.closed(1, _NAMES, json.dumps(list(names)).encode())

    def closed(self, number: int, name: str, content: bytes) -> bytes:
        own = name.encode()
        return self.seal.seal(len(own).to_bytes(2) + own + content, self._place(number))

    def opened(self, number: int, sealed: bytes) -> tuple[str, bytes]:
        """Return a member's own name and content; raises ``Damaged``."""
        inner = self.seal.open(sealed, self._place(number))
        end = 2 + int.from_bytes(inner[:2])
        return inner[2:end].decode("utf-8", "replace"), inner[end:]

    def _place(self, number: int) -> str:
        return f"bundle/{self.mark}/{number}/{self.count}"


def numbered(number: int) -> str:
    """Return what a sealed member is called in the zip: its number, from 0001."""
    return f"{number:04}"


class SealedMembers:
    """The members of a sealed bundle, read as those of an open one."""

    def __init__(self, members: Members, envelope: Envelope) -> None:
        self.bundle = members.bundle
        self._members = members
        self._envelope = envelope
        self._numbers = dict(zip(self._listed(), range(2, envelope.count + 1), strict=True))

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(self._numbers)

    def size(self, name: str) -> int:
        """Return how many bytes a member has at most."""
        return self._members.size(numbered(self._numbers[name]))

    def read(self, name: str) -> bytes:
        return self._read(self._numbers[name], name)

    def _read(self, number: int, name: str) -> bytes:
        sealed = self._members.read(numbered(number))
        try:
            own, content = self._envelope.opened(number, sealed)
        except Damaged:
            own, content = "", b""
        if own != name:
            raise BadBundle(
                self.bundle,
                f"its sealed part “{numbered(number)}” was damaged or changed, or is from another"
                " bundle",
            )
        return content

    def _listed(self) -> list[str]:
        try:
            names = json.loads(self._read(1, _NAMES))
        except (ValueError, RecursionError):
            names = None
        if not isinstance(names, list) or not all(isinstance(name, str) for name in names):
            raise BadBundle(self.bundle, "its sealed list is not a list of names")
        if len(names) != self._envelope.count - 1:
            raise BadBundle(self.bundle, "its sealed list is not of these members")
        refuse_unsafe(self.bundle, names)
        return names


def unsealed(
    members: Members, names: Sequence[str], passcode: str | None
) -> SealedMembers:  # fmt: skip
    """Return what is in a sealed bundle; ``names`` are its members in the zip.

    Raises ``NeedsPasscode``, ``WrongPasscode``, ``NoSealing``, ``BadBundle``.
    """
    with inside(members.bundle, SEALED):
        told = _told(members)
        count, mark = told["members"].whole(0), told["mark"].word()
        if told["key"].missing or not told["key"].is_object():
            told["key"].refuse("is not there")
    if not 2 <= count <= MOST_MEMBERS:
        raise BadBundle(members.bundle, f"“{SEALED}” counts members that cannot be")
    _refuse_other(members.bundle, names, count)
    if passcode is None:
        raise NeedsPasscode(f"{members.bundle} is sealed. Enter the passcode it was made with")
    with inside(members.bundle, SEALED):
        seal = unwrap(told["key"].value, passcode)
    return SealedMembers(members, Envelope(seal, mark, count))


def _told(members: Members) -> Field:
    told = Field(parse(members.read(SEALED), SEALED), "", "in")
    form = told["format"].text(None)
    if form != FORMAT:
        told["format"].refuse(
            f"“{shown(form)}” is not {FORMAT}; a newer program may have made this bundle"
        )
    return told


def _refuse_other(bundle: str, names: Sequence[str], count: int) -> None:
    """Refuse a bundle that has not exactly the numbers from 1 to ``count``."""
    found = set(names) - {SEALED}
    if len(found) > count:
        raise BadBundle(bundle, f"holds {len(found)} sealed parts, and was made with {count}")
    for number in range(1, count + 1):
        if numbered(number) not in found:
            raise BadBundle(bundle, f"its sealed part “{numbered(number)}” is missing")

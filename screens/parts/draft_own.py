"""Her own kinds of garment and how she likes them made, among what she chose for the workroom."""

from collections.abc import Iterator, Mapping
from typing import Any
from uuid import uuid4

from core.draft.document import garment_in, unit_of
from core.draft.made_from import template_of
from core.draft.own_kinds import Kept, read_own_kind
from core.errors import WorkroomError
from screens.workroom import Workroom

KINDS = "kinds"


def own_kinds(room: Workroom) -> Kept:
    """Return her own kinds; one that cannot be read is left where it is and not offered."""
    return tuple(_readable(room.settings.others.get(KINDS)))


def her_defaults(room: Workroom) -> Mapping[str, Any]:
    """Return how she likes her garments made, kind by kind."""
    return room.settings.defaults


def keep_kind(room: Workroom, garment: str) -> str:
    """Keep a garment of the open client as a kind of hers; return what it is called.

    A kind of the same name is replaced.  Raises ``WorkroomError`` with nothing kept.
    """
    written = garment_in(room.document, garment)
    label = str(written.get("name") or "My own kind")
    made = template_of(written, id=f"own_{uuid4().hex}", label=label, unit=unit_of(room.document),
                       own_kinds=own_kinds(room))  # fmt: skip
    before = room.settings.others.get(KINDS)
    kept = [entry for entry in (before if isinstance(before, list) else [])
            if not (isinstance(entry, Mapping) and entry.get("label") == label)]  # fmt: skip
    room.set(others={**room.settings.others, KINDS: [*kept, made]})
    return label


def _readable(kept: object) -> Iterator[Mapping[str, Any]]:
    for entry in kept if isinstance(kept, list) else ():
        try:
            read_own_kind(entry)
        except (WorkroomError, TypeError, AttributeError, KeyError):
            continue
        yield entry

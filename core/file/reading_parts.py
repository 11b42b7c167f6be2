"""What several readers of a fitting file share: lists of records, ease, a length a side."""

from collections.abc import Callable
from typing import Protocol, TypeVar

from core.file.field import Field, check_unique
from core.records.garment import Ease, Pair


class HasId(Protocol):
    """A record with an id of its own."""

    @property
    def id(self) -> str: ...


Record = TypeVar("Record", bound=HasId)


def read_each(
    source: Field, noun: str, nouns: str, read: Callable[[Field, str], Record]
) -> tuple[Record, ...]:
    """Return the records of a list, refusing two with one id.

    ``read`` gets each entry and the id it has where it names none (``seam_2``).
    """
    records = [
        (entry, read(entry, f"{noun}_{number}")) for number, entry in enumerate(source.each(), 1)
    ]
    check_unique([(entry, record.id) for entry, record in records], nouns)
    return tuple(record for _, record in records)


def read_ease(source: Field) -> dict[str, Ease]:
    """Return ease by level; an entry is a length or a share such as ``"4%"``."""
    eases = {}
    for level, entry in source.items():
        share = entry.share()
        eases[level] = Ease(share=share) if share is not None else Ease(entry.mm())
    return eases


def read_pair(source: Field, *, negative: bool = False) -> Pair:
    """Return a length for left and right; one length serves both."""
    if not source.is_object():
        one = source.mm() if negative else source.positive_mm()
        return one, one
    if set(source.value) != {"left", "right"}:
        source.refuse("must be one length, or one for left and one for right")
    left, right = read_pair(source["left"]), read_pair(source["right"])
    return left[0], right[0]


def maybe_mm(source: Field) -> float | None:
    """Return a length in mm; nothing where none is given."""
    return None if source.missing else source.mm()

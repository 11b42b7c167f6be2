"""The day book: the next fitting, those to come, what is due, what is still to sew, and everyone.

It is made from the list of clients alone, without opening any of them: a row carries the facts of
``client_facts``.  ``now`` is the clock of the workroom, without a time zone.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from functools import partial
from itertools import starmap
from typing import Any, NamedTuple, Protocol, TypeVar, overload

from core import days
from core.client.facts import Coming, ToSew
from core.client.fitting_words import counted_pins, which

DEMO = "0de00000-"
"""What the ids of the invented clients that come with the program begin with."""


class Named(Protocol):
    """A client of the list."""

    @property
    def id(self) -> str: ...
    @property
    def name(self) -> str: ...


class WithDue(Named, Protocol):
    """One with the days her garments are due: day, the garment's name, perhaps its id."""

    @property
    def due(self) -> Sequence[Sequence[str]]: ...


class WithComing(Named, Protocol):
    @property
    def coming(self) -> Sequence[Coming]: ...


class WithToSew(Named, Protocol):
    @property
    def to_sew(self) -> Sequence[ToSew]: ...


class Listed(Named, Protocol):
    @property
    def damaged(self) -> bool: ...
    @property
    def measured(self) -> str: ...


class Whole(WithDue, WithComing, WithToSew, Listed, Protocol):
    """A client with everything the day book shows."""


class FittingLine(NamedTuple):
    """A fitting to come: its time (``10:30``, empty where none was said), its day in words, how
    soon it is (``in 25 min``, only today) and what for (``Moss linen trousers, first fitting``)."""

    client_id: str
    garment_id: str
    name: str
    time: str
    day: str
    soon: str
    what: str
    over: bool
    today: bool = False


class DueLine(NamedTuple):
    """A garment that is due; ``over`` where its day has passed."""

    client_id: str
    garment_id: str
    name: str
    garment: str
    day: str
    over: bool


class SewingLine(NamedTuple):
    """Changes still to sew: ``by`` is when they must be ready, ``today, 14:00``.

    ``pressing``: that is today, or was before.
    """

    client_id: str
    garment_id: str
    fitting_id: str
    name: str
    garment: str
    pins: str
    by: str
    pressing: bool


Line = TypeVar("Line", covariant=True)


class Lines(Sequence[Line]):
    """Lines that are made when they are looked at: of thousands only a few ever are."""

    def __init__(self, make: Callable[..., Line], entries: Sequence[tuple[Any, ...]]) -> None:
        self._make, self._entries = make, entries

    def __len__(self) -> int:
        return len(self._entries)

    @overload
    def __getitem__(self, index: int) -> Line: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[Line, ...]: ...
    def __getitem__(self, index: int | slice) -> Line | tuple[Line, ...]:
        if isinstance(index, slice):
            return tuple(starmap(self._make, self._entries[index]))
        return self._make(*self._entries[index])


class ClientLine(NamedTuple):
    """One client in the list as it is ``today``; of thousands only a few are ever looked at."""

    client_id: str
    name: str
    measured: str
    damaged: bool
    today: date

    @property
    def demo(self) -> bool:
        return is_demo(self.client_id)

    @property
    def words(self) -> str:
        """The small line under the name."""
        if self.damaged:
            return "cannot be read: touch to see why"
        if self.demo:
            return "demo client"
        if not self.measured:
            return "not measured yet"
        return f"measured {days.day_month_of(self.measured, self.today)}"


@dataclass(frozen=True, slots=True)
class DayBook:
    """The whole page; ``next`` is the fitting that stands largest, ``then`` those after it."""

    title: str
    next: FittingLine | None
    then: tuple[FittingLine, ...]
    due: Sequence[DueLine]
    to_sew: Sequence[SewingLine]
    clients: tuple[ClientLine, ...]


def day_book(rows: Iterable[Whole], now: datetime) -> DayBook:
    """Return the day book from the rows of the list, which stand by name already."""
    rows = tuple(rows)
    fittings = fitting_lines(rows, now)
    first = next((line for line in fittings if not line.over), None)
    return DayBook(
        title=days.title(now.date()),
        next=first,
        then=tuple(line for line in fittings if line is not first),
        due=due_lines(rows, now),
        to_sew=sewing_lines(rows, now),
        clients=client_lines(rows, now),
    )


def fitting_lines(rows: Iterable[WithComing], now: datetime) -> tuple[FittingLine, ...]:
    """Return the fittings planned, by time; one of an earlier day that was not held is over.

    One of today stays until it is held, also when its time has passed.
    """
    planned = [(at, row, coming) for row in rows for coming in row.coming
               if (at := days.read_time(coming.at))]  # fmt: skip
    planned.sort(key=lambda each: (each[0], each[1].name, each[2].garment))
    return tuple(_fitting_line(at, row, coming, now) for at, row, coming in planned)


def due_lines(rows: Iterable[WithDue], now: datetime) -> Sequence[DueLine]:
    """Return what is due, by day: what is over first, then today, tomorrow and so on."""
    due = [(day, row, each) for row in rows for each in row.due
           if each and (day := days.read_day(each[0]))]  # fmt: skip
    due.sort(key=lambda each: (each[0], each[1].name, each[2][1]))
    return Lines(partial(_due_line, now.date()), due)


def sewing_lines(rows: Iterable[WithToSew], now: datetime) -> Sequence[SewingLine]:
    """Return what is still to sew, what must be ready first on top, without a day last."""
    lines = [(days.read_time(each.by), row, each) for row in rows for each in row.to_sew]
    lines.sort(key=lambda each: (each[0] or datetime.max, each[1].name, each[2].garment))
    return Lines(partial(_sewing_line, now), lines)


def client_lines(rows: Iterable[Listed], now: datetime) -> tuple[ClientLine, ...]:
    """Return the clients in the order of the list; one that cannot be read is listed too."""
    today = now.date()
    return tuple(ClientLine(row.id, row.name, row.measured, row.damaged, today) for row in rows)


def is_demo(client_id: str) -> bool:
    """Tell whether a client is an invented one that came with the program."""
    return client_id.startswith(DEMO)


def _fitting_line(at: datetime, row: Named, coming: Coming, now: datetime) -> FittingLine:
    timed = len(coming.at) > len("2026-05-14")
    return FittingLine(
        client_id=row.id,
        garment_id=coming.garment_id,
        name=row.name,
        time=days.clock(at) if timed else "",
        day=days.when(at.date(), now.date()),
        soon=days.until(at, now) if timed else "",
        what=", ".join(filter(None, [coming.garment, f"{which(coming.number)} fitting"])),
        over=at.date() < now.date(),
        today=at.date() == now.date(),
    )


def _due_line(today: date, day: date, row: Named, each: Sequence[str]) -> DueLine:
    return DueLine(
        client_id=row.id,
        garment_id=each[2] if len(each) > 2 else "",
        name=row.name,
        garment=each[1],
        day=days.when(day, today),
        over=day < today,
    )


def _sewing_line(now: datetime, by: datetime | None, row: Named, each: ToSew) -> SewingLine:
    unread = f"{each.unread} not read" if each.unread else ""
    return SewingLine(
        client_id=row.id,
        garment_id=each.garment_id,
        fitting_id=each.fitting_id,
        name=row.name,
        garment=each.garment,
        pins=", ".join(filter(None, [counted_pins(each.pins), unread])),
        by=_by(by, now),
        pressing=by is not None and by.date() <= now.date(),
    )


def _by(by: datetime | None, now: datetime) -> str:
    """Return ``today, 14:00``, ``by Mon 18 May``, ``3 days over``; nothing without a day."""
    if by is None:
        return ""
    said = days.when(by.date(), now.date())
    if by.date() < now.date():
        return said
    said = said if by.date() == now.date() else f"by {said}"
    return said if by.time() == time.min else f"{said}, {days.clock(by)}"

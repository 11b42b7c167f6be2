"""A month to pick a day from, week by week; and a time of day, a quarter of an hour at a time."""

from calendar import Calendar
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from core import days

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
USUAL_TIME = time(10)
_QUARTER = timedelta(minutes=15)


@dataclass(frozen=True, slots=True)
class DayCell:
    """A day to touch; one of the months beside it is not ``inside``."""

    day: date
    words: str
    inside: bool
    picked: bool
    today: bool


@dataclass(frozen=True, slots=True)
class Picking:
    """A month for a day that is picked, or not yet; ``time`` is empty where none is asked for."""

    title: str
    month: str
    first: date
    weeks: tuple[tuple[DayCell, ...], ...]
    said: str
    asks_time: bool = False
    time: str = ""
    may_be_none: bool = True


def month_of(
    title: str, shown: date, picked: datetime | None, today: date, *, asks_time: bool,
    may_be_none: bool = True,
) -> Picking:  # fmt: skip
    """Return the month that a day lies in, and what is picked of it."""
    first = shown.replace(day=1)
    weeks = Calendar().monthdatescalendar(first.year, first.month)
    timed = asks_time and picked is not None and picked.time() != time.min
    return Picking(
        title=title,
        month=f"{days.title(first).split()[-1]} {first.year}",
        first=first,
        weeks=tuple(tuple(_cell(day, first, picked, today) for day in week) for week in weeks),
        said=_said(picked, today, timed),
        asks_time=asks_time and picked is not None,
        time=days.clock(picked) if timed and picked else "",
        may_be_none=may_be_none,
    )


def months_on(first: date, by: int) -> date:
    """Return the first day of a month so many months on."""
    months = first.year * 12 + first.month - 1 + by
    return date(min(max(months // 12, 1), 9998), months % 12 + 1, 1)


def stepped(at: datetime, quarters: int) -> datetime:
    """Return a time so many quarters of an hour on, on the same day; first the usual time."""
    if at.time() == time.min:
        return datetime.combine(at.date(), USUAL_TIME)
    on = at + quarters * _QUARTER
    return on if on.date() == at.date() and on.time() != time.min else at


def _cell(day: date, first: date, picked: datetime | None, today: date) -> DayCell:
    return DayCell(
        day=day,
        words=str(day.day),
        inside=day.month == first.month,
        picked=picked is not None and picked.date() == day,
        today=day == today,
    )


def _said(picked: datetime | None, today: date, timed: bool) -> str:
    if picked is None:
        return "No day yet"
    said = days.weekday_day(picked.date(), today)
    return f"{said}, {days.clock(picked)}" if timed else said

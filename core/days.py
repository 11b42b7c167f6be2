"""Days and times as they are said in the workroom: ``today``, ``Fri 22 May``, ``in 25 min``."""

from datetime import date, datetime

_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August",
           "September", "October", "November", "December")  # fmt: skip
_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")

NOW_MINUTES = 5
"""A fitting this near is now; common sense, no source."""


def read_day(text: object) -> date | None:
    """Return the day of an ISO 8601 date, or of a date with a time; ``None`` for anything else."""
    at = read_time(text)
    return at.date() if at else None


def read_time(text: object) -> datetime | None:
    """Return a day and time of the workroom (ISO 8601, no time is midnight), else ``None``."""
    if not isinstance(text, str):
        return None
    try:
        return datetime.fromisoformat(text).replace(tzinfo=None)
    except ValueError:
        return None


def title(day: date) -> str:
    """Return the heading of a day: ``Thursday 14 May``."""
    return f"{_WEEKDAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]}"


def day_month(day: date, today: date) -> str:
    """Return ``2 March``, and its year where it is another year's: ``12 September 2025``."""
    return f"{day.day} {_MONTHS[day.month - 1]}{_year(day, today)}"


def day_month_of(text: str, today: date) -> str:
    """Return a written day as ``2 March``; what is no day stays as it is written."""
    day = read_day(text)
    return day_month(day, today) if day else text


def whole_day_of(text: str) -> str:
    """Return a written day with its year: ``2 March 2026``; what is no day stays as it is."""
    day = read_day(text)
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}" if day else text


def weekday_day(day: date, today: date) -> str:
    """Return ``Fri 22 May``, and its year where it is another year's."""
    weekday, month = _WEEKDAYS[day.weekday()], _MONTHS[day.month - 1]
    return f"{weekday[:3]} {day.day} {month[:3]}{_year(day, today)}"


def when(day: date, today: date) -> str:
    """Return how near a day is: ``3 days over``, ``today``, ``tomorrow`` or ``Fri 22 May``."""
    days = (day - today).days
    if days < 0:
        return f"{-days} {'day' if days == -1 else 'days'} over"
    return ("today", "tomorrow")[days] if days < 2 else weekday_day(day, today)


def until(at: datetime, now: datetime) -> str:
    """Return how far a time of this day is off: ``in 25 min``, ``in 2 h 5 min``, ``now``.

    A time that is over says so (``20 min ago``); one of another day is empty.
    """
    if at.date() != now.date():
        return ""
    minutes = round((at - now.replace(tzinfo=None)).total_seconds() / 60)
    if abs(minutes) < NOW_MINUTES:
        return "now"
    return f"in {_minutes(minutes)}" if minutes > 0 else f"{_minutes(-minutes)} ago"


def clock(at: datetime) -> str:
    """Return the time of day on the clock of 24 hours: ``09:30``."""
    return f"{at:%H:%M}"


def _minutes(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    said = (f"{hours} h" if hours else "", f"{rest} min" if rest else "")
    return " ".join(filter(None, said))


def _year(day: date, today: date) -> str:
    return "" if day.year == today.year else f" {day.year}"

"""What is chosen on a client's page, and everything that shows of her, in ready words."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime

from core.client.card import Card, MeasurementRow, card_of
from core.client.edits import garment_in
from core.client.facts import entries
from core.client.her_garments import GarmentRow, fittings_held
from core.client.over_time import unit_of
from core.days import read_day, read_time
from core.file.fitting_file import FittingFile
from core.lengths import read_length, write_length
from core.records.garment import INCH_SETTINGS, METRIC_SETTINGS
from core.settings import Settings
from core.store.photos import named_in
from screens.asked import Asked
from screens.browsing import Browsing
from screens.client_asks import asked_of
from screens.month import Picking, month_of

EASE_LEVELS = {"bust": "Bust", "under_bust": "Under-bust", "waist": "Waist", "top_hip": "High hip",
               "hip": "Hip", "upper_arm": "Upper arm"}  # fmt: skip
"""Where ease is liked; what else her file has stands there too."""

DAYS = {"due": "due on", "next fitting": "next fitting", "collected": "collected on"}


@dataclass(frozen=True, slots=True)
class OnHerPage:
    """What is picked: a ``panel`` in place of the page, and what it is about.

    ``panel`` is ``day``, ``ask``, ``browse``, ``ease``, ``photo`` or ``name``; ``about`` says for
    what, ``garment`` and ``level`` of which, ``photo`` is a place in her photos.
    """

    panel: str = ""
    about: str = ""
    garment: str = ""
    level: str = ""
    photo: int = 0
    month: str = ""
    planning: str = ""
    path: str = ""
    browsing: Browsing | None = None


@dataclass(frozen=True, slots=True)
class MeasuredRow:
    """A measurement, and how many days all of them span."""

    row: MeasurementRow
    span: int


@dataclass(frozen=True, slots=True)
class HerGarment:
    """A garment; ``opened`` shows what may be planned for it."""

    line: GarmentRow
    opened: bool
    fitted: bool


@dataclass(frozen=True, slots=True)
class EaseKey:
    """The ease she likes at a level; empty where nothing is said."""

    level: str
    label: str
    text: str


@dataclass(frozen=True, slots=True)
class PhotoShown:
    """A photo with the fitting it belongs to; ``index`` is its place there."""

    file: str
    words: str
    garment: str
    fitting: str
    index: int
    marks: tuple[tuple[float, float, str], ...]
    at: int


@dataclass(frozen=True, slots=True)
class HerPage:
    """Everything on the page and in what stands in its place."""

    card: Card
    measured: tuple[MeasuredRow, ...]
    garments: tuple[HerGarment, ...]
    ease: tuple[EaseKey, ...]
    photos: tuple[PhotoShown, ...]
    asked: Asked | None
    picking: Picking | None


def her_page(file: FittingFile, chosen: OnHerPage, today: date) -> HerPage:
    """Work out a client's page; raises ``BadFile`` for what cannot be read."""
    document = file.data
    card = card_of(document, today, unit_of(document))
    span = max((days for row in card.measurements for days, _ in row.line), default=0)
    photos = tuple(_photos(file))
    return HerPage(
        card=card,
        measured=tuple(MeasuredRow(row, span) for row in card.measurements),
        garments=tuple(
            HerGarment(row, row.id == chosen.planning, bool(row.stage)) for row in card.garments
        ),
        ease=tuple(_ease(card)),
        photos=photos,
        asked=asked_of(chosen.about, card) if chosen.panel == "ask" else None,
        picking=_picking(file, chosen, today) if chosen.panel == "day" else None,
    )


def planned(file: FittingFile, garment_id: str, about: str) -> datetime | None:
    """Return the day that is written down for a garment, with its time where there is one."""
    garment = garment_in(file.data, garment_id)
    field = "next_fitting" if about == "next fitting" else about
    return read_time(garment.get(field))


def _picking(file: FittingFile, chosen: OnHerPage, today: date) -> Picking:
    if chosen.about == "consent":
        title, picked = f"{file.client.name} agreed to photos on", None
    else:
        name = str(garment_in(file.data, chosen.garment).get("name") or "")
        title = f"{name}: {DAYS[chosen.about]}"
        picked = planned(file, chosen.garment, chosen.about)
    shown = read_day(chosen.month) or (picked.date() if picked else today)
    return month_of(title, shown, picked, today, asks_time=chosen.about == "next fitting",
                    may_be_none=chosen.about != "consent")  # fmt: skip


def _ease(card: Card) -> Iterator[EaseKey]:
    said = {row.level: row for row in card.ease}
    for level, label in EASE_LEVELS.items():
        yield EaseKey(level, label, said[level].text if level in said else "")
    for row in card.ease:
        if row.level not in EASE_LEVELS:
            yield EaseKey(row.level, row.label, row.text)


def _photos(file: FittingFile) -> Iterator[PhotoShown]:
    """Yield her photos, those of the last fitting first; only those that are hers to show."""
    named, at = set(named_in(file.data)), 0
    for garment_id, garment, number, fitting in reversed(list(fittings_held(file.data))):
        fitting_id = str(fitting.get("id") or f"fitting_{number}")
        for index, photo in enumerate(entries(fitting, "photos")):
            if photo.get("file") in named:
                yield PhotoShown(
                    file=str(photo["file"]),
                    words=", ".join(filter(None, [str(photo.get("view") or ""),
                                                  str(garment.get("name") or "")])),
                    garment=garment_id, fitting=fitting_id, index=index,
                    marks=tuple(_marks(photo)), at=at,
                )  # fmt: skip
                at += 1


def _marks(photo: object) -> Iterator[tuple[float, float, str]]:
    for mark in entries(photo, "marks") if isinstance(photo, dict) else ():
        x, y = mark.get("x"), mark.get("y")
        if isinstance(x, int | float) and isinstance(y, int | float):
            yield float(x), float(y), str(mark.get("text") or "")


def stepped_ease(typed: str, file: FittingFile, settings: Settings, steps: int) -> str:
    """Return ease so many steps more: a share by whole parts of a hundred, else a length.

    Raises ``BadLength`` for what is neither.
    """
    text = typed.strip()
    if text.endswith("%"):
        share = read_length(text[:-1] or "0", "mm").mm + steps
        return f"{share:g}%"
    usual = INCH_SETTINGS if file.unit == "in" else METRIC_SETTINGS
    liked = settings.liked("step")
    step_mm = read_length(liked, settings.unit).mm if liked else usual.step
    now_mm = read_length(text, file.unit).mm if text else 0.0
    return write_length(now_mm + steps * step_mm, file.unit)


def closed(chosen: OnHerPage) -> OnHerPage:
    """Return the page without what stood in its place."""
    return replace(OnHerPage(), planning=chosen.planning)

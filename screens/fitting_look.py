"""The first look: photos of four sides, last time's beside them, in ready-to-show words."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from core.client.facts import entries
from core.fit.last_time import last_fitting
from core.fit.stepping_out import VIEWS
from core.store.photos import named_in
from screens.client_shown import PhotoShown
from screens.fitting_page import Bench, WordRow
from screens.rows import day

TIES = 10
"""So many pins are offered to tie a mark to: those placed last."""

NO_CONSENT = "She has not agreed to photos: ask her on her own page, then they can be taken."

@dataclass(frozen=True, slots=True)
class LookPage:
    """Photos: the four views, those taken, one large beside last time's, and its marks."""

    consent: str
    views: tuple[WordRow, ...]
    level: tuple[WordRow, ...]
    photos: tuple[PhotoShown, ...]
    photo: PhotoShown | None
    before: PhotoShown | None
    before_words: str
    ties: tuple[WordRow, ...]
    browsing: object


def look_page(bench: Bench, agreed: bool) -> LookPage:
    photos = photos_of(bench, bench.at.fitting)
    at = bench.chosen.photo
    photo = photos[at] if at is not None and at < len(photos) else None
    last = last_fitting(bench.garment, bench.fitting)
    before = photos_of(bench, last.id) if last else ()
    same = [one for one in before if photo and one.words == photo.words] or list(before)
    seen = {one.words for one in photos}
    straight = bench.written.get("levels_straight")
    return LookPage(
        consent="" if agreed else NO_CONSENT,
        views=tuple(
            WordRow(view, view[:1].upper() + view[1:], "taken" if view in seen else "",
                    off=not agreed)
            for view in VIEWS
        ),
        level=(
            WordRow("yes", "Levels hang straight", chosen=straight is True),
            WordRow("no", "They do not", chosen=straight is False),
        ),
        photos=photos,
        photo=photo,
        before=same[0] if same and photo else None,
        before_words=f"On {day(last.on)}" if last and last.on and same else "Last time",
        ties=tuple(
            WordRow(str(index), str(index + 1), chosen=bench.chosen.pin == index)
            for index in range(max(0, len(bench.fitting.pins) - TIES), len(bench.fitting.pins))
        ),
        browsing=bench.chosen.browsing,
    )  # fmt: skip


def photos_of(bench: Bench, fitting_id: str) -> tuple[PhotoShown, ...]:
    """Return the photos of one fitting of the garment, as the client's page shows them."""
    named = set(named_in(bench.file.data))
    written = replace(bench.at, fitting=fitting_id).fitting_in(bench.file.data)
    found = [
        (index, photo)
        for index, photo in enumerate(entries(written, "photos"))
        if photo.get("file") in named
    ]
    return tuple(
        PhotoShown(
            file=str(photo["file"]),
            words=str(photo.get("view") or ""),
            garment=bench.at.garment,
            fitting=fitting_id,
            index=index,
            marks=tuple(_photo_marks(photo)),
            at=at,
        )
        for at, (index, photo) in enumerate(found)
    )


def _photo_marks(photo: Mapping[str, Any]) -> Iterator[tuple[float, float, str]]:
    for mark in entries(photo, "marks"):
        x, y = mark.get("x"), mark.get("y")
        if isinstance(x, int | float) and isinstance(y, int | float):
            yield float(x), float(y), str(mark.get("text") or "")

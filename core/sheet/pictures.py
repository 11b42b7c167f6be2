"""The photos of a fitting on the sheet, with their marks burnt into what is printed."""

import io
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from core.errors import WorkroomError
from core.file.fitting_file import FittingFile
from core.photo_marks import with_marks
from core.records.fitting import Fitting
from core.records.garment import Garment
from core.sheet.flow import SMALL, STRONG, Flow

PhotoOf = Callable[[str], bytes | None]
"""Returns the bytes of a photo by the name the fitting file has for it; ``None``: not there."""

TOLD = SMALL._replace(tone="ink")
TALLEST_MM = 100.0
GAP_MM = 6.0
_MOST_PX = 1400
"""Finer than a printer shows at half the width of a page (about 400 points to the inch)."""

_QUALITY = 85


def photos_of(file: FittingFile, garment: Garment, fitting: Fitting | None) -> list[Any]:
    """Return what the fitting file says of the fitting's photos; what is no photo is left out."""
    if fitting is None:
        return []
    written = file.data["garments"][file.garments.index(garment)]
    entry = written["fittings"][garment.fittings.index(fitting)]
    photos = entry.get("photos")
    found = photos if isinstance(photos, list) else []
    return [photo for photo in found if isinstance(photo, Mapping)
            and isinstance(photo.get("file"), str)]  # fmt: skip


def write_photos(
    flow: Flow, photos: Sequence[Mapping[str, Any]], photo_of: PhotoOf, done: Callable[[], None]
) -> None:
    """Write the photos two beside each other; one that is not there is named."""
    if not photos:
        return
    wide = (flow.width - GAP_MM) / 2
    for first in range(0, len(photos), 2):
        pair = [_Picture(flow, photo, photo_of, wide) for photo in photos[first : first + 2]]
        height = max(picture.height for picture in pair)
        if first == 0:
            flow.section("Photos", height)
        flow.need(height)
        bottom = flow.y
        for number, picture in enumerate(pair):
            bottom = max(bottom, picture.write(flow.left + number * (wide + GAP_MM), flow.y))
            done()
        flow.y = bottom + 5.0


class _Picture:
    """One photo ready for the page, or the words for why it is not."""

    def __init__(
        self, flow: Flow, photo: Mapping[str, Any], photo_of: PhotoOf, wide: float
    ) -> None:
        self.flow, paper = flow, flow.paper
        view = photo.get("view")
        name = view if isinstance(view, str) and view.strip() else "photo"
        self.name = paper.at_most(name[0].upper() + name[1:], wide, STRONG, 2)
        self.content, size, trouble = _for_paper(photo, photo_of)
        told = [trouble] if trouble else _texts(photo)
        self.told = [line for text in told for line in paper.at_most(text, wide, SMALL, 6)]
        share = min(wide / size[0], TALLEST_MM / size[1]) if self.content else 0.0
        self.shown = (size[0] * share, size[1] * share)

    @property
    def height(self) -> float:
        words = len(self.name) * STRONG.line_mm + len(self.told) * TOLD.line_mm
        return words + self.shown[1] + 2.0

    def write(self, x: float, y: float) -> float:
        """Write the picture under its name, its marks' words below; return where it ends."""
        paper = self.flow.paper
        y = paper.write_lines(x, y, self.name, STRONG) + 1.0
        if self.content is not None:
            paper.picture(self.content, x, y, *self.shown)
            paper.box(x, y, *self.shown, 0.2)
            y += self.shown[1] + 1.0
        return paper.write_lines(x, y, self.told, TOLD)


def _texts(photo: Mapping[str, Any]) -> list[str]:
    """Return what the marks say, each with the number that its ring has."""
    return [
        f"{number}  {mark['text']}" for number, mark in enumerate(_marks(photo), 1)
        if isinstance(mark.get("text"), str) and mark["text"].strip()
    ]  # fmt: skip


def _marks(photo: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    marks = photo.get("marks")
    found = marks if isinstance(marks, list) else []
    return [mark if isinstance(mark, Mapping) else {} for mark in found]


def _for_paper(
    photo: Mapping[str, Any], photo_of: PhotoOf
) -> tuple[bytes | None, tuple[int, int], str]:
    """Return a photo with its rings as a JPEG for paper, its size in points, or what is wrong.

    What the marks say is written on the sheet itself, where it is large enough to read.
    """
    from PIL import Image

    try:
        kept = photo_of(str(photo["file"]))
        if kept is None:
            return None, (1, 1), "This photo is not at hand here."
        marked = with_marks(kept, [{**mark, "text": ""} for mark in _marks(photo)])
    except WorkroomError as wrong:
        return None, (1, 1), str(wrong)
    with Image.open(io.BytesIO(marked), formats=("JPEG",)) as image:
        image.thumbnail((_MOST_PX, _MOST_PX))
        written = io.BytesIO()
        image.convert("RGB").save(written, "JPEG", quality=_QUALITY)
        return written.getvalue(), image.size, ""

"""The photos of a fitting on the sheet, with their marks burnt into what is printed."""

import io
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from core.errors import WorkroomError
from core.fitting import Fitting
from core.fitting_file import FittingFile
from core.garment import Garment
from core.photo_marks import with_marks
from core.sheet.flow import SMALL, STRONG, Flow

PhotoOf = Callable[[str], bytes | None]
"""Returns the bytes of a photo by the name the fitting file has for it; ``None``: not there."""

TALLEST_MM = 105.0
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
    flow.section("Photos", 80.0)
    wide = (flow.width - GAP_MM) / 2
    for first in range(0, len(photos), 2):
        pair = [_Picture(flow, photo, photo_of, wide) for photo in photos[first : first + 2]]
        flow.need(max(picture.height for picture in pair))
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
        self.flow, self.wide = flow, wide
        view = photo.get("view")
        name = view if isinstance(view, str) and view.strip() else "photo"
        self.name = flow.paper.wrapped(name[0].upper() + name[1:], wide, STRONG)[:2]
        self.content, self.size, self.trouble = _for_paper(photo, photo_of)
        self.told = flow.paper.wrapped(self.trouble, wide, SMALL)
        share = min(wide / self.size[0], TALLEST_MM / self.size[1])
        self.shown = (self.size[0] * share, self.size[1] * share)

    @property
    def height(self) -> float:
        body = self.shown[1] if self.content else len(self.told) * SMALL.line_mm
        return len(self.name) * STRONG.line_mm + 1.0 + body

    def write(self, x: float, y: float) -> float:
        """Write the picture under its name; return where it ends."""
        y = self.flow.paper.write_lines(x, y, self.name, STRONG) + 1.0
        if self.content is None:
            return self.flow.paper.write_lines(x, y, self.told, SMALL)
        self.flow.paper.picture(self.content, x, y, *self.shown)
        self.flow.paper.box(x, y, *self.shown, 0.2)
        return y + self.shown[1]


def _for_paper(
    photo: Mapping[str, Any], photo_of: PhotoOf
) -> tuple[bytes | None, tuple[int, int], str]:
    """Return a photo with its marks as a JPEG for paper, its size in points, or what is wrong."""
    from PIL import Image

    try:
        kept = photo_of(str(photo["file"]))
        if kept is None:
            return None, (1, 1), "This photo is not at hand here."
        marks = photo.get("marks")
        marked = with_marks(kept, marks if isinstance(marks, list) else [])
    except WorkroomError as wrong:
        return None, (1, 1), str(wrong)
    with Image.open(io.BytesIO(marked), formats=("JPEG",)) as image:
        image.thumbnail((_MOST_PX, _MOST_PX))
        written = io.BytesIO()
        image.convert("RGB").save(written, "JPEG", quality=_QUALITY)
        return written.getvalue(), image.size, ""

"""Sheets read back as anybody's reader would: text, places of every sign, and pictures of pages."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy
import pypdfium2
from numpy.typing import NDArray

from core.lengths import MM_PER_UNIT, Unit

MM_PER_POINT = 25.4 / 72
Grey = NDArray[numpy.uint8]
Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Page:
    """One page: its size in mm, its text, and the box of every sign (left, top, right, bottom)."""

    width: float
    height: float
    text: str
    signs: tuple[Box, ...]
    pictures: tuple[Any, ...]


def read(content: bytes) -> list[Page]:
    """Return the pages of a PDF."""
    document = pypdfium2.PdfDocument(content)
    return [_page(page) for page in document]


def _page(page: Any) -> Page:
    width, height = page.get_size()
    text = page.get_textpage()
    boxes = []
    for index in range(text.count_chars()):
        left, bottom, right, top = text.get_charbox(index)
        boxes.append(tuple(MM_PER_POINT * at
                           for at in (left, height - top, right, height - bottom)))  # fmt: skip
    pictures = tuple(
        found.get_bitmap().to_pil() for found in page.get_objects()
        if isinstance(found, pypdfium2.PdfImage)
    )  # fmt: skip
    return Page(width * MM_PER_POINT, height * MM_PER_POINT, text.get_text_range(),
                tuple(boxes), pictures)  # fmt: skip


def running_text(pages: Sequence[Page], head: Sequence[str] = ()) -> str:
    """Return the text of all pages on one line, without what stands at every head and foot."""
    lines = []
    for page in pages:
        for line in page.text.splitlines():
            if line.strip() in head or re.fullmatch(r"\d+ of \d+", line.strip()):
                continue
            if not line.startswith("Pins to Seams. Left and right are her own."):
                lines.append(line)
    return " ".join(" ".join(lines).split())


def picture(content: bytes, page: int, dots_per_inch: float) -> Grey:
    """Return a page as grey points, 0 for black."""
    document = pypdfium2.PdfDocument(content)
    bitmap = document[page].render(scale=dots_per_inch / 72, grayscale=True)
    return numpy.asarray(bitmap.to_numpy()).reshape(bitmap.height, -1)[:, : bitmap.width]


def coloured(content: bytes, page: int) -> bool:
    """Tell whether a page has any colour in it."""
    points = pypdfium2.PdfDocument(content)[page].render(scale=1).to_numpy()[:, :, :3].astype(int)
    return bool((points.max(axis=2) - points.min(axis=2)).max() > 8)


def dark_middles(points: NDArray[Any], dots_per_mm: float, darkness: int = 128) -> list[float]:
    """Return the middle of every dark stretch in a row of points, in mm from its start."""
    dark = numpy.concatenate([[False], points < darkness, [False]]).astype(int)
    starts, ends = (numpy.flatnonzero(numpy.diff(dark) == way) for way in (1, -1))
    return [float(start + end) / 2 / dots_per_mm for start, end in zip(starts, ends, strict=True)]


def written(mm: float, unit: Unit) -> str:
    """Return a length as it is written by hand: to a sixteenth, or a tenth of a millimetre."""
    sign, mm = ("-" if mm < 0 else ""), abs(mm)
    if unit != "in":
        decimals = 2 if unit == "cm" else 1
        return sign + f"{mm / MM_PER_UNIT[unit]:.{decimals}f}".rstrip("0").rstrip(".")
    whole, rest = divmod(Fraction(round(mm / 25.4 * 16), 16), 1)
    return sign + (" ".join([*([str(whole)] if whole else []), *([str(rest)] if rest else [])])
                   or "0")  # fmt: skip


def mark_mm(unit: Unit) -> float:
    return 25.4 / 16 if unit == "in" else 0.1

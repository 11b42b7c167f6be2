"""The marks on a photo, burnt into a new picture for giving away; the kept photo has none."""

import math
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from PIL import Image, ImageDraw, ImageFont

from core.photos import as_jpeg, one_line, opened_photo
from core.resources import RESOURCES

_EXPORT_QUALITY = 92
_MOST_LETTERS = 400
_MOST_MARKS = 99
_MOST_LINES = 200
_SHEET, _INK = "#FBF8F2", "#221E19"
_FINER = 4
"""Rings are drawn this much larger and shrunk, so that their edges are smooth."""

_CORNERS = ((1, -1), (1, 1), (-1, -1), (-1, 1))
Place = tuple[float, float]


def with_marks(content: bytes, marks: Sequence[Mapping[str, Any]]) -> bytes:
    """Return a new JPEG for giving away: rings with numbers, their texts in a strip below.

    ``marks`` are those of the fitting file, ``{"x": 0.41, "y": 0.36, "text": "…"}``, shares of
    width and height from the top left.  A number is the mark's place in the list from 1, so it
    is the same as on the screen whatever is left out.  Nothing in a mark raises: a place beyond
    the picture is moved to its edge; without a place that can be read there is no ring, only
    the text; a text that is no ``str`` counts as none; what has neither is left out.  Texts
    beyond ``_MOST_LETTERS``, marks beyond ``_MOST_MARKS`` and lines beyond ``_MOST_LINES`` are
    cut, and the strip says so.  Raises ``BadPhoto`` where ``content`` is no whole picture.
    """
    picture = opened_photo(content)
    read = _readable(marks)
    letter_px = max(13, round(0.022 * math.sqrt(picture.width * picture.height)))
    _draw_rings(picture, read[:_MOST_MARKS], letter_px)
    if any(mark.text for mark in read):
        picture = _over_strip(picture, read, letter_px)
    return as_jpeg(picture, _EXPORT_QUALITY)


class _Mark(NamedTuple):
    number: int
    place: Place | None  # shares of width and height
    text: str


def _readable(marks: object) -> list[_Mark]:
    read = []
    for number, mark in enumerate(marks if isinstance(marks, (list, tuple)) else (), start=1):
        if isinstance(mark, Mapping):
            x, y, text = _share(mark.get("x")), _share(mark.get("y")), mark.get("text")
            place = None if x is None or y is None else (x, y)
            said = one_line(text) if isinstance(text, str) else ""
            if len(said) > _MOST_LETTERS:
                said = f"{said[:_MOST_LETTERS].rstrip()} …"
            if place or said:
                read.append(_Mark(number, place, said))
    return read


def _share(value: object) -> float | None:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or value != value:
        return None
    return float(min(max(value, 0), 1))


def _draw_rings(picture: Image.Image, marks: Sequence[_Mark], letter_px: int) -> None:
    """Draw on ``picture`` a ring round each place and beside it the number, rings first."""
    width_px, height_px = picture.size
    placed = [(mark.number, (mark.place[0] * (width_px - 1), mark.place[1] * (height_px - 1)))
              for mark in marks if mark.place]  # fmt: skip
    ring = _ring(letter_px)
    for _, place in placed:
        _put(picture, ring, place)
    taken = [place for _, place in placed]
    for number, place in placed:
        beside = _beside(place, taken, picture.size, letter_px)
        taken.append(beside)
        _put(picture, _badge(number, letter_px), beside)


def _beside(
    place: Place, taken: Sequence[Place], size: tuple[int, int], letter_px: int
) -> Place:
    """Return where the number goes: inside the picture, as far from all others as can be."""
    away = 1.15 * letter_px
    corners = [(place[0] + across * away, place[1] + down * away) for across, down in _CORNERS]
    inside = [corner for corner in corners
              if all(letter_px <= at <= side - letter_px
                     for at, side in zip(corner, size, strict=True))]  # fmt: skip

    def free(corner: Place) -> float:
        return min(min(math.dist(corner, other) for other in taken), 3.0 * letter_px)

    return max(inside or corners, key=free)  # of equals the first: above, to the right


def _put(picture: Image.Image, tile: Image.Image, centre: Place) -> None:
    corner = round(centre[0] - tile.width / 2), round(centre[1] - tile.height / 2)
    picture.paste(tile, corner, tile)


def _ring(letter_px: int) -> Image.Image:
    """Return an open ring: light, dark on both edges, nothing inside, so the cloth is seen."""
    tile, pen, half, thin = _tile(1.15, letter_px)
    for colour, outer, inner in ((_INK, 0, 4), (_SHEET, 1, 3)):
        radius, wide = half - outer * thin, (inner - outer) * thin
        pen.circle((half, half), radius, outline=colour, width=round(wide))
    return _finished(tile)


def _badge(number: int, letter_px: int) -> Image.Image:
    """Return a number on a light disc with a dark edge."""
    tile, pen, half, thin = _tile(0.82, letter_px)
    pen.circle((half, half), half, fill=_INK)
    pen.circle((half, half), half - thin, fill=_SHEET)
    font = _font("SemiBold", round(letter_px * _FINER * 0.95))
    left, top, right, bottom = pen.textbbox((0, 0), str(number), font)
    pen.text((half - (left + right) / 2, half - (top + bottom) / 2), str(number), _INK, font)
    return _finished(tile)


def _tile(
    radius_letters: float, letter_px: int
) -> tuple[Image.Image, ImageDraw.ImageDraw, float, float]:
    """Return a clear tile, its pen, half its side and the thickness of a dark edge."""
    side_px = 2 * round(radius_letters * letter_px) * _FINER
    tile = Image.new("RGBA", (side_px + 1, side_px + 1), (0x22, 0x1E, 0x19, 0))
    return tile, ImageDraw.Draw(tile), side_px / 2, max(1.0, letter_px / 13) * _FINER


def _finished(tile: Image.Image) -> Image.Image:
    size = tile.width // _FINER, tile.height // _FINER
    return tile.resize(size, Image.Resampling.LANCZOS)


def _over_strip(picture: Image.Image, marks: Sequence[_Mark], letter_px: int) -> Image.Image:
    """Return the picture with the texts under it, on a sheet wide enough to read them."""
    width_px = max(picture.width, 30 * letter_px)
    margin_px, line_px, gap_px = (round(letters * letter_px) for letters in (1.2, 1.4, 0.8))
    font, indent_px = _font("Regular", letter_px), margin_px + round(2.4 * letter_px)
    listed = _listed(marks, font, width_px - indent_px - margin_px)
    lines = sum(len(said) for _, said in listed)
    strip_px = 2 * margin_px + lines * line_px + (len(listed) - 1) * gap_px
    sheet = Image.new("RGB", (width_px, picture.height + strip_px), _SHEET)
    sheet.paste(picture, ((width_px - picture.width) // 2, 0))
    pen, capital_px = ImageDraw.Draw(sheet), -font.getbbox("H", anchor="ls")[1]
    middle_px = picture.height + margin_px + line_px / 2
    for number, said in listed:
        if number is not None:
            _put(sheet, _badge(number, letter_px), (margin_px + 0.82 * letter_px, middle_px))
        for line in said:
            pen.text((indent_px, middle_px + capital_px / 2), line, _INK, font, anchor="ls")
            middle_px += line_px
        middle_px += gap_px
    return sheet


def _listed(
    marks: Sequence[_Mark], font: ImageFont.FreeTypeFont, width_px: int
) -> list[tuple[int | None, list[str]]]:
    """Return number and lines of each text that fits, and how many do not."""
    told = [mark for mark in marks if mark.text]
    listed: list[tuple[int | None, list[str]]] = []
    lines = 0
    for mark in told:
        said = _wrapped(mark.text, font, width_px)
        lines += len(said)
        if mark.number > _MOST_MARKS or lines > _MOST_LINES:
            left = len(told) - len(listed)
            return [*listed, (None, [f"… and {left} more, kept with the photo"])]
        listed.append((mark.number, said))
    return listed


def _wrapped(text: str, font: ImageFont.FreeTypeFont, width_px: int) -> list[str]:
    """Return ``text`` in lines that fit; a word that is longer than a line is broken."""
    lines = [""]
    for word in text.split(" "):
        if lines[-1] and font.getlength(f"{lines[-1]} {word}") <= width_px:
            lines[-1] += f" {word}"
            continue
        if lines[-1]:
            lines.append("")
        for sign in word:
            if lines[-1] and font.getlength(lines[-1] + sign) > width_px:
                lines.append("")
            lines[-1] += sign
    return lines


def _font(cut: str, size_px: int) -> ImageFont.FreeTypeFont:
    path = RESOURCES / "fonts" / f"Pins-Text-{cut}.otf"
    return ImageFont.truetype(str(path), size_px, layout_engine=ImageFont.Layout.BASIC)

"""Paper: pages of a PDF with our type, lines and arrows in millimetres from the top left.

Only here is the PDF library known, and it is loaded when a sheet is made, not before.
"""

import io
import math
import tempfile
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Literal, NamedTuple, Self

from core.sheet.typeface import CUTS, Cut, Typeface, typeface

if TYPE_CHECKING:  # only when a sheet is made
    from fpdf import FPDF

PaperSize = Literal["a4", "letter"]
Point = tuple[float, float]

SIZES_MM: dict[PaperSize, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
MM_PER_POINT = 25.4 / 72
LEADING = 1.36
"""The height of a line as a share of the size of its type."""

OWN_SIGNS = frozenset(chr(code) for code in range(32, 127)) | frozenset("½¼¾⅛⅜⅝⅞×÷±°–—‘’“”…·□✓→←↓↑")
MISSING = "□"
"""What stands for a sign that the type does not have."""

_MADE = datetime(2000, 1, 1, tzinfo=UTC)
"""The same plan makes the same file, to the byte; when it was made is in the plan's own days."""

_GREYS = {"ink": 0, "soft": 90, "rule": 170, "wash": 238, "paper": 255}
Tone = Literal["ink", "soft", "rule", "wash", "paper"]
Align = Literal["left", "right", "centre"]


class Style(NamedTuple):
    """Type: its size in points, whether it is the bolder cut, and how dark."""

    size: float
    bold: bool = False
    tone: Tone = "ink"

    @property
    def line_mm(self) -> float:
        return self.size * MM_PER_POINT * LEADING

    @property
    def capital_mm(self) -> float:
        """Return the height of a capital: 0.727 of the size in this type."""
        return self.size * MM_PER_POINT * 0.727


class Paper:
    """One PDF as it is written, page after page; use it in a ``with``, as it holds files open."""

    def __init__(self, size: PaperSize, title: str, signs: Iterable[str]) -> None:
        """``signs`` are all that may be written; others are shown as ``MISSING``."""
        from fpdf import FPDF
        from fpdf.prefs import ViewerPreferences

        self.width, self.height = SIZES_MM[size]
        self.pages = 0
        wanted = OWN_SIGNS | frozenset(signs)
        self._ems: dict[tuple[str, bool], float] = {}
        self._faces = {cut: typeface(cut, wanted) for cut in CUTS}
        self._pdf = FPDF(unit="mm", format=(self.width, self.height))
        self._pdf.set_auto_page_break(False)
        self._pdf.set_margin(0)
        self._pdf.set_creation_date(_MADE)
        self._pdf.set_title(self.clean(title))
        self._pdf.set_lang("en-GB")
        self._pdf.viewer_preferences = ViewerPreferences(print_scaling="None")
        self._folder = tempfile.TemporaryDirectory()
        _add_fonts(self._pdf, self._faces, Path(self._folder.name))
        self._pdf.set_line_width(0.2)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        for font in self._pdf.fonts.values():
            font.close()  # type: ignore[union-attr]
        self._folder.cleanup()

    def page(self) -> None:
        """Begin a new page."""
        self._pdf.add_page()
        self.pages += 1

    def turn_to(self, page: int) -> None:
        """Go back to a page, from 1, to write what is known only at the end."""
        self._pdf.page = page
        self._pdf.set_font("Pins", "B", 1)  # the type in hand was set on another page

    def content(self) -> bytes:
        """Return the finished PDF."""
        return bytes(self._pdf.output())

    # Type

    def clean(self, text: str) -> str:
        """Return a text with every sign one that this type has, on one line."""
        return _cleaned(text, frozenset(self._faces["Regular"].widths))

    def width_of(self, text: str, style: Style) -> float:
        """Return how wide a clean text is, in mm."""
        ems = self._ems.get((text, style.bold))
        if ems is None:
            widths = self._face(style).widths
            ems = sum(widths.get(sign, 0.0) for sign in text)
            self._ems[text, style.bold] = ems
        return ems * style.size * MM_PER_POINT

    def wrapped(self, text: str, width: float, style: Style) -> list[str]:
        """Return a text in lines that fit ``width`` mm; a longer word is broken."""
        lines, used = [""], 0.0
        space = self.width_of(" ", style)
        for word in self.clean(text).split(" "):
            wide = self.width_of(word, style)
            if lines[-1] and used + space + wide <= width:
                lines[-1] += f" {word}"
                used += space + wide
                continue
            if lines[-1]:
                lines.append("")
            parts = self._broken(word, width, style) if wide > width else [word]
            lines[-1:] = parts
            used = self.width_of(parts[-1], style)
        return lines

    def _broken(self, word: str, width: float, style: Style) -> list[str]:
        """Return a word that is longer than a line in parts that fit."""
        parts = [""]
        for sign in word:
            if parts[-1] and self.width_of(parts[-1] + sign, style) > width:
                parts.append("")
            parts[-1] += sign
        return parts

    def at_most(self, text: str, width: float, style: Style, most: int) -> list[str]:
        """Return a text in so many lines at most; one that is longer ends in ``…``."""
        lines = self.wrapped(text, width, style)
        if len(lines) <= most:
            return lines
        narrower = max(width - self.width_of(" …", style), 1.0)
        lines = self.wrapped(text, narrower, style)[:most]
        return [*lines[:-1], f"{lines[-1]} …"]

    def write(
        self, x: float, y: float, text: str, style: Style, align: Align = "left"
    ) -> None:
        """Write a text on the base line ``y``; ``x`` is its left, right or middle."""
        text = self.clean(text)
        share = {"left": 0.0, "right": 1.0, "centre": 0.5}[align]
        left = x - share * self.width_of(text, style) if share else x
        self._pdf.set_font("Pins", "B" if style.bold else "", style.size)
        self._pdf.set_text_color(_GREYS[style.tone])
        self._pdf.text(left, y, text)

    def write_lines(self, x: float, top: float, lines: Sequence[str], style: Style) -> float:
        """Write lines from ``top`` down; return where they end."""
        first = top + style.capital_mm + _above(style)
        for number, line in enumerate(lines):
            self.write(x, first + number * style.line_mm, line, style)
        return top + len(lines) * style.line_mm

    def write_upright(self, x: float, y: float, text: str, style: Style, *, down: bool) -> None:
        """Write a text that reads downwards (or upwards) with its middle at ``(x, y)``."""
        with self._pdf.rotation(-90 if down else 90, x, y):
            self.write(x, y + style.capital_mm / 2, text, style, "centre")

    # Lines

    def line(
        self, points: Sequence[Point], wide: float, *, dash: Sequence[float] = (),
        tone: Tone = "ink",
    ) -> None:  # fmt: skip
        """Draw a line through points, ``wide`` mm; ``dash`` is a mark and a gap in mm."""
        pdf = self._pdf
        pdf.set_draw_color(_GREYS[tone])
        pdf.set_line_width(wide)
        pdf.set_dash_pattern(*dash[:2]) if dash else pdf.set_dash_pattern()
        if len(points) == 2:
            pdf.line(*points[0], *points[1])
        else:
            pdf.polyline(list(points))
        pdf.set_dash_pattern()

    def box(
        self, x: float, y: float, width: float, height: float, wide: float = 0.3, *,
        fill: Tone | None = None, tone: Tone = "ink", dash: Sequence[float] = (),
    ) -> None:  # fmt: skip
        """Draw a box; its line runs in the middle of its edges."""
        pdf = self._pdf
        pdf.set_draw_color(_GREYS[tone])
        pdf.set_line_width(wide)
        pdf.set_dash_pattern(*dash[:2]) if dash else pdf.set_dash_pattern()
        if fill is not None:
            pdf.set_fill_color(_GREYS[fill])
        pdf.rect(x, y, width, height, style="F" if not wide else "D" if fill is None else "DF")
        pdf.set_dash_pattern()

    def shape(self, points: Sequence[Point], fill: Tone) -> None:
        """Draw a filled shape without an outline."""
        self._pdf.set_fill_color(_GREYS[fill])
        self._pdf.polygon(list(points), style="F")

    def arrow(self, start: Point, end: Point, wide: float = 0.5, head: float = 2.2) -> None:
        """Draw an arrow; a short one has a smaller head and no shaft."""
        length = math.dist(start, end)
        if length < 0.2:
            return
        head = min(head, length)
        along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
        neck = (end[0] - along[0] * head, end[1] - along[1] * head)
        if length > head:
            self.line([start, neck], wide)
        half = 0.42 * head
        self.shape([end, (neck[0] - along[1] * half, neck[1] + along[0] * half),
                    (neck[0] + along[1] * half, neck[1] - along[0] * half)], "ink")  # fmt: skip

    def picture(self, content: bytes, x: float, y: float, width: float, height: float) -> None:
        """Put a JPEG on the page."""
        self._pdf.image(io.BytesIO(content), x, y, width, height)

    def _face(self, style: Style) -> Typeface:
        return self._faces["SemiBold" if style.bold else "Regular"]


def _above(style: Style) -> float:
    """Return how much of a line lies above its capitals."""
    return (style.line_mm - style.capital_mm) / 2


def _add_fonts(pdf: "FPDF", faces: Mapping[Cut, Typeface], folder: Path) -> None:
    """Hand the type to the PDF library, which reads it from files until the PDF is made."""
    for cut, style in zip(CUTS, ("", "B"), strict=True):
        path = folder / f"{cut}.ttf"
        path.write_bytes(faces[cut].content)
        pdf.add_font("Pins", style, path)


@lru_cache(maxsize=4096)
def _cleaned(text: str, signs: frozenset[str]) -> str:
    composed = unicodedata.normalize("NFC", text)
    spaced = "".join(" " if _is_blank(sign) else sign for sign in composed)
    return " ".join("".join(_shown(sign, signs) for sign in spaced).split())


def _is_blank(sign: str) -> bool:
    return sign.isspace() or unicodedata.category(sign) in ("Cc", "Zl", "Zp", "Zs")


def _shown(sign: str, signs: frozenset[str]) -> str:
    """Return a sign, a plainer one for it, or the box; signs that are not seen go."""
    if sign in signs:
        return sign
    if unicodedata.category(sign) in ("Cf", "Mn", "Me"):
        return ""
    plain = "".join(part for part in unicodedata.normalize("NFKD", sign) if part in signs)
    return plain or MISSING

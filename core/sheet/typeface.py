"""The program's own type made ready for paper: the signs in use, as TrueType outlines.

The fonts in ``resources/fonts`` have cubic outlines keyed by name, which a PDF may embed only in
a way that the PDF library does not write; readers and printers are strict about it.  So the few
hundred signs a sheet uses are taken out and their outlines turned into quadratic ones, which
every reader takes.  Nothing but the outlines changes.
"""

import io
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

from core.resources import RESOURCES

if TYPE_CHECKING:  # only when a sheet is made
    from fontTools.ttLib import TTFont

Cut = Literal["Regular", "SemiBold"]
CUTS: tuple[Cut, Cut] = ("Regular", "SemiBold")

_ERROR_PER_EM = 1 / 1000
"""How far a quadratic outline may lie off the cubic one: a hundredth of a mm at 30 pt."""


@dataclass(frozen=True, slots=True)
class Typeface:
    """One cut for paper: the TrueType file, and each sign's width as a share of the size."""

    content: bytes
    widths: dict[str, float]


def path_of(cut: Cut) -> str:
    return str(RESOURCES / "fonts" / f"Pins-Text-{cut}.otf")


@lru_cache(maxsize=4)
def typeface(cut: Cut, signs: frozenset[str]) -> Typeface:
    """Return a cut with those of the ``signs`` that it has."""
    from fontTools import subset

    options = subset.Options(
        layout_features=[], hinting=False, notdef_outline=True, name_IDs=[1, 2, 3, 4, 6],
        drop_tables=["GPOS", "GSUB", "GDEF", "DSIG"],
    )  # fmt: skip
    font = subset.load_font(path_of(cut), options)
    widths = {chr(code): font["hmtx"][name][0] / font["head"].unitsPerEm
              for code, name in font.getBestCmap().items() if chr(code) in signs}  # fmt: skip
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=[ord(sign) for sign in widths])
    subsetter.subset(font)
    _to_quadratic(font)
    written = io.BytesIO()
    font.save(written)
    font.close()
    return Typeface(written.getvalue(), widths)


def _to_quadratic(font: "TTFont") -> None:
    """Replace a font's cubic outlines (CFF) by quadratic ones (glyf)."""
    from fontTools.pens.cu2quPen import Cu2QuPen
    from fontTools.pens.ttGlyphPen import TTGlyphPen
    from fontTools.ttLib import newTable

    order, cubic = font.getGlyphOrder(), font.getGlyphSet()
    error = font["head"].unitsPerEm * _ERROR_PER_EM
    glyphs = {}
    for name in order:
        pen = TTGlyphPen(None)
        cubic[name].draw(Cu2QuPen(pen, error, reverse_direction=True))
        glyphs[name] = pen.glyph()
    font["loca"], font["glyf"] = newTable("loca"), newTable("glyf")
    font["glyf"].glyphOrder, font["glyf"].glyphs = order, glyphs
    for name, glyph in glyphs.items():
        glyph.recalcBounds(font["glyf"])
        font["hmtx"][name] = (font["hmtx"][name][0], getattr(glyph, "xMin", 0))
    _as_true_type(font)


def _as_true_type(font: "TTFont") -> None:
    """Say in the font's own tables that it is TrueType now; sizes are counted when it is saved."""
    most = font["maxp"]
    most.tableVersion = 0x00010000
    for name in (
        "maxPoints", "maxContours", "maxCompositePoints", "maxCompositeContours",
        "maxTwilightPoints", "maxStorage", "maxFunctionDefs", "maxInstructionDefs",
        "maxStackElements", "maxSizeOfInstructions", "maxComponentElements", "maxComponentDepth",
    ):  # fmt: skip
        setattr(most, name, 0)
    most.maxZones = 1
    post = font["post"]
    post.formatType, post.extraNames, post.mapping = 2.0, [], {}
    post.glyphOrder = font.getGlyphOrder()
    del font["CFF "]
    if "VORG" in font:
        del font["VORG"]
    font.sfntVersion = "\x00\x01\x00\x00"

"""Pictures of the pieces of every kind and of the tape on the figure, to be looked at.

``python -m tests.draft_pictures OUTDIR`` writes a PNG for each kind and layer, one with pieces
that are unlike left and right, and sheets of the figure with the tape on it.
"""

import sys
from collections.abc import Sequence
from itertools import pairwise
from math import hypot
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from core.body.measurements import catalogue
from core.figure.figure import figure
from core.figure.tape_on_figure import tape_on_figure
from core.figure.tape_path import TAPE_MM
from core.file.fitting_file import read_document
from core.lengths import write_length
from core.outline.laid_out import GAP_MM, Laid, Table, lay_out_parts, lay_out_pieces
from core.outline.part_outline import part_outlines
from core.outline.piece_outline import PieceOutline, piece_outlines
from tests.real_drafts import worked_drafts

PAPER, SHEET, INK, SOFT, EDGE, CLOTH, WELL = (
    "#EFE9DD", "#FBF8F2", "#221E19", "#5B5347", "#847965", "#DCD2BF", "#E3DBCB",
)  # fmt: skip
FINE = 3
"""Drawn so many times larger and brought down, so that lines are smooth."""

FONTS = Path(__file__).resolve().parents[1] / "resources" / "fonts"


class Sheet:
    """A picture drawn large, with its own scale from millimetres."""

    def __init__(self, width, height, scale, ground=PAPER):
        self.scale = scale * FINE
        self.image = Image.new("RGB", (round(width * FINE), round(height * FINE)), ground)
        self.draw = ImageDraw.Draw(self.image)
        self.fonts = {}

    def at(self, points, right=0.0, down=0.0):
        """Return points in mm as points of the picture; ``right`` and ``down`` are in its own."""
        return [(x * self.scale + right * FINE, y * self.scale + down * FINE) for x, y in points]

    def line(self, points, colour, width, dash=None):
        points = _dashed(points, [one * FINE for one in dash]) if dash else [points]
        for part in points:
            self.draw.line(part, fill=colour, width=round(width * FINE), joint="curve")
            if width > 2 and not dash:
                self._caps(part, colour, width)

    def _caps(self, part, colour, width):
        for x, y in (part[0], part[-1]):
            r = width * FINE / 2
            self.draw.ellipse((x - r, y - r, x + r, y + r), fill=colour)

    def dot(self, point, radius):
        (x, y), r = point, radius * FINE
        self.draw.ellipse((x - r, y - r, x + r, y + r), fill=INK)

    def area(self, points, colour):
        self.draw.polygon(points, fill=colour)

    def text(self, point, words, size=15, anchor="mm", colour=INK, bold=False):
        key = size, bold
        if key not in self.fonts:
            name = "Pins-Text-SemiBold.otf" if bold else "Pins-Text-Regular.otf"
            self.fonts[key] = ImageFont.truetype(str(FONTS / name), size * FINE)
        self.draw.text(point, words, font=self.fonts[key], anchor=anchor, fill=colour)

    def save(self, path):
        size = self.image.width // FINE, self.image.height // FINE
        self.image.resize(size, Image.Resampling.LANCZOS).save(path)


def _dashed(points, pattern):
    """Return the drawn stretches of a broken line: lengths on and off, over and over."""
    parts, part, on, left, turn = [], [points[0]], True, pattern[0], 0
    for (x0, y0), (x1, y1) in pairwise(points):
        gone, whole = 0.0, hypot(x1 - x0, y1 - y0)
        while whole - gone > left:
            gone += left
            here = x0 + (x1 - x0) * gone / whole, y0 + (y1 - y0) * gone / whole
            if on:
                parts.append([*part, here])
            part, on, turn = [here], not on, turn + 1
            left = pattern[turn % len(pattern)]
        left -= whole - gone
        part.append((x1, y1))
    return [*parts, part] if on and len(part) > 1 else parts


def draw_table(table: Table, title: str, path: Path, unit: str = "in", tall: int = 760) -> None:
    """Draw outlines laid out, with their levels and numbers."""
    if not table.laid:
        return
    scale = min((tall - 150) / table.height, 1500 / table.width)
    wide = table.width * scale + 200
    sheet = Sheet(max(wide, 500), tall, scale)
    sheet.text((24 * FINE, 24 * FINE), title, 20, "lm", bold=True)
    for laid in table.laid:
        _draw(sheet, laid, unit)
    sheet.save(path)


def _draw(sheet: Sheet, laid: Laid, unit: str) -> None:
    outline = laid.outline
    right, down = laid.right * sheet.scale / FINE + 60, laid.down * sheet.scale / FINE + 70

    def place(points):
        return sheet.at(points, right, down)

    cut, stitch = place(outline.cut), place(outline.stitch)
    sheet.area(cut, SHEET)
    sheet.line([*cut, cut[0]], SOFT, 1.5)
    if isinstance(outline, PieceOutline):
        for level in outline.levels:
            sheet.line(place([level.start, level.end]), EDGE, 1)
        sheet.line([*stitch, stitch[0]], INK, 2)
        for dart in outline.darts:
            shape = place(dart.outline)
            sheet.line([*shape, shape[0]], INK, 1.5)
        if outline.fold:
            fold = place(outline.fold)
            sheet.line(fold, SHEET, 3)
            sheet.line(fold, INK, 2, (14, 5, 3, 5))
        _numbers(sheet, outline, place, unit)
        under = outline.cut_as + (f", her {outline.side}" if outline.side else "")
    else:
        sheet.line([*stitch, stitch[0]], INK, 2)
        under = f"cut {outline.count}  " + "  ".join(
            f"{name} {write_length(mm, unit)}" for name, mm in outline.lengths
        )
    grain = place(outline.grain)
    sheet.line(grain, EDGE, 1)
    left, _, far, low = outline.bounds
    _label(sheet, place([((left + far) / 2, low)])[0], outline.label, under, outline.note)


def _numbers(sheet, outline, place, unit):
    """Write each cut width beside its level, on the side of the seam."""
    outward = abs(outline.bounds[2]) >= abs(outline.bounds[0])
    for level in outline.levels:
        x, y = place([level.end if outward else level.start])[0]
        anchor, shift = ("lm", 6) if outward else ("rm", -6)
        said = write_length(level.width_mm, unit, fraction=32)
        sheet.text((x + shift * FINE, y), said, 14, anchor, bold=True)


def _label(sheet, point, label, under, note):
    x, y = point
    sheet.text((x, y + 14 * FINE), label, 15, bold=True)
    sheet.text((x, y + 32 * FINE), under, 12, colour=SOFT)
    for number, words in enumerate(_wrapped(note, 30)):
        sheet.text((x, y + (48 + 13 * number) * FINE), words, 11, colour=SOFT)


def _wrapped(text, width):
    lines, line = [], ""
    for word in text.split():
        if line and len(line) + len(word) >= width:
            lines, line = [*lines, line], word
        else:
            line = f"{line} {word}".strip()
    return [*lines, line] if line else lines


def draw_pieces(folder: Path) -> None:
    """Draw every layer of every worked draft, and the parts joined to it."""
    for kind, document in worked_drafts().items():
        _draw_garment(document, kind, folder)
    document = dict(worked_drafts()["sheath_dress"])
    garment = read_document(document).data["garments"][0]
    unlike = {**document, "garments": [_unlike(garment)]}
    _draw_garment(unlike, "unlike_sides", folder)


def _unlike(garment):
    import copy

    garment = copy.deepcopy(garment)
    front = garment["layers"][0]["rings"][0]["pieces"][0]
    front["width"]["hip"] = {"left": "12 1/2", "right": "11 7/8"}
    garment["layers"] = garment["layers"][:1]
    garment["levels"][1]["down"] = {"front": "18", "side": "17 1/2", "back": "17"}
    return garment


def _draw_garment(document, name, folder):
    file = read_document(document)
    garment, written = file.garments[0], document["garments"][0]
    for layer in garment.layers:
        title = f"{garment.name}: {layer.label}"
        outlines = piece_outlines(garment, written, layer.id, file.unit)
        tall = max(one.bounds[3] for one in outlines)
        pieces = lay_out_pieces(outlines, garment, gap_mm=max(GAP_MM, 120 * tall / 610))
        draw_table(pieces, title, folder / f"{name}_{layer.id}.png")
        parts = lay_out_parts(part_outlines(garment, written, layer.id, file.unit))
        draw_table(parts, f"{title}, parts", folder / f"{name}_{layer.id}_parts.png")


def draw_tapes(folder: Path, each: int = 12) -> None:
    """Draw the figure with the tape on it for every measurement, a sheet of so many at a time."""
    wanted = [(name, side) for name, entry in catalogue().items()
              for side in (("left", "right") if entry.both_sides else (None,))]  # fmt: skip
    for number in range(0, len(wanted), each):
        sheet = Sheet(6 * 250, 2 * 440, 0.2)
        for at, (name, side) in enumerate(wanted[number : number + each]):
            column, row = at % 6, at // 6
            _draw_tape(sheet, name, side, column * 250 + 125, row * 440 + 44)
        sheet.save(folder / f"tape_{number // each + 1}.png")


def draw_one_tape(folder: Path, name: str, side: str | None) -> None:
    """Draw one large, as the screen has it."""
    sheet = Sheet(400, 760, 0.4)
    _draw_tape(sheet, name, side, 200, 50)
    sheet.save(folder / f"tape_{name}{f'_{side}' if side else ''}.png")


def _draw_tape(sheet, name, side, right, down):
    tape = tape_on_figure(name, side)
    figure_here = figure(tape.view, tape.pose)

    def place(points):
        return sheet.at(points, right, down)

    for group in (figure_here.body, figure_here.over):
        for shape in group:
            points = place(shape)
            sheet.line([*points, points[0], points[1]], SOFT, 3)
        for shape in group:
            sheet.area(place(shape), CLOTH)
    for prop in figure_here.props:
        sheet.line(place(prop), EDGE, 2)
    for leader in tape.leaders:
        sheet.line(place(leader), INK, 1, (4, 3))
    for line in tape.far:
        sheet.line(place(line), INK, 2, (5, 4))
    wide = TAPE_MM * sheet.scale / FINE
    for line in tape.near:
        sheet.line(place(line), INK, wide + 3)
        sheet.line(place(line), SHEET, wide)
    for tick in tape.ticks:
        sheet.line(place(tick), INK, 1.2)
    for end in place(tape.ends):
        sheet.dot(end, wide * 0.75)
    label = catalogue()[name].label + (f", her {side}" if side else "")
    sheet.text((right * FINE, (down - 26) * FINE), label, 13, bold=True)


def main(arguments: Sequence[str]) -> None:
    folder = Path(arguments[0])
    folder.mkdir(parents=True, exist_ok=True)
    draw_pieces(folder)
    draw_tapes(folder)
    draw_one_tape(folder, "waist_girth", None)


if __name__ == "__main__":
    main(sys.argv[1:])

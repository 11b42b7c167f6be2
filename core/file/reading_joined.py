"""Read what a garment has besides its layers: openings, joined parts, lines and inserts."""

from core.file.field import Field
from core.file.reading_parts import maybe_mm, read_pair
from core.records.garment import Insert, Joined, Line, LineChange, Opening


def read_opening(source: Field, name: str) -> Opening:
    """Return what has to be opened first, and its minutes."""
    name = source["id"].word(name)
    label = source["label"].text(name.replace("_", " ").capitalize())
    return Opening(name, label, source["minutes"].number(0.0), source["fastening"].yes())


def read_joined(source: Field, name: str, first: str) -> Joined:
    """Return a joined part; ``first`` is the layer of one that names none."""
    name = source["id"].word(name)
    return Joined(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        layer=source["layer"].text(first),
        ring=source["ring"].text("body"),
        level=source["level"].text(),
        fullness=source["fullness"].number(1.0),
        turns=None if source["turns"].missing else _plain_number(source["turns"]),
        inner_radius=maybe_mm(source["inner_radius"]),
        depth=source["depth"].mm(),
        minutes=source["minutes"].number(0.0),
    )


def _plain_number(source: Field) -> float:
    """Return a bare number that may be typed as a fraction (half a turn)."""
    if not isinstance(source.value, str):
        return source.number(1.0)
    return Field(source.value, source.path, "mm").positive_mm()


def read_line(source: Field, name: str, first: str) -> Line:
    """Return a line such as the armhole, with what each seam does to it; lengths in mm."""
    name = source["id"].word(name)
    return Line(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        layer=source["layer"].text(first),
        sewn=None if source["sewn"].missing else read_pair(source["sewn"]),
        body=source["body"].text(),
        ease=maybe_mm(source["ease"]),
        changes=tuple(
            LineChange(entry["seam"].text(), entry["level"].text(), _factor(entry["factor"]))
            for entry in source["changes"].each()
        ),
    )


def _factor(source: Field) -> float:
    value = source.value
    if isinstance(value, (int, float)) and not isinstance(value, bool) and value < 0:
        return -Field(-value, source.path, source.unit).number(1.0)
    return source.number(1.0)


def read_insert(source: Field, name: str, first: str) -> Insert:
    """Return a godet or gusset set into a seam, from its level down."""
    name = source["id"].word(name)
    at = source["level"] if not source["level"].missing else source["from"]
    return Insert(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        layer=source["layer"].text(first),
        seam=source["seam"].text(),
        level=at.text(),
        allowance=maybe_mm(source["allowance"]),
    )

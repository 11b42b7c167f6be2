"""Joined parts, lines and inserts that name something the garment does not have.

They lose nothing and stop nothing, so the file is not refused for them: they are kept
as they came, nothing follows from them, and that is told.
"""

from core.records.garment import Garment, Insert, Joined, Line


def loose_ends(garment: Garment) -> list[str]:
    """Return a sentence for each part that hangs on nothing."""
    ends = [(part.label, _joined_to(garment, part)) for part in garment.joined]
    ends += [(line.label, _changed_by(garment, line)) for line in garment.lines]
    ends += [(insert.label, _set_in(garment, insert)) for insert in garment.inserts]
    return [
        f"{label}: there is no {missing} in this garment, so nothing follows for it."
        for label, missing in ends
        if missing
    ]


def _joined_to(garment: Garment, part: Joined) -> str:
    layer = garment.layer(part.layer)
    if layer is None:
        return f"layer “{part.layer}”"
    ring = next((ring for ring in layer.rings if ring.id == part.ring), None)
    if ring is None:
        return f"ring “{part.ring}”"
    return "" if part.level in ring.levels else f"level “{part.level}” of that ring"


def _changed_by(garment: Garment, line: Line) -> str:
    for change in line.changes:
        missing = _seam(garment, line.layer, change.seam, change.level)
        if missing:
            return missing
    return ""


def _set_in(garment: Garment, insert: Insert) -> str:
    return _seam(garment, insert.layer, insert.seam, insert.level)


def _seam(garment: Garment, layer_id: str, seam_id: str, level: str) -> str:
    layer = garment.layer(layer_id)
    if layer is None:
        return f"layer “{layer_id}”"
    found = [(ring, seam) for ring in layer.rings for seam in ring.seams if seam.id == seam_id]
    if not found:
        return f"seam “{seam_id}”"
    if any(level in ring.levels_of(seam) for ring, seam in found):
        return ""
    return f"level “{level}” of that seam"

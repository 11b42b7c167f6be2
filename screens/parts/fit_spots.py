"""Where the figure's seams, pins and pieces are on the screen, and which a finger has found."""

from dataclasses import dataclass
from typing import Any

from kivy.metrics import dp

from core.fit.faces import FACES, Face, LineOnHer
from core.fit.laid_flat import LaidFlat
from core.fit.on_her import OnHer
from core.fit.pinning import Where
from core.records.fitting import LoggedSide
from screens.parts.fit_zoom import Closer

REACH, HEAD, CLOSE, LEVEL = 44, 28, 14, 26
"""How near a seam answers, a pin answers, two seams are too close, a level is taken (dp)."""


@dataclass(frozen=True, slots=True)
class Touched:
    """What lies under a finger: a place on the garment, her side, and what it is called."""

    where: Where
    side: LoggedSide
    words: str


@dataclass(frozen=True, slots=True)
class PinOnHer:
    """A pin as it is drawn: its number, how it was read, and whether it is in hand."""

    number: int
    where: Where
    side: LoggedSide
    kind: str
    in_hand: bool = False


class FaceSeen:
    """Where millimetres of one face stand on the screen."""

    def __init__(self, face: Face, middle: float, foot: float, scale: float, bottom: float,
                 turn: float):
        self.face, self.scale = face, scale
        self._middle, self._foot, self._bottom = middle, foot, bottom
        self._turn = turn

    def at(self, point: tuple[float, float]) -> tuple[float, float]:
        x, y = point
        across = self._middle + self._turn * x * self.scale
        return across, self._foot + (self._bottom - y) * self.scale

    def flat(self, line: Any) -> list[float]:
        return [where for point in line for where in self.at(point)]

    def back(self, x: float, y: float) -> tuple[float, float]:
        """Return the place on her of a place on the screen."""
        across = (x - self._middle) / self.scale * self._turn
        return across, self._bottom - (y - self._foot) / self.scale


class Spots:
    """What a figure tells of its places; it has ``worn``, ``pins``, and its faces once placed."""

    worn: Any
    pins: Any
    _faces: dict[Face, FaceSeen]
    _closer: Closer
    _seen: tuple[float, float]

    def _in_sight(self, spot: tuple[float, float]) -> bool:
        """Tell whether a pin's head is seen: closer up some of them lie outside."""
        room, (low, high) = dp(15), self._seen
        inside = self.x + room <= spot[0] <= self.right - room
        return self._closer.is_whole or (inside and low + room <= spot[1] <= high - room)

    def _where(self, where: Where, side: LoggedSide) -> list[tuple[float, float]]:
        """Return where a pin is drawn: once on each of its sides, in front where it shows."""
        sides = ("left", "right") if side == "both" else (side,)
        found = []
        for one in sides:
            spot = next(filter(None, (self._on_face(where, one, face) for face in FACES)), None)
            if spot is not None and spot not in found:
                found.append(spot)
        return found

    def _on_face(self, where: Where, side: str, face: Face) -> tuple[float, float] | None:
        worn: OnHer | LaidFlat = self.worn
        y = worn.levels.get(where.level)
        if y is None:
            y = worn.y_of(where.down_mm or 0.0)
        if where.what == "piece":
            shown = worn.middle(where.place, side, y)
            if shown is None or shown[0] != face:
                return None
            return self._faces[face].at(shown[1])
        for line in worn.lines:
            own = (line.what, line.place, line.face) == (where.what, where.place, face)
            if own and line.side in (side, "both") and (x := line.x(y)) is not None:
                return self._faces[face].at((x, y))
        return None

    def where(self, what: Any, place: str, level: str, side: LoggedSide) -> Any:
        """Return where a place is in the widget's own window coordinates; nothing if unseen."""
        found = self._where(Where(what, place, level=level), side)
        return found[0] if found else None

    def spots_at(self, x: float, y: float) -> tuple[Touched, ...]:
        """Return the pin under a finger, else the nearest seam or dart, or two close ones."""
        face = self._face_at(x)
        her_x, her_y = face.back(x, y)
        near: list[tuple[float, LineOnHer]] = []
        for line in self.worn.lines:
            at = line.x(her_y) if line.face == face.face else None
            if at is not None and abs(at - her_x) * face.scale <= dp(REACH):
                near.append((abs(at - her_x) * face.scale, line))
        near.sort(key=lambda one: one[0])
        pin, away = self._pin_at(x, y)
        if pin is not None and (not near or away <= near[0][0] + 1 or _same(pin, near[0][1])):
            return (pin,)
        taken = {
            (line.what, line.place): line
            for away, line in reversed(near)
            if away <= near[0][0] + dp(CLOSE)
        }  # a seam that two pieces meet at is one
        lines = sorted(taken.values(), key=lambda line: [one for _, one in near].index(line))
        return tuple(self._touched(line, her_y, face) for line in lines[:2])

    def piece_at(self, x: float, y: float) -> Touched | None:
        """Return the piece under a finger, at its nearest level."""
        face = self._face_at(x)
        her_x, her_y = face.back(x, y)
        cut = self.worn.cut_at(face.face, her_x, her_y)
        if cut is None or not cut.levels:
            return None
        level = min(cut.levels, key=lambda name: abs(self.worn.levels[name] - her_y))
        return Touched(Where("piece", cut.place, cut.layer, level), cut.side, cut.label)

    def _face_at(self, x: float) -> FaceSeen:
        return self._faces["front" if x < self._closer.seen(self.center_x, 0)[0] else "back"]

    def _pin_at(self, x: float, y: float) -> tuple[Touched | None, float]:
        """Return the pin whose head is under a finger, and how far off it is across."""
        found = [
            (abs(at[0] - x), abs(at[1] - y), pin.number, pin)
            for pin in self.pins
            for at in self._where(pin.where, pin.side)
            if self._in_sight(at) and abs(at[0] - x) <= dp(HEAD) and abs(at[1] - y) <= dp(HEAD)
        ]
        if not found:
            return None, 0.0
        across, _, _, pin = min(found)
        return Touched(pin.where, pin.side, str(pin.number)), across

    def _touched(self, line: LineOnHer, her_y: float, face: FaceSeen) -> Touched:
        level = min(line.at, key=lambda name: abs(line.at[name][1] - her_y))
        is_near = abs(line.at[level][1] - her_y) * face.scale <= dp(LEVEL)
        if is_near or line.what == "dart":
            where = Where(line.what, line.place, line.layer, level)
        else:
            where = Where(line.what, line.place, line.layer, "", self.worn.down_of(her_y))
        return Touched(where, line.side, line.label)


def _same(pin: Touched, line: LineOnHer) -> bool:
    return (pin.where.what, pin.where.place) == (line.what, line.place)


__all__ = ["FaceSeen", "PinOnHer", "Spots", "Touched"]

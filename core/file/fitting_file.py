"""The fitting file: read, check, upgrade and write everything about one client.

The JSON text is the truth: records are read from it, unknown fields stay in it,
and a change is made to a copy of it.  So what was typed is kept and written back.
"""

import json
import math
import re
import zipfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from core.bundle.members import open_members
from core.bundle.names import CLIENT, LISTED, SEALED, kind_of, sorted_out
from core.errors import BadFile, NotFound
from core.file.checking import check_garment
from core.file.field import Field, check_unique
from core.file.reading import read_garment
from core.file.reading_fittings import read_values
from core.file.reading_parts import read_ease
from core.lengths import Unit
from core.records.fitting import Client, Fitting, Sitting
from core.records.garment import Garment
from core.whole_file import write_whole

FORMAT = "pins-to-seams"
NEWEST = 1
LARGEST_BYTES = 20_000_000
DEEPEST = 100
"""No fitting file nests nearly so deep; reading deeper would run out of room."""

_HALF_SIGN = re.compile("[\ud800-\udfff]")

UPGRADES: dict[int, Callable[[dict[str, Any]], dict[str, Any]]] = {}
"""One function per step: ``UPGRADES[n]`` turns format n into n + 1, in memory."""


@dataclass(frozen=True, slots=True)
class FittingFile:
    """One client's file: ``data`` is the JSON as it stands, the rest is read from it."""

    data: dict[str, Any]
    unit: Unit
    client: Client
    sittings: tuple[Sitting, ...]
    garments: tuple[Garment, ...]

    def garment(self, name: str | None = None) -> Garment:
        """Return a garment by id, the last one unless told."""
        if not self.garments:
            raise NotFound("There is no garment in this file yet.")
        if name is None:
            return self.garments[-1]
        for garment in self.garments:
            if garment.id == name:
                return garment
        raise NotFound(f"No garment in this file has the id “{name}”.")


def fitting_of(garment: Garment, name: str | None = None) -> Fitting | None:
    """Return a fitting by id, the last one unless told; ``None`` where there is none."""
    if name is None:
        return garment.fittings[-1] if garment.fittings else None
    for fitting in garment.fittings:
        if fitting.id == name:
            return fitting  # type: ignore[no-any-return]
    raise NotFound(f"No fitting of {garment.name} has the id “{name}”.")


def load(path: Path) -> FittingFile:
    """Read a fitting file or a bundle (``.zip`` holding ``client.json``).

    Raises ``BadFile`` with the field's path where it cannot be used.
    """
    return read_document(parse(_bytes_of(path), path.name))


def parse(content: bytes, name: str) -> dict[str, Any]:
    """Return the JSON object in ``content``; refuses what is not whole or not JSON."""
    try:
        data = json.loads(content.decode("utf-8-sig"), object_pairs_hook=_without_twins)
    except UnicodeDecodeError:
        raise BadFile(name, "is not text in UTF-8") from None
    except json.JSONDecodeError as wrong:
        raise BadFile(
            name, f"is not whole JSON: {wrong.msg.lower()} at line {wrong.lineno}"
        ) from None
    except (RecursionError, ValueError) as wrong:
        raise BadFile(name, f"cannot be read: {str(wrong) or 'nested too deep'}") from None
    if not isinstance(data, dict):
        raise BadFile(name, "must be one JSON object")
    return data


def read_document(data: dict[str, Any]) -> FittingFile:
    """Return the records of a JSON document, upgraded where it is older."""
    data = upgrade(data)
    _refuse_unwritable(data, "")
    unit = Field(data.get("unit"), "unit", "in").one_of("in", "cm", "mm")
    root = Field(data, "", "in" if unit == "in" else "cm" if unit == "cm" else "mm")
    client = _client(root["client"])
    garments = tuple(
        _checked(entry, number) for number, entry in enumerate(root["garments"].each(), 1)
    )
    check_unique(
        [
            (entry, garment.id)
            for entry, garment in zip(root["garments"].each(), garments, strict=True)
        ],
        "garments",
    )
    sittings = _sittings(root["measurements"], garments)
    return FittingFile(data, root.unit, client, sittings, garments)


def save(file: FittingFile, path: Path) -> None:
    """Write the file whole or not at all; unknown fields go back as they came."""
    write_whole(path, dump(file.data).encode("utf-8"))


def dump(data: dict[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False, allow_nan=False, indent=1) + "\n"


def upgrade(data: dict[str, Any]) -> dict[str, Any]:
    """Return the document in the newest format; refuses a newer one by name."""
    text = Field(data.get("format"), "format", "in").text(None)
    name, _, number = text.partition("/")
    known = number.isdecimal() and 1 <= len(number) <= 6 and int(number) > 0
    if name != FORMAT or not known:
        raise BadFile("format", f"“{text[:40]}” is not {FORMAT}/{NEWEST}")
    if int(number) > NEWEST:
        raise BadFile(
            "format", f"“{text}” is newer than this program, which reads up to {FORMAT}/{NEWEST}"
        )
    for step in range(int(number), NEWEST):
        data = UPGRADES[step](data)
    return data


def _sittings(source: Field, garments: Sequence[Garment]) -> tuple[Sitting, ...]:
    """Return every day she was measured: by itself, or at a fitting of any garment."""
    days = [Sitting(entry["on"].date(), read_values(entry["values"])) for entry in source.each()]
    days += [
        Sitting(fitting.on, fitting.measurements)
        for garment in garments
        for fitting in garment.fittings
        if fitting.measurements
    ]
    return tuple(days)


def _checked(source: Field, number: int) -> Garment:
    garment = read_garment(source, number)
    check_garment(garment, source)
    return garment


def _client(source: Field) -> Client:
    for key in ("id", "name"):
        if not source[key].text(None).strip():
            source[key].refuse("must not be empty")
    return Client(source["id"].text(), source["name"].text(), read_ease(source["ease"]))


def _bytes_of(path: Path) -> bytes:
    try:
        if path.stat().st_size > LARGEST_BYTES and path.suffix.lower() != ".zip":
            raise BadFile(path.name, "is larger than any client's file could be")
        if path.suffix.lower() == ".zip" or zipfile.is_zipfile(path):
            return _bundled(path)
        return path.read_bytes()
    except FileNotFoundError:
        raise BadFile(path.name, "there is no such file") from None
    except OSError as wrong:
        raise BadFile(path.name, f"cannot be read: {wrong.strerror or wrong}") from None


def _bundled(path: Path) -> bytes:
    """Return ``client.json`` of a bundle of one client; its photos are not looked at."""
    with open_members(path) as members:
        kind = kind_of(members.names)
        if kind == SEALED:
            raise BadFile(path.name, "is a sealed bundle, which only the app opens")
        if kind == LISTED:
            raise BadFile(path.name, "is a bundle of several clients, which only the app opens")
        names, _ = sorted_out(path.name, members.names, kind)
        if CLIENT not in names:
            raise BadFile(path.name, f"is a bundle without {CLIENT}")
        if members.size(CLIENT) > LARGEST_BYTES:
            raise BadFile(path.name, f"{CLIENT} is larger than any client's file could be")
        return members.read(CLIENT)


def _without_twins(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    data = dict(pairs)
    if len(data) != len(pairs):
        names = [name for name, _ in pairs]
        twin = next(name for name in names if names.count(name) > 1)
        raise ValueError(f"the field “{twin}” stands twice in one object")
    return data


def _refuse_unwritable(value: Any, path: str, depth: int = 0) -> None:
    """Refuse what could not be written back: no number, half a sign, nested without end."""
    if depth > DEEPEST:
        raise BadFile(path[:80], "is nested too deep")
    if isinstance(value, dict):
        for key, entry in value.items():
            _refuse_half_signs(key, path)
            _refuse_unwritable(entry, f"{path}.{key}" if path else key, depth + 1)
    elif isinstance(value, list):
        for index, entry in enumerate(value):
            _refuse_unwritable(entry, f"{path}[{index}]", depth + 1)
    elif isinstance(value, float) and not math.isfinite(value):
        raise BadFile(path, f"{value} is not a number")
    elif isinstance(value, str):
        _refuse_half_signs(value, path)


def _refuse_half_signs(text: str, path: str) -> None:
    if _HALF_SIGN.search(text):
        raise BadFile(path or "the file", "holds half of a sign, which is not text")

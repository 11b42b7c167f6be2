"""What a store says of itself: its format, the wrapped key, and when it was last backed up.

It stands in two files with the same content, because without the wrapped key in it a
sealed store could never be opened again.  Each says whether it is as it was written.
"""

import json
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any
from uuid import uuid4

from core.errors import Damaged
from core.store.generations import FORMAT, NEWEST, TooNew
from core.whole_file import write_whole

FILES = ("store.json", "store.copy.json")


@dataclass(frozen=True, slots=True)
class Stands:
    """``tablet`` is this store's own id; ``wrapped`` its key under the passcode, if it is sealed.

    ``backed_up`` is when everything was last backed up (ISO 8601, UTC) and ``fittings_then`` how
    many fittings there were.
    """

    tablet: str
    wrapped: Mapping[str, Any] | None = None
    backed_up: str = ""
    fittings_then: int = 0

    def written(self) -> dict[str, dict[str, Any]]:
        """Return the files that say it, by name."""
        content: dict[str, Any] = {
            "format": f"{FORMAT}/{NEWEST}",
            "tablet": self.tablet,
            "wrapped": None if self.wrapped is None else dict(self.wrapped),
            "backed_up": self.backed_up,
            "fittings_then": self.fittings_then,
        }
        content["crc32"] = _check(content)
        return dict.fromkeys(FILES, content)

    def with_wrapped(self, wrapped: Mapping[str, Any] | None) -> "Stands":
        return replace(self, wrapped=wrapped)

    def without_fittings(self, deleted: int) -> "Stands":
        """Count fewer fittings as backed up, where a client was deleted."""
        return replace(self, fittings_then=max(0, self.fittings_then - deleted))

    def with_backup(self, at: str, fittings: int) -> "Stands":
        return replace(self, backed_up=at, fittings_then=fittings)


def read_stands(root: Path) -> Stands | None:
    """Return what the store says of itself, from whichever file is good; ``None`` where new.

    Raises ``Damaged`` where both are spoilt, ``TooNew`` where a newer program wrote them.
    """
    spoilt: Exception | None = None
    for name in FILES:
        try:
            return _read((root / name).read_bytes())
        except FileNotFoundError:
            continue
        except (OSError, ValueError, KeyError, TypeError) as wrong:
            spoilt = wrong
    if spoilt is not None:
        raise Damaged(
            f"The files {FILES[0]} and {FILES[1]} cannot be read. Nothing was changed: keep the"
            " folder, and restore everything from a backup into a new one"
        ) from spoilt
    return None


def write_stands(root: Path, stands: Stands) -> None:
    for name, content in stands.written().items():
        write_whole(root / name, as_written(content))


def mend_stands(root: Path, stands: Stands) -> None:
    """Write those of the files again that do not say the same; raises ``OSError``."""
    for name, content in stands.written().items():
        if not _says(root / name, as_written(content)):
            write_whole(root / name, as_written(content))


def as_written(content: Mapping[str, Any]) -> bytes:
    return json.dumps(content, indent=1).encode()


def new_stands() -> Stands:
    return Stands(str(uuid4()))


def _read(content: bytes) -> Stands:
    data = json.loads(content)
    name, _, number = str(data["format"]).partition("/")
    if name != FORMAT or not number.isdecimal() or data.pop("crc32") != _check(data):
        raise ValueError("not a store's file, or not as it was written")
    if int(number) > NEWEST:
        raise TooNew(
            f"These clients were kept by a newer program (format {number}; this one reads up to"
            f" {NEWEST}). Nothing was changed: open them with the newer one"
        )
    wrapped = data["wrapped"]
    if wrapped is not None and not isinstance(wrapped, dict):
        raise ValueError("the key is not as it was written")
    return Stands(
        str(data["tablet"]), wrapped, str(data["backed_up"]), int(data["fittings_then"])
    )  # fmt: skip


def _says(path: Path, content: bytes) -> bool:
    try:
        return path.read_bytes() == content
    except OSError:
        return False


def _check(content: Mapping[str, Any]) -> str:
    """Return the CRC-32 of what a store says of itself; newer formats keep to it."""
    return f"{zlib.crc32(json.dumps(content, sort_keys=True).encode()):08x}"

"""What a store says of itself: its format, the wrapped key, and when it was last backed up.

It stands in two files with the same content, because without the wrapped key in it a
sealed store could never be opened again.
"""

import json
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
        content = {
            "format": f"{FORMAT}/{NEWEST}",
            "tablet": self.tablet,
            "wrapped": None if self.wrapped is None else dict(self.wrapped),
            "backed_up": self.backed_up,
            "fittings_then": self.fittings_then,
        }
        return dict.fromkeys(FILES, content)

    def with_wrapped(self, wrapped: Mapping[str, Any] | None) -> "Stands":
        return replace(self, wrapped=wrapped)

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
        write_whole(root / name, json.dumps(content, indent=1).encode())


def new_stands() -> Stands:
    return Stands(str(uuid4()))


def _read(content: bytes) -> Stands:
    data = json.loads(content)
    name, _, number = str(data["format"]).partition("/")
    if name != FORMAT or not number.isdecimal():
        raise ValueError("not a store's file")
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

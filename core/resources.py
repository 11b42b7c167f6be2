"""The data that comes with the program: catalogues and rules kept as JSON, not as code."""

import json
from functools import cache
from pathlib import Path
from typing import Any

RESOURCES = Path(__file__).resolve().parent.parent / "resources"


@cache
def read_resource(name: str) -> dict[str, Any]:
    """Return the contents of ``resources/name.json``, read once.

    Every caller shares what is returned: build frozen records from it and
    change nothing in it.  A missing or broken resource is a fault of the program,
    not of the person, so the plain ``OSError`` or ``ValueError`` or ``TypeError`` is left to rise.
    """
    found = json.loads((RESOURCES / f"{name}.json").read_text(encoding="utf-8"))
    if not isinstance(found, dict):
        raise TypeError(f"{name}.json does not hold a dictionary")
    return found

"""The demo client's days, moved so that her story is one of now."""

import re
from datetime import date
from typing import Any

TOLD_ON = date(2026, 3, 5)
"""The day her file is told on: fitted three days ago, her gown due in three weeks."""

_DAY = re.compile(r"\d{4}-\d\d-\d\d", re.ASCII)


def told_on(document: Any, today: date) -> Any:
    """Return a copy of a document with every day (ISO 8601) as far from ``today`` as from then."""
    passed = today - TOLD_ON
    if isinstance(document, dict):
        return {key: told_on(value, today) for key, value in document.items()}
    if isinstance(document, list):
        return [told_on(value, today) for value in document]
    if isinstance(document, str) and _DAY.fullmatch(document):
        return (date.fromisoformat(document) + passed).isoformat()
    return document

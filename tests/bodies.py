"""Real women for tests: measurements of 260 adults, by our own measurement ids, in mm.

From ``data/body_dimensions.csv`` (source in the README beside it).  What fits our names
and what only nearly does, said plainly:

- ``upper_chest_girth`` is the file's chest girth, taken just above the breast in women.
- ``bust_girth`` is that same number: the file has no girth at the bust points, and the
  true one is mostly larger.  Good enough for a body to dress in a test, no more.
- ``top_hip_girth`` is the file's abdomen girth, at the navel and the hip bone's crest.
- ``waist_girth`` is at the narrowest part, ``hip_girth`` at the level of the hip joints,
  not at the greatest seat.
- ``upper_arm_girth`` is of a flexed arm, ``wrist_girth`` and the leg girths the mean of
  right and left, so they are single numbers here.
- The file's shoulder girth is round the shoulder caps, arms down: it stands in for
  ``off_shoulder_girth``, which a maker tapes a little lower.
"""

import csv
from functools import cache
from pathlib import Path

COLUMNS = {
    "upper_chest_girth": "chest_girth_cm",
    "bust_girth": "chest_girth_cm",
    "waist_girth": "waist_girth_cm",
    "top_hip_girth": "abdomen_girth_cm",
    "hip_girth": "hip_girth_cm",
    "off_shoulder_girth": "shoulder_girth_cm",
    "thigh_girth": "thigh_girth_cm",
    "knee_girth": "knee_girth_cm",
    "calf_girth": "calf_girth_cm",
    "ankle_girth": "ankle_girth_cm",
    "upper_arm_girth": "flexed_upper_arm_girth_cm",
    "wrist_girth": "wrist_girth_cm",
    "height": "height_cm",
}
"""Measurement id to the column it is read from."""

WOMEN_IN_THE_FILE = 260


@cache
def women() -> tuple[dict[str, float], ...]:
    """Return the women of the file in its order, each a dict of measurement id to mm."""
    path = Path(__file__).parent / "data" / "body_dimensions.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["sex"] == "female"]
    return tuple(
        {name: float(row[column]) * 10 for name, column in COLUMNS.items()} for row in rows
    )

"""``plan FILE``: the alteration list without the touch screen."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from core.changes.options import WAYS
from core.changes.plan import make_plan
from core.errors import WorkroomError
from core.file.fitting_file import load
from core.said.printing import as_json, as_text
from core.wording import Words

UNUSABLE = 2
WAY_HELP = "how the tape's need is shared (default: as was chosen at the fitting)"


def main(arguments: Sequence[str]) -> int:
    """Print the plan of a fitting file; return 0, or 2 with one line on standard error."""
    asked = _parser().parse_args(arguments)
    try:
        file = load(Path(asked.file))
        plan = make_plan(
            file, asked.garment, asked.fitting, asked.lead, unit=asked.unit, way=asked.way
        )
        text = as_json(plan) if asked.json else as_text(plan, file, Words(asked.unit or file.unit))
    except WorkroomError as wrong:
        print(" ".join(str(wrong).split()), file=sys.stderr)
        return UNUSABLE
    sys.stdout.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    print(text.rstrip("\n"))
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="main.py plan",
        description="Print which seams to take in or let out, in sewing order.",
    )
    parser.add_argument("file", help="a fitting file (.json) or a bundle (.zip)")
    parser.add_argument("--garment", metavar="ID", help="which garment (default: the last)")
    parser.add_argument("--fitting", metavar="ID", help="which fitting (default: the last)")
    parser.add_argument("--lead", choices=("pins", "tape", "both"), help="who leads")
    parser.add_argument("--way", choices=WAYS, help=WAY_HELP)
    parser.add_argument("--unit", choices=("in", "cm", "mm"), help="unit of the printed lengths")
    parser.add_argument("--json", action="store_true", help="print JSON, all lengths in mm")
    return parser

"""``sheet FILE OUT.pdf``: the alteration list as a sheet to print, without the touch screen."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path, PurePosixPath

from core.bundle.members import open_members
from core.changes.options import WAYS
from core.changes.plan import make_plan
from core.command import WAY_HELP
from core.draft.handed_out import hand_out
from core.errors import WorkroomError
from core.file.fitting_file import load
from core.sheet.pictures import PhotoOf
from core.sheet.whole import sheet_pdf

UNUSABLE = 2
LARGEST_PHOTO = 60_000_000


def main(words: Sequence[str]) -> int:
    """Write the sheet of a fitting file or bundle; return 0, or 2 with one line."""
    asked = _parser().parse_args(words)
    try:
        path = Path(asked.file)
        file = load(path)
        unit = asked.unit or file.unit
        plan = make_plan(
            file, asked.garment, asked.fitting, asked.lead, unit=unit, way=asked.way
        )
        content = sheet_pdf(
            plan, file, paper=asked.paper, unit=unit, strips=asked.strips,
            photo_of=photos_beside(path),
        )  # fmt: skip
        hand_out(Path(asked.out), content)
    except WorkroomError as wrong:
        print(" ".join(str(wrong).split()), file=sys.stderr)
        return UNUSABLE
    return 0


def photos_beside(path: Path) -> PhotoOf:
    """Return where the photos of a fitting file are: in its bundle, or in its folder."""
    return _in_bundle(path) if path.suffix.lower() == ".zip" else _in_folder(path.parent)


def _in_bundle(path: Path) -> PhotoOf:
    def photo(name: str) -> bytes | None:
        with open_members(path) as members:
            return members.read(name) if name in members.names else None

    return photo


def _in_folder(folder: Path) -> PhotoOf:
    """Return the photos in a folder; a name that would lead out of it is not followed."""

    def photo(name: str) -> bytes | None:
        parts = PurePosixPath(name).parts
        if not parts or name.startswith("/") or ".." in parts or "\\" in name or ":" in name:
            return None
        try:
            found = folder.joinpath(*parts)
            inside = found.resolve().is_relative_to(folder.resolve())
            if not inside or not found.is_file() or found.stat().st_size > LARGEST_PHOTO:
                return None
            return found.read_bytes()
        except (OSError, ValueError):
            return None

    return photo


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="main.py sheet",
        description="Write the alteration list as a PDF to print, with drawings and tick boxes.",
    )
    parser.add_argument("file", help="a fitting file (.json) or a bundle (.zip)")
    parser.add_argument("out", metavar="OUT.pdf", help="the sheet to write")
    parser.add_argument("--paper", choices=("a4", "letter"), default="a4", help="(default: a4)")
    parser.add_argument(
        "--strips", action="store_true", help="add strips at full size to lay along the seams"
    )
    parser.add_argument("--garment", metavar="ID", help="which garment (default: the last)")
    parser.add_argument("--fitting", metavar="ID", help="which fitting (default: the last)")
    parser.add_argument("--lead", choices=("pins", "tape", "both"), help="who leads")
    parser.add_argument("--way", choices=WAYS, help=WAY_HELP)
    parser.add_argument("--unit", choices=("in", "cm", "mm"), help="unit of the printed lengths")
    return parser

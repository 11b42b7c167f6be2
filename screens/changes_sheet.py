"""The sheet of a plan to print: which paper, written aside, and what is said of it."""

from collections.abc import Callable
from pathlib import Path

from core.draft.handed_out import hand_out
from core.errors import WorkroomError
from core.file.fitting_file import FittingFile
from core.records.answer import Plan
from core.sheet.paper import PaperSize
from core.sheet.pictures import photos_of
from core.sheet.whole import sheet_pdf
from core.store.photos import read_photo
from screens.aside import Progress
from screens.asked import LEAVE, Answer, Asked
from screens.sending import free_name, name_for
from screens.workroom import Workroom

PAPERS: dict[str, tuple[PaperSize, bool]] = {
    "a4": ("a4", False),
    "letter": ("letter", False),
    "a4 strips": ("a4", True),
    "letter strips": ("letter", True),
}


def asked_of(garment: str) -> Asked:
    """Return the question on what the sheet is printed."""
    return Asked(
        title="On which paper?",
        words=f"The sheet of {garment}: the list with boxes to tick, the amounts, the drawings."
        " With strips it has a strip at full size for each seam, to lay along the old stitching.",
        answers=(Answer("A4", "a4", leads=True), Answer("Letter", "letter"),
                 Answer("A4, with strips", "a4 strips"),
                 Answer("Letter, with strips", "letter strips"), Answer("No sheet", LEAVE)),
    )  # fmt: skip


def write_sheet(
    room: Workroom, plan: Plan, file: FittingFile, folder: Path, paper: str, *, strips: bool,
    then: Callable[[str], None],
) -> None:  # fmt: skip
    """Have the sheet of a plan made aside and written into a folder under the next free name."""
    garment = file.garment(plan.garment)
    size: PaperSize = "letter" if paper == "letter" else "a4"
    photos = _photos(room, file, plan)
    path = (folder / name_for(f"{garment.name} {file.client.name}", room.now())).with_suffix(".pdf")

    def work(progress: Progress) -> str:
        content = sheet_pdf(plan, file, paper=size, strips=strips, photo_of=photos.get,
                            told=progress)  # fmt: skip
        free = free_name(path)
        hand_out(free, content)
        return f"Written: {free.name}, in {free.parent}."

    room.aside.run("Making the sheet", work, then, room.say)


def _photos(room: Workroom, file: FittingFile, plan: Plan) -> dict[str, bytes]:
    """Return the photos of the fitting: only the touch thread reads the store."""
    garment = file.garment(plan.garment)
    fitting = next((one for one in garment.fittings if one.id == plan.fitting), None)
    found: dict[str, bytes] = {}
    for photo in photos_of(file, garment, fitting):
        try:
            found[photo["file"]] = read_photo(room.store, file.client.id, photo["file"])
        except WorkroomError:
            continue  # the sheet names one that is not there
    return found

"""Photos at a fitting: taken or chosen without leaving it, marked with a finger, tied to pins."""

from pathlib import Path
from shutil import rmtree
from typing import Any

from core.errors import WorkroomError
from core.store.photos import read_photo, read_thumbnail
from screens import photo_edits
from screens.browsing import Entry, beginning, look_into
from screens.fitting_camera import can_take, take
from screens.fitting_logged import LogVerbs
from screens.fitting_look import NO_CONSENT
from screens.fitting_said import said
from screens.photo_edits import keep_photo
from screens.shown import Chosen as AtChanges

Part = dict[str, Any]


class NotAgreed(WorkroomError):
    """She has not agreed to photos."""


class PhotoVerbs(LogVerbs):
    """The verbs of the first look and of what is marked on a photo."""

    def thumbnail(self, file: str) -> bytes:
        return read_thumbnail(self.room.store, self.room.client_id, file)

    def whole_photo(self, file: str) -> bytes:
        return read_photo(self.room.store, self.room.client_id, file)

    @property
    def agreed(self) -> bool:
        return bool(self.room.document["client"].get("photo_consent"))

    def take_photo(self, view: str) -> None:
        """Take a photo of a view with the camera, or choose one where the device has none."""
        if not self.agreed:
            self.room.say(NotAgreed(NO_CONSENT))
        elif can_take():
            self.room.attempt(lambda: take(lambda path: self._keep_taken(path, view)))
        else:
            self.room.attempt(lambda: self._look(beginning(), view))

    def browse(self, entry: Entry) -> None:
        """Go into a folder, or take a file."""
        view = self.chosen.view
        if entry.is_folder:
            self.room.attempt(lambda: self._look(entry.path, view))
        else:
            self.choose(browsing=None, photo=len(self.bench.written.get("photos") or ()))
            self._keep(entry.path, view)

    def _look(self, folder: Path, view: str) -> None:
        title = f"Which photo shows her {view.removeprefix('her ')}?"
        self.choose(browsing=look_into(title, "photo", folder), view=view)

    def _keep(self, path: Path, view: str) -> None:
        at = self.bench.at
        here = AtChanges(garment=at.garment, fitting=at.fitting)
        keep_photo(self.room, self.room.seen(), path, view, here)

    def _keep_taken(self, path: Path, view: str) -> None:
        """Keep what the camera took; its own file goes once that is read, in turn."""
        self._keep(path, view)
        self.room.aside.run("Tidying up", lambda _: rmtree(path.parent, ignore_errors=True),
                            lambda _: None, self.room.say)  # fmt: skip

    def show_photo(self, at: int) -> None:
        """Show a photo large; touched again, all of them."""
        self.choose(photo=None if self.chosen.photo == at else at)

    def tie_to(self, pin: str) -> None:
        """Tie the marks that follow to a pin; to none where it is touched again."""
        index = int(pin)
        self.choose(pin=None if self.chosen.pin == index else index)

    def mark_photo(self, x: float, y: float) -> None:
        """Mark a place on the photo in sight: shares from its top left."""
        photo, pin = self.page.body.photo, self.chosen.pin  # type: ignore[attr-defined]
        if photo is None:
            return
        words = said(self.bench, pin).rpartition(", ")[0] if pin is not None else "look here"

        def edit(fitting: Part) -> None:
            photo_edits.mark(fitting, photo.index, x, y, words)
            if pin is not None and (name := fitting["pins"][pin].get("id")):
                fitting["photos"][photo.index]["marks"][-1]["pin"] = name

        self.log(edit)

    def remove_photo(self) -> None:
        photo = self.page.body.photo  # type: ignore[attr-defined]
        if photo is not None:
            self.log(lambda fitting: photo_edits.remove(fitting, photo.index), photo=None)

    def say_level(self, key: str) -> None:
        """Say whether the levels hang straight; the same again: not said."""
        straight = key == "yes"

        def edit(fitting: Part) -> None:
            if fitting.get("levels_straight") is straight:
                del fitting["levels_straight"]
            else:
                fitting["levels_straight"] = straight

        self.log(edit)

"""What comes to a client's page and goes from it: photos, her bundle, her table, all of her."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from core.client.edits import give_consent, withdraw_consent
from core.client.history_csv import history_csv
from core.draft.handed_out import hand_out
from core.errors import NotFound
from core.store.photos import read_photo, read_thumbnail
from screens import photo_edits
from screens.asked import LEAVE
from screens.browsing import Entry, beginning, look_into
from screens.client_days import DayVerbs
from screens.client_shown import PhotoShown
from screens.photo_edits import keep_photo, place_of
from screens.sending import free_name, name_for, refuse_unlike, send_client
from screens.shown import Chosen as AtFitting

TABLE = "table"
"""What is chosen a folder for besides her bundle: her measurements as a table."""

NO_FITTING = (
    "Photos are kept with a fitting, and she had none yet. Plan the first one at her garment"
)


class SendVerbs(DayVerbs):
    """Photos and files, and the answers to what is asked before."""

    # -- photos ---------------------------------------------------------------

    def thumbnail(self, file: str) -> bytes:
        return read_thumbnail(self.room.store, self.room.client_id, file)

    def whole_photo(self, file: str) -> bytes:
        return read_photo(self.room.store, self.room.client_id, file)

    def show_photo(self, at: int) -> None:
        self._open(panel="photo", photo=at)

    def turn_photo(self, by: int) -> None:
        at = min(max(self.chosen.photo + by, 0), len(self.photos) - 1)
        self.room.choose(replace(self.chosen, photo=at))

    def remove_photo(self) -> None:
        """Take the photo in sight out of its fitting; undo puts it back."""
        shown: PhotoShown = self.photo
        place = place_of(self._file, shown.garment, shown.fitting)
        self._close_and(
            lambda document: photo_edits.remove(place.fitting_in(document), shown.index)
        )

    def ask_consent(self) -> None:
        self._open(panel="ask", about="agreed" if self.card.consent else "consent")

    def add_photo(self) -> None:
        """Choose a photo for the last fitting; before the first one she is asked."""
        if not self._last_fitting():
            self.room.say(NotFound(NO_FITTING))
        elif not self.card.consent:
            self._open(panel="ask", about="consent to this photo")
        else:
            self._browse("photo", "Which photo?")

    # -- sending and deleting -------------------------------------------------

    def export(self) -> None:
        """Choose where a bundle of this client is to be written."""
        self._browse("folder", f"Where is the bundle of {self.who} to be written?")

    def ask_table(self) -> None:
        """Choose where her measurements are to be written as a table."""
        self._browse("folder", f"Where is the table of {self.who}’s measurements to be written?",
                     TABLE)  # fmt: skip

    def browse(self, entry: Entry) -> None:
        """Go into a folder, or take a file."""
        if entry.is_folder:
            now, about = self.chosen.browsing, self.chosen.about
            self.room.attempt(lambda: self._look(now.title, now.takes, entry.path, about))
        else:
            self._open(panel="ask", about="view", path=str(entry.path))

    def take_folder(self) -> None:
        folder = self.chosen.browsing.folder
        if self.chosen.about == TABLE:
            self.close()
            self.room.attempt(lambda: self._write_table(folder))
        elif self.room.store.seal is None:
            self._send(folder, readable=False, passcode=None)
        else:
            self._open(panel="ask", about="how to send", path=str(folder))

    def ask_delete(self) -> None:
        self._open(panel="ask", about="delete")

    # -- answers --------------------------------------------------------------

    def answer(self, key: str, secrets: tuple[str, ...] = ()) -> None:
        """Do what a key under the question says."""
        chosen = self.chosen
        if key == LEAVE:
            self.close()
        elif key == "really":
            self._open(panel="ask", about="really")
        elif key == "delete":
            self.room.delete_client(self.room.client_id)
        elif key == "today":
            today = self.room.now().date().isoformat()
            if (self._close_and(lambda document: give_consent(document, today))
                    and chosen.about == "consent to this photo"):  # fmt: skip
                self.add_photo()
        elif key == "another day":
            self.ask_day("consent")
        elif key == "withdraw":
            self._close_and(withdraw_consent)
        elif chosen.about == "how to send":
            self.room.attempt(lambda: self._answer_sending(key, secrets))
        elif chosen.about == "view":
            self._keep_photo(Path(chosen.path), key)

    def _answer_sending(self, key: str, secrets: tuple[str, ...]) -> None:
        folder = Path(self.chosen.path)
        if key == "readable":
            self._send(folder, readable=True, passcode=None)
        else:
            self._send(folder, readable=False, passcode=refuse_unlike(*secrets))

    def _send(self, folder: Path, *, readable: bool, passcode: str | None) -> None:
        client_id, sealed = self.room.client_id, self.room.store.seal is not None
        path = folder / name_for(self.who if not sealed or readable else "", self.room.now())
        self.close()
        self.room.work(
            f"Writing the bundle of {self.who}",
            lambda store, progress: send_client(
                store, path, client_id, readable=readable, passcode=passcode, progress=progress
            ),
            self._sent,
        )

    def _write_table(self, folder: Path) -> None:
        path = free_name(folder / name_for(self.who, self.room.now(), "csv"))
        hand_out(path, history_csv(self.room.document))
        self.said = f"Written: {path.name}, in {folder}. Anyone who has the file can read it."

    def _sent(self, words: str) -> None:
        self.said = words

    # -- how ------------------------------------------------------------------

    def _browse(self, takes: Any, title: str, about: str = "") -> None:
        self.room.attempt(lambda: self._look(title, takes, beginning(), about))

    def _look(self, title: str, takes: Any, folder: Path, about: str) -> None:
        self._open(panel="browse", about=about, browsing=look_into(title, takes, folder))

    def _last_fitting(self) -> AtFitting | None:
        rows = self.card.fittings if self.card is not None else ()
        return AtFitting(garment=rows[0].garment_id, fitting=rows[0].id) if rows else None

    def _keep_photo(self, path: Path, view: str) -> None:
        at = self._last_fitting()
        self.close()
        if at is not None:
            keep_photo(self.room, self.room.seen(), path, view, at)

"""The settings: chosen at a touch, and what is done with all clients at once."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from kivy.properties import ListProperty, NumericProperty, ObjectProperty, StringProperty

from core.bundle.refusals import NeedsPasscode
from core.file.fitting_file import FittingFile
from core.settings import with_length
from core.store.backups import back_up, restore
from core.store.bundles import AlreadyHere, BroughtIn, Sent, bring_in
from core.store.checks import Checked, check
from core.store.clients import Store
from core.store.passcode import change_passcode, remove_passcode, set_passcode
from screens.aside import Progress
from screens.asked import LEAVE, Asked
from screens.browsing import Browsing, Entry, beginning, look_into
from screens.sending import refuse_unlike
from screens.settings_asks import asked_of, brought_in_words, restored_words, sent_words
from screens.settings_shown import PARTS, Around, Line, length_after, lines_of
from screens.view import View


@dataclass(frozen=True, slots=True)
class OnSettings:
    """Which part is open (none: their list, where it is tall), and what stands in its place."""

    part: str = ""
    panel: str = ""
    about: str = ""
    path: str = ""
    names: tuple[str, ...] = ()
    passcode: bool = False
    browsing: Browsing | None = None


@dataclass(frozen=True, slots=True)
class PartRow:
    """A part of the settings in their list."""

    part: str
    label: str
    opened: bool


@dataclass(frozen=True, slots=True)
class Shown:
    """What the screen shows."""

    lines: tuple[Line, ...]
    asked: Asked | None


class SettingsView(View):
    """Everything that is chosen once; ``chosen`` is an ``OnSettings``, or nothing."""

    name = "settings"
    needs_client = False

    part = StringProperty()
    title = StringProperty("Settings")
    parts = ListProperty()
    lines = ListProperty()
    panel = StringProperty()
    asked = ObjectProperty(None, allownone=True)
    browsing = ObjectProperty(None, allownone=True)
    said = StringProperty()
    scroll = NumericProperty(1)

    _checked: Checked | None = None
    _secret: str | None = None

    # -- what is shown --------------------------------------------------------

    def work_out(self, file: FittingFile | None, chosen: OnSettings | None) -> Shown:
        now, store = chosen or OnSettings(), self.room.store
        around = Around(
            folder=store.root, clients=len(store.clients()), sealed=store.seal is not None,
            backed_up=store.stands.backed_up, checked=self._checked,
        )  # fmt: skip
        part = now.part or next(iter(PARTS))
        asked = asked_of(now.about, around, Path(now.path).name, now.names)
        return Shown(lines_of(part, self.room.settings, around), asked)

    def lay_out(self, shown: Shown, chosen: OnSettings | None) -> None:
        now = self.chosen = chosen or OnSettings()
        if now.part != self.part:
            self.said, self.scroll = "", 1
        self.part, self.title = now.part, PARTS.get(now.part, "Settings")
        self.parts = [PartRow(part, label, part == now.part) for part, label in PARTS.items()]
        self.lines, self.asked, self.browsing = shown.lines, shown.asked, now.browsing
        self.panel = now.panel

    def put_away(self) -> None:
        super().put_away()
        self.part = self.panel = self.said = ""
        self.lines, self.asked, self.browsing = (), None, None
        self._checked = self._secret = None

    def close(self) -> bool:
        """Close what stands in the place of a part, then the part, where their list is."""
        if self.chosen is None or self.chosen == OnSettings():
            return False
        if self.chosen.panel:
            self._open()
        else:
            self.room.choose(OnSettings())
        return True

    def open_part(self, part: str) -> None:
        self.room.choose(OnSettings(part=part))

    def _open(self, **what: Any) -> None:
        self.room.choose(replace(OnSettings(part=self.chosen.part), **what))

    # -- what is chosen -------------------------------------------------------

    def choose(self, name: str, key: str) -> None:
        """Choose one of a few; it counts at once."""
        if name == "step":
            self._set_length("step", key)
            return
        chosen: Any = key
        if name in ("left_handed", "sixteenths"):
            chosen = key == "yes"
        elif name == "remind_after":
            chosen = int(key)
        self.room.set(**{name: chosen})
        self.room.refresh()

    def step_length(self, what: str, steps: int) -> None:
        """Make a length more or less by a step."""
        self._set_length(what, length_after(self.room.settings, what, steps))

    def usual_length(self, what: str) -> None:
        """Go back to the usual length."""
        self._set_length(what, "")

    def _set_length(self, what: str, typed: str) -> None:
        def set_it() -> None:
            changed = with_length(self.room.settings, what, typed)
            self.room.set(defaults=changed.defaults)

        self.room.attempt(set_it)
        self.room.refresh()

    # -- what is done ---------------------------------------------------------

    def do(self, verb: str) -> None:
        """Do what a key says, or ask what it needs first."""
        if verb in ("set passcode", "change passcode", "remove passcode"):
            self._open(panel="ask", about=verb)
        elif verb == "back up":
            self._browse("folder", "Where is the backup to be written?")
        elif verb == "restore":
            self._browse("bundle", "Which backup is to be put back?")
        elif verb == "bring in":
            self._browse("bundle", "Which file is to be brought in?")
        elif verb == "check":
            self.room.work("Checking everything", check, self._was_checked)

    def browse(self, entry: Entry) -> None:
        """Go into a folder, or take a file."""
        now = self.chosen
        if entry.is_folder:
            self.room.attempt(
                lambda: self._look(now.browsing.title, now.browsing.takes, entry.path)
            )
        elif now.part == "backup":
            self._open(panel="ask", about="restore", path=str(entry.path))
        else:
            self._bring_in(entry.path, None, "ask")

    def take_folder(self) -> None:
        folder = self.chosen.browsing.folder
        self._open()
        self.room.work(
            "Backing up everything",
            lambda store, progress: back_up(store, folder, progress=progress),
            self._was_sent,
        )

    def answer(self, key: str, secrets: tuple[str, ...] = ()) -> None:
        """Do what a key under the question says."""
        if key == LEAVE:
            self.close()
        else:
            self.room.attempt(lambda: self._answer(key, secrets))

    # -- how ------------------------------------------------------------------

    def _answer(self, key: str, secrets: tuple[str, ...]) -> None:
        path = Path(self.chosen.path)
        if key == "restore":
            self._restore(path, secrets[0] or None)
        elif key == "open":
            self._bring_in(path, secrets[0], "ask")
        elif key in ("replace", "keep both"):
            self._bring_in(path, self._secret, key)
        else:
            self._seal(key, secrets)

    def _seal(self, key: str, secrets: tuple[str, ...]) -> None:
        if key == "set passcode":
            new = refuse_unlike(*secrets)
            self._work("Sealing everything", lambda store, told: set_passcode(store, new, told),
                       "Your clients are sealed.")  # fmt: skip
        elif key == "change passcode":
            now, new = secrets[0], refuse_unlike(*secrets[1:])
            self._work("Changing the passcode", lambda store, _: change_passcode(store, now, new),
                       "The passcode is another one now.")  # fmt: skip
        elif key == "remove passcode":
            now = secrets[0]
            self._work("Taking the seal off", lambda store, told: remove_passcode(store, now, told),
                       "Your clients are not sealed any more.")  # fmt: skip

    def _work(self, words: str, work: Callable[[Store, Progress], Any], said: str) -> None:
        self._open()
        self.room.work(words, work, lambda _: self._say(said))

    def _restore(self, path: Path, passcode: str | None) -> None:
        def put_back(store: Store, progress: Progress) -> BroughtIn:
            return restore(store, path, passcode, replace=True, progress=progress)

        self._open()
        self.room.work("Putting everything back", put_back, self._was_restored, replaces=True)

    def _bring_in(self, path: Path, passcode: str | None, when_here: Any) -> None:
        def bring(store: Store, progress: Progress) -> Any:
            try:
                return bring_in(store, path, passcode, when_here=when_here, progress=progress)
            except (AlreadyHere, NeedsPasscode) as question:
                return question

        self._secret = passcode
        self._open(path=str(path))
        # a client who is replaced must not come back by an older change of hers taken back
        self.room.work("Bringing in", bring, self._was_brought_in, replaces=when_here == "replace")

    def _was_brought_in(self, result: BroughtIn | AlreadyHere | NeedsPasscode) -> None:
        if isinstance(result, AlreadyHere):
            self._open(panel="ask", about="already here", path=self.chosen.path,
                       names=result.names)  # fmt: skip
        elif isinstance(result, NeedsPasscode):
            self._open(panel="ask", about="open", path=self.chosen.path)
        else:
            self._secret = None
            if self.room.here != self.name:
                self.room.go(self.name, OnSettings(part="bring in"))
            self._say(brought_in_words(result))

    def _was_restored(self, brought: BroughtIn) -> None:
        self.room.go("settings", OnSettings(part="backup"))
        self._say(restored_words(brought))

    def _was_sent(self, sent: Sent) -> None:
        self.room.refresh()
        self._say(sent_words(sent))

    def _was_checked(self, checked: Checked) -> None:
        self._checked = checked
        self.room.refresh()

    def _say(self, words: str) -> None:
        self.said = words

    def _browse(self, takes: Any, title: str) -> None:
        self.room.attempt(lambda: self._look(title, takes, beginning()))

    def _look(self, title: str, takes: Any, folder: Path) -> None:
        self._open(panel="browse", browsing=look_into(title, takes, folder))

"""What every screen shares: the open client, which screen is shown, and the door for changes."""

import time
from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING, Any

from kivy.event import EventDispatcher
from kivy.properties import BooleanProperty, ObjectProperty, StringProperty

from core.errors import Damaged, NotFound, WorkroomError
from core.settings import Settings, write_settings
from core.store.clients import Store
from screens.aside import Aside, Progress
from screens.door import Document, Door, Keep, read_client
from screens.sentence import sentence
from screens.view import Seen, View

if TYPE_CHECKING:
    from core.file.fitting_file import FittingFile

FIRST = "day book"
"""The screen that is shown when the app opens, and where every way back ends."""


class Workroom(EventDispatcher):
    """One client open at a time, one screen shown at a time, one door for changes.

    ``views`` fills as screens are first shown: ``ways`` makes the view of a name.
    ``wall`` is the clock on the wall, in seconds.
    """

    here = StringProperty("")
    client_id = StringProperty("")
    client_name = StringProperty("")
    trouble = StringProperty("")
    can_undo = BooleanProperty(False)
    can_redo = BooleanProperty(False)
    settings = ObjectProperty(Settings(), rebind=True)

    def __init__(
        self,
        aside: Aside,
        ways: Mapping[str, Callable[["Workroom"], View]] | None = None,
        wall: Callable[[], float] = time.time,
        **kwargs: Any,
    ) -> None:
        super().__init__(**kwargs)
        self.aside = aside
        self.views: dict[str, View] = {}
        self._ways = ways or {}
        self._wall = wall
        self._door: Door | None = None
        self._document: Document = {}
        self._file: FittingFile | None = None
        self._trail: list[Seen] = []
        self._told = 0
        self.way_in: Any = None

    # -- who, where and when --------------------------------------------------

    @property
    def door(self) -> Door:
        if self._door is None:
            raise NotFound("The clients are not open")
        return self._door

    @property
    def store(self) -> Store:
        return self.door.store

    @property
    def document(self) -> Document:
        """The open client's document as it is kept: never to be changed in place."""
        if not self._document:
            raise NotFound("There is no client on the table")
        return self._document

    @property
    def view(self) -> View:
        return self.views[self.here]

    def view_of(self, name: str) -> View:
        """Return a screen's state, made when it is first asked for."""
        if name not in self.views:
            self._ways[name](self)
        return self.views[name]

    def now(self) -> datetime:
        """Return the day and time of the workroom, without a time zone."""
        return datetime.fromtimestamp(self._wall())

    def seen(self) -> Seen:
        """Return where she is, to come back to."""
        chosen = self.views[self.here].chosen if self.here else None
        return Seen(self.here, chosen, self.client_id)

    def take_store(self, store: Store) -> None:
        """Begin with the clients of a store, at the first screen; at first there is the demo."""
        self._door = Door(store)
        self.attempt(self._begin)

    def go_on_with(self, store: Store) -> None:
        """Go on where she was, with the same clients in a store that was opened anew."""
        self.door.store = store
        self.refresh()

    def put_away(self) -> None:
        """Hold nothing of any client any more, neither shown nor to be taken back."""
        self._door = None
        self._trail.clear()
        self._close()
        self.here, self.trouble = "", ""
        for view in self.views.values():
            view.put_away()
        self.can_undo = self.can_redo = False

    def open_client(self, client_id: str, screen: str = "client", chosen: Any = None) -> bool:
        """Open a client on a screen; something lost of hers is told there."""
        return self.settle() and self.attempt(
            lambda: self._open_at(Seen(screen, chosen, client_id))
        )

    def go(self, screen: str, chosen: Any = None) -> bool:
        """Go on to another screen; the way back leads here."""
        return self.settle() and self.attempt(
            lambda: self._go(Seen(screen, chosen, self.client_id))
        )

    def beside(self, screen: str, chosen: Any = None) -> bool:
        """Show another side of the same work; the way back leads where it led before."""
        return self.settle() and self.attempt(
            lambda: self._turn(Seen(screen, chosen, self.client_id))
        )

    def back(self) -> bool:
        """Go back the way she came, in the end to the first screen; tell whether there was one.

        What lies open over a screen is closed first.
        """
        if not self.here:
            return False
        if self.view.close():
            return True
        if self.here == FIRST and not self._trail:
            return False
        to = self._trail.pop() if self._trail else Seen(FIRST)
        self.attempt(lambda: self._turn(to))
        return True

    def settle(self) -> bool:
        """Keep what is half said on the screen that is shown; tell whether it was kept."""
        return self.view.settle() if self.here else True

    def choose(self, chosen: Any) -> bool:
        """Show the same screen with something else chosen on it."""
        return self.attempt(lambda: self._turn(Seen(self.here, chosen, self.client_id)))

    def refresh(self) -> None:
        """Show the same again: the day may have turned, or a setting."""
        if self.here:
            self.attempt(lambda: self._turn(self.seen()), clears=False)

    # -- the one door ---------------------------------------------------------

    def change(self, edit: Callable[[Document], None], chosen: Any = None) -> bool:
        """Change the open client; ``chosen`` is what is chosen after, if it is something else.

        Returns whether it was kept; where it was not, the words for it are shown.
        """
        return self.attempt(lambda: self._change(edit, chosen))

    def change_late(self, seen: Seen, edit: Callable[[Document], None]) -> bool:
        """Change the client of a place seen before, whoever is open by now.

        Taking it back leads to that place.
        """
        return self.attempt(lambda: self._change_late(seen, edit), clears=False)

    def add_client(self, document: Document, screen: str, chosen: Any = None) -> bool:
        """Keep a new client's document and open it on a screen."""
        return self.attempt(lambda: self._add(document, Seen(screen, chosen)))

    def undo(self) -> None:
        """Take back the last change, whoever's it was, and show where it was made."""
        self.attempt(lambda: self.door.undo(self._show_where))

    def redo(self) -> None:
        """Do again what was taken back last."""
        self.attempt(lambda: self.door.redo(self._show_where))

    def delete_client(self, client_id: str) -> bool:
        """Delete a client for good: this is not taken back."""
        return self.attempt(lambda: self._delete(client_id))

    def work(
        self,
        words: str,
        work: Callable[[Store, Progress], Any],
        then: Callable[[Any], None],
        *,
        replaces: bool = False,
    ) -> None:
        """Do something with all clients aside (see ``Entry.work``)."""
        self.way_in.work(words, work, then, replaces=replaces)

    def set(self, **chosen: Any) -> bool:
        """Choose some of the settings: they count at once, and are kept beside the clients."""
        self.settings = replace(self.settings, **chosen)
        return self.attempt(lambda: write_settings(self.store.root, self.settings))

    def attempt(self, act: Callable[[], None], *, clears: bool = True) -> bool:
        """Do it, or say in words why it could not be done; nobody else catches.

        What comes in late ``clears`` no words: they may be about something else.
        """
        told, done = self._told, True
        try:
            act()
        except WorkroomError as error:
            self.say(error)
            done = False
        if clears and self._told == told:
            self.trouble = ""
        self.can_undo = self._door is not None and self._door.can_undo
        self.can_redo = self._door is not None and self._door.can_redo
        return done

    def say(self, error: WorkroomError) -> None:
        self._told += 1
        self.trouble = sentence(error)

    # -- how ------------------------------------------------------------------

    def _begin(self) -> None:
        if self.store.first_start:
            self.store.put_in_demo(self.now().date())
        self._turn(Seen(FIRST))

    def _go(self, to: Seen) -> None:
        came_from = self.seen()
        self._turn(to)
        self._came(came_from, to)

    def _came(self, came_from: Seen, to: Seen) -> None:
        """Remember the way back; to the same screen of the same client there is none."""
        same = (came_from.screen, came_from.client_id) == (to.screen, to.client_id)
        if came_from.screen and not same:
            self._trail.append(came_from)

    def _turn(self, to: Seen) -> None:
        """Show a screen, with its client open where it needs one."""
        view = self.view_of(to.screen)
        if not view.needs_client:
            self._lay_out(view, view.work_out(None, to.chosen), to)
        elif to.client_id and to.client_id != self.client_id:
            self._show(self.store.read(to.client_id), to)
        else:
            self._show(self.document, to)

    def _open_at(self, to: Seen) -> None:
        came_from = self.seen()
        self._show(self.store.read(to.client_id), to)
        self._came(came_from, to)
        if lost := self.store.recovered(to.client_id):
            raise Damaged(lost)

    def _show(self, document: Document, seen: Seen, keep: Keep | None = None) -> None:
        """Read and work out everything first: what cannot be shown is never saved."""
        file = read_client(document)
        view = self.view_of(seen.screen)
        shown = view.work_out(file, seen.chosen)
        self._document = file.data if keep is None else keep(file.data)
        self._file = file
        self.client_id, self.client_name = file.client.id, file.client.name
        self._lay_out(view, shown, seen)

    def _lay_out(self, view: View, shown: Any, seen: Seen) -> None:
        view.chosen = seen.chosen
        view.lay_out(shown, seen.chosen)
        self.here = seen.screen

    def _show_where(self, document: Document, seen: Seen, keep: Keep) -> None:
        """Show a change that is taken back where it was made; the way back leads here."""
        came_from = self.seen()
        self._show(document, seen, keep)
        self._came(came_from, seen)

    def _change(
        self, edit: Callable[[Document], None], chosen: Any, at: Seen | None = None
    ) -> None:  # fmt: skip
        before, after, seen = self.document, deepcopy(self.document), self.seen()
        edit(after)
        now = seen if chosen is None else Seen(seen.screen, chosen, seen.client_id)
        if after != before:
            self._show(after, now, lambda whole: self.door.keep(before, whole, at or seen))
        elif now != seen:
            self._turn(now)

    def _change_late(self, seen: Seen, edit: Callable[[Document], None]) -> None:
        if seen.client_id == self.client_id:
            self._change(edit, None, seen)
        else:
            self.door.change_unseen(seen.client_id, edit, seen)

    def _add(self, document: Document, to: Seen) -> None:
        file = read_client(document)
        self.store.save(file.data)
        self._go(Seen(to.screen, to.chosen, file.client.id))

    def _delete(self, client_id: str) -> None:
        self.door.delete(client_id)
        self._trail = [seen for seen in self._trail if seen.client_id != client_id]
        if client_id == self.client_id:
            self._close()
        if self.view.needs_client and not self.client_id:
            self._trail.clear()
            self._turn(Seen(FIRST))
        else:
            self._turn(self.seen())

    def _close(self) -> None:
        self._document, self._file = {}, None
        self.client_id = self.client_name = ""

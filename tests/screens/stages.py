"""Every screen of the app at its fullest, to be looked at by the tests and in pictures."""

import copy
from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from PIL import Image

from core.settings import Settings, write_settings
from core.store.clients import Store
from core.store.photos import add_photo
from tests.screens import fitting_pictures, folders, sewing_pictures
from tests.screens.folders import DEMO, DEMO_ID, another

NOW = datetime(2026, 3, 5, 10, 5)
"""When everything is looked at: a Thursday morning."""

LONG = (
    "This could not be saved (no room is left on the device). Everything up to the touch before it"
    " is safe: make room, and touch it again"
)
_NAMES = ("Odalys Brandreth-Kim", "Perpetua Lindqvane", "Rosalba Thackwell", "Tamsin Verrault",
          "Winnifer Oduya-Strand", "Yevgenia Pellworth")  # fmt: skip
_GARMENTS = ("Ivory silk gown", "Grey flannel skirt", "Plum satin bodice with sleeves",
             "Moss linen trousers", "Slate wool skirt", "Cream sheath")  # fmt: skip

Act = Callable[[Any], None]


@dataclass(frozen=True)
class Stage:
    """How a folder is left for a screen, how it is reached, and what it is called by the app."""

    screen: str
    show: Act = lambda hand: None
    leave: Callable[[Path, ExitStack], None] = lambda folder, _: people(folder)


def begin(stage, launch, folder, size, held, **chosen):
    """Open the app at a stage and return the hand that holds it."""
    from screens.app import PinsToSeamsApp

    stage.leave(folder, held)
    write_settings(folder, Settings(**chosen))
    hand = launch(PinsToSeamsApp(folder, NOW.timestamp), size)
    stage.show(hand)
    hand.settle()
    assert hand.app.root.current == stage.screen
    return hand


def say_everything(hand):
    """Say at once whatever a screen can have to say."""
    hand.app.room.trouble = LONG
    hand.app.aside.words = "Reading the photo: 3 of 10"
    if hand.app.entry.stands != "open":
        hand.app.entry.words = LONG
    hand.settle()


def people(folder):
    """The demo client with a photo and wishes, and others with all there is for the day book."""
    documents = [_demo()]
    for number, (name, garment) in enumerate(zip(_NAMES, _GARMENTS, strict=True), 1):
        document = another(number, name)
        made = document["garments"][0]
        made |= {"name": garment, "due": f"2026-03-{2 * number + 1:02}"}
        if number % 2:
            made["fittings"] = []
        else:
            made["next_fitting"] = f"2026-03-{4 + number // 2:02}T{10 + number}:00"
        documents.append(document)
    folders.fill(folder, *documents)
    _add_photo(folder)


def _demo():
    document = copy.deepcopy(DEMO)
    document["client"] |= {"photo_consent": "2026-03-02", "ease": {"bust": "1 1/2", "hip": "4%"}}
    document["garments"][0] |= {"next_fitting": "2026-03-05T10:30", "due": "2026-03-20"}
    return document


def _add_photo(folder):
    from core.photos import read_photo

    path = folder / "taken.png"
    Image.linear_gradient("L").resize((600, 800)).convert("RGB").save(path)
    with Store(folder) as store:
        name = add_photo(store, DEMO_ID, read_photo(path))
        document = store.read(DEMO_ID)
        marks = [{"x": 0.4, "y": 0.3, "text": "drags here"}, {"x": 0.6, "y": 0.7, "text": "flat"}]
        fitting = document["garments"][0]["fittings"][0]
        fitting["photos"] = [{"file": name, "view": "back", "marks": marks}]
        store.save(document)
    path.unlink()


def her(act=lambda view: None, screen="client", chosen=None) -> Act:
    """Open the demo client on a screen, and do something there."""

    def show(hand):
        hand.app.room.open_client(DEMO_ID, screen, chosen)
        hand.frames(3)
        act(hand.app.room.view)

    return show


def settings(part, verb="") -> Act:
    def show(hand):
        hand.app.room.go("settings")
        if part:
            hand.app.room.view.open_part(part)
        if verb:
            hand.app.room.view.do(verb)

    return show


def _ask_to_send(view):
    view._open(panel="ask", about="how to send", path="/tmp")


def _arrange(view):
    view.arrange()


def _plan_day(view):
    view.ask_day("next fitting", view.garments[0].line.id)


def changes(hand):
    """The changes with every sum open."""
    from screens.parts.levels import LevelLine
    from screens.parts.pins import PinLine
    from screens.parts.steps import StepLine

    her(screen="changes")(hand)
    hand.settle()
    for line in hand.all(LevelLine) + hand.all(StepLine):
        line.opened = bool(line.row.sum)
    hand.settle()
    hand.tap(hand.all(PinLine)[4])
    assert hand.app.room.view.pin.index == 4
    hand.ids.cautions.opened = True


def fitted(folder, _):
    """A first fitting as the demo has it, and a second one with all there is, photos too."""
    full = copy.deepcopy(fitting_pictures.FULL)
    fitting_pictures.put_photos(folder, fitting_pictures.client(full, heel_of_the_day="3"))


def fitting(moment, **chosen) -> Stage:
    """A moment of a fitting with all there is in it."""

    def show(hand):
        from screens.fitting_page import Chosen

        her(screen="fitting", chosen=Chosen(moment=moment, **chosen))(hand)
        assert hand.app.room.view.page.moment == moment

    return Stage("fitting", show, fitted)


def pieces(hand):
    """The changes with the pieces in the place of the list, the tape leading with the pins."""
    her(screen="changes")(hand)
    hand.app.room.view.choose_lead("both")
    hand.app.room.view.show_pieces()
    hand.settle()
    assert hand.app.room.view.drawn


def ways(hand):
    """The changes with the ways of the tape, the chosen one not the usual."""
    her(screen="changes")(hand)
    hand.app.room.view.choose_lead("tape")
    hand.settle()
    hand.app.room.view.choose_way(hand.app.room.view.ways[-1].way)
    hand.settle()
    assert hand.app.room.view.ways


def sewing(step, *verbs) -> Stage:
    """A step of the list, and what is done there."""

    def show(hand):
        her(screen="sewing")(hand)
        hand.app.room.view.can_speak = True
        sewing_pictures.go(step)(hand)
        sewing_pictures.do(*verbs)(hand)

    return Stage("sewing", show)


def _passcode(hand):
    hand.tap(hand.ids.show)
    hand.ids.field.text = "a passcode that is longer than any field it is typed into" * 3


def _in_use(folder, held):
    held.enter_context(folders.in_use(folder))


def _working(hand):
    hand.app.aside.words = "Sealing everything: 3 of 10"
    hand.app.entry.words = "Sealing everything"
    hand.app.entry.stands = "working"


STAGES = {
    "day book": Stage("day book"),
    "new client": Stage("day book", lambda hand: hand.app.room.view.begin_client()),
    "no client": Stage("day book", leave=lambda folder, _: folders.empty(folder)),
    "client": Stage("client", her(lambda view: view.plan(view.garments[0].line.id))),
    "day": Stage("client", her(_plan_day)),
    "photo": Stage("client", her(lambda view: view.show_photo(0))),
    "ease": Stage("client", her(lambda view: view.open_ease("hip"))),
    "name": Stage("client", her(lambda view: view.open_name())),
    "delete": Stage("client", her(lambda view: view.ask_delete())),
    "how to send": Stage("client", her(_ask_to_send)),
    "browse": Stage("client", her(lambda view: view.export())),
    "tape": Stage("tape", her(screen="tape")),
    "order": Stage("tape", her(_arrange, screen="tape")),
    "draft": Stage("draft", her(screen="draft", chosen=DEMO["garments"][0]["id"])),
    "begin a draft": Stage("draft", her(screen="draft")),
    "changes": Stage("changes", changes),
    "changes pieces": Stage("changes", pieces),
    "changes ways": Stage("changes", ways),
    "fitting before": fitting("before", field="girth outer body waist"),
    "fitting look": fitting("look", photo=0),
    "fitting pin": fitting("pin"),
    "fitting marks": fitting("marks", mark="tight", marked=1, meaning=True),
    "fitting hem": fitting("hem"),
    "fitting read": fitting("read", pin=3),
    "sewing": sewing(4),
    "sewing check": sewing(6, *sewing_pictures.TAPED),
    "settings": Stage("settings", settings("")),
    **{
        f"settings {part}": Stage("settings", settings(part))
        for part in ("measuring", "look", "garments", "passcode", "backup", "cautions", "about")
    },
    "set passcode": Stage("settings", settings("passcode", "set passcode")),
    "passcode": Stage("passcode", _passcode, lambda folder, _: folders.sealed(folder)),
    "closed": Stage("closed", leave=_in_use),
    "working": Stage("working", _working),
}  # fmt: skip

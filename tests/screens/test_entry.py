"""The way in: a passcode where the clients are sealed, words where they cannot be opened."""

import pytest

from core.client.edits import give_consent
from core.seal import WrongPasscode
from core.store import stands
from core.store.clients import Store
from core.store.passcode import change_passcode
from tests.screens import folders
from tests.screens.folders import DEMO, PASSCODE, another, open_changes
from tests.screens.test_changes import editor

WRONG = "red ribbon"
NAME = DEMO["client"]["name"]


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


class Wall:
    """A clock on the wall that a test sets."""

    def __init__(self):
        self.now_s = 1_000_000.0

    def __call__(self):
        return self.now_s


@pytest.fixture
def wall():
    return Wall()


@pytest.fixture
def sealed(launch, folder, wall, window):
    """An app on sealed clients, before the passcode."""
    from screens.app import PinsToSeamsApp

    folders.sealed(folder, DEMO, another())
    return launch(PinsToSeamsApp(folder, wall))


def enter(hand, passcode):
    hand.ids.field.text = ""
    hand.tap(hand.ids.field)
    hand.type(passcode)
    hand.tap(hand.ids.open)
    hand.wait()


def everything_said(hand):
    """All that any screen holds, shown or not, and all that its state has to show."""
    from kivy.properties import ObservableList

    from screens.parts.words import Words

    said = [words.text for screen in hand.app.root.screens for words in hand.all(Words, screen)]
    room = hand.app.room
    for state in (room, *room.views.values()):
        for name in state.properties():
            value = getattr(state, name)
            said += map(repr, value) if isinstance(value, ObservableList) else [str(value)]
    return " ".join(said)


def test_before_the_passcode_nothing_of_the_clients_can_be_read(sealed):
    assert sealed.app.root.current == "passcode"
    assert "These clients are sealed" in sealed.texts()
    said = everything_said(sealed)
    for name in (NAME, "Ottoline", "Zenobia", DEMO["garments"][0]["name"]):
        assert name not in said


def test_the_right_passcode_opens_the_clients(sealed, folder):
    enter(sealed, PASSCODE)
    assert sealed.app.root.current == "day book"
    assert DEMO["client"]["name"] in sealed.texts()
    open_changes(sealed)
    assert DEMO["garments"][0]["name"] in sealed.texts()
    sealed.tap(editor(sealed).more)
    for path in (path for path in folder.rglob("*") if path.is_file()):
        assert b"Ottoline" not in path.read_bytes(), path


def test_a_change_to_sealed_clients_is_there_after_a_restart(sealed, folder, start):
    enter(sealed, PASSCODE)
    open_changes(sealed)
    sealed.tap(editor(sealed).more)
    depth = editor(sealed).depth.text
    again = start(folder=folder)
    enter(again, PASSCODE)
    open_changes(again)
    assert editor(again).depth.text == depth


def test_the_enter_key_opens_too(sealed):
    sealed.type(PASSCODE)  # the field has the keyboard from the start
    sealed.key("enter")
    sealed.wait()
    assert sealed.app.root.current == "day book"


def test_a_wrong_passcode_is_told_and_can_be_tried_again(sealed, folder):
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    for _ in range(2):
        enter(sealed, WRONG)
        assert sealed.app.root.current == "passcode"
        assert "does not open it" in sealed.ids.refusal.text
        assert sealed.ids.refusal.height > 0
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before
    enter(sealed, PASSCODE)
    assert sealed.app.root.current == "day book"


def test_the_passcode_is_tried_aside_and_one_at_a_time(sealed, monkeypatch):
    import threading

    from screens import entry

    go_on = threading.Event()
    unwrap = entry.unwrap
    monkeypatch.setattr(entry, "unwrap", lambda *given: go_on.wait(20) and unwrap(*given))
    sealed.type(WRONG)
    sealed.tap(sealed.ids.open)
    assert sealed.app.aside.busy
    assert sealed.ids.open.disabled
    sealed.app.entry.try_passcode(PASSCODE)
    go_on.set()
    sealed.wait()
    assert "does not open it" in sealed.ids.refusal.text


def test_trying_can_be_cancelled(sealed, monkeypatch):
    import threading

    from screens import entry

    go_on = threading.Event()
    unwrap = entry.unwrap
    monkeypatch.setattr(entry, "unwrap", lambda *given: go_on.wait(20) and unwrap(*given))
    sealed.type(PASSCODE)
    sealed.tap(sealed.ids.open)
    assert sealed.ids.open.disabled
    sealed.frames(40)
    (line,) = sealed.ids.work.children
    assert line.row.startswith("Trying the passcode")
    sealed.tap(line.ids.key)
    go_on.set()
    sealed.wait()
    sealed.frames(20)
    assert sealed.app.root.current == "passcode"
    assert not sealed.ids.open.disabled
    sealed.tap(sealed.ids.open)
    sealed.wait()
    assert sealed.app.root.current == "day book"


def test_nothing_can_be_tried_with_an_empty_field(sealed):
    assert sealed.ids.open.disabled
    sealed.tap(sealed.ids.open)
    assert not sealed.app.aside.busy


def test_the_passcode_is_dots_until_she_asks_to_see_it(sealed):
    field = sealed.ids.field
    assert field.password
    sealed.tap(sealed.ids.show)
    assert not field.password
    assert sealed.ids.show.text == "Hide"
    sealed.tap(sealed.ids.show)
    assert field.password


def test_the_passcode_cannot_be_copied_and_is_not_kept_in_the_field(sealed):
    from kivy.core.clipboard import Clipboard

    field = sealed.ids.field
    Clipboard.copy("something else")
    sealed.type(PASSCODE)
    for letter in ("c", "x"):
        field.select_all()
        sealed.key(letter, "ctrl")
    assert Clipboard.paste() == "something else"
    assert field.text == PASSCODE
    sealed.tap(sealed.ids.show)
    sealed.tap(sealed.ids.open)
    sealed.wait()
    assert sealed.app.root.current == "day book"
    assert (field.text, field.password) == ("", True)
    for verb in (field.do_undo, field.do_redo, field.do_undo, field.do_redo):
        verb()
        assert field.text == ""


# -- resting ------------------------------------------------------------------


def rest(hand, wall, for_s):
    hand.app.dispatch("on_pause")
    wall.now_s += for_s
    hand.app.dispatch("on_resume")
    hand.frames(3)


@pytest.mark.parametrize("for_s", [5 * 60 + 1, -3600], ids=["long", "clock set back"])
def test_after_a_long_rest_sealed_clients_are_locked_again(sealed, wall, for_s):
    enter(sealed, PASSCODE)
    open_changes(sealed)
    sealed.tap(editor(sealed).more)
    rest(sealed, wall, for_s)
    assert sealed.app.root.current == "passcode"
    said = everything_said(sealed)
    for name in (NAME, "Ottoline", DEMO["garments"][0]["name"]):
        assert name not in said
    enter(sealed, PASSCODE)
    assert sealed.app.root.current == "day book"
    assert not sealed.app.room.can_undo


def test_a_short_rest_locks_nothing(sealed, wall):
    enter(sealed, PASSCODE)
    rest(sealed, wall, 5 * 60)
    assert sealed.app.root.current == "day book"


def test_only_a_rest_locks_not_the_time_spent_at_work(sealed, wall):
    enter(sealed, PASSCODE)
    rest(sealed, wall, 1)
    wall.now_s += 3600
    sealed.app.dispatch("on_resume")
    sealed.frames(3)
    assert sealed.app.root.current == "day book"


def test_clients_without_a_passcode_are_never_locked(launch, folder, wall, window):
    from screens.app import PinsToSeamsApp

    hand = launch(PinsToSeamsApp(folder, wall))
    open_changes(hand)
    hand.tap(editor(hand).more)
    rest(hand, wall, 24 * 3600)
    assert hand.app.root.current == "changes"
    assert hand.app.room.can_undo


def test_a_photo_under_way_is_not_kept_once_they_are_locked(sealed, wall, folder, tmp_path):
    from PIL import Image

    enter(sealed, PASSCODE)
    open_changes(sealed)
    sealed.app.room.change(lambda document: give_consent(document, "2026-03-02"))
    Image.new("RGB", (64, 48)).save(tmp_path / "taken.png")
    sealed.app.room.view.add_photo(tmp_path / "taken.png", "back")
    rest(sealed, wall, 3600)
    sealed.wait()
    sealed.frames(30)
    assert sealed.app.room.trouble == ""
    enter(sealed, PASSCODE)
    document = sealed.app.room.store.read(DEMO["client"]["id"])
    assert "photos" not in document["garments"][0]["fittings"][0]


def test_a_rest_writes_the_list_of_clients_down(start, folder):
    hand = start()
    hand.app.room.store.save(another())
    (folder / "index.json").unlink(missing_ok=True)
    hand.app.dispatch("on_pause")
    assert "Zenobia Larkspur" in (folder / "index.json").read_text(encoding="utf-8")


# -- closed, killed, in the way -----------------------------------------------


def test_closing_the_app_leaves_the_folder_to_others(start, launch, folder):
    start()
    launch.stop()
    with Store(folder) as store:
        assert store.clients()


def test_killed_without_a_word_every_touch_is_there_again(start, launch, folder):
    hand = start()
    open_changes(hand)
    hand.tap(editor(hand).more)
    depth = editor(hand).depth.text
    launch.kill()
    again = start()
    open_changes(again)
    assert editor(again).depth.text == depth
    assert not again.app.room.can_undo
    again.tap(editor(again).more)
    assert editor(again).depth.text != depth


def test_another_copy_that_has_the_folder_is_told_and_waited_for(start, folder):
    with folders.in_use(folder):
        hand = start()
        assert hand.app.root.current == "closed"
        assert "open already" in hand.ids.why.text
        hand.tap(hand.ids.again)
        assert "open already" in hand.ids.why.text
    hand.tap(hand.ids.again)
    assert hand.app.root.current == "day book"
    assert hand.app.room.trouble == ""


def test_a_folder_that_cannot_be_used_is_told_and_tried_again(start, tmp_path, folder):
    (tmp_path / "file").write_text("")
    hand = start(folder=tmp_path / "file" / "clients")
    assert "cannot be changed" in hand.ids.why.text
    (tmp_path / "file").unlink()
    hand.tap(hand.ids.again)
    assert hand.app.root.current == "day book"


def test_clients_of_a_newer_program_are_told_and_left_alone(start, folder):
    with pytest.MonkeyPatch.context() as newer:
        newer.setattr(stands, "NEWEST", 99)
        folders.fill(folder, DEMO)
    before = (folder / "store.json").read_bytes()
    hand = start()
    assert "newer program" in hand.ids.why.text
    assert (folder / "store.json").read_bytes() == before


def test_a_folder_that_says_nothing_of_itself_any_more_is_told(start, folder):
    folders.sealed(folder)
    for name in ("store.json", "store.copy.json"):
        (folder / name).write_text("{")
    hand = start()
    assert hand.app.root.current == "closed"
    assert "store.json" in hand.ids.why.text
    assert "Nothing was changed" in hand.ids.why.text


def test_another_copy_that_came_first_while_the_passcode_was_typed_is_told(sealed, folder):
    with Store(folder, PASSCODE):
        enter(sealed, PASSCODE)
        assert sealed.app.root.current == "closed"
        assert "open already" in sealed.ids.why.text
    sealed.tap(sealed.ids.again)
    assert sealed.app.root.current == "passcode"


def test_a_passcode_changed_by_another_copy_counts_at_once(sealed, folder):
    with Store(folder, PASSCODE) as store:
        change_passcode(store, PASSCODE, "blue ribbon")
    enter(sealed, PASSCODE)
    assert "does not open it" in sealed.ids.refusal.text
    enter(sealed, "blue ribbon")
    assert sealed.app.root.current == "day book"


def test_a_key_of_another_seal_opens_nothing(folder):
    from core.seal import Seal
    from core.store.clients import Locked

    folders.sealed(folder)
    with pytest.raises(Locked):
        Store(folder, seal=Seal.new())
    with pytest.raises(WrongPasscode):
        Store(folder, WRONG)


def test_a_fault_while_opening_does_not_stand_in_the_way_of_trying_again(start, launch):
    from screens.workroom import Workroom

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(Workroom, "_begin", lambda _: 1 / 0)
        with pytest.raises(ZeroDivisionError):
            start()
    hand = launch.hand
    hand.frames(3)
    assert hand.app.root.current == "closed"
    hand.tap(hand.ids.again)
    assert hand.app.root.current == "day book"


def test_a_client_put_in_outside_stands_in_the_list_soon_after_opening(launch, folder):
    from screens.app import PinsToSeamsApp

    came = another()
    with Store(folder) as store:
        store.save(DEMO)
        store.save(came)
    (place,) = [path.parent for path in folder.glob("clients/*/client.json")
                if came["client"]["name"] in path.read_text(encoding="utf-8")]  # fmt: skip
    place.rename(folder / "elsewhere")
    with Store(folder) as store:
        assert len(store.clients()) == 1  # and so it is written down
    (folder / "elsewhere").rename(place)
    hand = launch(PinsToSeamsApp(folder))
    hand.frames(10)
    assert [row.line.name for row in hand.app.room.view.clients] == sorted(
        [NAME, came["client"]["name"]])

"""The list sewn by touch: ticked off step by step, taken back, checked, and read aloud."""

import copy

import pytest

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from core.said.spoken import aloud, spoken_steps
from core.sewn.rounds import rounds_of
from core.sewn.ticking import sewn_as_planned
from tests.screens import test_every_screen as every
from tests.screens.folders import DEMO, DEMO_ID
from tests.screens.kept import kept
from tests.screens.sewing_pictures import show
from tests.screens.tape_pictures import find, key_of

MARK, OPEN, DART, LEFT, RIGHT, CHECK, CENTRE, LINING, TRIM, HANG, HEM = range(11)
"""The steps of the demo fitting, in their order."""


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


@pytest.fixture
def begin(launch, folder):
    """``begin(document, screen)`` opens the sewing table of the one client there is."""

    def start(document=DEMO, screen="landscape", **settings):
        launch.stop()
        return show(launch, folder, document, screen, **settings)

    return start


@pytest.fixture
def again(launch, folder):
    """``again()`` opens another app on the same folder, at the sewing table."""

    def start(screen="landscape"):
        from screens.app import PinsToSeamsApp

        launch.stop()
        hand = launch(PinsToSeamsApp(folder), screen)
        hand.app.room.open_client(DEMO_ID, "sewing")
        hand.frames(3)
        return hand

    return start


def view(hand):
    return hand.app.room.view


def at(hand):
    return view(hand).chosen.step


def go(hand, step):
    """Touch Back, or pass by what is done, until a step is shown."""
    while at(hand) > step:
        hand.tap(find(hand, "back"))
    if at(hand) != step:
        view(hand)._go_to(step)
        hand.frames(2)


def done(hand):
    hand.tap(find(hand, "done"))


def fitting_kept(folder):
    return kept(folder, DEMO_ID)["garments"][0]["fittings"][0]


def without_day(entries):
    return sorted(({**entry, "on": ""} for entry in entries), key=str)


def test_the_list_ticked_off_and_the_next_fitting_begins_with_what_it_promised(
    begin, again, folder
):
    hand = begin()
    file = read_document(copy.deepcopy(DEMO))
    plan, heard = make_plan(file), spoken_steps(make_plan(file), file)
    for number, step in enumerate(plan.steps):
        assert at(hand) == number
        assert find(hand, "place").text == step.title
        assert find(hand, "whose").text == {"left": "Her left", "right": "Her right"}.get(
            step.side, "Both sides" if number in (DART, LINING) else "")  # fmt: skip
        assert find(hand, "progress").text == f"{number + 1} of 11"
        assert view(hand).page.spoken == aloud(heard[number])
        done(hand)
    assert "All is done" in hand.texts()
    stored = kept(folder, DEMO_ID)
    fitting = stored["garments"][0]["fittings"][0]
    assert without_day(fitting["done"]) == without_day(sewn_as_planned(plan, ""))
    assert [one["step"] for one in fitting["ticked"]] == [
        "mark: Mark", "open: Open", "baste and check: Baste and check", "trim: Trim", "hang: Hang",
        "hem: Hem"]  # fmt: skip
    assert fitting["done"][0]["on"] == "2026-03-05"

    other = again()
    assert "All is done" in other.texts()
    other.app.room.change(lambda document: document["garments"][0]["fittings"].append(
        {"id": "second", "on": "2026-03-20"}))  # fmt: skip
    second = make_plan(read_document(kept(folder, DEMO_ID)))
    sums = {(around.layer.id, level): mm for layer in file.garments[0].layers
            for around in rounds_of(file.garments[0], layer, None)
            for level, mm in around.sewn.items()}  # fmt: skip
    promised = {(row.layer, row.level): row for row in plan.levels}
    taped = DEMO["garments"][0]["fittings"][0]["sewn_girths"]["outer"]["body"]
    for row in second.levels:
        before = promised[row.layer, row.level]
        assert row.as_sewn == pytest.approx(sums[row.layer, row.level] + before.planned, abs=1e-4)
        if row.layer == "lining" or row.level not in taped:  # there the tape beat the sum
            assert row.as_sewn == pytest.approx(before.as_sewn + before.planned, abs=1e-4)
    left = next(move for move in plan.moves if (move.seam, move.side, move.level, move.edge)
                == ("side", "left", "hip", "front") and move.layer == "outer")  # fmt: skip
    (edge,) = (edge for around in rounds_of(*_outer(kept(folder, DEMO_ID)))
               for edge in around.edges
               if (edge.seam.id, edge.side, edge.piece) == ("side", "left", "front"))  # fmt: skip
    assert edge.allowance["hip"] == pytest.approx(left.allowance_left)


def _outer(document):
    garment = read_document(document).garments[0]
    return garment, garment.layers[0], garment.fittings[-1]


def test_a_step_ticked_by_mistake_is_taken_back_at_once_or_later(begin, folder):
    hand = begin(screen="portrait")
    go(hand, LEFT)
    done(hand)
    assert "Done: side seam, her left" in hand.texts()
    assert len(fitting_kept(folder)["done"]) == 1
    hand.tap(find(hand, "take_back"))
    assert at(hand) == LEFT
    assert kept(folder, DEMO_ID) == DEMO

    done(hand)
    hand.frames(130)  # two seconds
    assert "Done: side seam, her left" not in hand.texts()
    assert find(hand, "take_back").parent is None
    hand.tap(find(hand, "back"))
    assert at(hand) == LEFT
    assert find(hand, "done").text == "Next"
    done(hand)  # only passed by
    assert at(hand) == RIGHT
    assert len(fitting_kept(folder)["done"]) == 1
    hand.tap(find(hand, "back"))
    assert find(hand, "take_back").text == "Not done"
    hand.tap(find(hand, "take_back"))
    assert kept(folder, DEMO_ID) == DEMO
    assert find(hand, "done").text == "Done"
    hand.app.room.undo()
    assert len(fitting_kept(folder)["done"]) == 1


def test_what_was_just_ticked_on_another_list_is_not_taken_back_on_this_one(begin, folder):
    from screens.sewing_page import AtStep

    document = copy.deepcopy(DEMO)
    garment = document["garments"][0]
    document["garments"].append({**copy.deepcopy(garment), "id": "another", "name": "Another"})
    hand = begin(document)
    for number, one in enumerate(("another", garment["id"])):
        hand.app.room.choose(AtStep(one, garment["fittings"][0]["id"], MARK))
        view(hand).done()
        assert view(hand).ticked == "Done: mark"
        if number == 0:
            hand.frames(1)
    hand.app.room.choose(AtStep("another", garment["fittings"][0]["id"], MARK))
    assert view(hand).ticked == ""
    view(hand).take_back()
    garments = kept(folder, DEMO_ID)["garments"]
    assert [len(one["fittings"][0]["ticked"]) for one in garments] == [1, 1]


def test_the_hem_is_held_and_says_what_it_waits_for(begin, folder):
    hand = begin()
    go(hand, HEM)
    assert "Waits for: mark, and 8 more" in hand.texts()
    done(hand)
    assert at(hand) == HEM
    assert "Side seam, her left" in hand.app.room.trouble
    assert kept(folder, DEMO_ID) == DEMO


def test_a_girth_taped_after_basting_is_judged_and_kept(begin, again, folder):
    from screens.parts.sew_keys import SewGirth

    hand = begin()
    go(hand, CHECK)

    def girth(level):
        return next(row for row in hand.all(SewGirth) if row.row.label == level)

    assert girth("Waist").row.should.replace("\u200b", "") == "33 1/2"
    hand.tap(girth("Waist").ids.found)
    hand.tap(key_of(hand, "3"))
    assert girth("Waist").row.said == ""  # it may become 33
    hand.tap(key_of(hand, "3"))
    hand.tap(key_of(hand, "1/2"))
    assert girth("Waist").row.said == "Agrees"
    hand.tap(key_of(hand, "0"))  # another number begins
    for sign in ("clear", "3", "5", "3/8"):
        hand.tap(key_of(hand, sign))
    assert girth("Waist").row.said.replace("\u200b", "") == "1 7/8 too large"
    assert "side seam" in girth("Waist").row.look
    assert fitting_kept(folder)["checked_girths"] == {"outer": {"body": {"waist": "35 3/8"}}}
    assert fitting_kept(folder)["sewn_girths"] == DEMO["garments"][0]["fittings"][0]["sewn_girths"]
    other = again()
    go(other, CHECK)
    assert any(row.row.found.replace("\u200b", "") == "35 3/8" for row in other.all(SewGirth))


def test_she_comes_back_to_a_check_with_the_keys_still_on_a_girth(begin):
    """The row of the girth is made anew, with the keys on it from the beginning."""
    from screens.sewing_page import AtStep

    hand = begin()
    view(hand)._go_to(CHECK)
    hand.frames(2)
    view(hand).take_girth(1)
    hand.frames(2)
    chosen = view(hand).chosen
    assert isinstance(chosen, AtStep)
    hand.app.room.go("settings")
    hand.app.root.remove_widget(hand.app.root.get_screen("sewing"))  # as for other letters
    hand.app.room.back()
    hand.frames(3)
    assert hand.app.room.here == "sewing"
    assert view(hand).chosen.girth == 1



def test_each_step_is_read_by_itself_where_she_asked_for_it_and_that_is_kept(begin, folder):
    from core.settings import read_settings
    from screens.speech import Voice

    hand = begin()
    assert find(hand, "each").parent is None  # no voice here: nothing is offered
    said = []
    view(hand)._voice = voice = Voice(lambda text: said.append(text) or "done", lambda: True)
    view(hand).can_speak = True
    hand.frames(3)

    def heard():
        if voice._thread is not None:
            voice._thread.join(5)
        return [text.split(". ")[0] for text in said]

    done(hand)
    assert heard() == []
    hand.tap(find(hand, "each"))
    assert heard() == ["Step two of eleven"]
    done(hand)
    assert heard()[1:] == ["Step three of eleven"]
    hand.tap(find(hand, "back"))
    assert len(heard()) == 2  # only going on reads
    done(hand)  # it is done already, and passed
    assert heard()[2:] == ["Step three of eleven"]
    assert read_settings(folder).read_each_step
    hand.tap(find(hand, "each"))
    done(hand)
    assert len(heard()) == 3
    assert not read_settings(folder).read_each_step


def test_what_is_trimmed_is_said_by_touch_and_kept_with_what_was_sewn(begin, folder):
    from screens.parts.sew_keys import SewGirth

    hand = begin()
    for _ in range(TRIM):
        done(hand)
    sides = hand.all(SewGirth)[0]
    assert [row.row.label for row in hand.all(SewGirth)] == [
        "Side seam", "Centre back", "Lining, side seam"]
    assert sides.row.should == "3\u200b/8"
    hand.tap(sides.ids.found)
    hand.tap(key_of(hand, "1/2"))
    assert hand.all(SewGirth)[0].row.said == "Only 3\u200b/8 is inside at the hip"
    done(hand)
    assert at(hand) == TRIM
    assert hand.app.room.trouble.startswith("Side seam: Only 3/8 is inside at the hip. Nothing")
    hand.tap(key_of(hand, "1/4"))
    done(hand)
    assert at(hand) == HANG
    sewn = [entry for entry in fitting_kept(folder)["done"] if entry.get("trimmed")]
    assert [(entry["seam"], entry["side"], entry["trimmed"]) for entry in sewn] == [
        ("side", side, {"back": "1/4", "front": "1/4"}) for side in ("left", "right")]
    hand.tap(find(hand, "take_back"))
    assert not any("trimmed" in entry for entry in fitting_kept(folder)["done"])


def test_a_step_is_read_aloud_as_the_core_says_it_and_again(begin):
    from screens.speech import Voice

    hand = begin()
    go(hand, LEFT)
    assert find(hand, "read").parent is None  # no voice here: silent and harmless
    view(hand).read()
    said = []
    view(hand)._voice = voice = Voice(lambda text: said.append(text) or "done", lambda: True)
    view(hand).can_speak = True
    hand.frames(3)
    file = read_document(copy.deepcopy(DEMO))
    core = aloud(spoken_steps(make_plan(file), file)[LEFT])
    assert core.startswith("Step four of eleven. Side seam, her left")

    def heard():
        if voice._thread is not None:
            voice._thread.join(5)
        return said

    for count in (1, 2):
        hand.tap(find(hand, "read"))
        assert heard() == [core] * count


def test_the_device_stays_awake_and_she_comes_back_to_the_same_step(begin, window):
    awake = window.allow_screensaver
    hand = begin()
    assert window.allow_screensaver is False
    hand.app.room.view.done()
    go(hand, CENTRE)
    hand.tap(find(hand, "close"))
    assert hand.app.room.here == "day book"
    assert window.allow_screensaver == awake
    hand.app.room.open_client(DEMO_ID, "sewing")
    hand.frames(3)
    assert at(hand) == CENTRE
    hand.app.room.set(text="large")  # the screens are made anew
    hand.frames(3)
    assert at(hand) == CENTRE
    assert window.allow_screensaver is False
    hand.app.room.go("changes")
    hand.frames(2)
    assert window.allow_screensaver == awake


def test_why_opens_the_sums_and_the_way_back_closes_them(begin):
    hand = begin()
    go(hand, LEFT)
    hand.tap(find(hand, "why"))
    shown = [text.replace("\u200b", "") for text in hand.texts()]
    assert "Why: the pins." in shown
    assert any("44 1/2 body + 2 1/2 ease = 47 wanted; 46 1/4 as sewn" in text for text in shown)
    assert any("the cloth gives 5/8" in text for text in shown)
    hand.key("back")
    assert not view(hand).page.reasons
    assert hand.app.room.here == "sewing"


@pytest.mark.parametrize("fittings", [[], [{"id": "first", "on": "2026-03-02"}]])
def test_where_there_is_nothing_to_sew_it_says_so_and_leads_back(begin, fittings, folder):
    document = copy.deepcopy(DEMO)
    document["garments"][0]["fittings"] = fittings
    document["measurements"] = []
    hand = begin(document)
    assert any(text.startswith(("This garment has no fitting", "There is nothing to sew"))
               for text in hand.texts())  # fmt: skip
    done(hand)
    assert hand.app.room.here == "day book"
    assert kept(folder, DEMO_ID) == document


@pytest.mark.parametrize("screen", ["portrait", "dense"])
def test_everything_is_read_from_afar_and_lies_inside_the_screen(begin, screen):
    from screens import tokens
    from screens.parts.keypad import KeyBlock
    from screens.parts.sew_amount import SewAmount
    from screens.parts.sew_keys import SewKey
    from screens.parts.words import Words

    hand = begin(screen=screen)
    for step in range(12):
        go(hand, step)
        hand.frames(3)
        small = [words.text for words in hand.all(Words) if words.text and words.opacity
                 and words.letter < tokens.KEY and not _inside(words, KeyBlock)]  # fmt: skip
        assert small in ([f"{step + 1} of 11"], [])
        assert all(amount.digits >= tokens.KEY for amount in hand.all(SewAmount))
        keys = [key for key in hand.all(SewKey) if key.opacity and key.width and key.height]
        for key in keys:
            assert key.height >= 48
            assert 0 <= key.to_window(*key.pos)[0] < hand.window.width
            assert key.to_window(*key.pos)[0] + key.width <= hand.window.width + 1
        back, forward = find(hand, "back"), find(hand, "done")
        assert back.size == pytest.approx(forward.size, abs=2)


def _inside(widget, kind):
    while widget is not None and widget.parent is not widget:
        if isinstance(widget, kind):
            return True
        widget = widget.parent
    return False


@pytest.mark.parametrize(("screen", "text"), [("landscape", "normal"), ("portrait", "largest")])
def test_fingers_fit_and_nothing_is_cut_off(begin, screen, text):
    hand = begin(screen=screen, text=text)
    for step, verbs in ((LEFT, ()), (CHECK, (("take_girth", 1), ("press", "3"))), (HEM, ()),
                        (LEFT, (("why",),)), (RIGHT, (("done",),)), (11, ())):  # fmt: skip
        go(hand, step)
        for verb, *given in verbs:
            getattr(view(hand), verb)(*given)
        hand.frames(4)
        every.assert_nothing_cut_off(hand)
        every.test_every_touch_target_fits_a_finger(hand)
        every.test_every_touch_target_can_be_brought_into_the_window(hand)
        every.test_two_touch_targets_are_never_nearer_than_eight(hand)
        every.test_every_sign_that_is_shown_is_in_the_font_that_shows_it(hand)

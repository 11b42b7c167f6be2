"""The client's page says what she is, how she changed, and what is being made for her.

Expected values are hand sums on 1 in = 25.4 mm exactly.
"""

from copy import deepcopy
from datetime import date
from typing import Any

import pytest

from core.client.card import Card, MeasurementRow, card_of
from core.client.edits import (
    NoName,
    NotADay,
    collect,
    follow_unit,
    give_consent,
    new_client,
    plan_fitting,
    rename,
    set_due,
    set_ease,
    set_notes,
    withdraw_consent,
)
from core.client.her_garments import which
from core.errors import BadLength, NotFound
from core.file.fitting_file import read_document
from core.lengths import Unit

TODAY = date(2026, 5, 14)


def somebody() -> dict[str, Any]:
    return {
        "format": "pins-to-seams/1",
        "unit": "in",
        "client": {"id": "invented", "name": "Invented", "notes": "Likes the waist close.",
                   "ease": {"bust": "1 1/2", "hip": "4%"}, "photo_consent": "2026-03-02"},
        "measurements": [
            {"on": "2026-05-14", "values": {
                "waist_girth": "31 1/4", "hip_girth": "42 3/4", "waist_to_hip": "8 1/2",
                "upper_arm_girth": {"left": "12 1/8", "right": "12 1/4"}}},
            {"on": "2025-09-12", "values": {
                "waist_girth": "33 1/2", "hip_girth": "42 1/4", "upper_arm_girth": "12 1/4"}},
            {"on": "2026-03-02", "values": {
                "waist_girth": "33", "hip_girth": "42", "waist_to_hip": "8 1/2",
                "bust_girth": "38 1/2"}},
        ],
        "garments": [
            {"id": "skirt", "name": "Slate wool skirt", "kind": "gored_skirt",
             "due": "2026-03-30", "collected": "2026-04-02",
             "fittings": [{"on": "2026-03-24", "photos": [{"file": "photos/a.jpg"}]}]},
            {"id": "sheath", "name": "Elderberry sheath", "kind": "sheath_dress",
             "due": "2026-05-22",
             "fittings": [{"id": "f", "on": "2026-05-14", "stage": "basted",
                           "photos": [{"file": "photos/b.jpg"}, {"file": "photos/c.jpg"}],
                           "pins": [{"seam": "side"}, {"seam": "side", "side": "left"}]}]},
        ],
    }  # fmt: skip


def card(client: dict[str, Any] | None = None, unit: Unit = "in") -> Card:
    return card_of(somebody() if client is None else client, TODAY, unit)


def row(label: str, unit: Unit = "in") -> MeasurementRow:
    return next(row for row in card(unit=unit).measurements if row.label == label)


def changes(label: str, unit: Unit = "in") -> tuple[str, str]:
    found = row(label, unit)
    return (
        found.since_last.words if found.since_last else "",
        found.since_first.words if found.since_first else "",
    )


def test_every_measurement_ever_taken_stands_as_it_is_now_in_the_order_she_stands() -> None:
    assert [(row.label, row.value, row.on) for row in card().measurements] == [
        ("Bust", "38 1/2", "2 March"), ("Waist", "31 1/4", "14 May"), ("Hip", "42 3/4", "14 May"),
        ("Upper arm, left", "12 1/8", "14 May"), ("Upper arm, right", "12 1/4", "14 May"),
        ("Waist to hip", "8 1/2", "14 May"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("label", "last", "first"),
    [
        ("Waist", "1 3/4 less", "2 1/4 less"),  # 31 1/4 of 33, of 33 1/2
        ("Hip", "3/4 more", "1/2 more"),  # 42 3/4 of 42, of 42 1/4
        ("Waist to hip", "the same", "the same"),
        ("Upper arm, left", "1/8 less", "1/8 less"),  # of one number for both sides
        ("Upper arm, right", "the same", "the same"),
        ("Bust", "", ""),  # taken once
    ],
)
def test_the_change_is_less_or_more_since_last_time_and_since_the_first(
    label: str, last: str, first: str
) -> None:
    assert changes(label) == (last, first)


def test_changes_are_in_the_unit_wanted() -> None:
    """31 1/4 in = 79.375 cm, 33 in = 83.82 cm: as shown, 79.4 of 83.8."""
    assert row("Waist", "cm").value == "79.4"
    assert changes("Waist", "cm")[0] == "4.4 less"
    found = row("Waist").since_last
    assert found is not None
    assert (found.way, found.amount) == ("less", "1 3/4")
    assert found.mm == pytest.approx(-44.45)


def test_each_change_says_since_when() -> None:
    assert (row("Waist").since, row("Upper arm, left").since) == ("2 March", "12 September 2025")
    assert row("Bust").since == ""
    assert (card().taken, card().since) == ("14 May", "2 March")


def test_the_small_line_has_days_since_the_first_tape_and_millimetres() -> None:
    """From 12 September 2025: 171 days to 2 March (18 + 31 + 30 + 31 + 31 + 28 + 2), and 73
    more to 14 May (29 + 30 + 14)."""
    days, mm = zip(*row("Waist").line, strict=True)
    assert days == (0, 171, 244)
    assert mm == pytest.approx((850.9, 838.2, 793.75))
    assert [day for day, _ in row("Bust").line] == [171]


def test_a_waist_taped_at_a_fitting_counts() -> None:
    client = somebody()
    client["garments"][0]["fittings"][0]["measurements"] = {"waist_girth": "32"}
    found = next(row for row in card(client).measurements if row.label == "Waist")
    assert found.since == "24 March"
    assert found.since_last is not None
    assert found.since_last.words == "3/4 less"


def test_two_tapes_of_one_day_are_one_point_the_later_one() -> None:
    client = somebody()
    client["measurements"].append({"on": "2026-05-14", "values": {"waist_girth": "31"}})
    found = next(row for row in card(client).measurements if row.label == "Waist")
    assert (found.value, len(found.line)) == ("31", 3)


def test_a_waist_found_otherwise_is_left_out_of_the_comparison() -> None:
    client = somebody()
    client["measurements"][0]["waist_found"] = "natural"
    client["measurements"][2]["waist_found"] = "narrowest"
    found = next(row for row in card(client).measurements if row.label == "Waist")
    assert found.since == "12 September 2025"


def test_her_garments_stand_newest_first_and_what_she_took_home_after() -> None:
    assert [(row.name, row.words, row.due, row.over) for row in card().garments] == [
        ("Elderberry sheath", "sheath dress, basted fitting, 2 pins, due Fri 22 May", "Fri 22 May",
         False),
        ("Slate wool skirt", "gored skirt, collected 2 April", "", False),
    ]  # fmt: skip


def test_a_garment_over_its_day_says_so() -> None:
    client = somebody()
    set_due(client, "sheath", "2026-05-11")
    (sheath, _) = card(client).garments
    assert (sheath.over, sheath.due) == (True, "3 days over")
    assert sheath.words == "sheath dress, basted fitting, 2 pins, 3 days over"


def test_a_planned_fitting_is_what_comes_next() -> None:
    client = somebody()
    plan_fitting(client, "sheath", "2026-05-15T10:30")
    assert card(client).garments[0].words.endswith("2 pins, next fitting tomorrow")


def test_her_fittings_stand_last_one_first() -> None:
    assert [(row.title, row.garment, row.garment_id, row.id) for row in card().fittings] == [
        ("Today, basted fitting", "Elderberry sheath", "sheath", "f"),
        ("24 March, first fitting", "Slate wool skirt", "skirt", "fitting_1"),
    ]


def test_ease_photos_notes_and_consent_are_on_the_page() -> None:
    shown = card(unit="cm")
    assert [(ease.label, ease.text) for ease in shown.ease] == [("Bust", "3.8"), ("Hip", "4%")]
    assert (shown.photos, shown.notes, shown.consent) == (3, "Likes the waist close.", "2 March")
    assert shown.client_since == "12 September 2025"


def test_a_new_client_has_a_page_with_nothing_on_it() -> None:
    client = new_client("  Odalys  Brandreth ", "id-1", TODAY, "cm")
    assert read_document(client).client.name == "Odalys Brandreth"
    shown = card(client, "cm")
    assert (shown.name, shown.client_since, shown.consent, shown.taken) == (
        "Odalys Brandreth", "14 May", "", "")  # fmt: skip
    assert shown.measurements == shown.ease == shown.garments == shown.fittings == ()


@pytest.mark.parametrize("name", ["", "  ", "\n"])
def test_a_client_without_a_name_is_not_made_and_none_loses_hers(name: str) -> None:
    with pytest.raises(NoName, match="name first"):
        new_client(name, "id-1", TODAY, "in")
    client = somebody()
    with pytest.raises(NoName):
        rename(client, name)
    assert client == somebody()


def test_name_and_notes_are_changed() -> None:
    client = somebody()
    rename(client, "Isaura Quellin")
    set_notes(client, "Left hip a little forward.")
    assert (card(client).name, card(client).notes) == (
        "Isaura Quellin", "Left hip a little forward.")  # fmt: skip


def test_ease_is_kept_as_typed_and_taken_away_when_empty() -> None:
    client = somebody()
    set_ease(client, "waist", " 3/4 ")
    set_ease(client, "bust", "")
    assert client["client"]["ease"] == {"hip": "4%", "waist": "3/4"}
    set_ease(client, "waist", "")
    set_ease(client, "hip", "")
    assert "ease" not in client["client"]


@pytest.mark.parametrize("typed", ["loose", "400%", "x%"])
def test_ease_that_is_no_length_is_refused_in_plain_words(typed: str) -> None:
    client = somebody()
    with pytest.raises(BadLength, match="share like 4%") as refused:
        set_ease(client, "waist", typed)
    assert "ease.waist" not in str(refused.value)
    assert client == somebody()


def test_a_negative_ease_is_worn_close_and_is_kept() -> None:
    client = somebody()
    set_ease(client, "bust", "-1")
    assert card(client).ease[0].text == "-1"


def test_consent_is_dated_and_can_be_withdrawn() -> None:
    client = somebody()
    withdraw_consent(client)
    assert card(client).consent == ""
    withdraw_consent(client)
    give_consent(client, "2026-05-14")
    assert (card(client).consent, client["client"]["photo_consent"]) == ("14 May", "2026-05-14")


def test_a_day_that_is_none_changes_nothing() -> None:
    client = somebody()
    for act in (
        lambda: give_consent(client, "soon"),
        lambda: set_due(client, "sheath", "2026-02-30"),
        lambda: plan_fitting(client, "sheath", "half past ten"),
        lambda: collect(client, "sheath", "yesterday"),
    ):
        with pytest.raises(NotADay, match="is not a day"):
            act()
    assert client == somebody()


def test_a_garment_that_is_gone_is_told() -> None:
    for act in (set_due, plan_fitting, collect):
        with pytest.raises(NotFound):
            act(somebody(), "cloak", "2026-05-14")


def test_dates_of_a_garment_are_written_and_taken_back() -> None:
    client = somebody()
    sheath = client["garments"][1]
    plan_fitting(client, "sheath", "2026-05-15T10:30:00+02:00")
    assert sheath["next_fitting"] == "2026-05-15T10:30"
    plan_fitting(client, "sheath", "2026-05-15")
    assert sheath["next_fitting"] == "2026-05-15"
    collect(client, "sheath", "2026-05-20")
    assert sheath["collected"] == "2026-05-20"
    for act in (plan_fitting, set_due, collect):
        act(client, "sheath", "")
    assert not {"next_fitting", "due", "collected"} & set(sheath)


def test_looking_at_the_page_changes_nothing() -> None:
    client = somebody()
    kept = deepcopy(client)
    card(client, "cm")
    assert client == kept


@pytest.mark.parametrize(
    ("number", "word"), [(1, "first"), (10, "tenth"), (11, "11th"), (12, "12th"), (22, "22nd")]
)
def test_a_fitting_without_a_stage_is_counted(number: int, word: str) -> None:
    assert which(number) == word


@pytest.mark.parametrize("holds", [
    {}, {"measurements": [{"on": "2026-05-14", "values": {"waist_girth": "30"}}]},
    {"garments": [{"id": "g", "name": "Skirt"}]},
    {"client": {"id": "new", "name": "New", "ease": {"waist": "1"}}},
])  # fmt: skip
def test_only_a_file_without_a_length_goes_over_to_another_unit(holds: dict[str, Any]) -> None:
    """A plain 30 would else be read as centimetres."""
    document = new_client("New", "new", TODAY, "in") | holds
    follow_unit(document, "cm")
    assert document["unit"] == ("in" if holds else "cm")

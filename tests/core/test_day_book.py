"""The day book shows what comes next, what is due and what is still to sew, from the list alone.

14 May 2026 is a Thursday (the workroom's own pictures say so; 1 January 2026 is a Thursday, and
14 May is day 134 of the year, 133 = 19 x 7 days later).
"""

import json
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

import pytest

from core.client.day_book import client_lines, day_book, due_lines, fitting_lines, sewing_lines
from core.client.facts import Coming, Due, Facts, ToSew, facts_of
from core.days import day_month, read_day, title, until, weekday_day, when
from core.store.index import Row

NOW = datetime(2026, 5, 14, 10, 5)
TODAY = NOW.date()


@dataclass(frozen=True)
class Client:
    """A row of the list as the day book needs it."""

    id: str
    name: str
    due: tuple[Due, ...] = ()
    coming: tuple[Coming, ...] = ()
    to_sew: tuple[ToSew, ...] = ()
    measured: str = ""
    damaged: bool = False


def listed(name: str, *garments: dict[str, Any], **document: Any) -> Client:
    facts = facts_of({"client": {"id": name.lower(), "name": name}, "garments": [*garments],
                      **document})  # fmt: skip
    return Client(name.lower(), name, facts.due, facts.coming, facts.to_sew, facts.measured)


PINS = [{"seam": "side", "pinch": "5/8"}, {"dart": "back_waist", "pinch": "1/8"},
        {"seam": "side", "gap": 0}, {"seam": "side", "edges": {"front": "-1/4"}}]  # fmt: skip
ISAURA = listed(
    "Isaura",
    {"id": "sheath", "name": "Elderberry sheath", "next_fitting": "2026-05-14T10:30",
     "due": "2026-05-22"},
)  # fmt: skip
TAMSIN = listed(
    "Tamsin",
    {"id": "gown", "name": "Ivory gown", "next_fitting": "2026-05-14T14:00", "due": "2026-05-15",
     "fittings": [{"id": "one", "on": "2026-05-02", "pins": PINS}]},
    measurements=[{"on": "2026-05-02", "values": {"waist_girth": "30"}}],
)  # fmt: skip
ROSALBA = listed(
    "Rosalba",
    {"id": "skirt", "name": "Grey skirt", "due": "2026-05-18",
     "fittings": [{"on": "2026-05-04", "pins": [*PINS, {"seam": "side"}]}]},
    {"id": "coat", "name": "Coat", "due": "2026-05-11"},
)  # fmt: skip


def test_the_page_is_headed_by_the_day() -> None:
    assert day_book([], NOW).title == "Thursday 14 May"
    assert title(date(2026, 1, 1)) == "Thursday 1 January"


def test_the_next_fitting_stands_largest_and_the_others_after_it() -> None:
    book = day_book([ISAURA, ROSALBA, TAMSIN], NOW)
    assert book.next is not None
    assert (book.next.time, book.next.soon, book.next.name, book.next.what) == (
        "10:30", "in 25 min", "Isaura", "Elderberry sheath, first fitting")  # fmt: skip
    assert [(line.time, line.day, line.soon, line.name, line.what) for line in book.then] == [
        ("14:00", "today", "in 3 h 55 min", "Tamsin", "Ivory gown, second fitting")
    ]


def test_a_fitting_without_a_time_says_only_its_day() -> None:
    (line,) = fitting_lines([listed("A", {"next_fitting": "2026-05-15"})], NOW)
    assert (line.time, line.day, line.soon, line.what) == ("", "tomorrow", "", "first fitting")


def test_a_fitting_that_was_held_is_not_coming_any_more() -> None:
    held = {"on": "2026-05-14", "pins": []}
    garment = {"next_fitting": "2026-05-14T10:30", "fittings": [held]}
    assert facts_of({"garments": [garment]}).coming == ()
    garment["next_fitting"] = "2026-05-15T10:30"
    assert [coming.number for coming in facts_of({"garments": [garment]}).coming] == [2]


def test_a_fitting_that_was_missed_is_over_and_not_next() -> None:
    missed = listed("A", {"name": "Coat", "next_fitting": "2026-05-12T09:00"})
    book = day_book([missed, ISAURA], NOW)
    assert book.next is not None
    assert book.next.name == "Isaura"
    assert [(line.name, line.day, line.over) for line in book.then] == [("A", "2 days over", True)]


def test_a_fitting_of_an_hour_ago_is_still_there_until_it_is_held() -> None:
    book = day_book([listed("A", {"next_fitting": "2026-05-14T09:00"})], NOW)
    assert book.next is not None
    assert book.next.soon == "1 h 5 min ago"


def test_what_is_due_stands_by_day_with_what_is_over_first() -> None:
    lines = due_lines([ISAURA, ROSALBA, TAMSIN], NOW)
    assert [(line.day, line.garment, line.name, line.over) for line in lines] == [
        ("3 days over", "Coat", "Rosalba", True), ("tomorrow", "Ivory gown", "Tamsin", False),
        ("Mon 18 May", "Grey skirt", "Rosalba", False),
        ("Fri 22 May", "Elderberry sheath", "Isaura", False),
    ]  # fmt: skip
    assert lines[1].garment_id == "gown"


def test_due_days_of_the_list_as_it_is_kept_are_understood() -> None:
    row = Row("folder", "id", "A", due=(("2026-05-14", "Coat"), ("some day", "Cape")))
    assert [(line.day, line.garment) for line in due_lines([row], NOW)] == [("today", "Coat")]


def test_what_is_still_to_sew_stands_by_when_it_must_be_ready() -> None:
    lines = sewing_lines([ROSALBA, TAMSIN, ISAURA], NOW)
    assert [(line.garment, line.pins, line.by, line.pressing) for line in lines] == [
        ("Ivory gown", "4 pins", "today, 14:00", True),
        ("Grey skirt", "4 pins, 1 not read", "by Mon 18 May", False),
    ]
    assert (lines[0].garment_id, lines[0].fitting_id) == ("gown", "one")
    assert (lines[1].garment_id, lines[1].fitting_id) == ("skirt", "fitting_1")


@pytest.mark.parametrize(
    ("garment", "by", "pressing"),
    [
        ({}, "", False), ({"due": "2026-05-14"}, "today", True),
        ({"due": "2026-05-13"}, "1 day over", True), ({"due": "2026-05-15"}, "by tomorrow", False),
        ({"next_fitting": "2026-05-15T11:00"}, "by tomorrow, 11:00", False),
        ({"next_fitting": "2026-05-15", "due": "2026-06-01"}, "by tomorrow", False),
    ],
)  # fmt: skip
def test_sewing_says_by_when(garment: dict[str, Any], by: str, pressing: bool) -> None:
    garment = {**garment, "fittings": [{"on": "2026-05-02", "pins": PINS}]}
    (line,) = sewing_lines([listed("A", garment)], NOW)
    assert (line.by, line.pressing) == (by, pressing)


@pytest.mark.parametrize(
    "fittings",
    [
        [], [{"pins": []}], [{"pins": [{"seam": "side"}]}],
        [{"pins": PINS, "done": [{"seam": "side"}]}],
        [{"pins": PINS}, {"pins": []}],
    ],
)  # fmt: skip
def test_nothing_is_to_sew_without_read_pins_or_once_it_is_begun(fittings: list[Any]) -> None:
    assert facts_of({"garments": [{"fittings": fittings}]}).to_sew == ()


def test_what_she_took_home_is_due_no_more() -> None:
    garment = {"due": "2026-05-11", "next_fitting": "2026-05-20", "collected": "2026-05-12",
               "fittings": [{"pins": PINS}]}  # fmt: skip
    assert facts_of({"garments": [garment]}) == Facts()


def test_the_list_of_clients_says_when_each_was_measured() -> None:
    rows = [
        Client("0de00000-0000-4000-8000-0000000000c1", "Ottoline"), TAMSIN, ISAURA,
        Client("w", "Winnifer", measured="2025-11-11"), Client("x", "", damaged=True),
    ]  # fmt: skip
    lines = client_lines(rows, NOW)
    assert [line.words for line in lines] == [
        "demo client", "measured 2 May", "not measured yet", "measured 11 November 2025",
        "cannot be read: touch to see why",
    ]  # fmt: skip
    assert [line.demo for line in lines] == [True, False, False, False, False]
    assert [line.damaged for line in lines] == [False] * 4 + [True]


def test_a_tape_at_a_fitting_is_measuring_and_an_empty_day_is_none() -> None:
    facts = facts_of({
        "measurements": [{"on": "2026-03-02", "values": {"waist_girth": "31"}},
                         {"on": "2026-05-14", "values": {}}],
        "garments": [{"collected": "2026-04-20",
                      "fittings": [{"on": "2026-04-01", "measurements": {"waist_girth": "31"}}]}],
    })  # fmt: skip
    assert facts.measured == "2026-04-01"


@pytest.mark.parametrize("odd", [None, 3, "text", [], {}, [None], [[]], [{}], [{"fittings": 3}],
    [{"due": 3, "next_fitting": [], "name": 4, "id": None, "fittings": [{"on": 1, "pins": 3}]}],
    [{"due": "some day", "next_fitting": "noon", "collected": "yes"}]])  # fmt: skip
def test_an_odd_document_has_no_facts_and_no_fault(odd: object) -> None:
    assert facts_of({"garments": odd, "measurements": odd}) == Facts()
    assert facts_of({}) == Facts()


def test_the_facts_come_back_from_the_index_as_they_were() -> None:
    facts = Facts(TAMSIN.due, TAMSIN.coming, TAMSIN.to_sew, TAMSIN.measured)
    due, coming, to_sew, measured = json.loads(json.dumps(facts))
    again = Facts(
        tuple(Due(*each) for each in due),
        tuple(Coming(*each) for each in coming),
        tuple(ToSew(*each) for each in to_sew),
        measured,
    )
    assert again == facts
    assert facts.to_sew[0].pins == 4


@pytest.mark.parametrize(
    ("day", "words"),
    [
        ("2026-05-14", "today"), ("2026-05-15", "tomorrow"), ("2026-05-16", "Sat 16 May"),
        ("2026-05-13", "1 day over"), ("2026-05-11", "3 days over"), ("2026-06-01", "Mon 1 Jun"),
        ("2027-01-01", "Fri 1 Jan 2027"),
    ],
)  # fmt: skip
def test_a_day_is_said_as_near_as_it_is(day: str, words: str) -> None:
    assert when(date.fromisoformat(day), TODAY) == words


def test_a_day_of_another_year_says_so() -> None:
    assert day_month(date(2026, 3, 2), TODAY) == "2 March"
    assert day_month(date(2025, 9, 12), TODAY) == "12 September 2025"
    assert weekday_day(date(2025, 9, 12), TODAY) == "Fri 12 Sep 2025"


@pytest.mark.parametrize(
    ("hour", "minute", "words"),
    [(10, 30, "in 25 min"), (10, 8, "now"), (10, 2, "now"), (9, 45, "20 min ago"),
     (12, 5, "in 2 h"), (11, 10, "in 1 h 5 min")],
)  # fmt: skip
def test_a_time_of_today_is_said_as_far_as_it_is(hour: int, minute: int, words: str) -> None:
    assert until(datetime(2026, 5, 14, hour, minute), NOW) == words
    assert until(datetime(2026, 5, 15, hour, minute), NOW) == ""


@pytest.mark.parametrize("text", [None, 3, "", "noon", "2026-02-30", "14 May"])
def test_what_is_no_day_is_none(text: object) -> None:
    assert read_day(text) is None

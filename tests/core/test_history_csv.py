"""The history opens in any table program, and every number is the one that was taped."""

import csv
import io
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from core.client.history_csv import history_csv, safe
from core.errors import BadFile

ROOT = Path(__file__).resolve().parents[2]
Table = list[dict[str, str]]


def client(*days: dict[str, Any], unit: str = "in", fittings: Any = ()) -> dict[str, Any]:
    return {
        "format": "pins-to-seams/1", "unit": unit,
        "client": {"id": "invented", "name": "Invented"},
        "measurements": list(days),
        "garments": [{"id": "garment", "name": "Garment", "fittings": list(fittings)}],
    }  # fmt: skip


def read(content: bytes) -> Table:
    """Return the rows as Python's own reader has them, by the names in the head."""
    return list(csv.DictReader(io.StringIO(content.decode("utf-8-sig"), newline="")))


TWO_DAYS = (
    {"on": "2026-05-01", "values": {"waist_girth": "28 1/4", "hip_girth": 40}},
    {"on": "2026-03-02", "values": {
        "waist_girth": "28 1/2", "upper_arm_girth": {"left": "11 1/8", "right": "28.5 cm"}}},
)  # fmt: skip


def test_each_day_is_a_column_the_oldest_first_with_the_unit_in_the_head() -> None:
    head = history_csv(client(*TWO_DAYS)).decode("utf-8-sig").splitlines()[0].split(",")
    assert head == ["Measurement", "Side", "2026-03-02 (in)", "2026-05-01 (in)",
                    "2026-03-02 as typed", "2026-05-01 as typed"]  # fmt: skip


def test_a_value_is_there_as_a_number_and_as_it_was_typed() -> None:
    rows = read(history_csv(client(*TWO_DAYS)))
    waist = next(row for row in rows if row["Measurement"] == "Waist")
    assert (waist["2026-03-02 (in)"], waist["2026-05-01 (in)"]) == ("28.5", "28.25")
    assert (waist["2026-03-02 as typed"], waist["2026-05-01 as typed"]) == ("28 1/2", "28 1/4")


def test_left_and_right_have_a_row_each() -> None:
    arms = {row["Side"]: row for row in read(history_csv(client(*TWO_DAYS)))
            if row["Measurement"] == "Upper arm"}  # fmt: skip
    assert set(arms) == {"her left", "her right"}
    assert arms["her left"]["2026-03-02 (in)"] == "11.125"
    assert float(arms["her right"]["2026-03-02 (in)"]) == pytest.approx(28.5 / 2.54, abs=1e-5)
    assert arms["her right"]["2026-03-02 as typed"] == "28.5 cm"
    assert arms["her left"]["2026-05-01 (in)"] == ""


def test_centimetres_stay_centimetres() -> None:
    day = {"on": "2026-03-02", "values": {"waist_girth": 72.5, "hip_girth": "38 in"}}
    rows = {row["Measurement"]: row for row in read(history_csv(client(day, unit="cm")))}
    assert rows["Waist"]["2026-03-02 (cm)"] == "72.5"
    assert rows["Hip"]["2026-03-02 (cm)"] == "96.52"
    assert rows["Hip"]["2026-03-02 as typed"] == "38 in"


def test_a_number_without_a_side_stands_for_both() -> None:
    rows = read(history_csv(client(
        {"on": "2026-03-02", "values": {"upper_arm_girth": "11"}},
        {"on": "2026-04-02", "values": {"upper_arm_girth": {"left": "11 1/4", "right": None}}},
    )))  # fmt: skip
    assert [(row["Side"], row["2026-03-02 (in)"], row["2026-04-02 (in)"]) for row in rows] == [
        ("her left", "11", "11.25"), ("her right", "11", "")]  # fmt: skip


def test_of_two_on_one_day_the_fitting_s_tape_stands() -> None:
    at_fitting = {"id": "f", "on": "2026-05-01",
                  "measurements": {"waist_girth": "28", "upper_arm_girth": 12}}  # fmt: skip
    before = {"on": "2026-05-01", "values": {
        "waist_girth": "28 1/4", "hip_girth": 40, "upper_arm_girth": {"left": 11, "right": 11}}}
    rows = {row["Measurement"]: row["2026-05-01 (in)"]
            for row in read(history_csv(client(before, fittings=[at_fitting])))}  # fmt: skip
    assert rows == {"Waist": "28", "Hip": "40", "Upper arm": "12"}


def test_the_file_is_utf_8_with_its_mark_and_ends_lines_as_the_standard_says() -> None:
    content = history_csv(client(*TWO_DAYS))
    assert content.startswith(b"\xef\xbb\xbf")
    lines = content.decode("utf-8").split("\r\n")
    assert lines[-1] == ""
    assert not any("\n" in line for line in lines)
    assert len({len(row) for row in csv.reader(lines[:-1])}) == 1


@pytest.mark.parametrize("risky", ["=cmd()", "+1", "-1", "@x", "\t=1", "  =1", "＝1", "\r=1"])
def test_no_cell_is_taken_for_a_formula(risky: str) -> None:
    assert safe(risky) == f"'{risky}"


def test_a_typed_plus_is_made_safe_in_the_table_too() -> None:
    day = {"on": "2026-03-02", "values": {"waist_girth": "+28"}}
    (row,) = read(history_csv(client(day)))
    assert (row["2026-03-02 (in)"], row["2026-03-02 as typed"]) == ("28", "'+28")


def test_a_measurement_of_her_own_is_listed_after_the_known_ones() -> None:
    day = {"on": "2026-03-02", "values": {"hump_of_the_back": 7, "waist_girth": 28}}
    assert [row["Measurement"] for row in read(history_csv(client(day)))] == [
        "Waist", "Hump of the back"]  # fmt: skip


def test_a_client_never_measured_has_a_head_and_no_rows() -> None:
    assert history_csv(client()).decode("utf-8-sig") == "Measurement,Side\r\n"


def test_a_day_without_a_date_says_so() -> None:
    assert "day not noted (in)" in history_csv(client({"values": {"waist_girth": 28}})).decode()


def test_a_value_that_cannot_be_read_is_named() -> None:
    with pytest.raises(BadFile, match=r"measurements\[0\].values.waist_girth"):
        history_csv(client({"on": "2026-03-02", "values": {"waist_girth": "wide"}}))


def run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "main.py", "history", *words], cwd=ROOT,
                          capture_output=True, text=True, check=False)  # fmt: skip


def test_the_command_writes_the_table(tmp_path: Path) -> None:
    out = tmp_path / "history.csv"
    done = run("resources/demo/moss_green_sheath.json", str(out))
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    assert {row["Measurement"] for row in read(out.read_bytes())} >= {"Bust", "Waist", "Hip"}


def test_the_command_says_in_a_line_what_is_wrong(tmp_path: Path) -> None:
    for words in (["none.json", str(tmp_path / "x.csv")],
                  ["resources/demo/moss_green_sheath.json", str(tmp_path / "no" / "x.csv")],
                  ["one.json"]):  # fmt: skip
        done = run(*words)
        assert done.returncode == 2
        assert len(done.stderr.splitlines()) == 1
        assert "Traceback" not in done.stderr

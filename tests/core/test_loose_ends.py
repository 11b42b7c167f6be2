"""A part that hangs on nothing is kept and told; the file is not refused for it."""

import pytest

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from tests.garments import worked

LOOSE = {
    "joined": ({"id": "flounce", "label": "Flounce", "level": "knee"}, "Flounce"),
    "lines": ({"id": "strap", "label": "Strap", "sewn": "12",
               "changes": [{"seam": "yoke", "level": "bust", "factor": 1}]}, "Strap"),
    "inserts": ({"id": "godet", "label": "Godet", "seam": "side", "level": "flare"}, "Godet"),
}  # fmt: skip


@pytest.mark.parametrize("where", LOOSE)
def test_what_hangs_on_nothing_is_told_and_stays_in_the_file(where):
    entry, label = LOOSE[where]
    document = worked(**{where: [entry]})
    file = read_document(document)
    plan = make_plan(file)
    told = [said for said in plan.warnings if said.startswith(label)]
    assert len(told) == 1
    assert "nothing follows" in told[0]
    assert file.data["garments"][0][where] == [entry]
    assert not [follow for follow in plan.follows if follow.what == entry["id"]]


def test_what_hangs_on_something_is_not_told():
    document = worked(joined=[{"id": "band", "label": "Waistband", "level": "waist"}])
    plan = make_plan(read_document(document))
    assert not [said for said in plan.warnings if said.startswith("Waistband")]
    assert [follow for follow in plan.follows if follow.what == "band"]

"""What is changed in a fitting goes into that fitting and nowhere else."""

from screens.edits import Place, choose_lead


def test_who_leads_is_written_into_the_fitting():
    document = {"garments": [{"fittings": [{"id": "first"}, {"id": "second"}]}]}
    choose_lead(document, Place(0, 1), "tape")
    assert document == {
        "garments": [{"fittings": [{"id": "first"}, {"id": "second", "lead": "tape"}]}]
    }

"""The demo client's story is told as of today: each day as far off as it was written."""

from datetime import date

from core.client.demo import TOLD_ON, told_on
from tests.screens.folders import DEMO


def test_her_days_move_together_and_nothing_else_does():
    told = told_on(DEMO, date(2027, 1, 1))
    # from 5 March 26 days to its end, 275 in April to December, 1 in January: 302
    assert told["measurements"][0]["on"] == "2026-12-08"  # 9 February + 302 days
    assert told["garments"][0]["fittings"][0]["on"] == "2026-12-29"  # three days ago, as then
    assert told["garments"][0]["due"] == "2027-01-23"  # in 22 days, as then
    assert told_on(told, date(2026, 3, 5) - (date(2027, 1, 1) - TOLD_ON)) == DEMO
    assert told_on(DEMO, TOLD_ON) == DEMO

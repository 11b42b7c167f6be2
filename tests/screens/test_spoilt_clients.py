"""A client's file with a field wrong is shown on every screen, or refused in words."""

from tests.screens.spoilt_clients import faults


def test_a_client_with_a_field_wrong_is_shown_everywhere_or_refused(launch, tmp_path):
    said = []
    assert faults(launch, tmp_path / "data", 20, "any field", lambda *what: said.append(what)) == 0
    assert not said

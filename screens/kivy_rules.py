"""Kivy's own rules, but only of the widgets that are used.

Kivy reads the rules of all its widgets when it is loaded, which takes as long as a fifth of an
empty window: switches, trees and video players that nobody sees here.  The few it needs lie in
``resources/kivy``; a test holds them against Kivy's.
"""

from pathlib import Path

RULES = Path(__file__).resolve().parents[1] / "resources" / "kivy"


def read_few_rules() -> None:
    """Load Kivy's language with these rules; before anything else of Kivy is loaded."""
    import kivy
    import kivy.resources  # it looks in Kivy's own folder

    whole = kivy.kivy_data_dir
    kivy.kivy_data_dir = str(RULES)
    try:
        import kivy.lang.builder
    finally:
        kivy.kivy_data_dir = whole

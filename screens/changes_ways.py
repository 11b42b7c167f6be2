"""The way of sharing that was chosen at a fitting, as the core reads it."""

from core.changes.chosen_way import choose_way, way_in

__all__ = ["choose_way", "way_in"]

"""Looks that several screens share: what a heading, a caption, a sheet and a line look like."""

from pathlib import Path

from kivy.lang import Builder

from screens.parts import marks, press, upright, words

Builder.load_file(str(Path(__file__).with_suffix(".kv")))

__all__ = ["marks", "press", "upright", "words"]

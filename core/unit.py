"""The units a file is written in."""

from typing import Literal

Unit = Literal["in", "cm", "mm"]

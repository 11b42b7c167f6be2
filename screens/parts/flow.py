"""Keys beside each other, on as many lines as they need."""

from typing import Any

from kivy.metrics import dp
from kivy.uix.stacklayout import StackLayout

from screens.parts.kept_rows import AsHigh
from screens.tokens import GRID


class Flow(AsHigh, StackLayout):
    """Show one widget for each of ``rows``, in the next line where there is no more room."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("spacing", dp(GRID))
        super().__init__(**kwargs)

"""A list of rows below each other."""

from typing import Any

from kivy.uix.boxlayout import BoxLayout

from screens.parts.kept_rows import AsHigh


class RowList(AsHigh, BoxLayout):
    """Show one widget for each of ``rows``, below each other unless told otherwise."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("orientation", "vertical")
        super().__init__(**kwargs)

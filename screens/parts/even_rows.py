"""Rows of one height in a long list: where each lies is a sum, not a walk through all of them."""

from collections.abc import Iterator, Sequence
from math import ceil, floor
from typing import Any

from kivy.uix.recycleboxlayout import RecycleBoxLayout

NO_HINTS = {"size_hint": [None, None], "size_hint_min": [None, None], "size_hint_max": [None, None],
            "pos_hint": {}, "width_none": False, "height_none": False}  # fmt: skip


class Places(Sequence):
    """Where each row lies and how large it is, worked out when it is asked for."""

    def __init__(self, layout: "EvenRows", count: int) -> None:
        self._layout, self._count = layout, count

    def __len__(self) -> int:
        return self._count

    def __getitem__(self, index: Any) -> dict[str, Any]:
        if not 0 <= index < self._count:
            raise IndexError(index)
        pos, size = self._layout.place_of(index)
        return {"pos": pos, "size": size, "viewclass": self._layout.viewclass, **NO_HINTS}

    def __iter__(self) -> Iterator[dict[str, Any]]:
        return (self[index] for index in range(self._count))


class EvenRows(RecycleBoxLayout):
    """Lays out the rows in sight, each as high as ``default_size`` says, from the top down."""

    def __init__(self, **kwargs: Any) -> None:
        self.view_opts: Sequence[dict[str, Any]] = Places(self, 0)
        self._laid: tuple[Any, ...] | None = None
        super().__init__(**kwargs)

    def place_of(self, index: int) -> tuple[list[float], list[float]]:
        """Return where a row lies and how large it is."""
        left, top, right, _ = self.padding
        high = self.default_size[1]
        y = self.top - top - high - index * (high + self.spacing)
        return [self.x + left, y], [self.width - left - right, high]

    def compute_sizes_from_data(self, data: Sequence[Any], flags: Any) -> None:
        """Begin anew with so many rows."""
        self.view_opts, self._laid = Places(self, len(data)), None

    def compute_layout(self, data: Sequence[Any], flags: Any) -> None:
        """Say how high all rows are together; lay them out again where anything has changed."""
        self._size_needs_update = False
        _, top, _, bottom = self.padding
        count, high = len(data), self.default_size[1]
        between = max(0, count - 1) * self.spacing
        self.minimum_height = top + count * high + between + bottom
        stands = (count, *self.pos, *self.size, *self.padding, self.spacing, high)
        if stands != self._laid:
            self.clear_layout()
            self._laid = stands

    def compute_visible_views(self, data: Sequence[Any], viewport: Any) -> list[int]:
        """Return the numbers of the rows in sight."""
        _, low, _, seen = viewport
        whole = self.default_size[1] + self.spacing
        below_top = self.top - self.padding[1] - low
        first = max(0, floor((below_top - seen) / whole))
        return list(range(first, min(len(data), ceil(below_top / whole))))

    def get_view_index_at(self, pos: tuple[float, float]) -> int:
        """Return the row at a height."""
        whole = self.default_size[1] + self.spacing
        row = floor((self.top - self.padding[1] - pos[1]) / whole)
        return max(0, min(len(self.view_opts) - 1, row))

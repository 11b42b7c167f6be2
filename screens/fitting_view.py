"""A fitting, moment by moment: one touch a pin, read off later, saved at each touch."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any
from uuid import uuid4

from kivy.properties import ObjectProperty

from core.body.keypad import Keypad
from core.errors import NotFound
from core.file.fitting_file import FittingFile, read_document
from core.fit.beginning import begin
from core.fit.pinning import pinned_at
from screens import fitting_strip
from screens.fitting_before import before_keys, before_page
from screens.fitting_begin import begin_page
from screens.fitting_figure import figure_of, forget
from screens.fitting_hem import hem_keys, hem_page
from screens.fitting_look import look_page
from screens.fitting_marks import marks_page, tuck_keys
from screens.fitting_move import move_page
from screens.fitting_out import out_page
from screens.fitting_page import (
    MOMENTS,
    Bench,
    Chosen,
    FittingPage,
    KeysRow,
    bench_of,
    garment_of,
    line_of,
    moment_keys,
    moment_of,
)
from screens.fitting_photos import PhotoVerbs
from screens.fitting_pins import pin_page
from screens.fitting_read import read_keys, read_page
from screens.fitting_said import pin_to_read
from screens.view import View

WITH_FIGURE = ("pin", "marks", "move", "read")


class FittingView(PhotoVerbs, View):
    """One fitting of one garment; ``chosen`` is a ``Chosen``."""

    name = "fitting"
    page = ObjectProperty(FittingPage(), rebind=True)
    browsing = ObjectProperty(None, allownone=True)

    # -- what is shown --------------------------------------------------------

    def work_out(self, file: FittingFile | None, chosen: Chosen | None) -> Any:
        if file is None:
            raise NotFound("There is no client on the table")
        asked, today = chosen or Chosen(), self.room.now().date()
        bench = bench_of(file, asked, self.room.settings.sixteenths)
        if bench is None:
            return None, self._unfitted(file, asked, today), asked
        bench = replace(bench, chosen=replace(bench.chosen, moment=moment_of(bench, today)))
        return bench, self._page(bench, today), bench.chosen

    def lay_out(self, shown: Any, chosen: Chosen | None) -> None:
        self._bench, page, self.chosen = shown
        self.browsing = self.chosen.browsing
        self.page = page

    def put_away(self) -> None:
        super().put_away()
        forget()
        fitting_strip.forget()
        self._bench, self.browsing = None, None
        self.page = FittingPage()

    def close(self) -> bool:
        """Close the folders, the large photo, or the amount of a pin while she pins."""
        chosen = self.chosen
        if chosen is None or self._bench is None:
            return False
        if chosen.browsing is not None:
            self.choose(browsing=None)
        elif chosen.photo is not None and chosen.moment == "look":
            self.choose(photo=None)
        elif chosen.between or (chosen.opened and chosen.moment == "pin"):
            self.choose(between=(), opened=False, keys=None)
        else:
            return False
        return True

    @property
    def bench(self) -> Bench:  # type: ignore[override]
        if self._bench is None:
            raise NotFound("There is no fitting here yet: begin one first")
        return self._bench

    def _unfitted(self, file: FittingFile, chosen: Chosen, today: date) -> FittingPage:
        garment = garment_of(file, chosen)
        line = line_of(file, garment, None, today)
        return FittingPage(line, garment.name, garment.id, "begin", (), begin_page(garment))

    def _page(self, bench: Bench, today: date) -> FittingPage:
        moment = bench.chosen.moment
        tucking = moment == "marks" and bench.chosen.mark == "tuck"
        has_figure = moment in WITH_FIGURE and not tucking and bool(bench.garment.layers)
        return FittingPage(
            line=line_of(bench.file, bench.garment, bench.fitting, today),
            title=bench.garment.name,
            garment=bench.garment.id,
            moment=moment,
            moments=moment_keys(moment),
            body=self._body(bench, today),
            keys=_keys(bench),
            figure=figure_of(bench) if has_figure else None,
            pieces=bench.chosen.pieces and moment in WITH_FIGURE,
        )

    def _body(self, bench: Bench, today: date) -> Any:
        agreed = bool(bench.file.data["client"].get("photo_consent"))
        bodies: dict[str, Callable[[], Any]] = {
            "before": lambda: before_page(bench, today.isoformat()),
            "look": lambda: look_page(bench, agreed),
            "pin": lambda: pin_page(bench),
            "marks": lambda: marks_page(bench),
            "move": lambda: move_page(bench),
            "hem": lambda: hem_page(bench),
            "out": lambda: out_page(bench, agreed),
            "read": lambda: read_page(bench),
        }
        return bodies[bench.chosen.moment]()

    # -- which fitting, which moment ------------------------------------------

    def begin(self) -> None:
        """Begin a fitting today; it goes on from the last one."""
        garment = garment_of(self._file(), self.chosen).id
        fitting, today = str(uuid4()), self.room.now().date().isoformat()
        self.room.change(
            lambda document: begin(document, garment, fitting, today),
            Chosen(garment=garment, fitting=fitting, moment="before"),
        )

    def go_to(self, moment: str) -> None:
        """Go to a moment of the fitting; nothing asks, and everything is saved already."""
        if moment in MOMENTS and self.settle():
            self.choose(moment=moment, keys=None, field="", between=(), opened=False, pin=None,
                        kind="", edge="", photo=None, browsing=None, noting=False)  # fmt: skip

    # -- the figure -----------------------------------------------------------

    def touch(self, spots: Any, piece: Any) -> None:
        """Do what a touch on the figure means in this moment."""
        moment = self.bench.chosen.moment
        if moment == "marks":
            self.mark_at(spots, piece)
        elif moment == "move":
            self.pull_at(spots, piece)
        elif moment == "pin":
            self.place(spots)
        else:
            self._take_touched(spots)

    def swipe(self, spots: Any) -> None:
        """Set a pin on both sides."""
        if self.bench.chosen.moment == "pin":
            self.place(spots, both=True)
        else:
            self.touch(spots, None)

    def hold(self, spots: Any, piece: Any) -> None:
        """Place a pin and open its amount at once."""
        if self.bench.chosen.moment == "pin":
            self.place(spots, opened=True)
        else:
            self.touch(spots, piece)

    def _take_touched(self, spots: Any) -> None:
        """Take the pin nearest to what was touched in hand, to read it."""
        bench = self.bench
        found = (pinned_at(bench.fitting, bench.garment, spot.where, spot.side) for spot in spots)
        index = next((one for one in found if one is not None), None)
        if index is not None:
            self.choose(pin=index, keys=None, kind="", edge="", noting=False)

    # -- the number keys --------------------------------------------------------

    def press(self, sign: str) -> None:
        """Take a key of the keypad, and keep what it made."""
        keypad = self._keypad()
        if keypad is None:
            return
        after = keypad.press(sign)
        if after == keypad:
            return
        if self.bench.chosen.moment in ("pin", "read"):
            self.write_amount(after)
        else:
            self.write_field(after)

    def go_on(self) -> None:
        """Go on from what the keys write."""
        if self.bench.chosen.moment in ("pin", "read"):
            self.next_pin()
        else:
            self.next_field()

    def aside(self, verb: str) -> None:
        """Do what a key beside the number keys says."""
        if verb == "train":
            self.skip_train()

    def _keypad(self) -> Keypad | None:
        return None if self.page.keys is None else self.page.keys.keypad

    def _file(self) -> FittingFile:
        return self._bench.file if self._bench is not None else read_document(self.room.document)

    _bench: Bench | None = None


def _keys(bench: Bench) -> KeysRow | None:
    """Return the number keys of a moment; where there is nothing to write there are none."""
    moment = bench.chosen.moment
    if moment in ("pin", "read"):
        index = pin_to_read(bench) if moment == "read" else bench.chosen.pin
        shown = index is not None and (moment == "read" or bench.chosen.opened)
        return read_keys(bench, index) if shown and index is not None else None
    keys = {"before": before_keys, "hem": hem_keys, "marks": tuck_keys}.get(moment)
    return keys(bench) if keys is not None else None


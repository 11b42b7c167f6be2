"""A hand at a fitting that counts its touches, and what is kept of the fitting after them."""

from tests.screens.fitting_pictures import GARMENT, NOON, client, show
from tests.screens.folders import DEMO_ID
from tests.screens.kept import kept


class Counted:
    """A hand at the fitting that counts what it touches."""

    def __init__(self, hand):
        self.hand, self.touches = hand, 0

    def __getattr__(self, name):
        return getattr(self.hand, name)

    @property
    def page(self):
        return self.hand.app.room.view.page

    @property
    def desk(self):
        return self.ids.desk

    def tap(self, target, **how):
        self.touches += 1
        self.hand.tap(target, **how)

    # -- the figure -----------------------------------------------------------

    def place(self, what, place, level, side="left"):
        """Where a seam, dart or piece is on the figure, in the window."""
        spot = self.desk.figure.where(what, place, level, side)
        assert spot is not None, (what, place, level, side)
        return self.desk.figure.to_window(*spot)

    def touch(self, what, place, level, side="left", **how):
        self.tap(self.place(what, place, level, side), **how)

    # -- the keys -------------------------------------------------------------

    def press(self, *signs):
        from screens.parts.keypad import Key

        for sign in signs:
            keys = [key for key in self.all(Key, self.desk.keys) if key.sign == sign]
            self.tap(keys[0])

    def go_on(self):
        self.tap(self.desk.keys.ids.go_on)

    def word(self, label, root=None):
        """Touch a key by its words."""
        from screens.parts.word_key import WordKey

        keys = [key for key in self.all(WordKey, root or self.screen)
                if key.text.split("\n")[0] == label and not key.disabled]  # fmt: skip
        assert keys, (label, [key.text for key in self.all(WordKey)])
        self.tap(keys[0])

    def moment(self, label):
        from screens.fitting import MomentKey

        self.tap(next(key for key in self.all(MomentKey) if key.text.startswith(label)))


def open_fitting(launch, folder, document, chosen=None, screen="landscape", **settings):
    """Start the app at a fitting of the demo client."""
    return Counted(show(launch, folder, document, chosen, screen, **settings))


def open_again(launch, folder, screen="landscape", **chosen):
    """Start another app on the same folder, as after the battery died."""
    from screens.app import PinsToSeamsApp
    from screens.fitting_page import Chosen

    if launch.app is not None:
        launch.kill()
    hand = launch(PinsToSeamsApp(folder, lambda: NOON), screen)
    hand.app.room.open_client(DEMO_ID, "fitting", Chosen(garment=GARMENT, **chosen))
    hand.frames(2)
    return Counted(hand)


def stored(folder):
    return kept(folder, DEMO_ID)["garments"][0]


def last(folder):
    return stored(folder)["fittings"][-1]


def pins(folder):
    return [{name: value for name, value in pin.items() if name != "id"}
            for pin in last(folder)["pins"]]  # fmt: skip


def unfitted():
    document = client()
    document["garments"][0]["fittings"] = []
    return document

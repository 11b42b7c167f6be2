"""Save pictures of a fitting as she sees it, moment by moment.

    python -m tests.screens.fitting_pictures FOLDER [NAME ...] [--dark] [--dense]
        [--left] [--largest]
"""

import copy
import json
from datetime import datetime
from pathlib import Path

from tests.screens.folders import DEMO, DEMO_ID
from tests.screens.picture_set import save_pictures

NOON = datetime(2026, 3, 20, 12).timestamp()
GARMENT = DEMO["garments"][0]["id"]
PINS = [
    {"id": "pin_1", "seam": "side", "side": "both", "level": "waist", "pinch": "3/8"},
    {"id": "pin_2", "seam": "side", "side": "left", "level": "hip", "gap": "1/2"},
    {"id": "pin_3", "dart": "back_waist", "side": "both", "level": "waist", "pinch": "1/8"},
    {"id": "pin_4", "seam": "side", "side": "right", "level": "hip",
     "edges": {"front": "-1/4", "back": "-1/2"}},
    {"id": "pin_5", "seam": "side", "side": "left", "level": "bust"},
]  # fmt: skip


def client(*fittings, agreed=True, **garment):
    """The demo client with the first fitting she had, and those that follow."""
    document = json.loads(json.dumps(DEMO))
    made = document["garments"][0]
    made["fittings"] = [*made["fittings"], *copy.deepcopy(fittings)]
    made |= garment
    if agreed:
        document["client"]["photo_consent"] = "2026-03-02"
    return document


def drafted(name, *fittings):
    """The demo client with one of the worked drafts, and its fittings."""
    (path,) = (Path(__file__).parents[1] / "data" / "drafts").glob(f"*_{name}.json")
    other = json.loads(path.read_text(encoding="utf-8"))
    document = client() | {"measurements": other["measurements"], "unit": other["unit"]}
    made = other["garments"][0] | {"id": GARMENT, "fittings": copy.deepcopy(list(fittings))}
    document["garments"] = [made]
    return document


def metric(unit, *fittings):
    """A skirt drafted in whole centimetres, its numbers in centimetres or millimetres.

    By hand, in cm: front net 20.5 - 2 - 2 = 16.5 at the waist, 26.5 - 2 = 24.5 at the hip; back
    net 21.5 - 4 - 2.5 = 15 and 27.5 - 4 = 23.5; the round 63 and 96.  Wanted 58 + 2 = 60 and
    94 + 4 = 98.
    """
    def cm(value):
        return value * (10 if unit == "mm" else 1)

    def widths(*values):
        return dict(zip(("waist", "hip", "hem"), map(cm, values), strict=True))

    def dart(name, takes, point):
        ends = {"top": 0, "point": cm(point)}
        return {"id": f"{name}_waist", "label": f"{name.capitalize()} waist dart",
                "take_up": {"waist": cm(takes)}, "ends": ends, "turn": 2}  # fmt: skip

    rings = [{
        "id": "body", "kind": "half",
        "pieces": [
            {"id": "front", "label": "Front", "fold": True, "width": widths(20.5, 26.5, 28),
             "darts": [dart("front", 2, 10)]},
            {"id": "back", "label": "Back", "width": widths(21.5, 27.5, 29),
             "darts": [dart("back", 2.5, 14)]}],
        "seams": [
            {"id": "side", "label": "Side seam", "joins": ["front", "back"], "allowance": cm(2)},
            {"id": "centre_back", "label": "Centre back", "joins": ["back", "back"],
             "allowance": cm(2), "zip": True}],
    }]  # fmt: skip
    document = client() | {"unit": unit, "measurements": [
        {"on": "2026-03-02", "values": {"waist_girth": cm(58), "hip_girth": cm(94)}}]}  # fmt: skip
    document["garments"] = [{
        "id": GARMENT, "name": "Loden skirt", "kind": "pencil_skirt",
        "levels": [
            {"id": "waist", "label": "Waist", "down": 0, "body": "waist_girth"},
            {"id": "hip", "label": "Hip", "down": cm(21), "body": "hip_girth"},
            {"id": "hem", "label": "Hem", "down": cm(62)}],
        "ease": {"waist": cm(2), "hip": cm(4)},
        "layers": [{"id": "outer", "label": "Outer", "rings": rings}],
        "fittings": copy.deepcopy(list(fittings)),
    }]  # fmt: skip
    return document


def today(**more):
    """A fitting of the day."""
    worn = {"foundation": "long-line bra, half slip", "heel": "2 1/2", "inside_out": False}
    return {"id": "today", "on": "2026-03-20", "stage": "second", "worn": worn, "pins": []} | more


HEM = {"wanted": "1", "holds": "2", "points": [
    {"at": "front", "floor": "1"}, {"at": "front left", "floor": "1 1/4"},
    {"at": "left side", "floor": "3/4"}, {"at": "back left", "floor": "1 1/8"},
    {"at": "back", "train": True}]}  # fmt: skip
MARKS = [
    {"what": "tight", "piece": "front", "side": "left", "level": "hip", "note": "when she sits"},
    {"what": "drag", "piece": "back", "side": "both", "level": "waist", "direction": "across"},
]
MOVED = [{"what": "walk"}, {"what": "sit", "pulled": [
    {"seam": "side", "side": "left", "level": "hip"}]}]  # fmt: skip
TUCKS = [{"level": "waist", "depth": {"centre_back": "3/8", "left": "1/8"}, "into": "waist_seam"}]
FULL = today(pins=PINS, hem=HEM, marks=MARKS, movements=MOVED, tucks=TUCKS,
             notes="The left hip stands higher. Bring the ivory shoes.")  # fmt: skip
NOTED = FULL | {"pins": [PINS[0] | {"note": "Two rows of tacking: the cloth slips"}, *PINS[1:]]}
CM_PINS = [
    {"id": "pin_1", "seam": "side", "side": "both", "level": "waist", "pinch": "0.5"},
    {"id": "pin_2", "seam": "side", "side": "left", "level": "hip", "gap": "1.5"},
    {"id": "pin_3", "seam": "side", "side": "right", "down": "10.5"}]  # fmt: skip
CM = today(pins=CM_PINS, worn={"heel": "6"}, hem={"wanted": "3", "holds": "4", "points": [
    {"at": "front", "floor": "47.5"}, {"at": "front left", "floor": "47"}]})  # fmt: skip
MM = today(pins=[CM_PINS[0] | {"pinch": "5"}, CM_PINS[1] | {"gap": "15"},
                 CM_PINS[2] | {"down": "105"}], worn={"heel": "60"},
           hem={"wanted": "30", "holds": "40",
                "points": [{"at": "front", "floor": "475"}]})  # fmt: skip
TURNED = {"worn": {"heel": "2 1/2", "inside_out": True}}
INSIDE_OUT = FULL | TURNED
LEGS = today(pins=[
    {"seam": "inseam", "side": "left", "level": "knee"},
    {"seam": "outseam", "side": "right", "level": "thigh", "pinch": "1/4"},
    {"piece": "front_leg", "side": "left", "level": "thigh"},
    {"piece": "back_leg", "side": "right", "level": "knee"}])  # fmt: skip
ARMS = today(pins=[
    {"seam": "sleeve_seam", "side": "left", "level": "elbow"},
    {"piece": "sleeve", "side": "right", "level": "upper_arm"}])  # fmt: skip


def at(moment, **chosen):
    return {"moment": moment, **chosen}


PICTURES = {
    "begin": (client(agreed=False, fittings=[]), {}),
    "before": (client(FULL), at("before")),
    "before keys": (client(FULL), at("before", field="girth outer body waist")),
    "look": (client(FULL), at("look")),
    "look photo": (client(FULL), at("look", photo=0)),
    "look refused": (client(FULL, agreed=False), at("look")),
    "pin": (client(FULL), at("pin")),
    "pin first": (client(today()), at("pin")),
    "pin opened": (client(FULL), at("pin", opened=True, pin=4)),
    "pin inside out": (client(INSIDE_OUT), at("pin")),
    "pieces": (client(FULL), at("pin", pieces=True)),
    "pieces inside out": (client(INSIDE_OUT), at("pin", pieces=True)),
    "marks inside out": (client(INSIDE_OUT), at("marks")),
    "read inside out": (client(INSIDE_OUT), at("read", pin=1)),
    "trousers": (drafted("trousers", LEGS), at("pin")),
    "trousers inside out": (drafted("trousers", LEGS | TURNED), at("pin")),
    "princess inside out": (drafted("princess_gown", today(**TURNED)), at("pin")),
    "fishtail inside out": (drafted("fishtail_gown", today(**TURNED)), at("pin")),
    "sleeves": (drafted("sleeved_bodice", ARMS), at("pin")),
    "sleeves inside out": (drafted("sleeved_bodice", ARMS | TURNED), at("pin")),
    "marks": (client(FULL), at("marks", mark="tight", marked=1, meaning=True)),
    "tuck": (client(FULL), at("marks", mark="tuck", tuck_place="left")),
    "move": (client(FULL), at("move", movement="sit")),
    "hem": (client(FULL, heel_of_the_day="3"), at("hem")),
    "out": (client(FULL), at("out")),
    "read": (client(FULL), at("read")),
    "pin lining": (client(FULL), at("pin", into="lining")),
    "pieces lining": (client(FULL), at("pin", into="lining", pieces=True)),
    "pin both": (client(FULL), at("pin", pin=0)),
    "read note": (client(NOTED), at("read", pin=0)),
    "read noting": (client(NOTED), at("read", pin=0, noting=True)),
    "metric pin": (metric("cm", CM), at("pin", opened=True, pin=0)),
    "metric read": (metric("cm", CM), at("read", pin=0)),
    "metric hem": (metric("cm", CM), at("hem")),
    "metric before": (metric("cm", CM), at("before", field="girth outer body waist")),
    "millimetres read": (metric("mm", MM), at("read", pin=0)),
    "millimetres hem": (metric("mm", MM), at("hem")),
    "read edges": (client(FULL), at("read", pin=3)),
    "read dart": (client(FULL), at("read", pin=2)),
}  # fmt: skip


def show(running, folder, document, chosen=None, screen="landscape", **settings):
    """Start the app at the fitting of one client and return the hand that works it."""
    from core.settings import Settings, write_settings
    from core.store.clients import Store
    from screens.app import PinsToSeamsApp
    from screens.fitting_page import Chosen

    with Store(folder) as store:
        store.save(document)
    write_settings(folder, Settings(**settings))
    hand = running(PinsToSeamsApp(folder, lambda: NOON), screen)
    hand.app.room.open_client(document["client"]["id"], "fitting",
                              Chosen(garment=GARMENT, **(chosen or {})))  # fmt: skip
    hand.frames(2)
    hand.view = hand.app.room.view
    return hand


def put_photos(folder, document):
    """Keep a photo in each fitting of the garment, with a mark on today's."""
    from PIL import Image

    from core.photos import read_photo
    from core.store.clients import Store
    from core.store.photos import add_photo

    with Store(folder) as store:
        store.save(document)
        for number, fitting in enumerate(document["garments"][0]["fittings"]):
            path = folder / f"taken {number}.png"
            Image.linear_gradient("L").rotate(90 * number).resize((600, 800)).save(path)
            name = add_photo(store, DEMO_ID, read_photo(path))
            fitting["photos"] = [{"file": name, "view": "back"}]
            path.unlink()
        last = document["garments"][0]["fittings"][-1]
        last["photos"][0]["marks"] = [{"x": 0.4, "y": 0.3, "text": "drags here", "pin": "pin_2"}]
        store.save(document)


def main():
    save_pictures(__doc__.splitlines()[0], PICTURES, _shown)


def _shown(name, running, folder, size, **settings):
    document, chosen = copy.deepcopy(PICTURES[name])
    if name == "look photo":
        put_photos(folder, document)
    return show(running, folder, document, chosen, size, **settings)


if __name__ == "__main__":
    main()

"""A told book of as many entries as are asked for, as unlike each other as a shop's would be."""

import random
from dataclasses import replace

from publish import told

SYLLABLES = (
    "bar",
    "cob",
    "dun",
    "fen",
    "gar",
    "hol",
    "kes",
    "lor",
    "mar",
    "nes",
    "or",
    "pel",
    "quin",
    "ros",
    "sed",
    "tan",
    "ul",
    "ver",
    "wen",
    "yar",
)
BODIES = ("estate", "hatch", "van L1", "van L2", "pickup", "lorry", "camper")
FUELS = ("petrol", "D", "D with tow pack", "full hybrid", "LPG")
CHARGERS = [f"{name} {power}" for name in ("Sorrel", "Brace") for power in (120, 240, 360, 520)]
KINDS = (told.guide(), told.guide(), told.refusal())
STATIONS = [f"{name} {size}" for name in ("Tun", "Loft", "Cask") for size in (310, 500, 1100, 2000)]


def book(count, *, seed=7):
    """Return a book of `count` entries of about 2.5 fits a vehicle; the same for the same seed."""
    dice = random.Random(seed)  # noqa: S311 - made-up data
    makes = [_word(dice) for _ in range(max(3, count // 30))]
    entries = []
    while len(entries) < count:
        entries += _of_vehicle(dice, makes, len(entries))
    return told.book(*entries[:count])


def _of_vehicle(dice, makes, number):
    make, model = dice.choice(makes), _word(dice)
    engine = f"{dice.randrange(10, 77) / 10} {dice.choice(FUELS)}"
    first = dice.randrange(2006, 2025)
    last = dice.choice([None, first + dice.randrange(1, 9)])
    vehicle = {
        "make": make,
        "model": model,
        "engine": engine,
        "vehicle": f"{make} {model}",
        "variant": f"{engine} {dice.choice(BODIES)}, {first} to {last}",
    }
    other = dice.choice(["", "", "", "-tow-pack", "-right", "-l2"])
    slug = f"{make}-{model}{other}".lower()
    sides = dice.choice([("left",), ("right",), ("left", "right")])
    plain = {"first_year": first, "last_year": last, "drive_sides": list(sides)}
    pairs = [(c, s) for c in CHARGERS for s in STATIONS]
    return [
        _entry(
            dice,
            fit=f"{slug}-{number}/j{at}",
            vehicle=vehicle,
            plain=plain,
            code=f"V{number}/J{at}",
            pair=pair,
        )
        for at, pair in enumerate(dice.sample(pairs, dice.randrange(1, 5)), 1)
    ]


def _entry(dice, *, fit, vehicle, plain, code, pair):
    kind = dice.choice(KINDS)
    charger, station = pair
    content = dict(kind.content[kind.kind])
    if kind.kind == "guide":
        content["verdict"] = dice.choice(["ok", "caution", "caution", "hold"])
    said = vehicle | {"charger": charger, "station": station, "pair": f"{charger} to {station}"}
    identity = content["identity"] | plain | {"fit": fit, "code": code}
    content["identity"] = identity | {
        key: {"runs": [{"kind": "text", "text": text}], "text": text} for key, text in said.items()
    }
    return replace(kind, fit=fit, content=kind.content | {kind.kind: content})


def _word(dice):
    return "".join(dice.choice(SYLLABLES) for _ in range(dice.randrange(2, 4))).capitalize()

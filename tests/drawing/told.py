"""Told views written by hand, as `wording` would tell them. All names and figures are invented."""

from __future__ import annotations

import re
from typing import Any

Told = dict[str, Any]

_PART = re.compile(r"\*\*(?P<strong>[^*]+)\*\*|(?P<figure>\d+(?:\.\d+)?)_(?P<unit>[^\s,.]+)")


def message(text: str) -> Told:
    """Turn "**W2** red 25_mm²" into runs: strong in stars, figure and unit at an underscore."""
    runs: list[dict[str, str]] = []
    end = 0
    for match in _PART.finditer(text):
        if match.start() > end:
            runs.append({"kind": "text", "text": text[end : match.start()]})
        if match["strong"]:
            runs.append({"kind": "strong", "text": match["strong"]})
        else:
            runs.append({"kind": "figure", "text": match["figure"]})
            runs.append({"kind": "unit", "text": match["unit"]})
        end = match.end()
    if text[end:]:
        runs.append({"kind": "text", "text": text[end:]})
    return {"runs": runs, "text": "".join(run["text"] for run in runs)}


def place(text: str, second: str = "") -> Told:
    """A figure of the ruler, and the same in the reader's own unit."""
    return message(text) | {"converted": second}


def station(mark: str, letters: str = "", head: str | None = None, *lines: str) -> Told:
    return {
        "mark": mark,
        "letters": list(letters),
        "head": message(head) if head else None,
        "lines": [message(line) for line in lines],
    }


def run(text: str) -> Told:
    """Turn "W2 red", "existing" or "none" into a run."""
    if text in {"existing", "none", "signal"}:
        return {"colour": "", "style": text, "conductor": ""}
    conductor, colour = text.split()
    return {"colour": colour, "style": "new", "conductor": conductor}


def pair(
    positive: Told | None, negative: Told | None, runs: tuple[str, str], *, at: str = "",
    zone: str = "", line: bool = False, length: float = 0.0,
) -> Told:  # fmt: skip
    return {
        "kind": "pair",
        "at": place(at) if at else None,
        "zone": zone,
        "zone_starts": message(zone) if zone else None,
        "zone_line": line,
        "positive": positive,
        "negative": negative,
        "positive_run": run(runs[0]),
        "negative_run": run(runs[1]),
        "device": None,
        "device_lines": [],
        "device_existing": False,
        "length_m": length,
    }


def device(
    name: str, runs: tuple[str, str], *lines: str, existing: bool = False, zone: str = ""
) -> Told:
    return pair(None, None, runs, zone=zone) | {
        "kind": "device",
        "device": message(name),
        "device_lines": [message(line) for line in lines],
        "device_existing": existing,
    }


def view(*ranks: Told, title: str = "Wiring of the demonstration vehicle") -> Told:
    return {
        "title": message(title),
        "ranks": list(ranks),
        "connections": [message("**W1** red 25_mm² from A to B.")],
    }


def pickup() -> Told:
    """A single feed with heat sleeves and glands: the picture of the look."""
    both = ("W2 red", "W3 black")
    sleeve = station("sleeve", "", "Heat sleeve 0.6_m", "Exhaust is 170_mm away")
    gland = station("gland", "", None, "Gland G20, hole 20.5_mm")
    grommet = station("grommet", "", None, "Grommet, existing hole")
    return view(
        device("Starter battery 88_Ah", ("W1 red", "existing"), "In the vehicle, bonnet right",
               existing=True, zone="Engine bay 65_°C"),
        pair(station("joint", "A", "7.0_N·m", "M6 stud on the post"),
             station("joint", "L", "Leave as it is", "Negative post"), ("W1 red", "existing"),
             at="0_m"),
        pair(station("none", "", "**W1** red 25_mm²", "Cut 0.30_m"),
             station("sensor", "", "Sensor, existing", "then the vehicle body"),
             ("W1 red", "existing")),
        pair(station("fuse", "BC", "**F1** 70_A", "BF70H: 70_V DC, 6_kA",
                     "150_mm from A, limit 200_mm", "B and C: M6, 6.5_N·m"),
             station("joint", "K", "20_N·m", "M8 body point, photo P12"), both, at="0.15_m",
             length=0.75),
        pair(grommet, grommet, both, at="0.90_m", zone="Chassis 50_°C", line=True, length=1.5),
        pair(sleeve, sleeve, both, at="2.40_m", length=1.2),
        pair(station("arrow", "", "**W2** red 25_mm²", "Cut 5.71_m (AWG 4)"),
             station("arrow", "", "**W3** black 25_mm²", "Cut 6.01_m (AWG 4)"), both, length=1.2),
        pair(gland, gland, both, at="4.80_m", zone="Tray box 50_°C", line=True, length=0.8),
        pair(station("joint", "D", "4.5_N·m", "Clamp IN +"),
             station("joint", "J", "4.5_N·m", "Clamp IN −"), both, at="5.60_m"),
        device("Charger Sorrel 520", ("W4 red", "W5 black"), "Set 41_V. In 43.8_A at 13.2_V.",
               "IN − and OUT − are joined inside."),
        pair(station("joint", "E", "Push-in", "OUT +"), station("joint", "H", "Push-in", "OUT −"),
             ("W4 red", "W5 black")),
        pair(station("arrow", "", "**W4** red 4_mm²", "Cut 1.20_m"),
             station("arrow", "", "**W5** black 4_mm²", "Cut 1.20_m"), ("W4 red", "W5 black")),
        pair(station("plug", "F", "Vantle A", "Positive, both halves"),
             station("plug", "G", "Vantle A", "Negative, both halves"), ("W4 red", "W5 black")),
        device("Station Loft 2000", ("none", "none"), "Solar input 32 to 95_V, 13_A"),
    )  # fmt: skip


def lorry() -> Told:
    """24 V, an isolator in the negative lead, a loop at the cab's hinge, a fuse in conduit."""
    both = ("W2 red", "W3 black")
    loop = station("loop", "", "Loop at the hinge", "Leave 0.25_m of slack for the tilting cab")
    grommet = station("grommet", "", None, "Grommet GM30, locker floor 30_mm")
    conduit = station("sleeve", "", "Conduit 0.42_m", "From A to the fuse")
    return view(
        device("Batteries 2 × 180_Ah, 24_V", ("W1 red", "existing"),
               "In the vehicle, left chassis box", existing=True, zone="Lorry battery box 50_°C"),
        pair(station("joint", "A", "12_N·m", "M8 stud on the positive post"),
             station("joint", "L", "Leave as it is", "Negative post"), ("W1 red", "existing"),
             at="0_m"),
        pair(conduit, station("isolator", "", "Master isolator", "Open it before you start"),
             ("W1 red", "existing")),
        pair(station("none", "", "**W1** red 10_mm²", "Cut 0.55_m (AWG 8)"),
             station("joint", "K", "24_N·m", "M10, isolator, switched side"),
             ("W1 red", "W3 black")),
        pair(station("fuse", "BC", "**F1** 50_A", "BF70H: 70_V DC, 6_kA",
                     "420_mm from A, limit 900_mm in conduit", "B and C: M6, 6.5_N·m"),
             None, both, at="0.42_m"),
        pair(None, None, both, at="0.40_m", zone="Frame 50_°C", line=True, length=2.6),
        pair(station("arrow", "", "**W2** red 10_mm²", "Cut 5.33_m (AWG 8)"),
             station("arrow", "", "**W3** black 10_mm²", "Cut 5.63_m (AWG 8)"), both, length=1.3),
        pair(loop, loop, both, at="3.60_m", length=0.0),
        pair(grommet, grommet, both, at="3.60_m", zone="Locker 45_°C", line=True, length=1.6),
        pair(station("joint", "D", "3.5_N·m", "Clamp IN +"),
             station("joint", "J", "3.5_N·m", "Clamp IN −"), both, at="5.20_m"),
        device("Charger Brace 24/700", ("W4 red", "W5 black"), "Set 55_V. In 28.3_A at 26.8_V."),
        pair(station("joint", "E", "Push-in", "OUT +"), station("joint", "H", "Push-in", "OUT −"),
             ("W4 red", "W5 black")),
        pair(station("arrow", "", "**W4** red 4_mm²", "Cut 1.20_m"),
             station("arrow", "", "**W5** black 4_mm²", "Cut 1.20_m"), ("W4 red", "W5 black")),
        pair(station("plug", "F", "Vantle A", "Positive, both halves"),
             station("plug", "G", "Vantle A", "Negative, both halves"), ("W4 red", "W5 black")),
        device("Station Loft 2000", ("none", "none"), "Solar input 32 to 95_V, 13_A"),
    )  # fmt: skip


def long_words() -> Told:
    """Compound words as long as German makes them, and names of more than forty characters."""
    told = pickup()
    ranks = told["ranks"]
    ranks[0]["device"] = message("Starterbatterieladezustandsüberwachungsgehäuse 88_Ah")
    ranks[0]["zone_starts"] = message("Unterbodenverkleidungszwischenraum hinten links 65_°C")
    ranks[1]["positive"]["lines"] = [message("Gewindebolzen M6 an der Batteriepolklemme")]
    ranks[3]["positive"]["lines"] = [
        message("Schmelzsicherungshalter mit Spritzwasserschutzhaube: 70_V DC, 6_kA")
    ]
    ranks[9]["device"] = message("Wendric Sorrel 520 Spannungswandler Sonderausführung")
    ranks[9]["device_lines"] = [
        message("Gehäusetemperaturüberwachungsleitung bleibt angeschlossen.")
    ]
    return told


def long_run(count: int = 14) -> Told:
    """More ranks than one sheet holds: sleeves and grommets all along the run."""
    told = pickup()
    sleeve = told["ranks"][5]
    more = [sleeve | {"at": place(f"{2.5 + n / 10:.2f}_m"), "length_m": 0.1} for n in range(count)]
    told["ranks"][6:6] = more
    return told


WORDS = {
    "drawing.continues": "Continued on the next sheet.",
    "drawing.continued": "Continued from the sheet before.",
    "drawing.continues.beside": "Goes on at the top right.",
    "drawing.continued.beside": "From the foot at the left.",
}


def strip_mark(
    kind: str, at: float, label: str, *, length: float = 0.0, ruler: bool = True
) -> Told:
    return {
        "kind": kind, "at_m": at, "length_m": length, "label": message(label), "on_ruler": ruler,
    }  # fmt: skip


def route() -> Told:
    return {
        "title": message("Route of the demonstration vehicle"),
        "zones": [
            {"name": message("Engine bay 65_°C"), "start_m": 0.0, "end_m": 0.9},
            {"name": message("Chassis 50_°C"), "start_m": 0.9, "end_m": 4.8},
            {"name": message("Tray box 50_°C"), "start_m": 4.8, "end_m": 5.6},
        ],
        "marks": [
            strip_mark("joint", 0.0, "A 0_m"),
            strip_mark("fuse", 0.15, "**F1**", ruler=False),
            strip_mark("joint", 0.15, "B, K 0.15_m"),
            strip_mark("grommet", 0.9, "grommet 0.90_m"),
            strip_mark("sleeve", 2.4, "sleeve 2.40_m, exhaust 170_mm", length=0.6),
            strip_mark("gland", 4.8, "glands 4.80_m"),
            strip_mark("joint", 5.6, "D, J 5.60_m"),
        ],
        "clip_pitch_m": 0.3,
        "length_m": 5.6,
        "return_from_m": 0.15,
        "feed_label": message("**W2** red, **W3** black. Clips every 0.30_m."),
        "end_label": message("Charger Sorrel 520"),
        "text": message("From A at 0_m to D at 5.60_m."),
    }


def crowded_route() -> Told:
    told = route()
    told["zones"][2:2] = []
    told["marks"] += [
        strip_mark("loop", 3.4, "loop at the cab hinge 3.40_m, leave 0.25_m"),
        strip_mark("grommet", 5.0, "Durchführungstülle im Bodenblech 5.00_m"),
        strip_mark("grommet", 5.2, "Durchführungstülle in der Kastenwand 5.20_m"),
        strip_mark("joint", 5.4, "Massepunkt am Längsträger 5.40_m"),
        strip_mark("gland", 0.5, "gland 0.50_m"),
    ]
    return told

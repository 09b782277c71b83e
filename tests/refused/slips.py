"""Ways in which a tired person spoils a workbook, and what the message must name.

Each row: file, what stood there, what was written in its place, code, place, what was found, and
words of what would be right. `tests/refused/cases.py` holds the slips that only a rule can see.
"""

from workbooks import COBBLE, DREY, SHOP, TANSY

SORREL = "datasheets/charger/sorrel-520.yaml"
CABLE = "datasheets/cable/cordrow-f105.yaml"
TUN = "datasheets/station/tun-500.yaml"
FUSE = "datasheets/protection/tarrock-bf70h.yaml"
VANTLE = "datasheets/connector/vantle-b.yaml"

_LOOKS = """  - question: Is there a flat black sensor on the battery's negative clamp?
    answer: yes
    photo: P1
  - question: Is the starter battery under the bonnet on the left?
    answer: yes
    photo: P5
  - question: Does the plate in the door opening say 48 V?
    answer: no
    photo: P10
  - question: Does the fuel flap say petrol only?
    answer: yes
    photo: P11
"""
_FLAP = "    alt: The open fuel flap. On its inner side a label says petrol only.\n"

# fmt: off
SLIPS = [
    # file, what stood there, what was written: code, place, found, what would be right
    # what was left out, or not yet answered
    (COBBLE, "photo: P11\n", "photo:\n", "DA-08", "points", "nothing", "a value"),
    (TANSY, "low: 12.3 V", "low: ???", "DA-08", "vehicle.supply.low", "???", "an answer"),
    (DREY, "connector: barrel", "connector: barle",
     "DA-14", "fits.1.connector", "barle", "barrel"),
    # quotes of a program for letters
    (TANSY, "engine: 1.5 petrol", "engine: “1.5 petrol”",
     "DA-03", "vehicle.engine", "“1.5 petrol”", "straight quotes"),
    (TANSY, "low: 12.3 V", "low: ‘12.3 V’",
     "DA-03", "vehicle.supply.low", "‘12.3 V’", "straight quotes"),
    # one unit for another, and no figure at all
    (TANSY, "low: 12.3 V", "low: 12.3 A", "DA-10", "vehicle.supply.low", "12.3 A", "V, mV"),
    (TANSY, "low: 12.3 V", "low: 12.3 Volt", "DA-10", "vehicle.supply.low", "12.3 Volt", "V, mV"),
    (TANSY, "low: 12.3 V", "low: 12.3.0 V", "DA-10", "vehicle.supply.low", "12.3.0 V", "number"),
    (TANSY, "low: 12.3 V", "low: about 12.3 V",
     "DA-10", "vehicle.supply.low", "about 12.3 V", ""),
    # figures
    (TANSY, "low: 12.3 V", "low: 12,3 V", "DA-10", "vehicle.supply.low", "12,3 V", "a point as"),
    (TANSY, "typical: 14.2 V", "typical: 14.2",
     "DA-10", "vehicle.supply.typical", "14.2", "a unit"),
    (COBBLE, "length: 3.9 m", "length: 3.9 m 2",
     "DA-10", "segments.1.length", "3.9 m 2", "one number"),
    (COBBLE, "length: 3.9 m", "length: 3.9 m ± 120 %",
     "DA-10", "segments.1.length", "3.9 m ± 120 %", "both ends of the tolerance"),
    (COBBLE, "distance: 70 mm", "distance: 70 m",
     "DA-15", "hazards.1.distance", "70 m", "at most 2 m"),
    (TANSY, "sketch: {along: 5,", "sketch: {along: 50,",
     "DA-15", "points.positive-stud.sketch.along", "50", "at most 48 squares"),
    (TANSY, "across: 3, up: 7}", "across: 3, up: 16}",
     "DA-15", "mounts.boot-left.sketch.up", "16", "at most 15 squares"),
    (COBBLE, "length: 3.9 m", "length: 39 cm2",
     "DA-10", "segments.1.length", "39 cm2", "m, cm, mm"),
    (COBBLE, "area: 16 mm²\n", "area: 16 mm\n",
     "DA-10", "fits.0.asked.area", "16 mm", "area of copper"),
    (COBBLE, "area: 16 mm²\n", "area: 6\n",
     "DA-10", "fits.0.asked.area", "6", "a gauge with its name"),
    (CABLE, "nearest_awg: AWG 6\n", "nearest_awg: 6 gauge\n",
     "DA-10", "cable.sizes.2.nearest_awg", "6 gauge", "a gauge with its name"),
    (CABLE, "nearest_awg: AWG 6\n", "nearest_awg: AWG 60\n",
     "DA-10", "cable.sizes.2.nearest_awg", "AWG 60", "a gauge with its name"),
    (SORREL, "kind: screw clamp\n", "screw: socket 5/32 in\n  kind: screw clamp\n",
     "DA-11", "charger.input.screw", "socket 5/32 in", "socket 3/16 in"),
    (CABLE, "material: copper ", "material: copper-clad aluminium ",
     "DA-18", "cable.material", "copper-clad aluminium", "copper, or tinned"),
    (CABLE, "name: Cordrow F105", "name: Cordrow F105 CCA",
     "DA-18", "cable.name", "Cordrow F105 CCA", "copper, or tinned"),
    (COBBLE, "area: 16 mm²\n", "area: SAE 6\n", "DA-10", "fits.0.asked.area", "SAE 6", "American"),
    (COBBLE, "{value: 58 A, basis", "{value: 58, basis",
     "DA-10", "supply.hot_idle", "58", "a unit"),
    (COBBLE, "{value: 58 A, basis", "{valeu: 58 A, basis",
     "DA-07", "supply.hot_idle", "a mapping", "value"),
    (COBBLE, "{value: 58 A, basis", "{note: hot, basis",
     "DA-06", "supply.hot_idle", "a mapping", "`value`"),
    (COBBLE, "low: 13.2 V", "low: unknown", "DA-10", "supply.low", "unknown", "has to be known"),
    (COBBLE, "low: 13.2 V", "low: [13.2 V]", "DA-09", "supply.low", "a list", "a figure with"),
    (TANSY, "free_depth: 38 mm", "free_depth: [38 mm]",
     "DA-09", "mounts.boot-left.free_depth", "a list", "a figure with"),
    (SORREL, "mass: 2.3 kg", "mass: 2300 g", "DA-10", "charger.mass", "2300 g", "kg, lb"),
    (SORREL, "efficiency: 0.94", "efficiency: 94",
     "DA-15", "charger.efficiency", "94", "at most 1"),
    (SORREL, "efficiency: 0.94", "efficiency: 0 %",
     "DA-15", "charger.efficiency", "0 %", "more than 0"),
    # blanks, and words that YAML would turn into something else
    (TANSY, "place: bonnet left\n", "place:\n",
     "DA-08", "vehicle.battery.place", "nothing", "a value"),
    (TANSY, "place: bonnet left\n", "place: ~\n", "DA-08", "vehicle.battery.place", "~", "a value"),
    (TANSY, "place: bonnet left\n", "place: null\n",
     "DA-08", "vehicle.battery.place", "null", "a value"),
    (TANSY, "place: bonnet left\n", 'place: "  "\n',
     "DA-08", "vehicle.battery.place", "", "a value"),
    (TANSY, "capacity: {value: 68 Ah,", "capacity: {value: ,",
     "DA-08", "battery.capacity", "nothing", "a value"),
    (TANSY, "stop_start: true", "stop_start: yes",
     "DA-11", "supply.stop_start", "yes", "true or false"),
    (TANSY, "stop_start: true", "stop_start: True",
     "DA-11", "supply.stop_start", "True", "true or false"),
    (TANSY, "sensor: yes", "sensor: true",
     "DA-11", "vehicle.battery.sensor", "true", "yes, no, unknown"),
    (SHOP, "valid_months: 12", "valid_months: 012",
     "DA-12", "shop.valid_months", "012", "whole number"),
    (SHOP, "until: 2026-01-20", "until: 20.1.2026",
     "DA-12", "shop.people.0.until", "20.1.2026", "a date"),
    (SHOP, "until: 2026-01-20", "until: 2026-02-30",
     "DA-12", "shop.people.0.until", "2026-02-30", "a day"),
    (TANSY, "kind: run line", "kind: D+", "DA-11", "cues.engine-run.kind", "D+", "run line"),
    # keys and forms
    (TANSY, "  chemistry: AGM", "  chemsitry: AGM",
     "DA-07", "battery.chemsitry", "chemsitry", "chemistry"),
    (TANSY, "  chemistry: AGM\n", "",
     "DA-06", "vehicle.battery.chemistry", "nothing", "`chemistry:"),
    (TANSY, "code: V1", "code: V1\ncode: V2", "DA-05", "vehicle.code", "code", "line 13"),
    (SHOP, "format: 1", "format: 2", "DA-11", "shop.format", "2", "format 1"),
    (TANSY, "hazards: []\n  right", "hazards: none\n  right",
     "DA-09", "segments.2.hazards", "none", "a list"),
    (TANSY, "stop_start: true", "stop_start: [true]",
     "DA-09", "supply.stop_start", "a list", "one plain"),
    (TANSY, "{first: 2021, last: 2024}", "2021", "DA-09", "vehicle.years", "2021", "key: value"),
    (TANSY, "[tarrock-bf32, tarrock-bf70h]", "[]",
     "DA-08", "fits.0.protection", "nothing", "one entry"),
    # basis
    (COBBLE, "basis: heat}", "basis: heet}", "DA-13", "engine-bay.temperature", "heet", "heat"),
    (COBBLE, "s, basis: manual,", "s,", "DA-13", "restraints.wait", "120 s", "a `basis:`"),
    (COBBLE, "basis: heat}", "basis: [heat]}",
     "DA-09", "engine-bay.temperature", "nothing", "plain"),
    (COBBLE, "    document: Dunstrel", "    note: Dunstrel",
     "DA-13", "bases.manual", "manual", "`document:`"),
    (SORREL, "mass: 2.3 kg", "mass: {value: 2.3 kg, basis: x}",
     "DA-13", "charger.mass", "2.3 kg", "no basis"),
    # ids
    (TANSY, "charger: sorrel-240", "charger: sorel-240",
     "DA-14", "fits.0.charger", "sorel-240", "sorrel-240"),
    (TANSY, "route: left-sill", "route: left-sil",
     "DA-14", "fits.0.route", "left-sil", "left-sill"),
    (TANSY, "positive: positive-stud", "positive: body-left",
     "DA-14", "source.positive", "body-left", "positive-stud"),
    (TANSY, "clips: osmick-p", "clips: osmick-h", "DA-14", "fits.0.clips", "osmick-h", "osmick-p"),
    (TANSY, "clips: osmick-p", "clips: osmick", "DA-14", "fits.0.clips", "osmick", "osmick-p"),
    (COBBLE, "shield: osmick-h", "shield: osmick-p",
     "DA-14", "hazards.0.shield", "osmick-p", "osmick-h"),
    (TANSY, "output_area: 4 mm²", "output_area: 6 mm²", "DA-14", "output_area", "6 mm²", "4 mm²"),
    (TUN, "connector: barrel", "connector: barel", "DA-14", "station.connector", "barel", "barrel"),
    (VANTLE, "mates_with: [vantle-b]", "mates_with: [vantle-c]",
     "DA-14", "mates_with.0", "vantle-c", "vantle-b"),
    (DREY, "id: j4", "id: j3", "DA-16", "vehicle.fits.1.id", "j3", "id of its own"),
    (DREY, "id: j4", "id: J4", "DA-16", "vehicle.fits.1.id", "J4", "small letters"),
    (TANSY, "charger: sorrel-240", "charger: ../shop",
     "DA-16", "fits.0.charger", "../shop", "small letters"),
    # figures that contradict each other
    (COBBLE, "high: 14.8 V", "high: 13.7 V", "DA-15", "supply.high", "13.7 V", "13.8 V"),
    (COBBLE, "at: 2.4 m", "at: 24 m", "DA-15", "hazards.0.at", "24 m", "at most 5.60 m"),
    (COBBLE, "length: 0.9 m\n", "length: 0 m\n",
     "DA-15", "segments.0.length", "0 m", "more than 0"),
    (DREY, "loop: 0.25 m", "loop: 2.5 m", "DA-15", "segments.2.loop", "2.5 m", "at most 0.6 m"),
    (TANSY, "fuse_at: 150 mm", "fuse_at: 15 m",
     "DA-15", "source.fuse_at", "15 m", "at most 3.90 m"),
    (CABLE, "area: 35 mm²", "area: 8 mm²",
     "DA-15", "cable.sizes.4.area", "8 mm²", "more than 25 mm²"),
    (FUSE, "[30 A, 40 A", "[40 A, 30 A", "DA-15", "protection.ratings.1", "30 A", "more than 40 A"),
    (FUSE, "[30 A, 40 A", "[0 A, 40 A", "DA-15", "protection.ratings.0", "0 A", "more than 0"),
    (TANSY, "output_length: ", "output_length: -",
     "DA-10", "fits.0.output_length", "-", ""),
    (TANSY, "last: 2024", "last: 2004", "DA-15", "vehicle.years.last", "2004", "not before"),
    # looks and pictures; files that are no pictures are tried in `tests/intake/test_pictures.py`
    (TANSY, _LOOKS, _LOOKS.partition("  - question: Does the plate")[0],
     "DA-22", "vehicle.applies", "2", "3 to 5"),
    (TANSY, "    answer: no\n    photo: P10\n", "    answer: no\n",
     "DA-06", "vehicle.applies.2", "nothing", "`photo:"),
    (TANSY, "plate_photo: P10\n", "", "DA-06", "vehicle.plate_photo", "nothing", "`plate_photo:"),
    (TANSY, "plate_photo: P10\n", "plate_photo: P13\n",
     "DA-14", "vehicle.plate_photo", "P13", "P12"),
    (TANSY, "photo: P12\n", "photo: P21\n", "DA-14", "mounts.boot-left.photo", "P21", "P12"),
    (TANSY, "  P12:\n", "  P 12:\n", "DA-16", "vehicle.photos.P 12", "P 12", "letters, digits"),
    (TANSY, "    file: fuel-flap.png\n", "    file: fuel-flip.png\n",
     "DA-21", "vehicle.photos.P11.file", "fuel-flip.png", "fuel-flap.png"),
    (TANSY, _FLAP, "    alt: fuel flap\n", "DA-21", "vehicle.photos.P11.alt", "fuel flap", "words"),
    (TANSY, _FLAP, '    alt: "  "\n', "DA-08", "vehicle.photos.P11.alt", "", "a value"),
    (TANSY, _FLAP, "", "DA-06", "vehicle.photos.P11.alt", "nothing", "`alt:"),
]

PUNCTUATION = [
    # file, what stood there, what was written, reason
    (TANSY, "code: V1", "code:\tV1", "tab"),
    (TANSY, "code: V1", "code: \x07V1", "control"),
    (TANSY, "engine: 1.5 petrol", "engine: petrol: 1.5", "colon"),
    (TANSY, "engine: 1.5 petrol", 'engine: "1.5 petrol', "quote"),
    (TANSY, "engine: 1.5 petrol", "engine 1.5 petrol", "no-colon"),
    (TANSY, "engine: 1.5 petrol", "engine: @petrol", "first-sign"),
    (TANSY, "engine: 1.5 petrol", "engine: [1.5", "bracket"),
    (TANSY, "engine: 1.5 petrol", 'engine: "C:\\petrol"', "escape"),
    (TANSY, "engine: 1.5 petrol", "  engine: 1.5 petrol", "colon"),
    (TANSY, "  chemistry: AGM", " chemistry: AGM", "indent"),
]

DEVICES = [
    # file, what stood there, what was written, reason
    (TANSY, "engine: 1.5 petrol", "engine: &motor petrol", "anchor"),
    (TANSY, "engine: 1.5 petrol", "engine: *motor", "alias"),
    (TANSY, "engine: 1.5 petrol", "engine: !!str petrol", "tag"),
    (TANSY, "engine: 1.5 petrol", "engine: !petrol x", "tag"),
    (TANSY, "format: 1\n", "format: 1\n<<: {a: b}\n", "merge"),
    (TANSY, "\nfits:", "\n---\nfits:", "documents"),
]
# fmt: on

# fmt: off
LEFT_OUT = [
    # file, what stood there, what was written: what has to be told among the rest: code, place
    (TUN, "window_min: 11.5 V\n", "", "DA-06", "station.window_min"),
    (TUN, "window_min: 11.5 V\nwindow_max: 29.5 V", "window_min: 29.5 V\nwindow_max: 11.5 V",
     "DA-15", "station.start"),
    (COBBLE, "        hazards: []\n", "", "DA-06", "segments.2.hazards"),
    (COBBLE, "  wait: {value: 120 s, basis: manual, note: after the negative is off}\n", "",
     "DA-06", "restraints.wait"),
    (COBBLE, "    segments:\n", "    segment:\n", "DA-07", "chassis-right.segment"),
    (COBBLE, "    cue: voltage\n", "", "DA-06", "fits.0.cue"),
]

# Well written, and wrong: only a rule of the trade can see these. More stand in `cases.py`.
_STUD = "place: bonnet right, on the battery\n    sketch: {along: 5, across: 15, up: 9}\n"
_STUD += "    zone: engine-bay\n    thread: "
MISFITS = [
    # fit, file, what stood there, what was written: code of the refusal, what it has to name
    ("dunstrel-cobble/j9b", COBBLE, _STUD + "M6", _STUD + "M7", "CA-05", "M7"),
    ("dunstrel-cobble/j9b", COBBLE, "length: 3.9 m", "length: 39 m", "CA-03", "none"),
    ("dunstrel-cobble/j9b", COBBLE, "fuse_at: 150 mm", "fuse_at: 1.50 m", "OC-07", "1.5"),
]
# fmt: on

"""One bad fit per rule: which fit of the example, how it is spoilt, what comes of it.

Each case is an edit of the workbook's own text, so that it also shows what a person would
have to write to meet the rule.
"""

from dataclasses import dataclass

from baybook.finding import Verdict
from chassis import CHANGES as CHASSIS
from shared_line import CHANGES as SHARED
from workbooks import CAMBER, COBBLE, DREY, MIRREN, ORLET, SHOP, TANSY

J2 = "brunsall-tansy/j2"
J1, J3, J4 = "brunsall-tansy/j1", "ostrigg-drey/j3", "ostrigg-drey/j4"
J10, J11, J12 = "dunstrel-cobble/j10", "dunstrel-cobble/j11", "ostrigg-drey/j12"
J8 = "tavlow-camber/j8"
J5, J7 = "pellmare-mirren/j5", "tessick-orlet/j7"
J9, J9B = "dunstrel-cobble/j9", "dunstrel-cobble/j9b"

SORREL_240 = "datasheets/charger/sorrel-240.yaml"
SORREL_520 = "datasheets/charger/sorrel-520.yaml"
TUN_500 = "datasheets/station/tun-500.yaml"
LOFT_2000 = "datasheets/station/loft-2000.yaml"
BARREL = "datasheets/connector/barrel.yaml"
BF32 = "datasheets/protection/tarrock-bf32.yaml"
BF70H = "datasheets/protection/tarrock-bf70h.yaml"
BT = "datasheets/protection/tarrock-bt.yaml"
F105 = "datasheets/cable/cordrow-f105.yaml"
S4 = "datasheets/cable/cordrow-s4.yaml"
CLIPS = "datasheets/sundry/osmick-p.yaml"
LUGS = "datasheets/lug/copstan-l.yaml"

LFP = "datasheets/battery/lfp-120.yaml"
BT_STEPS = "ratings: [50 A, 70 A, 80 A, 100 A]"
_SECOND = "protection: [tarrock-bf32, tarrock-bf70h, tarrock-bt]"

REFUSED, HOLD, CAUTION = Verdict.REFUSED, Verdict.HOLD, Verdict.CAUTION

_GUESS = ("\nbases:\n", "\nbases:\n  guess: {state: estimated, by: writer}\n")
_BRASS = "torque: {value: unknown, basis: manual}\n    table: {kind: brass stud}"
_BACK = "      return_path: chassis"
_SLOW_GATES = "  - {multiple: 350 %, within: 5 s}\n  - {multiple: 600 %, within: 0.5 s}\n"


_STUD = "    photo: P2\n    at_post: true\n"
_STEEL = (
    "torque: {value: unknown, basis: manual}\n    table:\n      kind: steel bolt\n"
    "      property_class: '8.8'\n      nut_factor: {value: 0.20, basis: manual}\n"
)
_HELD = (
    "    screw_length: {value: 20 mm, basis: kit}\n    drill: {value: 5.5 mm, basis: kit}\n"
    "    fastener: through-bolt\n    holds: {value: 2.0 kN, basis: kit, note: "
    "one bolt with its spread plate on 0.8 mm steel or more}\n"
)
_SAE_8 = (
    "  - area: 7.5 mm²\n    nearest_awg: AWG 8\n    resistance: 2.45 mΩ/m\n    diameter: 6.1 mm\n"
    "    bend_radius: 25 mm\n    ampacity:\n      - {ambient: 30 °C, current: 62 A}\n"
)


def _spoilt(changes, *spoil):
    """The changes of a fit that is right, with their own text spoilt."""
    whole = [(TANSY, *_GUESS), *changes]
    for _, old, new in spoil:
        assert any(old in text for _, _, text in whole), old
        whole = [(name, was, text.replace(old, new)) for name, was, text in whole]
    return tuple(whole)


def _upstream(continuous):
    return (
        _STUD + "    upstream:\n      basis: manual\n      place: fuse box\n      rating: 80 A\n"
        f"      continuous: {continuous}\n      voltage: 32 V\n      breaking: 6 kA\n"
        "      opens: []\n"
    )


@dataclass(frozen=True, kw_only=True)
class Case:
    code: str
    fit: str
    verdict: Verdict = REFUSED
    changes: tuple[tuple[str, str, str], ...] = ()
    note: str = ""

    def __str__(self) -> str:
        return f"{self.code} {self.note or self.verdict.value}"


def case(code, fit, *changes, verdict=REFUSED, note=""):
    return Case(code=code, fit=fit, verdict=verdict, changes=changes, note=note)


CASES = (
    case("OV-01", J4, note="lowest setting is the absolute maximum"),
    case("OV-02", J1, (TUN_500, "window_max: 29.5 V", "window_max: 17 V")),
    case(
        "OV-03",
        J9B,
        (LOFT_2000, "absolute: 100 V", "absolute: 36.5 V"),
        (LOFT_2000, "window_max: 95 V", "window_max: 36 V"),
        (LOFT_2000, "start: 36 V", "start: 33 V"),
    ),
    case("OV-04", J1, (TANSY, "station: tun-500", "station: loft-310"), verdict=HOLD),
    case(
        "OV-05",
        J3,
        (LOFT_2000, "absolute: 100 V", "absolute: 42 V"),
        (LOFT_2000, "window_max: 95 V", "window_max: 39 V"),
        (LOFT_2000, "start: 36 V", "start: 33 V"),
        verdict=HOLD,
    ),
    case("OV-06", J9B, (SHOP, "value: 60 V", "value: 36 V")),
    case("OV-07", J1, (TANSY, "output_length: 1.2 m", "output_length: 40 m")),
    case("OV-08", J1, (TANSY, "connector: barrel", "connector: vantle-a")),
    case("OV-08", J1, (TUN_500, "connector: barrel ", "connector: unknown "), verdict=HOLD),
    case("OV-09", J1, (TUN_500, "_tested: yes", "_tested: unknown"), verdict=HOLD),
    case("OV-12", J2, verdict=HOLD, note="centre minus"),
    case(
        "OV-12",
        J1,
        (TUN_500, "polarity: centre positive", "polarity: unknown"),
        verdict=HOLD,
        note="nobody knows",
    ),
    case("OV-10", J1, (BARREL, "current: 10 A", "current: 5 A")),
    case("OV-11", J1, (SORREL_240, "area_max: 6 mm²", "area_max: 2.5 mm²")),
    case(
        "OC-01",
        J9B,
        (
            BF32,
            "ratings: [20 A, 25 A, 30 A, 40 A, 50 A, 70 A, 80 A, 100 A, 125 A]",
            "ratings: [20 A]",
        ),
        (BF70H, "ratings: [30 A, 40 A, 50 A, 70 A, 80 A]", "ratings: [30 A]"),
    ),
    case(
        "OC-01",
        J1,
        (
            SHOP,
            "name: Engine bay\n    temperature: 70 °C",
            "name: Engine bay\n    temperature: 80 °C",
        ),
        note="hotter than the table of its sheet",
    ),
    case(
        "OC-02",
        J3,
        (DREY, "connector: vantle-a", "connector: vantle-a\n    asked:\n      area: 6 mm²"),
    ),
    case("OC-03", J1, (SORREL_240, "upstream_max: 40 A", "upstream_max: 15 A")),
    case(
        "OC-04",
        J3,
        (BF70H, "voltage: 70 V", "voltage: 32 V"),
        (BT, "voltage: 125 V", "voltage: 32 V"),
    ),
    case("OC-05", J9B, (BF70H, "breaking: 6 kA", "breaking: 3 kA")),
    case(
        "OC-05",
        J1,
        (TANSY, "{value: 6.0 mΩ ± 10 %, method: 50 A step at 25 °C}", "unknown"),
        verdict=HOLD,
    ),
    case("OC-06", J9B, (BF32, _SLOW_GATES, ""), (BF70H, _SLOW_GATES, "")),
    case("OC-07", J1, (TANSY, "fuse_at: 150 mm", "fuse_at: 450 mm")),
    case("OC-07", J3, verdict=HOLD, note="in conduit, and signed"),
    case(
        "OC-08",
        J1,
        (BF32, "2000 %, within: 0.01 s", "2000 %, within: 0.4 s"),
        (BF70H, "2000 %, within: 0.01 s", "2000 %, within: 0.4 s"),
    ),
    case(
        "OC-09",
        J3,
        (DREY, "connector: vantle-a", "connector: vantle-a\n    asked:\n      area: 6 mm²"),
    ),
    case(
        "OC-10", J1, (BF32, "thread: M5 ", "thread: M12 "), (BF70H, "thread: M6 ", "thread: M12 ")
    ),
    case(
        "OC-11",
        J1,
        (BF32, "reset: none", "reset: automatic"),
        (BF70H, "reset: none", "reset: automatic"),
    ),
    case(
        "OC-12",
        J1,
        (
            BF32,
            "opens:                       "
            "# at this multiple of the rating it opens for sure within this time\n"
            + _SLOW_GATES
            + "  - {multiple: 2000 %, within: 0.01 s}\n",
            "opens: []\n",
        ),
        verdict=HOLD,
    ),
    case("OC-21", J1, (TANSY, _STUD, _upstream("6 A"))),
    case("OC-22", J1, (TANSY, _STUD, _upstream("60 A")), verdict=CAUTION),
    case("OC-23", J1, (SHOP, "clip_rule: iso10133 ", "clip_rule: iso99999 ")),
    case("OC-24", J1, (BF32, "form: fuse", "form: fuse\nstandard: ISO 8820-3"), verdict=CAUTION),
    case(
        "OC-25",
        J3,
        (F105, "overload_max: 130 °C ", "# "),
        (DREY, "connector: vantle-a", "connector: vantle-a\n    asked:\n      area: 10 mm²"),
        note="no limit for an overload on the sheet",
    ),
    case(
        "OC-25",
        J3,
        (BF70H, "multiple: 135 %, up_to: 600 s", "multiple: 200 %, up_to: 300 s"),
        (BT, "multiple: 135 %, up_to: 600 s", "multiple: 200 %, up_to: 300 s"),
        (DREY, "connector: vantle-a", "connector: vantle-a\n    asked:\n      area: 10 mm²"),
        note="held longer than a blade fuse",
    ),
    case(
        "SB-10",
        J8,
        (CAMBER, _SECOND, "protection: [tarrock-bt]"),
        (BT, "multiple: 135 %, up_to: 600 s", "multiple: 300 %, up_to: 600 s"),
    ),
    case(
        "OC-26",
        J1,
        (BF32, "form: fuse", "form: fuse\nstandard: ISO 8820-3"),
        (BF32, "ratings: [20 A, 25 A, 30 A,", "ratings: [20 A, 25 A, 32 A,"),
        (BF70H, "ratings: [30 A, 40 A,", "ratings: [40 A,"),
        verdict=CAUTION,
    ),
    case("CA-01", J9, note="asked size"),
    case("CA-02", J9, note="asked size"),
    case("CA-03", J9B, (COBBLE, "length: 3.9 m", "length: 60 m")),
    case("CA-04", J9B, (SORREL_520, "area_max: 25 mm²", "area_max: 16 mm²")),
    case(
        "CA-05",
        J9B,
        (CLIPS, "  - {id: P10, diameter_max: 10 mm}\n  - {id: P12, diameter_max: 12 mm}\n", ""),
    ),
    case(
        "CA-07",
        J9B,
        (
            SHOP,
            "name: Under-body\n    temperature: 50 °C",
            "name: Under-body\n    temperature: 110 °C",
        ),
    ),
    case("CA-08", J9B, (F105, "1.21 mΩ/m", "1.05 mΩ/m")),
    case("CA-08", J1, (S4, "4.95 mΩ/m", "4.00 mΩ/m"), note="output lead"),
    case("CA-09", J9B, (F105, "1.21 mΩ/m", "1.22 mΩ/m")),
    case(
        "CA-09",
        J9B,
        (F105, "standard: IEC 60228 class 5", "standard: IEC 60228 class 2"),
        note="class 5 sold as class 2",
    ),
    case("CA-10", J9B, (F105, "standard: IEC 60228 class 5", "standard: ISO 6722-1 class B")),
    case(
        "CA-11",
        J1,
        (F105, "standard: IEC 60228 class 5", "standard: ISO 19642-3 class C"),
        verdict=CAUTION,
    ),
    case(
        "CA-13",
        J1,
        (S4, "nearest_awg: AWG 12", "nearest_awg: AWG 10"),
        verdict=CAUTION,
        note="output lead",
    ),
    case(
        "CA-13",
        J9B,
        (F105, "  - area: 10 mm²\n", f"{_SAE_8}  - area: 10 mm²\n"),
        verdict=CAUTION,
        note="SAE 8 listed as AWG 8",
    ),
    case("CA-14", J9B, (F105, "bend_radius: 40 mm", "bend_radius: 28 mm"), verdict=CAUTION),
    case(
        "CA-14",
        J1,
        (S4, "standard: IEC 60228 class 5", "standard: EN 50618, IEC 60228 class 5"),
        (S4, "bend_radius: 24 mm", "bend_radius: 23 mm"),
        verdict=CAUTION,
        note="photovoltaic lead",
    ),
    case(
        "CA-12",
        J9B,
        (
            COBBLE,
            "thread: M8\n    torque: {value: 20 N·m, basis: manual}",
            f"thread: M4\n    {_BRASS}",
        ),
        (LUGS, "studs: [M6, M8, M10]\n    die: H12", "studs: [M4, M6, M8, M10]\n    die: H12"),
    ),
    case(
        "CA-12",
        J9B,
        (
            COBBLE,
            "thread: M8\n    torque: {value: 20 N·m, basis: manual}",
            f"thread: M4\n    {_STEEL}",
        ),
        (LUGS, "studs: [M6, M8, M10]\n    die: H12", "studs: [M4, M6, M8, M10]\n    die: H12"),
        note="lugs under a steel stud",
    ),
    case("NE-05", J1, (TANSY, "negative: body-left", f"negative: body-left\n{_BACK}")),
    case(
        "NE-05",
        J1,
        (TANSY, "negative: body-left", f"negative: body-left\n{_BACK}"),
        (TANSY, "code: V1\n", "code: V1\nbody_return: no\n"),
        note="a body that may not",
    ),
    *(
        case("NE-05", J1, *_spoilt(CHASSIS, *spoil), note=note)
        for note, spoil in (
            ("no length", ((TANSY, "      return_length: 0.4 m\n", ""),)),
            ("not measured", ((TANSY, "start: body-boot", "start: negative-post"),)),
            ("another point", ((TANSY, "end: body-left", "end: negative-post"),)),
            ("an estimate", ((TANSY, "62 mV ± 5 %, basis: survey", "62 mV ± 5 %, basis: guess"),)),
            ("from a paper", ((TANSY, "40 A ± 2 %, basis: clamp", "40 A ± 2 %, basis: manual"),)),
            ("a small current", ((TANSY, "40 A ± 2 %", "5 A ± 2 %"),)),
            ("maker forbids", ((TANSY, "body_return: yes", "body_return: no"),)),
            ("maker not asked", ((TANSY, "body_return: yes", "body_return: unknown"),)),
        )
    ),
    case("SU-01", J1, (TANSY, "charger: sorrel-240", "charger: brace-24-700")),
    case("SU-02", J1, (TANSY, "  stop_start: true", "  allowance: 8 A\n  stop_start: true")),
    case("SU-03", J1, (SHOP, "deficit_refused: false", "deficit_refused: true")),
    case("SU-03", J1, verdict=CAUTION),
    case("SU-04", J1, (TANSY, "hot_cruise: {value: 132 A", "hot_cruise: {value: 80 A")),
    case("SU-12", J1, *_spoilt(SHARED, (TANSY, "value: 60 A", "value: 15 A"))),
    case("SU-05", J1, (TANSY, "charger: sorrel-240", "charger: sorrel-240\n    charger_units: 2")),
    case("SU-06", J1, (TANSY, "nominal: {value: 12 V", "nominal: {value: 48 V")),
    case("SU-07", J5, verdict=CAUTION),
    case(
        "SU-11",
        J1,
        (TANSY, "  hot_cruise: {value: 132 A, basis: clamp}\n", ""),
        verdict=CAUTION,
    ),
    case(
        "SU-11",
        J5,
        (MIRREN, "  allowance: {value: 20 A,", "  # allowance: {value: 20 A,"),
        verdict=HOLD,
        note="a converter that nobody states a limit for",
    ),
    case(
        "SU-08",
        J7,
        (ORLET, "positive: body-builder-stud", "positive: positive-post"),
        (ORLET, "protection: [] ", "protection: [tarrock-bf32] "),
    ),
    case("SU-09", J11),
    case("SU-10", J10),
    case("FX-04", J7, (ORLET, "mount: racking", "mount: floor")),
    case("CU-05", J5, (MIRREN, "kind: ready line", "kind: run line"), verdict=CAUTION),
    case("CU-05", J1, (TANSY, "kind: run line", "kind: drive line"), verdict=CAUTION),
    case("SB-01", J8, (CAMBER, _SECOND, "protection: []")),
    case(
        "SB-02",
        J8,
        (CAMBER, _SECOND, "protection: [tarrock-bt]"),
        (BT, BT_STEPS, "ratings: [100 A]"),
    ),
    case("SB-03", J8, (CAMBER, _SECOND, "protection: [tarrock-bf70h]")),
    case("SB-03", J8, (LFP, "internal: 1.6 mΩ ± 10 %", "internal: unknown"), verdict=HOLD),
    case(
        "SB-04",
        J8,
        (CAMBER, _SECOND, "protection: [tarrock-bt]"),
        (BT, "voltage: 125 V", "voltage: 16 V"),
    ),
    case(
        "SB-05",
        J8,
        (CAMBER, _SECOND, "protection: [tarrock-bt]"),
        (BT, "multiple: 350 %, within: 2 s", "multiple: 8000 %, within: 2 s"),
        (BT, "multiple: 600 %, within: 0.2 s", "multiple: 8500 %, within: 0.2 s"),
        (BT, "multiple: 2000 %, within: 0.01 s", "multiple: 9000 %, within: 0.01 s"),
    ),
    case("SB-06", J8, (CAMBER, "fuse_at: 150 mm ", "fuse_at: 450 mm ")),
    case("SB-07", J8, (LFP, "charge_current: 50 A", "charge_current: 30 A")),
    case(
        "SB-08",
        J8,
        (LFP, "low_stop: 0 °C ", "# low_stop: 0 °C "),
        (CAMBER, "temperature_lead: true", "temperature_lead: false"),
    ),
    case(
        "SB-08", J8, (CAMBER, "temperature_lead: true", "temperature_lead: false"), verdict=CAUTION
    ),
    case("SB-09", J8, verdict=CAUTION),
    case("NE-03", J12),
    case("NE-04", J12),
    case(
        "CU-01",
        J1,
        (TANSY, "kind: controlled alternator", "kind: converter"),
        (TANSY, "cue: engine-run", "cue: voltage"),
    ),
    case("CU-02", J1, (TANSY, "cue: engine-run", "cue: voltage")),
    case("CU-03", J9B, verdict=CAUTION),
    case("CU-04", J1, (TANSY, "kind: run line", "kind: ignition"), verdict=CAUTION),
    case("NE-01", J1, (TANSY, "negative: body-left", "negative: negative-post")),
    case(
        "NE-02",
        J3,
        (DREY, "letter: true           # ", "letter: false          # "),
        note="no letter",
    ),
    case("NE-02", J3, (DREY, "switched_side: true", "switched_side: false"), note="wrong side"),
    case("NE-02", J3, verdict=HOLD),
    case(
        "TQ-01", J1, (TANSY, "torque: {value: 20 N·m, ", "torque: {value: unknown, "), verdict=HOLD
    ),
    case(
        "TQ-02", J1, (TANSY, "torque: {value: 20 N·m, ", "torque: {value: 25 N·m, "), verdict=HOLD
    ),
    case(
        "TQ-11",
        J1,
        (
            TANSY,
            "torque: {value: 20 N·m, basis: manual}",
            "torque: {value: 20 N·m, basis: manual}\n    torque_other: {value: 16 N·m, basis: kit}",
        ),
        verdict=HOLD,
    ),
    case(
        "TQ-12",
        J1,
        (
            TANSY,
            "torque: {value: 20 N·m, basis: manual}",
            _STEEL + "      into: rivet nut",
        ),
        note="a rivet nut has no table",
    ),
    case(
        "TQ-13",
        J1,
        (SHOP, "torque_high: 60 N·m", "torque_high: 15 N·m"),
        (SHOP, "torque_high: 25 N·m", "torque_high: 15 N·m"),
        verdict=HOLD,
    ),
    case(
        "TQ-12",
        J1,
        (
            TANSY,
            "torque: {value: 20 N·m, basis: manual}",
            "torque: {value: unknown, basis: manual}\n    table:\n      kind: screw clamp",
        ),
    ),
    case(
        "RT-01",
        J9B,
        (COBBLE, "            shield: osmick-h\n            shield_length: 0.6 m\n", ""),
    ),
    case("RT-01", J9B, verdict=CAUTION),
    case("RT-02", J1, (TANSY, "hole: {value: 22 mm,", "hole: {value: 18 mm,")),
    case("RT-02", J1, (TANSY, "hole: {value: 22 mm,", "hole: {value: unknown,"), verdict=HOLD),
    case("RT-11", J9B, (COBBLE, "distance: 70 mm", "distance: 40 mm")),
    case("RT-11", J9B, verdict=CAUTION),
    case(
        "RT-15",
        J9B,
        (SHOP, "    - {kind: brake line, least: 50 mm, source: shop rule}\n", ""),
    ),
    case("RT-12", J9B, (COBBLE, "length: 3.9 m", "length: 3.9 m\n        bend: 38 mm")),
    case(
        "RT-16",
        J3,
        (
            DREY,
            "        bend: 60 mm          # tightest radius, cab up and cab down\n",
            "",
        ),
        verdict=CAUTION,
    ),
    case("RT-13", J1, (SHOP, "clip_pitch: 300 mm", "clip_pitch: 320 mm")),
    case(
        "RT-14",
        J1,
        (TANSY, "          form: grommet ", "          edge: 9 mm\n          form: open "),
    ),
    case("HT-01", J9B, (SORREL_520, "stop: 70 °C", "stop: 50 °C")),
    case("HT-01", J9B, verdict=CAUTION),
    case("FX-01", J1, (TANSY, "free_depth: 38 mm", "free_depth: 15 mm")),
    case("FX-02", J1, (TANSY, "free_depth: 38 mm", "free_depth: unknown")),
    case("FX-03", J1, (SHOP, "fixings_lost: 1", "fixings_lost: 4")),
    case("FX-11", J1, (SORREL_240, "mass: 1.1 kg", "mass: 40 kg")),
    case("FX-12", J1, (TANSY, _HELD, _HELD.partition("    holds")[0]), verdict=HOLD),
    case("FX-13", J1, (TANSY, "strap_holds: 10 kN", "strap_holds: 1.2 kN")),
    case("FX-14", J1, (SHOP, "forward: 20 g", "forward: 0.8 g"), verdict=CAUTION, note="cargo"),
    case("PL-01", J1, (TANSY, "gross: 1830 kg", "gross: 1690 kg")),
    case("PL-02", J1, (TANSY, "kerb: 1310 kg", "kerb: unknown"), verdict=CAUTION),
    case("RS-01", J3, (DREY, "    - none found", "    - unknown"), verdict=HOLD),
    case("RS-02", J1, (TANSY, "wait: {value: 180 s", "wait: {value: unknown"), verdict=HOLD),
    case("RS-03", J7, (ORLET, "wait: {value: 600 s", "wait: {value: unknown"), verdict=HOLD),
    case(
        "ES-01",
        J1,
        (TANSY, "  drive:\n    state: measured", "  drive:\n    state: estimated"),
        verdict=CAUTION,
    ),
)

# AG-01 looks for an error of the tool itself; no fit can cause it. See tests/checks/test_gates.py.
WITHOUT_FIT = {"AG-01"}

"""Random told wiring views, for rules that must hold for every one of them."""

from __future__ import annotations

from hypothesis import strategies as st

from drawing.told import device, message, pair, station, view

_WORD = st.text(st.sampled_from("aeinrstlmoäüßABGMW0123456789-/.,°²·"), min_size=1, max_size=24)
TEXT = st.lists(_WORD, min_size=1, max_size=5).map(" ".join)
_NAME = st.one_of(TEXT, st.just("Starterbatterieladezustandsüberwachungsgehäuse rechts 88_Ah"))
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZabcdefghjklmnpqrstuvwxyz"
_PLAIN = ("grommet", "gland", "sleeve", "loop", "arrow", "sensor", "isolator", "removed", "none")
_LETTERED = {"joint": 1, "plug": 1, "fuse": 2, "breaker": 2}


@st.composite
def stations(draw, letters):
    """Draw a mark with its words; its letters are taken from what is left of the alphabet."""
    kind = draw(st.sampled_from([*_PLAIN, *_LETTERED]))
    need = _LETTERED.get(kind, 0)
    if len(letters) < need:
        kind, need = "none", 0
    own = "".join(letters.pop(0) for _ in range(need))
    head = draw(st.none() | TEXT)
    return station(kind, own, head, *draw(st.lists(TEXT, max_size=3)))


@st.composite
def wiring_views(draw, most=22):
    """Draw a view: a source, pairs and devices in any order, a load."""
    letters = list(_LETTERS)
    ranks = [device(draw(_NAME), ("W0 red", "existing"), existing=True, zone=draw(TEXT))]
    for number in range(draw(st.integers(1, most))):
        runs = (f"W{number // 3} red", draw(st.sampled_from(["existing", "signal", "V1 black"])))
        zone = draw(st.one_of(st.just(""), st.just(""), TEXT))
        if draw(st.integers(0, 7)) == 0:
            ranks.append(device(draw(_NAME), runs, draw(TEXT), zone=zone))
            continue
        sides = [draw(st.none() | stations(letters)) for _ in range(2)]
        at = draw(st.sampled_from(["", "0_m", "12.40_m"]))
        length = draw(st.sampled_from([0.0, 0.3, 2.5, 9.0]))
        line = bool(zone) and draw(st.booleans())
        ranks.append(pair(*sides, runs, at=at, zone=zone, line=line, length=length))
    ranks.append(device(draw(_NAME), ("none", "none"), draw(TEXT)))
    return view(*ranks)


@st.composite
def route_views(draw):
    """Draw a route of one to four zones with up to nine marks anywhere on it."""
    ends = sorted(draw(st.lists(st.integers(1, 90), min_size=1, max_size=4, unique=True)))
    length = ends[-1] / 10
    starts = [0, *ends[:-1]]
    kinds = st.sampled_from(["joint", "fuse", "grommet", "gland", "sleeve", "conduit", "loop"])
    marks = [
        {
            "kind": draw(kinds),
            "at_m": draw(st.integers(0, ends[-1])) / 10,
            "length_m": draw(st.sampled_from([0.0, 0.4, 1.0])),
            "label": message(draw(TEXT)),
            "on_ruler": draw(st.booleans()),
        }
        for _ in range(draw(st.integers(0, 9)))
    ]
    return {
        "title": message("Route"),
        "zones": [
            {"name": message(draw(TEXT)), "start_m": a / 10, "end_m": b / 10}
            for a, b in zip(starts, ends, strict=True)
        ],
        "marks": marks,
        "clip_pitch_m": draw(st.sampled_from([0.0, 0.3])),
        "length_m": length,
        "return_from_m": draw(st.sampled_from([0.0, 0.1])),
        "feed_label": message(draw(TEXT)),
        "end_label": message(draw(_NAME)),
        "text": message("In words."),
    }

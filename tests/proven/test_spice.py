"""ngspice as referee, many circuits a run: shared feeds, whole fits, their faults.

Copper that warms is a voltage source that follows its own current, so ngspice finds
current and warmth together by itself; nothing of our answer goes into the netlist but the circuit.
"""

import random
import re
import shutil
import subprocess
from dataclasses import replace

import pytest

from baybook.sizing.network import solve
from baybook.sizing.source import NoSolution
from baybook.sizing.traces import figures
from baybook.sizing.work_out import work_out
from baybook.solved import Line, Load, Network
from drawn import drawn
from proven.reckoner import pieces
from proven.test_reckoned import at_random
from shared_line import shared_fit
from variants import point

NETWORKS = 200
FITS = 200
CLOSE = 1e-4
_OPTIONS = ".options reltol=1e-5 vntol=1e-7 abstol=1e-7 itl1=500"


def run(circuits, folder):
    """Solve many netlists in one run; `circuits` are (lines, expected values by vector)."""
    steps = []
    for n, (lines, expected) in enumerate(circuits):
        path = folder / f"c{n}.cir"
        path.write_text("\n".join([f"* {n}", *lines, _OPTIONS, ".end"]), encoding="utf-8")
        asked = [f"print {name}" for name in expected]
        steps += [f"source {path}", "op", f"echo circuit = {n}", *asked, "remcirc"]
    deck = folder / "many.cir"
    deck.write_text(
        "\n".join(["* many", "v1 1 0 1", ".control", *steps, "quit", ".endc", ".end"]),
        encoding="utf-8",
    )
    program = shutil.which("ngspice")
    assert program, "ngspice is a Debian package that the tests need"
    done = subprocess.run(
        [program, "-b", str(deck)], capture_output=True, text=True, check=False, timeout=60
    )
    found = re.findall(r"^(\S+) = (\S+)$", done.stdout, re.MULTILINE)
    answers, at = [{} for _ in circuits], 0
    for name, value in found:
        if name == "circuit":
            at = int(value)
        else:
            answers[at][name] = float(value)
    for (_, expected), answer in zip(circuits, answers, strict=True):
        assert set(answer) == set(expected), done.stdout[-2000:] + done.stderr[-2000:]
        for name, value in expected.items():
            assert answer[name] == pytest.approx(value, rel=CLOSE), name


def warm(name, start, end, law):
    """Write a conductor whose volts follow `law`, a formula of its own current {i}."""
    current = f"i(vm{name})"
    return [f"vm{name} {start} m{name} 0", f"b{name} m{name} {end} v={law.format(i=current)}"]


# ------------------------------------------------------------------ shared feeds


def network(dice):
    """One source, up to eight nodes that branch, two loads or more."""
    names = [f"n{k}" for k in range(dice.randint(2, 8))]
    lines = [
        Line(
            node=name,
            parent=dice.choice(["", *names[:k]]),
            idle_ohm=dice.uniform(0.5e-3, 15e-3),
            warming=dice.choice([0.0, dice.uniform(0, 2e-7)]),
        )
        for k, name in enumerate(names)
    ]
    loaded = dice.sample(names, dice.randint(2, len(names)))
    loads = [
        Load(
            node=name,
            power_W=dice.choice([0.0, dice.uniform(20, 300)]),
            current_A=dice.choice([0.0, dice.uniform(0.5, 15)]),
        )
        for name in loaded
    ]
    volts = dice.choice([12.3, 13.2, 14.2, 26.4])
    return Network(supply_V=volts, lines=tuple(lines), loads=tuple(loads))


def test_shared_feeds_with_several_loads(tmp_path):
    dice = random.Random(12)  # noqa: S311 - the same circuits every time
    circuits = []
    while len(circuits) < NETWORKS:
        one = network(dice)
        try:
            flow = solve(one)
        except NoSolution:
            continue  # that there is none is scipy's to say: tests/sizing/test_network.py
        if min(node.voltage_V for node in flow.nodes) < 0.6 * one.supply_V:
            continue  # both working points are near: it may find the lower one
        lines = [f"vs s 0 {one.supply_V!r}"]
        for line in one.lines:
            law = f"{{i}}*({line.idle_ohm!r}+{line.warming!r}*{{i}}*{{i}})"
            lines += warm(line.node, line.parent or "s", line.node, law)
            lines.append(f".nodeset v({line.node})={0.95 * one.supply_V}")
        for k, load in enumerate(one.loads):
            draws = f"{load.power_W!r}/max(v({load.node}),1)+{load.current_A!r}"
            lines.append(f"bl{k} {load.node} 0 i={draws}")
        expected = {f"v({node.name})": node.voltage_V for node in flow.nodes}
        if flow.current_A:
            expected["i(vs)"] = -flow.current_A
        circuits.append((lines, expected))
    run(circuits, tmp_path)


# ------------------------------------------------------------------ whole fits


def copper(design, piece):
    """Write the law of a cut piece: each leg as warm as its zone and its current make it."""
    fit = design.fit
    size = next(s for s in fit.cable.sizes if s.area.value == piece.area_mm2)
    top, terms = fit.cable.conductor_max.value, []
    for leg in piece.legs:
        carries = next(f.value for f in design.figures if f.name == f"ampacity_{leg.zone}")
        a, rise = leg.ambient_C, (top - leg.ambient_C) / carries**2
        factor = f"(1+({a!r}+{rise!r}*{{i}}*{{i}}-20)/254.5)"
        terms.append(f"{leg.length_m * size.resistance.high!r}*{factor}")
    return "{i}*(" + "+".join(terms) + ")"


def fed(design, volts):
    """Write the input circuit from joints and conductors: posts, run, charger, run, posts."""
    fit, at = design.fit, {joint.role: joint.letter.lower() for joint in design.circuit.joints}
    contacts, power = fit.shop.joints, design.solved.feed.power_W
    lines = [f"vs top 0 {volts!r}"]
    for n, piece in enumerate(design.circuit.conductors):
        if piece.use in {"source", "feed", "return"}:
            start, end = piece.start.lower(), piece.end.lower()
            lines += warm(f"w{n}", start, end, copper(design, piece))
    plus, minus = at["in+"], at["in-"]
    if "fuse-in" in at:
        lines.append(f"rf {at['fuse-in']} {at['fuse-out']} 1e-9")
    return [
        *lines,
        f"rp top {at['source+']} {contacts.positive.high!r}",
        f"rn {at['return']} 0 {contacts.negative.high!r}",
        f"bl {plus} {minus} i={power!r}/max(v({plus})-v({minus}),1)",
        f".nodeset v({plus})={0.95 * volts} v({minus})=0",
    ], (plus, minus)


def test_the_input_of_whole_fits(tmp_path):
    circuits, seed = [], 50_000
    while len(circuits) < FITS:
        seed += 1
        fit = drawn(seed)
        bare = work_out(fit, at_random(fit, random.Random(seed)))  # noqa: S311
        low = bare.solved.feed.low
        if low is None or low.drop > 0.35:
            continue
        design = replace(bare, figures=figures(bare, ()))
        lines, (plus, minus) = fed(design, low.supply_V)
        volts = low.supply_V - low.current_A * low.positive_ohm
        expected = {
            f"v({plus})": volts,
            f"v({minus})": volts - low.charger_V,
            "i(vs)": -low.current_A,
        }
        circuits.append((lines, expected))
    run(circuits, tmp_path)


# ------------------------------------------------------------------ faults of whole fits


def on_a_line(fit, line):
    """The fit with its feed started at the end of a line of the vehicle's own."""
    return point(fit, fit.job.source.positive, at_post=False, line=line)


def shorted(design, *, weak, far):
    """Write a dead short: behind the protection or at the charger, at one end of everything.

    Weak: lowest supply, weak battery, long runs of hot copper, contacts, the line at its worst.
    Strong: the other end of all, copper at -40 °C (ISO 16750-4), no contact; right behind the
    protection not even the line.
    """
    fit, fault = design.fit, design.solved.fault
    size = next(s for s in fit.cable.sizes if s.area.value == design.choice.area_mm2)
    supply, line = fit.vehicle.supply, fit.vehicle.points[fit.job.source.positive].line
    volts = supply.low.low if weak else supply.high.high
    internal = fault.internal_high_ohm if weak else fault.internal_low_ohm
    chain = [internal]
    if line is not None and (weak or far):
        ends = (line.drop.high, line.current.low) if weak else (line.drop.low, line.current.high)
        chain.append(ends[0] / ends[1])
    if far:
        theta = fit.cable.conductor_max.value if weak else -40
        per_metre = (size.resistance.high if weak else size.resistance.low) * (
            1 + (theta - 20) / 254.5
        )
        legs = [leg for piece in pieces(fit, short=not weak).values() for leg in piece]
        chain += [metres * per_metre for _, metres in legs]
    if far and weak:
        chain += [fit.shop.joints.positive.high, fit.shop.joints.negative.high]
    lines = [f"r{n} n{n} n{n + 1} {ohm!r}" for n, ohm in enumerate(chain)]
    return [f"vs n0 0 {volts!r}", *lines, f"vf n{len(chain)} 0 0"]


def test_the_faults_of_whole_fits(tmp_path):
    """Near and far, weak and strong, every third one on a line of the vehicle's own."""
    line = shared_fit(tmp_path).vehicle.points["positive-stud"].line
    circuits, seed, shared = [], 60_000, 0
    while len(circuits) < 2 * FITS:
        seed += 1
        fit = drawn(seed)
        if seed % 3 == 0 and fit.vehicle.points[fit.job.source.positive].factory_fuse is None:
            fit = on_a_line(fit, line)
        bare = work_out(fit, at_random(fit, random.Random(seed)))  # noqa: S311
        if bare.solved.fault.near_A is None or bare.solved.feed.low is None:
            continue
        shared += fit.vehicle.points[fit.job.source.positive].line is not None
        design = replace(bare, figures=figures(bare, ()))
        near, far = design.figure("fault_near"), design.figure("fault_far")
        assert (near.value, far.value) == (near.high, far.low), "what the rules hold"
        for weak, at_far, amps in (
            (True, False, near.low),
            (False, False, near.high),
            (True, True, far.low),
            (False, True, far.high),
        ):
            circuits.append((shorted(design, weak=weak, far=at_far), {"i(vf)": amps}))
    assert shared > 10
    run(circuits, tmp_path)

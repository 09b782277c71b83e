"""Radial networks: scipy's fsolve and ngspice as referees, and the laws of a network."""

import math
import random
import re
import shutil
import subprocess
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import fsolve

from baybook.sizing.feed import Loop, Stretch, working_point
from baybook.sizing.network import SWEEPS, solve
from baybook.sizing.source import NoSolution
from baybook.sizing.validity import OutOfRange
from baybook.solved import Line, Load, Network

CASES = 2_000
CLOSE = 1e-3  # 0.1 %, ngspice against us


def line(node, parent="", ohm=0.01, warming=0.0):
    return Line(node=node, parent=parent, idle_ohm=ohm, warming=warming)


def drawn(dice):
    """A network that a bay could build: 1 to 6 nodes, loads of both kinds."""
    names = [f"n{k}" for k in range(dice.randint(1, 6))]
    lines = [
        line(
            name,
            dice.choice(["", *names[:k]]),
            dice.uniform(0.5e-3, 20e-3),
            dice.choice([0.0, dice.uniform(0, 2e-7)]),
        )
        for k, name in enumerate(names)
    ]
    loads = [
        Load(
            node=name,
            power_W=dice.choice([0.0, dice.uniform(20, 400)]),
            current_A=dice.choice([0.0, 0.0, dice.uniform(0.5, 20)]),
        )
        for name in names
    ]
    dice.shuffle(lines)
    return Network(
        supply_V=dice.choice([12.3, 13.2, 14.2, 26.4, 28.2]), lines=tuple(lines), loads=tuple(loads)
    )


def balance(volts, network):
    """What is missing at each node, by Kirchhoff: an equation per node, written out again."""
    names = [one.node for one in network.lines]
    at = dict(zip(names, volts, strict=True)) | {"": network.supply_V}
    drawn_A = dict.fromkeys(names, 0.0)
    for load in network.loads:
        drawn_A[load.node] += load.power_W / at[load.node] + load.current_A

    def behind(name):
        return drawn_A[name] + sum(behind(o.node) for o in network.lines if o.parent == name)

    missing = []
    for one in network.lines:
        current = behind(one.node)
        ohm = one.idle_ohm + one.warming * current**2
        missing.append(at[one.parent] - at[one.node] - current * ohm)
    return missing


def by_scipy(network):
    """Solve from several starts; None where none of them leads to a balance."""
    for share in (1.0, 0.9, 0.75, 0.6):
        start = np.full(len(network.lines), network.supply_V * share)
        volts = fsolve(balance, start, args=(network,), xtol=1e-12, full_output=True)[0]
        if max(map(abs, balance(volts, network))) < 1e-9 and min(volts) > 0:
            return dict(zip([o.node for o in network.lines], volts, strict=True))
    return None


def test_scipy_finds_the_same_in_two_thousand_networks():
    dice = random.Random(3)  # noqa: S311 - the same cases every time
    solved = refused = 0
    for _ in range(CASES):
        network = drawn(dice)
        try:
            flow = solve(network)
        except NoSolution:
            refused += 1
            assert by_scipy(network) is None
            continue
        solved += 1
        referee = by_scipy(network)
        assert referee is not None
        for node in flow.nodes:
            assert node.voltage_V == pytest.approx(referee[node.name], rel=1e-7)
    assert solved > 0.8 * CASES
    assert refused > 0


@given(U=st.floats(10, 30), P=st.floats(1, 900), R=st.floats(1e-3, 0.2), c=st.floats(0, 1e-6))
def test_sweep_and_closed_form_are_one(U, P, R, c):
    single = Network(
        supply_V=U, lines=(line("a", ohm=R, warming=c),), loads=(Load(node="a", power_W=P),)
    )
    shared = replace(single, loads=(Load(node="a", power_W=P / 2), Load(node="a", power_W=P / 2)))
    try:
        closed = solve(single)
    except NoSolution:
        with pytest.raises(NoSolution):
            solve(shared)
        return
    assume(closed.node("a").voltage_V > 0.55 * U)  # further down the sweep is too slow
    assert solve(shared).current_A == pytest.approx(closed.current_A, rel=1e-6)


def test_the_last_watt_before_the_limit():
    """U²/4R = 360 W arrives at most: by hand, 12 V over 0.1 ohm."""

    def feed(P):
        loads = (Load(node="a", power_W=P / 2), Load(node="a", power_W=P / 2))
        return solve(Network(supply_V=12, lines=(line("a", ohm=0.1),), loads=loads))

    assert feed(359.9).node("a").voltage_V == pytest.approx(6.1, abs=0.01)
    with pytest.raises(NoSolution, match="do not settle"):
        feed(360 * (1 - 1e-9))
    with pytest.raises(NoSolution, match=r"do not settle|cannot be fed"):
        feed(360.1)
    with pytest.raises(NoSolution, match="no voltage is left at a"):
        feed(600)


def test_feed_is_a_network_of_one_line():
    way = (Stretch(zone="run", ambient_C=50, length_m=6, carries_A=115.6),)
    loop = Loop(
        r20_ohm_per_m=0.78e-3,
        theta_max_C=105,
        out=way,
        back=way,
        out_joints_ohm=1.3e-3,
        back_joints_ohm=0.6e-3,
    )
    point = working_point(13.2, 553, loop)
    own = Network(
        supply_V=13.2, lines=(loop.line("charger"),), loads=(Load(node="charger", power_W=553),)
    )
    node = solve(own).node("charger")
    assert node.current_A == point.current_A
    assert node.voltage_V == pytest.approx(point.charger_V, rel=1e-12)
    assert node.ohm == pytest.approx(point.loop_ohm, rel=1e-12)
    assert loop.at_least() == pytest.approx(12 * 0.78e-3 * (1 - 60 / 254.5))


def test_two_loads_by_hand():
    """12 V; 10 mohm to a (10 A), 20 mohm on to b (5 A): 11.85 V and 11.75 V."""
    flow = solve(
        Network(
            supply_V=12,
            lines=(line("b", "a", 0.02), line("a")),
            loads=(Load(node="a", current_A=10), Load(node="b", current_A=5)),
        )
    )
    assert flow.current_A == 15
    assert flow.node("a").voltage_V == pytest.approx(11.85)
    assert flow.node("b").voltage_V == pytest.approx(11.75)
    assert flow.sweeps <= 2


@given(st.integers(0, 10**6), st.floats(1.01, 1.5))
def test_more_load_never_leaves_more_voltage(seed, more):
    network = drawn(random.Random(seed))  # noqa: S311
    heavier = replace(
        network,
        loads=tuple(
            replace(o, power_W=o.power_W * more, current_A=o.current_A * more)
            for o in network.loads
        ),
    )
    try:
        heavy = solve(heavier)
    except NoSolution:
        return
    light = solve(network)  # what feeds the heavier load feeds the lighter one
    for node in light.nodes:
        assert node.voltage_V >= heavy.node(node.name).voltage_V - 1e-6


@given(st.integers(0, 10**6), st.floats(0.1, 10))
def test_units_in_units_out(seed, k):
    """k times the voltage, k times the current, k² times the power: the same ohms."""
    network = drawn(random.Random(seed))  # noqa: S311
    network = replace(network, lines=tuple(replace(o, warming=0.0) for o in network.lines))
    scaled = replace(
        network,
        supply_V=network.supply_V * k,
        loads=tuple(
            replace(o, power_W=o.power_W * k**2, current_A=o.current_A * k) for o in network.loads
        ),
    )
    try:
        flow = solve(network)
    except NoSolution:
        return
    assert solve(scaled).current_A == pytest.approx(flow.current_A * k, rel=1e-6)


def test_nothing_drawn_nothing_lost():
    quiet = Network(supply_V=12, lines=(line("a"),), loads=(Load(node="a"),))
    assert solve(quiet).node("a").voltage_V == 12
    assert solve(Network(supply_V=12, lines=(), loads=())).current_A == 0


@pytest.mark.parametrize(
    ("network", "why"),
    [
        (Network(supply_V=0, lines=(line("a"),), loads=()), "source voltage 0 V"),
        (Network(supply_V=12, lines=(line("a", "b"), line("b", "a")), loads=()), "or a loop: a, b"),
        (Network(supply_V=12, lines=(line("a"), line("a")), loads=()), "two lines end at a"),
        (Network(supply_V=12, lines=(line("a"), line("", "a")), loads=()), "end at the source"),
        (Network(supply_V=12, lines=(line("a"),), loads=(Load(node="x"),)), "load at x"),
        (Network(supply_V=12, lines=(line("a", ohm=0.0),), loads=()), "line to a 0 ohm"),
        (Network(supply_V=12, lines=(line("a", ohm=-1.0),), loads=()), "line to a -1 ohm"),
        (Network(supply_V=12, lines=(line("a", warming=-1.0),), loads=()), "warming of the line"),
        (
            Network(supply_V=12, lines=(line("a"),), loads=(Load(node="a", power_W=-1),)),
            "power at a",
        ),
        (
            Network(supply_V=12, lines=(line("a"),), loads=(Load(node="a", current_A=-1),)),
            "current at a",
        ),
    ],
)
def test_what_is_no_radial_network_is_refused(network, why):
    with pytest.raises(OutOfRange, match=re.escape(why)):
        solve(network)


# ------------------------------------------------------------------------------------ ngspice

FEEDS = {
    2: ((line("a", ohm=8e-3), line("b", "a", 6e-3), line("c", "a", 9e-3)), (0, 240, 310)),
    3: ((line("a", ohm=4e-3), line("b", "a", 6e-3), line("c", "b", 5e-3)), (120, 180, 240)),
    5: (
        (
            line("a", ohm=2e-3),
            line("b", "a", 3e-3),
            line("c", "b", 6e-3),
            line("d", "a", 4e-3),
            line("e", "d", 9e-3),
        ),
        (80, 120, 200, 150, 90),
    ),
}


def spice(text, wanted, folder):
    path = folder / "network.cir"
    path.write_text(
        "\n".join(
            ["* network", *text, ".control", "op", f"print {wanted}", "quit", ".endc", ".end"]
        ),
        encoding="utf-8",
    )
    program = shutil.which("ngspice")
    assert program, "ngspice is a Debian package that the tests need"
    done = subprocess.run([program, "-b", str(path)], capture_output=True, text=True, check=False)
    found = re.findall(r"^\S+ = (\S+)$", done.stdout, re.MULTILINE)
    assert len(found) == len(wanted.split()), done.stdout + done.stderr
    return [float(value) for value in found]


def resistors(lines, ohm):
    return [f"R{k} {o.parent or 's'} {o.node} {ohm(o):.12g}" for k, o in enumerate(lines)]


@pytest.mark.parametrize("many", FEEDS)
@pytest.mark.parametrize("warming", [0.0, 4e-7])
def test_ngspice_finds_the_same_on_a_shared_feed(many, warming, tmp_path):
    lines, watts = FEEDS[many]
    lines = tuple(replace(o, warming=warming) for o in lines)
    loads = tuple(Load(node=o.node, power_W=P) for o, P in zip(lines, watts, strict=True))
    flow = solve(Network(supply_V=13.2, lines=lines, loads=loads))
    text = [
        "VS s 0 13.2",
        *resistors(lines, lambda o: o.idle_ohm + o.warming * flow.node(o.node).current_A ** 2),
        *[f"B{o.node} {o.node} 0 I={o.power_W} / max(v({o.node}), 1)" for o in loads],
        ".nodeset " + " ".join(f"v({o.node})=12.5" for o in lines),
    ]
    wanted = " ".join(f"v({o.node})" for o in lines)
    volts = spice(text, wanted + " i(VS)", tmp_path)
    assert sum(1 for P in watts if P) == many
    for one, U in zip(lines, volts, strict=False):
        assert flow.node(one.node).voltage_V == pytest.approx(U, rel=CLOSE)
    assert flow.current_A == pytest.approx(-volts[-1], rel=CLOSE)


def test_the_stated_limits_are_kept():
    assert SWEEPS == 2000
    one = Network(supply_V=12.3, lines=(line("a"),), loads=(Load(node="a", power_W=100),))
    assert not math.isnan(solve(one).current_A)

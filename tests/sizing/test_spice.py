"""ngspice as referee: the circuit of each example design, solved from its joints and conductors.

The netlist is written from the design's circuit alone: letters are the nodes, every cut piece
a resistance at the temperature of its zones, the charger a constant-power load on D and J
feeding E and H. A constant-power load has two working points; the start values point at the
high one, and it is asserted.
"""

import re
import shutil
import subprocess

import pytest

from baybook.checks import judge
from baybook.sizing.choose import choose
from workbooks import example_fit

GUIDES = ("brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b")
CLOSE = 1e-3  # 0.1 %


@pytest.fixture(scope="module")
def designs():
    return {fit: choose(example_fit(fit), judge) for fit in GUIDES}


def piece(design, conductor, current):
    """Resistance of one cut piece, from the cable's sheet and the law of the trade."""
    fit = design.fit
    cable = fit.output_cable if conductor.use.startswith("output") else fit.cable
    size = next(s for s in cable.sizes if s.area.value == conductor.area_mm2)
    rows = {row.ambient.value: row.current.value for row in size.ampacity}
    T_max, T_ref = cable.conductor_max.value, cable.reference_ambient.value
    ohms = 0.0
    for leg in conductor.legs:
        share = ((T_max - leg.ambient_C) / (T_max - T_ref)) ** 0.5
        I_T = rows.get(leg.ambient_C, rows[T_ref] * share)
        theta = leg.ambient_C + (T_max - leg.ambient_C) * (current / I_T) ** 2
        ohms += leg.length_m * size.resistance.value * (1 + (theta - 20) / 254.5)
    return ohms


def netlist(design, U, feed_A):
    """Write the circuit with the copper as warm as `feed_A` makes it."""
    fit, circuit = design.fit, design.circuit
    joints = fit.shop.joints
    out_A = design.solved.output.current_A
    lines = [f"* {fit.id}"]
    for n, conductor in enumerate(circuit.conductors):
        current = out_A if conductor.use.startswith("output") else feed_A
        ohms = 1e-9 if conductor.existing else piece(design, conductor, current)
        lines.append(f"R{n} {conductor.start} {conductor.end} {ohms:.9g}")
    at = {joint.role: joint.letter for joint in circuit.joints}
    # joints: the positive's in protection and its neighbours, the return's at the return point
    lines.append(f"RF {at['fuse-in']} {at['fuse-out']} {joints.positive.value:.9g}")
    P_in = design.solved.feed.power_W
    set_V, P_out = design.choice.set_V, design.solved.output.power_W
    plus, minus = at["in+"], at["in-"]
    start = U - 0.05 * U
    lines += [
        f"RJ {at['source-']} 0 {joints.negative.value:.9g}",
        f"VS {at['source+']} 0 {U}",
        f"BL {plus} {minus} I={P_in} / max(v({plus},{minus}), 1)",
        f"VO {at['out+']} {at['out-']} {set_V}",
        f"BS {at['plug+']} {at['plug-']} I={P_out} / {set_V}",
        f"RG {at['out-']} 0 1e9",
        f".nodeset v({plus})={start} v({minus})=0",
        ".control",
        "op",
        f"print v({plus},{minus}) i(VS) v({at['plug+']},{at['plug-']})",
        "quit",
        ".endc",
        ".end",
    ]
    return "\n".join(lines)


def solve(text, folder):
    path = folder / "loop.cir"
    path.write_text(text, encoding="utf-8")
    program = shutil.which("ngspice")
    assert program, "ngspice is a Debian package that the tests need"
    done = subprocess.run([program, "-b", str(path)], capture_output=True, text=True, check=False)
    found = re.findall(r"^\S+ = (\S+)$", done.stdout, re.MULTILINE)
    assert len(found) == 3, done.stdout + done.stderr
    U_t, I_source, U_station = map(float, found)
    return U_t, -I_source, U_station


@pytest.mark.parametrize("fit", GUIDES)
@pytest.mark.parametrize("when", ["low", "typical"])
def test_ngspice_finds_the_same(fit, when, designs, tmp_path):
    design = designs[fit]
    point = getattr(design.solved.feed, when)
    U_t, current, U_station = solve(netlist(design, point.supply_V, point.current_A), tmp_path)
    assert U_t > point.supply_V / 2, "the high working point"
    assert current == pytest.approx(point.current_A, rel=CLOSE)
    assert U_t == pytest.approx(point.charger_V, rel=CLOSE)
    assert U_station == pytest.approx(design.solved.output.station_V, rel=CLOSE)


@pytest.mark.parametrize("fit", GUIDES)
def test_ngspice_finds_the_same_far_fault(fit, designs, tmp_path):
    design = designs[fit]
    fault, fed = design.solved.fault, design.fit
    U = fed.vehicle.supply.low.value
    hot = sum(
        c.cut_m * next(s for s in fed.cable.sizes if s.area.value == c.area_mm2).resistance.value
        for c in design.circuit.conductors
        if c.use in ("source", "feed", "return")
    ) * (1 + (fed.cable.conductor_max.value - 20) / 254.5)
    text = "\n".join(
        [
            "* far fault",
            f"VS s 0 {U}",
            f"RI s a {fault.internal_high_ohm:.9g}",
            f"RW a d {hot + fed.shop.joints.positive.value:.9g}",
            f"RN d 0 {fed.shop.joints.negative.value:.9g}",
            ".control",
            "op",
            "print v(d) i(VS) v(a)",
            "quit",
            ".endc",
            ".end",
        ]
    )
    _, current, _ = solve(text, tmp_path)
    assert current == pytest.approx(fault.far_A, rel=CLOSE)

"""A cell that nobody has read is refused by name; it is never filled from beside it."""

import re

import pytest

from baybook.sizing import ampacity, bolts, laying, pull, rest
from baybook.sizing.validity import OutOfRange

CELLS = [
    (lambda: ampacity.table_current(20, 105), "gauge 20 with 105 °C insulation"),
    (lambda: ampacity.table_current(8, 150), "gauge 8 with 150 °C insulation"),
    (lambda: ampacity.engine_factor(80), "no engine-space factor known for 80 °C"),
    (lambda: bolts.proof_load("M3", "8.8"), "steel bolt M3, 8.8"),
    (lambda: bolts.steel_torque("M8", "4.6", 0.2), "steel bolt M8, 4.6"),
    (lambda: bolts.stud_torque("M5", "brass"), "current-carrying stud M5, brass"),
    (lambda: bolts.stud_current("M12", "copper"), "current-carrying stud M12 copper"),
    (lambda: bolts.clamping_stud_current("M5"), "clamping stud M5"),
    (lambda: bolts.screw_clamp_torque(3, bolts.Screw.HEX), "screw clamp 3, hex"),
    (lambda: bolts.socket_torque("1/2"), "internal hexagon, in 1/2"),
    (lambda: bolts.nut_factor("wax"), "nut factor, wax"),
    (lambda: laying.most_unprotected_length("iso10133", enclosed=False), "protection by iso10133"),
    (lambda: pull.crimp_pull_out(6), "crimp, AWG 6"),
    (lambda: pull.clamp_pull(35), "screw clamp, mm² 35"),
    (lambda: rest.rest_voltage(0.5), "rest volts at a charge of 0.5"),
]


@pytest.mark.parametrize(("ask", "named"), CELLS, ids=[named for _, named in CELLS])
def test_the_cell_is_named(ask, named):
    with pytest.raises(OutOfRange, match=re.escape(named)):
        ask()

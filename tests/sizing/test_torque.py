"""Torque where a maker is silent: the table of the joint's own kind, or nothing."""

from dataclasses import replace
from typing import get_args

import pytest

from baybook.point import TorqueTable
from baybook.quantity import Quantity, Unknown
from baybook.sheet import ScrewHead
from baybook.sizing.bolts import Screw
from baybook.sizing.choose import choose
from baybook.sizing.torque import at_point, at_terminal
from baybook.standards.handbook import handbook
from baybook.terms import JointKind, TableKind
from variants import charger, point
from workbooks import example_fit

J1 = "brunsall-tansy/j1"
FIT = example_fit(J1)
BODY = FIT.vehicle.points["body-left"]
NOBODY = Unknown(basis=BODY.torque.basis, where=BODY.torque.where)


def steel(property_class="8.8", nut_factor=0.20, into="steel"):
    share = FIT.shop.limits.input_drop.value
    factor = None if nut_factor is None else replace(share, value=nut_factor, written="0.20")
    return TorqueTable(
        kind=TableKind.STEEL, property_class=property_class, nut_factor=factor, into=into
    )


def silent(**update):
    return BODY.model_copy(update={"torque": NOBODY} | update)


def allowing(*kinds):
    return replace(FIT, shop=FIT.shop.model_copy(update={"torque_tables": kinds}))


def test_the_maker_comes_first():
    stated = BODY.model_copy(update={"table": TorqueTable(kind=TableKind.BRASS)})
    assert at_point(FIT, stated) is BODY.torque


@pytest.mark.parametrize(
    ("thread", "table", "torque_Nm", "source"),
    [
        ("M8", TorqueTable(kind=TableKind.BRASS), 6.0, "DIN 46200 pattern, brass, M8"),
        ("M10", TorqueTable(kind=TableKind.COPPER), 10.0, "DIN 46200 pattern, copper, M10"),
        # T = K d F = 0.10 x 8 mm x 0.75 x proof load 21.2 kN = 12.7, under the table's 25
        ("M8", steel(nut_factor=0.10), 12.7, "by hand; proof load ISO 898-1"),
        # 0.30 x 8 x 0.75 x 21.2 = 38.2, over the table's 25: the smaller
        ("M8", steel(nut_factor=0.30), 25.0, "VDI 2230, friction 0.14, 8.8, M8"),
    ],
)
def test_a_table_serves_its_own_kind(thread, table, torque_Nm, source):
    found = at_point(FIT, silent(thread=thread, table=table))
    assert isinstance(found, Quantity), source
    assert found.value == pytest.approx(torque_Nm, abs=0.05), source
    assert found.written.endswith("N·m")


@pytest.mark.parametrize(
    ("fit", "update"),
    [
        (FIT, {"table": None}),
        (FIT, {"table": TorqueTable(kind=TableKind.BRASS), "kind": JointKind.POST}),
        (FIT, {"table": TorqueTable(kind=TableKind.BRASS), "thread": "M5"}),
        (FIT, {"table": TorqueTable(kind=TableKind.CLAMP)}),
        (FIT, {"table": steel(nut_factor=None)}),
        (FIT, {"table": steel(into="rivet nut")}),
        (FIT, {"table": steel(into="plastic")}),
        (FIT, {"table": steel(into="lead")}),
        (FIT, {"table": steel(into=None)}),
        (FIT, {"table": steel(property_class="4.6")}),
        (allowing(TableKind.COPPER), {"table": TorqueTable(kind=TableKind.BRASS)}),
    ],
    ids=[
        "no table",
        "lead post",
        "no such thread",
        "clamp",
        "no K",
        "rivet nut",
        "plastic",
        "lead",
        "nobody says into what",
        "no such class",
        "forbidden",
    ],
)
def test_where_no_table_serves_the_torque_stays_unknown(fit, update):
    assert at_point(fit, silent(**update)) is NOBODY


def clamp(**update):
    return FIT.charger.input.model_copy(update={"torque": NOBODY, "screw": "hex"} | update)


def size(awg):
    return FIT.cable.sizes[1].model_copy(update={"nearest_awg": awg})


def test_a_clamp_is_tightened_by_wire_size_in_the_table_s_own_unit():
    found = at_terminal(FIT, clamp(), size("AWG 8"))
    assert found.written == "75.0 lbf·in"  # UL 486A-486B, Table I.1, hex, 8 AWG
    assert found.value == pytest.approx(75 * 0.112985, abs=0.001)


def test_a_socket_head_is_tightened_by_its_own_size():
    # UL 486A-486B, Table I.3: 3/16 in 120 lbf in, 9/16 in 600 lbf in; whatever the wire
    for awg in ("AWG 8", "AWG 3"):
        found = at_terminal(FIT, clamp(screw="socket 3/16 in"), size(awg))
        assert found.written == "120.0 lbf·in"
        assert "Table I.3" in found.basis.document
    assert at_terminal(FIT, clamp(screw="socket 9/16 in"), size("AWG 8")).written == "600.0 lbf·in"


def test_the_heads_of_a_sheet_are_those_of_the_tables():
    sockets = {f"socket {size} in" for size in handbook().socket_lbfin}
    assert set(get_args(ScrewHead)) == {str(head) for head in Screw} | sockets


def test_both_spellings_of_a_gauge_find_its_row():
    spelt = [at_terminal(FIT, clamp(), size(awg)) for awg in ("3/0 AWG", "AWG 3/0", "8 AWG")]
    assert [found.written for found in spelt] == ["250.0 lbf·in", "250.0 lbf·in", "75.0 lbf·in"]


@pytest.mark.parametrize(
    ("fit", "terminal", "awg"),
    [
        (FIT, clamp(screw=None), "AWG 8"),
        (allowing(TableKind.BRASS), clamp(), "AWG 8"),
        (FIT, clamp(kind=JointKind.PUSH_IN), "AWG 8"),
        (FIT, clamp(), "AWG 3"),
        (FIT, clamp(), "AWG 2/0"),
    ],
    ids=["head unknown", "forbidden", "no clamp", "no row", "no row either"],
)
def test_a_clamp_without_its_row_stays_unknown(fit, terminal, awg):
    assert at_terminal(fit, terminal, size(awg)) is NOBODY


def test_a_stated_clamp_is_its_maker_s():
    assert at_terminal(FIT, FIT.charger.input, size("AWG 8")) is FIT.charger.input.torque


def test_a_table_s_torque_reaches_the_circuit_with_its_document():
    fit = point(FIT, "body-left", torque=NOBODY, table=TorqueTable(kind=TableKind.BRASS))
    design = choose(fit, lambda *_asked: ())
    assert design.circuit.joint("return").torque.value == 6.0
    assert "brass studs" in design.circuit.joint("return").torque.basis.document


def test_the_clamp_of_a_silent_charger_too():
    fit = charger(FIT, input=clamp())
    design = choose(fit, lambda *_asked: ())
    assert design.circuit.joint("in+").torque.written.endswith("lbf·in")

"""The first gate, the agreement of circuit and figures, and kept refusals."""

from dataclasses import replace

import pytest

from baybook.checks import approve, judge, kept
from baybook.checks.agree import laws_hold
from baybook.design import CheckedDesign, Refusal
from baybook.finding import Verdict
from baybook.job import KeptRefusal
from baybook.sizing.choose import choose
from variants import job
from workbooks import example_fit

J1, J4, J9 = "brunsall-tansy/j1", "ostrigg-drey/j4", "dunstrel-cobble/j9"


@pytest.fixture(scope="module")
def design():
    return choose(example_fit(J1), judge)


def tampered(design, **update):
    return replace(design, **update)


def figure_moved(design, name, by):
    figures = tuple(replace(f, value=f.value + by) if f.name == name else f for f in design.figures)
    return replace(design, figures=figures)


def test_a_finished_design_agrees_with_itself(design):
    assert tuple(laws_hold(design)) == ()


@pytest.mark.parametrize(("name", "by"), [("cut_W2", 0.01), ("set_voltage", 1.0), ("cut_W5", 0.5)])
def test_a_moved_figure_is_found(design, name, by):
    assert tuple(laws_hold(figure_moved(design, name, by)))


def test_a_moved_conductor_is_found(design):
    first, *rest = design.circuit.conductors
    thin = replace(design.circuit, conductors=(replace(first, area_mm2=6.0), *rest))
    assert [f.place for f in laws_hold(replace(design, circuit=thin))] == ["circuit.W1.area"]


def test_a_moved_fuse_is_found(design):
    other = replace(design.circuit.protections[0], rating_A=50.0)
    circuit = replace(design.circuit, protections=(other,))
    assert [f.place for f in laws_hold(replace(design, circuit=circuit))] == ["circuit.F1.I_n"]


def test_a_moved_working_point_is_found(design):
    feed = design.solved.feed
    wrong = replace(feed, low=replace(feed.low, current_A=feed.low.current_A + 1))
    moved = replace(design, solved=replace(design.solved, feed=wrong))
    assert {f.place for f in laws_hold(moved)} == {"circuit.input.U_t", "circuit.input.P"}


def test_no_way_round_the_rules_after_the_choice(design):
    """A design changed after it was chosen does not become a checked one."""
    assert isinstance(approve(design), CheckedDesign)
    refusal = approve(figure_moved(design, "cut_W2", 0.01))
    assert isinstance(refusal, Refusal)
    assert [f.code for f in refusal.findings] == ["AG-01"]
    assert refusal.candidates == design.candidates


def test_a_checked_design_carries_cautions_and_holds_only(design):
    checked = approve(design)
    assert {f.verdict for f in checked.findings} <= {Verdict.CAUTION, Verdict.HOLD}
    assert not checked.draft


def refusal(fit):
    return choose(example_fit(fit), judge)


def test_a_fit_that_keeps_no_refusal_has_no_fault(design):
    assert kept(design.fit, approve(design)) == ()


def test_kept_as_it_says():
    assert kept(example_fit(J9), refusal(J9)) == ()


def test_other_codes_are_a_fault():
    fit = job(example_fit(J9), refused=KeptRefusal(codes=("CA-01",), thought="enough"))
    (fault,) = kept(fit, refusal(J9))
    assert (fault.code, fault.verdict) == ("KR-01", Verdict.REFUSED)
    assert [ref.id for ref in fault.found.items] == ["CA-01", "CA-02"]
    assert [ref.id for ref in fault.allowed.items] == ["CA-01"]


def test_passing_is_a_fault(design):
    fit = job(design.fit, refused=KeptRefusal(codes=("CA-01",), thought="enough"))
    (fault,) = kept(fit, approve(design))
    assert fault.found.id == "rule.KR-01.passes"


def test_j4_is_refused_before_any_cable_is_weighed():
    assert {f.code[:2] for f in refusal(J4).findings} == {"OV"}

"""What a stud is rated for: itself of brass or copper, or the lugs that one of steel clamps."""

from dataclasses import replace

import pytest

from baybook.checks import RULES, judge
from baybook.point import TorqueTable
from baybook.sizing.choose import choose
from baybook.sizing.torque import carried_at_point
from baybook.terms import TableKind
from shared_line import shared_fit
from workbooks import example_fit

J1 = "brunsall-tansy/j1"


@pytest.fixture(scope="module")
def design():
    return choose(example_fit(J1), judge)


def a_point(design, thread, kind):
    point = design.fit.vehicle.points[design.fit.job.source.negative]
    table = TorqueTable(kind=kind) if kind else None
    return point.model_copy(update={"thread": thread, "table": table})


def on(design, point, carries_A, name="body-left", role="return"):
    """Return the design with this point in place of another, rated so."""
    points = {**design.fit.vehicle.points, name: point}
    vehicle = design.fit.vehicle.model_copy(update={"points": points})
    joints = tuple(
        replace(joint, carries_A=carries_A) if joint.role == role else joint
        for joint in design.circuit.joints
    )
    return replace(
        design,
        fit=replace(design.fit, vehicle=vehicle),
        circuit=replace(design.circuit, joints=joints),
    )


@pytest.mark.parametrize(
    ("thread", "kind", "carries_A"),
    [
        ("M6", TableKind.BRASS, 63),
        ("M8", TableKind.BRASS, 100),
        ("M10", TableKind.COPPER, 200),
        ("M8", TableKind.COPPER, None),  # the table that was read has no such row
        ("M6", TableKind.STEEL, 125),  # it clamps lug on lug
        ("M8", TableKind.STEEL, 150),
        ("M5", TableKind.STEEL, None),
        ("M8", None, None),
    ],
)
def test_a_point_is_rated_by_the_table_of_its_kind_alone(design, thread, kind, carries_A):
    assert carried_at_point(a_point(design, thread, kind)) == carries_A


@pytest.mark.parametrize(("share", "refused"), [(1.0, False), (0.999, True)])
def test_a_stud_at_its_rating_passes_and_above_it_is_refused(design, share, refused):
    current = design.solved.feed.low.current_A
    stud = a_point(design, "M6", TableKind.BRASS)
    found = tuple(RULES["CA-12"](on(design, stud, current * share)))
    assert bool(found) is refused
    assert all(f.found.value == current for f in found)


def test_a_stud_that_no_table_rates_is_not_judged(design):
    assert not tuple(RULES["CA-12"](on(design, a_point(design, "M5", TableKind.STEEL), None)))
    assert not tuple(RULES["CA-12"](on(design, a_point(design, "M8", None), 1.0)))


@pytest.mark.parametrize(
    ("kind", "role", "way", "source"),
    [
        (TableKind.BRASS, "carries", "or_clamps", "din46200"),
        (TableKind.STEEL, "clamps", "thicker", "clamping-stud"),
    ],
)
def test_it_is_told_whether_the_stud_carries_or_clamps(design, kind, role, way, source):
    (found,) = RULES["CA-12"](on(design, a_point(design, "M6", kind), 1.0))
    assert found.sources == (source,)
    assert found.values["role"].id == f"rule.CA-12.{role}"
    assert found.values["way"].id == f"rule.CA-12.{way}"


def test_at_a_point_that_others_draw_from_their_current_counts_too(tmp_path):
    shared = choose(shared_fit(tmp_path), judge)
    low, source = shared.solved.feed.low, shared.fit.job.source.positive
    stud = shared.fit.vehicle.points[source].model_copy(
        update={"thread": "M6", "table": TorqueTable(kind=TableKind.BRASS)}
    )
    between = (low.current_A + low.shared_amps) / 2
    assert low.shared_amps > low.current_A + 5
    changed = on(shared, stud, between, source, "source+")
    (found,) = RULES["CA-12"](changed)
    assert found.found.value == low.shared_amps
    assert not tuple(RULES["CA-12"](on(shared, stud, low.shared_amps, source, "source+")))

"""Trying every place with nothing fixed: what self-tapping screws ask for, AISI S100."""

from dataclasses import replace

import pytest

from baybook.compose.order import put_in_order
from baybook.compose.steps import all_steps
from baybook.compose.work import Work
from baybook.terms import Fastener
from compose.jobs import check, checked
from variants import vehicle
from workbooks import example_fit


def tapped():
    """Return a fit whose charger is held by self-tapping screws of 4.8 mm in sheet of 310 MPa."""
    fit = example_fit("brunsall-tansy/j1")
    mount = fit.vehicle.mounts[fit.job.mount]
    mpa = replace(mount.panel, value=310.0, low=310.0, high=310.0, unit="MPa", written="310 MPa")
    screw = replace(mount.panel, value=0.0048, low=0.0048, high=0.0048, written="4.8 mm")
    held_by = {"fastener": Fastener.SELF_TAPPING, "screw": screw, "sheet_strength": mpa}
    return vehicle(
        fit, mounts={**fit.vehicle.mounts, fit.job.mount: mount.model_copy(update=held_by)}
    )


def test_marks_for_self_tapping_screws_are_kept_from_edges_before_anything_is_drilled():
    steps = put_in_order(all_steps(Work(checked=check(tapped()))))
    names = [step.id for step in steps]
    spaced = names.index("charger.spaced")
    assert names.index("charger.place") < spaced < names.index("drill.mount")
    assert steps[spaced].value.value == pytest.approx(0.0072)
    assert steps[spaced].value.side == "least"
    said = dict(steps[spaced].action.values)
    assert said["pitch"].value == pytest.approx(0.0144)
    other = put_in_order(all_steps(Work(checked=checked("brunsall-tansy/j1"))))
    assert "charger.spaced" not in [step.id for step in other]

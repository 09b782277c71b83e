"""Readings of a good fit, and of one that is not, as a record takes them."""

from datetime import date
from functools import cache

from baybook.decide import decide
from baybook.desk.commissioning import make_record
from baybook.finding import Amount
from baybook.intake.commission import unit_of
from baybook.record import AsBuilt, Serials
from workbooks import example_fit

FITS = (
    *("brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b", "pellmare-mirren/j5"),
    *("tessick-orlet/j7", "tavlow-camber/j8"),
)
TODAY = date(2024, 12, 2)
GOOD = {"restarts": 5.0, "joints": 10.0, "case": 5.0, "noise": 0.0, "codes": 0.0}


@cache
def job(name):
    outcome = decide(example_fit(name), TODAY)
    return outcome, outcome.result.design, outcome.content


def middle(row):
    """Return what a good fit shows."""
    if row.name in GOOD:
        return GOOD[row.name]
    if row.predicted is not None:
        return row.predicted.value
    return (row.low or row.high).value


def read(guide, **changed):
    return {
        row.id: Amount(changed.get(row.name, middle(row)), unit_of(row), 3)
        for row in guide.readings
    }


def built(name, guide, **update):
    return AsBuilt(
        format="1",
        fit=name,
        figures=job(name)[0].figures,
        vin="77021234",
        on=date(2024, 12, 12),
        fitted_by="bay",
        checked_by="approver",
        tools=("DM-3", "CM-1", "TW-2"),
        serials=Serials(charger="C-1", station="S-1"),
        readings={row.id: "-" for row in guide.readings},
        deviations=(),
    ).model_copy(update=update)


def record(name, update=None, **changed):
    _, design, guide = job(name)
    return make_record(design, guide, built(name, guide, **(update or {})), read(guide, **changed))


def missed(found):
    return {one.row.name: one for one in found.readings if one.miss}

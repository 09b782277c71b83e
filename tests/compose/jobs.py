"""The three guides of the example workbook, composed; and their sentences."""

from functools import cache

from baybook.checks import approve, judge
from baybook.compose import compose, refuse
from baybook.design import CheckedDesign, Refusal
from baybook.point import FactoryFuse
from baybook.shipped import shipped
from baybook.sizing.choose import choose
from baybook.terms import YesNoUnknown
from baybook.wording.catalogue import load_catalogue
from baybook.wording.tell import tell
from variants import point, quantity, source, vehicle
from workbooks import example_fit

GUIDES = ("brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b")
REFUSALS = ("ostrigg-drey/j4", "dunstrel-cobble/j9")


def check(fit):
    found = choose(fit, judge)
    checked = found if isinstance(found, Refusal) else approve(found)
    assert isinstance(checked, CheckedDesign), checked.findings
    return checked


@cache
def checked(name):
    return check(example_fit(name))


@cache
def guide(name):
    return compose(checked(name))


@cache
def sheet(name):
    return refuse(choose(example_fit(name), judge))


@cache
def english():
    return load_catalogue(shipped("templates"), "en")


def say_all(node):
    """Return the whole told tree of a guide or sheet."""
    return tell(node, english())


@cache
def told(name):
    return say_all(guide(name) if name in GUIDES else sheet(name))


def behind_a_factory_fuse():
    """Return a fit at a point that the vehicle's maker has fused: no fuse of ours, no holder."""
    fit = example_fit(GUIDES[0])
    like = fit.protections[1]
    fused = FactoryFuse(
        place="fuse box, place 9",
        rating=quantity(like.ratings[0], 25.0),
        continuous=quantity(like.ratings[0], 20.0),
        voltage=like.voltage,
        breaking=like.breaking,
        opens=like.opens,
    )
    return point(fit, "positive-stud", factory_fuse=fused, at_post=False)


def return_on_the_post():
    """Return a fit without a sensor whose return goes to the battery's own post."""
    fit = example_fit(GUIDES[0])
    battery = fit.vehicle.battery.model_copy(update={"sensor": YesNoUnknown.NO})
    return source(vehicle(fit, battery=battery), negative="negative-post")


OTHERS = {"factory fuse": behind_a_factory_fuse, "return on the post": return_on_the_post}

"""Fuses: gates and colours of blades, the smallest rating that carries, what a scope covers."""

import math

import pytest

from baybook.compose.blade import body_colour
from baybook.sizing.protection import sure_opening
from baybook.sizing.ratings import smallest_rating
from baybook.sizing.withstand import let_through_ratio, overload_ratio
from baybook.standards.rule_sets import rule_sets
from variants import quantity
from workbooks import example_fit

FIT = example_fit("brunsall-tansy/j1")


def gates(*stated):
    """Gates as a sheet that keeps the standard states them: multiple, longest time."""
    like = FIT.protections[0].opens[0]
    return [
        like.model_copy(
            update={
                "multiple": quantity(like.multiple, multiple),
                "within": quantity(like.within, within),
            }
        )
        for multiple, within in stated
    ]


@pytest.mark.rows("fuses", "F-C-135", "F-C-160", "F-C-350", "F-E-135", "F-E-350")
def test_a_gate_opens_for_sure_at_its_longest_time(row):
    shortest, longest = (float(end) for end in row["value"].split(".."))
    multiple = row.number("current_pct") / 100
    stated = gates((multiple, longest))
    assert shortest < sure_opening(stated, 10, multiple * 10) == longest, row
    assert sure_opening(stated, 10, multiple * 10 - 0.01) is None, row


@pytest.mark.rows("fuses", "F-C-110", "F-E-100")
def test_near_its_rating_nothing_opens_for_sure(row, rows):
    # it may hold for 100 h: nothing is counted on below the gate at 135 %
    hours, ever = row["value"].split("..")
    assert (float(hours), ever) == (360_000, "inf"), row
    longest = float(rows("fuses")["F-C-135"]["value"].partition("..")[2])
    assert sure_opening(gates((1.35, longest)), 10, row.number("current_pct") / 10) is None, row


@pytest.mark.rows("fuses", "F-SF-135", "F-SF-350", "F-SF-600")
def test_a_strip_fuse_has_no_gate_of_ours(row):
    # its gates were found in no text: from the sheet of the part that is fitted, or a hold
    assert sure_opening((), 100, row.number("current_pct")) is None, row


def coloured(rating, standard="ISO 8820-3"):
    cue = FIT.charger.cue
    return body_colour(
        cue.model_copy(update={"fuse": quantity(cue.fuse, rating), "fuse_standard": standard})
    )


@pytest.mark.rows("fuses", "F-col-[1247]*", "F-col-30", "F-col-40")
def test_colour_of_a_blade(row):
    assert coloured(row.number("rating")).id == f"blade.{row['value']}", row
    assert coloured(row.number("rating"), None) is None, "a glass tube has no such colour"


@pytest.mark.rows("fuses", "F-col-5")
def test_a_colour_that_was_not_confirmed_is_left_out(row):
    assert row["second_text"] == "not found", row
    assert coloured(5) is None


@pytest.mark.rows("fuses", "F-W1", "F-W4")
def test_smallest_rating_that_carries(row, rows):
    # the list of preferred ratings is from memory; in use the sheet of the family has its own
    page = rows("fuses")
    load = row.number("I_cont")
    listed = page["F-pref-C" if load < 30 else "F-pref-E"]["value"].split()
    assert smallest_rating([float(part) for part in listed], 0.75, load) == row.value, row


@pytest.mark.rows("fuses", "F-pref-C", "F-pref-E")
def test_the_largest_preferred_rating_ends_what_a_family_carries(row):
    listed = [float(part) for part in row["value"].split()]
    assert smallest_rating(listed, 0.75, 0.75 * listed[-1]) == listed[-1], row
    assert smallest_rating(listed, 0.75, 0.76 * listed[-1]) is None, row


@pytest.mark.rows("fuses", "F-E-40-I2t")
def test_melting_energy_of_a_fuse_against_a_cable(row):
    # 8500 A²s lets 1 mm² of k = 115 die, and leaves 2.5 mm² alone
    current = math.sqrt(row.value / 0.01)
    assert let_through_ratio(current, 0.01, 115, 0.5) > 1, row
    assert let_through_ratio(current, 0.01, 115, 2.5) < 0.2, row


@pytest.mark.rows("additional", "F-I2")
def test_conventional_operating_current_of_a_blade(row):
    assert row["value"].startswith("blade fuse 1.35 In"), row
    assert overload_ratio(100, 100) == pytest.approx(1.35 / 1.45), row


@pytest.mark.rows("additional", "F-SF-trap")
def test_30_and_51_are_hole_spacings_not_currents(row):
    assert "SF30 1-30 A" in row["value"], row
    strip = rule_sets().fuse_scope["ISO 8820-5"]
    assert (strip.least_A, strip.most_A) == (30, 500), row


def test_a_rating_below_one_ampere_is_one_too():
    assert smallest_rating([0.5, 1.0], 0.8, 0.3) == 0.5

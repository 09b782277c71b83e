"""Ampacity: a hotter zone never carries more, and the table's own rows stand."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from baybook.sizing.ampacity import carries_at, cfr183_ampacity, steady_temperature
from baybook.sizing.validity import OutOfRange
from baybook.standards import load

# an invented maker's table at 105 °C, rounded as makers round
ROWS = ((30.0, 54.0), (40.0, 50.3), (50.0, 46.2), (65.0, 39.4), (70.0, 36.9))
CFR = sorted(load().cfr183.current_A)


@st.composite
def falling_tables(draw):
    """Draw any table that does not rise, as a maker may print it, with a row at 30 °C."""
    ambients = draw(st.sets(st.integers(-20, 100), min_size=1, max_size=6).map(lambda s: s | {30}))
    currents = draw(
        st.lists(st.floats(1, 400), min_size=len(ambients), max_size=len(ambients)).map(
            lambda values: sorted(values, reverse=True)
        )
    )
    return tuple(zip(map(float, sorted(ambients)), currents, strict=True))


@given(falling_tables(), st.floats(-40, 104.9), st.floats(-40, 104.9))
def test_a_hotter_zone_never_carries_more(table, a, b):
    cool, hot = sorted((a, b))
    assert carries_at(table, cool, 105, 30) >= carries_at(table, hot, 105, 30)


@given(falling_tables())
def test_a_row_of_the_table_stands_as_printed(table):
    for ambient, current in table:
        assert carries_at(table, ambient, 105, 30) == current


@given(st.permutations(ROWS), st.floats(-40, 104.9))
def test_the_order_of_rows_does_not_matter(rows, ambient):
    assert carries_at(rows, ambient, 105, 30) == carries_at(ROWS, ambient, 105, 30)


def test_between_rows_the_root_law():
    # by hand: 54 √((105 - 45) / (105 - 30)) = 48.30
    assert carries_at(ROWS, 45, 105, 30) == pytest.approx(48.30, abs=0.005)


def test_between_rows_never_more_than_the_cooler_row():
    # a maker below the law: 45 A at 40 °C. The law alone would give 50.0 A at 41 °C.
    assert carries_at([(30, 54), (40, 45)], 41, 105, 30) == 45


def test_between_rows_what_a_hotter_row_states_holds():
    # a maker above the law: 50 A at 60 °C. The law alone would give 42.2 A at 59 °C.
    assert carries_at([(30, 54), (60, 50)], 59, 105, 30) == 50


@given(st.floats(-40, 104), st.floats(0, 400), st.floats(1, 400))
def test_steady_temperature_lies_between_zone_and_limit(zone, current, limit):
    theta = steady_temperature(zone, 105, current, limit)
    assert theta >= zone
    assert (theta <= 105 + 1e-9) == (current <= limit * (1 + 1e-12)) or theta == pytest.approx(105)


def test_at_its_ampacity_a_conductor_reaches_its_limit():
    assert steady_temperature(65, 105, 39.4, 39.4) == 105
    assert steady_temperature(65, 105, 0, 39.4) == 65


@given(st.sampled_from(CFR), st.integers(1, 60), st.integers(1, 60))
def test_more_neighbours_never_carry_more(key, a, b):
    few, many = sorted((a, b))
    gauge, insulation = key
    alone = cfr183_ampacity(gauge, insulation, engine_space=False, bundled=few)
    assert alone >= cfr183_ampacity(gauge, insulation, engine_space=False, bundled=many)


@given(st.sampled_from([key for key in CFR if key[1] in load().cfr183.engine_factor]))
def test_an_engine_space_always_carries_less(key):
    outside = cfr183_ampacity(*key, engine_space=False, bundled=1)
    assert cfr183_ampacity(*key, engine_space=True, bundled=1) < outside


@given(st.sampled_from(CFR), st.sampled_from(CFR))
def test_table_5_rises_with_copper_and_with_insulation(a, b):
    assume(a[0] <= b[0] and a[1] >= b[1])
    assert load().cfr183.current_A[a] >= load().cfr183.current_A[b]


def test_table_5_is_whole():
    gauges = {gauge for gauge, _ in CFR}
    insulations = {insulation for _, insulation in CFR}
    assert len(CFR) == len(gauges) * len(insulations) == 15 * 7


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: carries_at(ROWS, 105, 105, 30), "ambient 105 °C: must be below theta_max 105 °C"),
        (lambda: carries_at(ROWS, -41, 105, 30), "ambient -41 °C: allowed -40 to inf °C"),
        (
            lambda: carries_at(ROWS, 45, 105, 25),
            "no row at the reference ambient 25 °C: rows at 30",
        ),
        (lambda: carries_at((), 45, 105, 30), "no row at the reference ambient 30 °C"),
        (lambda: carries_at([(30, 9), (40, 10)], 35, 105, 30), "table rises or repeats: 9 A at 30"),
        (lambda: carries_at([(30, 9), (30, 8)], 35, 105, 30), "table rises or repeats"),
        (
            lambda: carries_at([(30, 9), (40, 0)], 35, 105, 30),
            "current of a row 0 A: must be above",
        ),
        (lambda: steady_temperature(110, 105, 1, 9), "ambient 110 °C: must be below theta_max"),
        (lambda: steady_temperature(40, 105, -1, 9), "current -1 A: allowed 0"),
        (lambda: steady_temperature(40, 105, 1, 0), "current-carrying capacity 0 A: must be above"),
        (
            lambda: carries_at([(30, 9), (90, 1)], 40, 90, 30),
            "ambient 90 °C: must be below theta_max",
        ),
        (
            lambda: cfr183_ampacity(6, 80, engine_space=True, bundled=1),
            "no engine-space factor known for 80 °C insulation",
        ),
        (
            lambda: cfr183_ampacity(6, 110, engine_space=False, bundled=1),
            "gauge 6 with 110 °C insulation: not in Table 5",
        ),
        (
            lambda: cfr183_ampacity(6, 105, engine_space=False, bundled=0),
            "bundled conductors 0: allowed 1",
        ),
    ],
)
def test_outside_its_range_it_refuses(call, message):
    with pytest.raises(OutOfRange) as refused:
        call()
    assert message in str(refused.value)

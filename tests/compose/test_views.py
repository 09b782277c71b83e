"""Drawing, tables, kit and readings are views of one circuit: each thing stands once in each."""

from collections import Counter
from dataclasses import replace

import pytest

from baybook.checks import judge
from baybook.compose import compose, identify, refuse
from baybook.finding import Ref, Verdict
from baybook.sizing.choose import choose
from baybook.terms import JointKind
from compose.jobs import GUIDES, OTHERS, REFUSALS, check, checked, guide, sheet, told
from variants import quantity
from workbooks import example_fit


def marks(rank):
    return [mark for mark in (rank.positive, rank.negative) if mark is not None]


@pytest.mark.parametrize("name", GUIDES)
def test_each_joint_stands_once_in_the_drawing_and_in_the_torque_table(name):
    letters = [joint.letter for joint in checked(name).design.circuit.joints]
    drawn = [x for rank in guide(name).wiring.ranks for mark in marks(rank) for x in mark.letters]
    assert sorted(drawn) == sorted(letters)
    assert [line.letter for line in guide(name).torques] == letters


@pytest.mark.parametrize("make", OTHERS.values(), ids=OTHERS)
def test_another_circuit_is_drawn_whole(make):
    design = check(make())
    made = compose(design)
    letters = [joint.letter for joint in design.design.circuit.joints]
    drawn = [x for rank in made.wiring.ranks for mark in marks(rank) for x in mark.letters]
    assert sorted(drawn) == sorted(letters)
    tags = {c.tag for c in design.design.circuit.conductors if not c.existing}
    runs = {
        run.conductor
        for rank in made.wiring.ranks
        for run in (rank.positive_run, rank.negative_run)
    }
    assert runs - {""} == tags
    assert [line.tag for line in made.cuts] == sorted(tags)


@pytest.mark.parametrize("name", GUIDES)
def test_each_conductor_stands_once_in_cut_list_drawing_and_connection_list(name):
    tags = [c.tag for c in checked(name).design.circuit.conductors if not c.existing]
    assert [line.tag for line in guide(name).cuts] == tags
    named = [
        value.id
        for message in guide(name).wiring.connections
        for key, value in message.values
        if key == "wire" and isinstance(value, Ref)
    ]
    assert named == tags
    labels = [
        ref.id
        for rank in guide(name).wiring.ranks
        for mark in marks(rank)
        if mark.head is not None and mark.head.id == "wire.cable"
        for key, ref in mark.head.values
        if key == "wire"
    ]
    assert sorted(labels) == tags


@pytest.mark.parametrize("name", GUIDES)
def test_a_conductor_is_one_unbroken_run_of_its_rail(name):
    """Down each rail every tag appears in one block, and none is missing."""
    tags = {c.tag for c in checked(name).design.circuit.conductors if not c.existing}
    seen = set()
    for rail in ("positive_run", "negative_run"):
        blocks = []
        for rank in guide(name).wiring.ranks:
            tag = getattr(rank, rail).conductor
            if tag and (not blocks or blocks[-1] != tag):
                blocks.append(tag)
        assert len(blocks) == len(set(blocks)), blocks
        seen |= set(blocks)
    assert seen == tags


@pytest.mark.parametrize("name", GUIDES)
def test_rows_stand_in_the_order_of_their_distance(name):
    places = [rank.at.value for rank in guide(name).wiring.ranks if rank.at is not None]
    assert places == sorted(places)
    length = checked(name).design.circuit.stretches[-1].end_m
    assert sum(rank.length_m for rank in guide(name).wiring.ranks) == pytest.approx(length)


@pytest.mark.parametrize("name", GUIDES)
def test_every_fitting_of_the_run_is_drawn_and_bought(name):
    fittings = checked(name).design.circuit.fittings
    drawn = Counter(
        mark.mark for rank in guide(name).wiring.ranks for mark in marks(rank) if not mark.letters
    )
    kinds = Counter(f.kind for f in fittings)
    both = {"grommet", "gland", "sleeve", "loop"}
    for kind in both & set(kinds):
        extra = kinds["conduit"] if kind == "sleeve" else 0
        assert drawn[kind] == 2 * kinds[kind] + extra
    bought = {line.part.id for line in guide(name).kit}
    for kind in set(kinds) - {"loop"}:
        assert f"kit.{kind}" in bought


@pytest.mark.parametrize("name", GUIDES)
def test_the_kit_holds_a_lug_for_each_lugged_end_and_all_the_cable(name):
    circuit = checked(name).design.circuit
    lugged = {JointKind.STUD, JointKind.BODY, JointKind.POST, JointKind.ISOLATOR}
    ends = sum(1 for j in circuit.joints if j.kind in lugged for _ in j.conductors)
    lugs = sum(line.count.value for line in guide(name).kit if line.part.id == "kit.lug")
    assert lugs == ends
    metres = sum(line.count.value for line in guide(name).kit if line.part.id == "kit.cable")
    assert metres == pytest.approx(sum(c.cut_m for c in circuit.conductors if not c.existing))
    clips = next(line for line in guide(name).kit if line.part.id == "kit.clip")
    assert clips.count.value == sum(stretch.clips for stretch in circuit.stretches)


@pytest.mark.parametrize("name", GUIDES)
def test_the_strip_is_as_long_as_the_route(name):
    route = guide(name).route
    assert route.zones[0].start_m == 0
    assert route.zones[-1].end_m == route.length_m
    for mark in route.marks:
        assert 0 <= mark.at_m <= route.length_m


def test_zones_that_follow_each_other_unchanged_are_one():
    names = [zone["name"]["text"] for zone in told("ostrigg-drey/j3")["route"]["zones"]]
    assert names == ["Battery box 50\xa0°C", "Under-body 50\xa0°C", "Load bay 45\xa0°C"]


# --------------------------------------------------------------------------- readings


@pytest.mark.parametrize("name", GUIDES)
def test_a_prediction_lies_inside_its_limits(name):
    for line in guide(name).readings:
        if line.predicted is not None:
            assert line.low is None or line.low.value <= line.predicted.value, line.id
            assert line.high is None or line.predicted.value <= line.high.value, line.id
        assert line.if_low is None or line.low is not None
        assert line.if_high is None or line.high is not None


@pytest.mark.parametrize("name", GUIDES)
def test_the_set_voltage_is_read_within_what_the_station_takes(name):
    station = checked(name).design.fit.station
    line = next(line for line in guide(name).readings if line.name == "open")
    assert line.hold is not None
    assert line.hold.number == 5
    assert line.high.value <= station.window_max.value
    assert line.low.value >= station.start.value


def test_the_meter_never_widens_the_set_voltage_past_the_station():
    """A meter that may be 10 % off would let 26.6 V pass; the station's window ends before."""

    fit = example_fit("brunsall-tansy/j1")
    meter = fit.shop.meter
    loose = meter.model_copy(update={"voltage": quantity(meter.voltage, 0.30)})
    wide = replace(fit, shop=fit.shop.model_copy(update={"meter": loose}))
    line = next(line for line in compose(check(wide)).readings if line.name == "open")
    assert line.high.value == pytest.approx(min(29.5, 30.0 * 0.95))


@pytest.mark.parametrize("name", GUIDES)
def test_readings_meter_at_joints_that_exist(name):
    letters = {joint.letter for joint in checked(name).design.circuit.joints}
    for line in guide(name).readings:
        assert set(line.points) <= letters
    fields = [f for step in guide(name).steps if step.hold for f in step.hold.fields]
    for field in fields:
        assert set(field.points) <= letters


def test_the_pickup_is_read_as_its_answer_sheet_says():
    """By hand, J9b: 41 V (1 ± 1 %)(1 ± 0.5 %), outwards; input (12.4 V + 0.20 V)(1 - 0.5 %)."""
    lines = {line["name"]: line for line in told("dunstrel-cobble/j9b")["readings"]}
    row = lines["open"]
    assert (row["low"]["text"], row["high"]["text"]) == ("40.38\xa0V", "41.61\xa0V")
    assert lines["current"]["predicted"]["text"] == "41.7\xa0A"
    assert lines["input"]["low"]["text"] == "12.53\xa0V"
    assert lines["input"]["predicted"]["text"] == "13.27\xa0V"
    assert lines["output_current"]["predicted"]["text"] == "12.7\xa0A"
    assert lines["asleep"]["predicted"]["text"] == "28\xa0mA"


# --------------------------------------------------------------------------- sizes, head, identity


def test_the_size_table_names_the_rule_that_decides():
    """The demonstration job whose 16 mm² carries the fuse and still hunts."""
    results = {
        line["area"]["text"]: line["result"]["text"]
        for line in told("dunstrel-cobble/j9b")["sizes"]
    }
    assert results["6\xa0mm²"].startswith("No. Carries 39.4\xa0A")
    assert results["16\xa0mm²"].startswith("No. 0.06\xa0V under the cut-out")
    assert results["25\xa0mm²"] == "Chosen. Smallest that passes, 0.24\xa0V above the cut-out."
    assert results["35\xa0mm²"] == "No. The clamp takes 25\xa0mm² at most."


@pytest.mark.parametrize("name", GUIDES)
def test_one_size_is_chosen_and_it_is_the_circuits(name):
    chosen = [line.area.value for line in guide(name).sizes if line.chosen]
    assert chosen == [checked(name).design.choice.area_mm2]


@pytest.mark.parametrize("name", GUIDES)
def test_a_guide_carries_its_verdict_and_a_reason_for_each_finding(name):
    assert guide(name).verdict is checked(name).verdict
    assert len(guide(name).reasons) == len({f.title for f in checked(name).findings})
    assert len(guide(name).facts) == 6


def test_envelope_limits_are_never_rounded_to_the_far_side():
    for name in GUIDES:
        design = checked(name).design
        values = {
            c.text.id: dict(c.text.values) for c in guide(name).envelope if len(c.text.values) > 0
        }
        assert values["envelope.length"]["length"].value <= design.figure("envelope_length").value
        assert values["envelope.supply"]["supply"].value >= design.figure("envelope_supply").value


def test_identity_is_the_same_for_guide_refusal_and_withdrawal():
    for name in GUIDES:
        assert guide(name).identity == identify(example_fit(name))
    for name in REFUSALS:
        assert sheet(name).identity == identify(example_fit(name))
    assert identify(example_fit("dunstrel-cobble/j9b")).code == "V6/J9B"


# --------------------------------------------------------------------------- refusals


@pytest.mark.parametrize("name", REFUSALS)
def test_a_refusal_leads_with_the_code_its_fit_expects(name):
    expected = example_fit(name).job.refused
    found = sheet(name)
    assert found.code == expected.codes[0]
    assert found.thought.text == expected.thought
    assert found.kept
    assert len(found.table) == sum(f.verdict is Verdict.REFUSED for f in found.findings)
    assert found.way_out


@pytest.mark.parametrize("name", REFUSALS)
def test_nothing_of_a_refusal_can_be_built_from(name):
    fields = set(type(refuse(choose(example_fit(name), judge))).__dataclass_fields__)
    assert not fields & {"kit", "cuts", "chapters", "wiring", "torques", "readings"}
    assert not any(line.chosen for line in sheet(name).sizes)

"""`baybook draft`: by question and answer to a file that `check` passes."""

import shutil
from types import SimpleNamespace

import pytest
from click.testing import CliRunner
from hypothesis import example, given
from hypothesis import strategies as st

from baybook.cli import main
from baybook.desk.draft_answer import AnswerError, read_answer
from baybook.desk.draft_text import field_at, filled, open_places, skeleton, taken_over
from baybook.desk.fields import fields_of, nouns_below
from baybook.intake.read import read_workbook
from baybook.intake.source import Source
from baybook.intake.tree import Branch, grow
from baybook.vehicle import Vehicle
from workbooks import EXAMPLE, TANSY, copy_workbook

NAME = "tried-one"
VEHICLES = sorted(path.parent.name for path in (EXAMPLE / "vehicles").glob("*/vehicle.yaml"))
FIELDS = {field.key: field for noun in nouns_below(Vehicle) for field in fields_of(noun)}
GIVEN = {"code": "V9", "by": "bay", "on": "2024-11-12", "instrument": "DM-3"}
BASES = ("survey", "manual", "plan")


def tree_of(text):
    tree, findings = grow(Source("x", text), "vehicle")
    assert not findings
    return tree


def at(tree, path):
    for step in path.split("."):
        if isinstance(tree, list):
            tree = tree[int(step)]
        elif step in tree:
            tree = tree[step]
        else:
            return None
    return tree


class Person:
    """Answers each question from a finished vehicle file, in a person's words."""

    def __init__(self, path, known, most=10_000):
        self.path, self.known, self.left, self.asked = path, known, most, []

    def readline(self):
        if self.left == 0:
            return ""
        self.left -= 1
        place = open_places(self.path.read_text("utf-8"))[0]
        self.asked.append(place.path)
        return self.answer(place) + "\n"

    def answer(self, place):
        asked, value = place.field, at(self.known, place.path)
        if place.path == "code" or place.path.startswith("bases."):
            return GIVEN.get(asked.name, "VIN ..2038")
        if value is None:
            return "-"
        if asked.group:
            many = " ".join(value) if asked.many == "map" else str(len(value))
            return many if asked.many else "yes"
        if asked.many:
            return "; ".join(value)
        if isinstance(value, Branch):  # a figure with its basis
            basis = value.get("basis")
            return value["value"] + (f" @ {basis}" if basis in BASES else "")
        return value


def draft(root, monkeypatch, *args, most=10_000):
    path = root / "vehicles" / NAME / "vehicle.yaml"
    person = Person(path, tree_of((EXAMPLE / TANSY).read_text("utf-8")), most)
    monkeypatch.setattr("baybook.desk.draft.sys", SimpleNamespace(stdin=person))
    done = CliRunner().invoke(main, ["draft", NAME, "--workbook", str(root), *args])
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return done, path, person


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """A draft left after twelve answers, written in by hand, and gone on with to its end."""
    root = copy_workbook(tmp_path_factory.mktemp("draft") / "fits")
    with pytest.MonkeyPatch.context() as patch:
        done, path, early = draft(root, patch, most=12)
        assert " open" in done.stdout
        half = path.read_text("utf-8")
        path.write_text(half.replace("format: 1\n", "format: 1\n# red one, yard 2\n"), "utf-8")
        done, path, late = draft(root, patch)
    assert "every place is answered" in done.stdout
    shutil.copytree((root / TANSY).with_name("photos"), path.with_name("photos"))
    assert not set(early.asked) & set(late.asked)
    return root, path.read_text("utf-8"), early.asked + late.asked


def test_answered_to_the_end_it_is_a_vehicle_like_the_one_surveyed(whole):
    root, text, _ = whole
    workbook, findings = read_workbook(root)
    assert findings == ()
    ours = {fit.job.id: fit for fit in workbook.fits if fit.id.startswith(NAME)}
    surveyed = {fit.job.id: fit for fit in workbook.fits if fit.id.startswith("brunsall-tansy")}
    assert set(ours) == set(surveyed)
    for job, fit in ours.items():
        assert fit.vehicle.supply.low.value == surveyed[job].vehicle.supply.low.value
        assert len(fit.vehicle.routes) == len(surveyed[job].vehicle.routes)
        assert fit.job.source.fuse_at.written == surveyed[job].job.source.fuse_at.written
    assert "low: 12.3 V  # lowest running voltage at the posts" in text


def test_it_asks_in_the_order_of_the_sheet_and_for_the_jobs_last(whole):
    first = [path.partition(".")[0] for path in whole[2]]
    order = list(dict.fromkeys(first))
    assert (order[0], order[-1]) == ("code", "fits")
    in_turn = ["applies", "supply", "battery", "bases", "restraints", "cues", "points", "routes"]
    begun = [first.index(part) for part in in_turn]
    assert begun == sorted(begun)


def test_what_a_person_wrote_in_between_stays(whole):
    assert "# red one, yard 2" in whole[1]


def test_what_is_open_is_refused_with_its_line_and_nothing_else_is(tmp_path, monkeypatch):
    root = copy_workbook(tmp_path / "fits")
    _, path, _ = draft(root, monkeypatch, most=30)
    text = path.read_text("utf-8")
    marked = [n for n, line in enumerate(text.splitlines(), 1) if ": ???" in line]
    _, findings = read_workbook(root)
    assert {finding.code for finding in findings} == {"DA-08"}
    assert sorted(finding.where.line for finding in findings) == marked
    assert "???" in str(findings[0].found)


def test_a_new_file_is_open_everywhere():
    text = skeleton(NAME)
    named = {place.field.key for place in open_places(text)}
    for field in fields_of(Vehicle):
        there = field.key in named or f"\n{field.name}:" in text
        assert there or field.name == "variant_of"
    assert all(field_at(place.path) is not None for place in open_places(text))


@pytest.mark.parametrize("source", VEHICLES)
def test_from_a_vehicle_every_figure_is_asked_again_and_as_it_was_gives_the_same(source):
    before = (EXAMPLE / "vehicles" / source / "vehicle.yaml").read_text("utf-8")
    text = taken_over(before, NAME, source)
    places = open_places(text)
    figures = [place for place in places if place.field.kind == "figure"]
    surveyed = [place for place in figures if not place.path.startswith("fits.")]
    assert surveyed
    assert all(place.was for place in places)
    while places := open_places(text):
        text = filled(text, places[0], places[0].was)
    assert tree_of(text) == tree_of(before)


def test_from_leaves_no_measured_figure_standing():
    before = (EXAMPLE / TANSY).read_text("utf-8")
    text = taken_over(before, NAME, "brunsall-tansy")
    for path, node in _leaves(tree_of(text), ""):
        field = field_at(path)
        if field is not None and field.kind == "figure" and not path.startswith("fits."):
            assert node == "???", path


def _leaves(node, path):
    if isinstance(node, dict):
        for key, item in node.items():
            yield from _leaves(item, f"{path}.{key}" if path else key)
    elif isinstance(node, list):
        for n, item in enumerate(node):
            yield from _leaves(item, f"{path}.{n}")
    else:
        yield path, node


# fmt: off
REFUSED = [
    ("Supply.low", "12,3 V", "DA-10"), ("Supply.low", "12.3", "DA-10"),
    ("Supply.low", "unknown", "DA-10"), ("Supply.low", "12.3 V @ drive", "DA-13"),
    ("Segment.length", "4 mm²", "DA-10"), ("Point.kind", "bolt", "DA-11"),
    ("Years.first", "20l9", "DA-12"), ("Basis.on", "12.11.2024", "DA-12"),
    ("Job.charger", "sorel-240", "DA-14"), ("Mount.zone", "Cabin", "DA-16"),
    ("Vehicle.make", "Brun→sall", "DA-17"), ("Vehicle.make", "???", "DA-08"),
]
TAKEN = [
    ("Supply.low", "12.3 V", "12.3 V"),
    ("Supply.low", "12.3 V @ manual", "{value: 12.3 V, basis: manual}"),
    ("Point.torque", "unknown", "unknown"), ("Battery.sensor", "1", "yes"),
    ("Supply.stop_start", "y", "true"), ("Vehicle.make", "Brun: sall", '"Brun: sall"'),
    ("Vehicle.make", "No. #4", '"No. #4"'), ("Vehicle.drive_sides", "left; 2", "[left, right]"),
    ("Segment.length", "13 ft 9 in", "13 ft 9 in"),
    ("Job.protection", "tarrock-bf32", "[tarrock-bf32]"),
]
# fmt: on


@pytest.mark.parametrize(("key", "typed", "code"), REFUSED)
def test_a_bad_answer_is_told_at_once(key, typed, code):
    with pytest.raises(AnswerError) as caught:
        read_answer(typed, FIELDS[key], BASES, EXAMPLE)
    assert {finding.code for finding in caught.value.findings} == {code}


@pytest.mark.parametrize(("key", "typed", "written"), TAKEN)
def test_an_answer_is_written_as_the_example_would(key, typed, written):
    assert read_answer(typed, FIELDS[key], BASES, EXAMPLE) == written


@given(st.sampled_from(["Vehicle.make", "Restraints.found"]), st.text(max_size=40))
@example("Vehicle.make", "0\x850")
@example("Vehicle.make", "0\u20280")
@example("Vehicle.make", "0\u20290")
def test_whatever_is_taken_reads_back_as_typed(key, typed):
    try:
        written = read_answer(typed, FIELDS[key], BASES, EXAMPLE)
    except AnswerError:
        return
    (value,) = tree_of(f"k: {written}\n").values()
    told = [value] if isinstance(value, str) else value
    meant = [typed] if key == "Vehicle.make" else typed.strip().removesuffix(";").split(";")
    assert [one.strip() for one in told] == [one.strip() for one in meant]


def test_a_call_that_is_wrong_says_so(tmp_path):
    root = copy_workbook(tmp_path / "fits")

    def call(*args):
        return CliRunner().invoke(main, ["draft", "--workbook", str(root), *args], input="")

    assert call("Tried One").exit_code == 2
    assert call(NAME, "--from", "no-such").exit_code == 2
    assert call("brunsall-tansy", "--from", "dunstrel-cobble").exit_code == 2
    before = (root / TANSY).read_bytes()
    assert call("brunsall-tansy").exit_code == 0
    assert (root / TANSY).read_bytes() == before

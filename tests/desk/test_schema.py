"""`baybook schema`: an editor is told what the reader takes, and what each word means."""

import json
import re

import pytest
import yaml
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft7Validator

from baybook.cli import main
from baybook.desk.fields import fields_of, nouns_below
from baybook.desk.schema import KINDS, modeline, schema_of, schema_text
from baybook.terms import MEANINGS
from baybook.units import EXAMPLES, RANGES, UNITS, FigureError, read
from workbooks import EXAMPLE

# The texts of another language are whatever the workbook says: no key of theirs is known.
FILES = sorted(
    path for path in EXAMPLE.rglob("*.yaml") if not {"issued", "texts"} & set(path.parts)
)


class Editor(yaml.SafeLoader):
    """Reads scalars by the core schema of YAML 1.2.2, section 10.3.2, as editors do."""

    yaml_implicit_resolvers = {}  # noqa: RUF012 - how the library keeps them


for tag, pattern, first in (
    ("null", r"null|Null|NULL|~|", ["~", "n", "N", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF")),
    ("int", r"[-+]?[0-9]+", list("-+0123456789")),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", list("-+.0123456789")),
):
    Editor.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(f"^(?:{pattern})$"), first)


def as_an_editor_reads(path):
    return yaml.load(path.read_text("utf-8"), Loader=Editor)  # noqa: S506 - a safe loader


def kind_of(path):
    """The kind that a file's modeline names, by the address of its schema."""
    line = path.read_text("utf-8").splitlines()[0]
    address = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", line)[1]
    schema = (path.parent / address).resolve()
    assert schema.parent == EXAMPLE / "schema"
    assert line == modeline(schema.stem, len(path.relative_to(EXAMPLE).parts) - 1)
    return schema.stem


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(EXAMPLE).as_posix())
def test_every_example_is_as_its_schema_says(path):
    kind = kind_of(path)
    if path.parts[-3] == "datasheets":
        assert kind == path.parts[-2]
    Draft7Validator(schema_of(kind)).validate(as_an_editor_reads(path))


@pytest.mark.parametrize("kind", KINDS)
def test_the_schemas_that_ship_are_those_of_the_nouns(kind):
    Draft7Validator.check_schema(schema_of(kind))
    shipped = (EXAMPLE / "schema" / f"{kind}.json").read_text("utf-8")
    assert shipped == schema_text(kind), "run `baybook schema --write --workbook fits`"
    done = CliRunner().invoke(main, ["schema", kind])
    assert (done.exit_code, done.stdout) == (0, shipped)


def test_all_are_written_into_the_workbook(tmp_path):
    (tmp_path / "shop.yaml").write_text("format: 1\n", "utf-8")
    CliRunner().invoke(main, ["schema", "--write", "--workbook", str(tmp_path)])
    assert {path.stem for path in (tmp_path / "schema").iterdir()} == set(KINDS)


def test_a_kind_that_is_none_lists_all():
    done = CliRunner().invoke(main, ["schema", "fuse"])
    assert done.exit_code == 2
    assert "protection" in done.stderr
    assert CliRunner().invoke(main, ["schema"]).stdout.split() == list(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_every_field_says_what_it_is(kind):
    for noun in nouns_below(KINDS[kind]):
        for field in fields_of(noun):
            assert len(field.description) > 5, field.key
            assert not field.description.endswith("."), field.key
            if field.listed:
                assert set(MEANINGS.get(field.listed, ())) <= set(field.words), field.key


def test_meanings_and_units_reach_the_hover():
    supply = schema_of("vehicle")["definitions"]["Supply"]["properties"]
    assert supply["low"]["title"] == "low, in V, mV, kV"
    assert supply["low"]["examples"] == ["14.2 V"]
    cues = {one["const"]: one["description"] for one in supply["kind"]["oneOf"]}
    assert "idle" in cues["controlled alternator"]


TANSY = EXAMPLE / "vehicles/brunsall-tansy/vehicle.yaml"


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("low: 12.3 V", "low: 12.3"),
        ("low: 12.3 V", "low: 12,3 V"),
        ("low: 12.3 V", "low: unknown"),
        ("stop_start: true", "stop_start: yes"),
        ("kind: run line", "kind: D+"),
        ("  chemistry: AGM", "  chemsitry: AGM"),
        ("  chemistry: AGM\n", ""),
        ("output_cable: cordrow-s4", "output_cable: Cordrow S4"),
        ("on: 2024-09-17", "on: 17.9.2024"),
        ("    wait", "    weight"),
        ("{first: 2021, last: 2024}", "2021"),
    ],
)
def test_a_slip_is_marked_in_the_editor(tmp_path, old, new):
    text = TANSY.read_text("utf-8")
    path = tmp_path / "vehicle.yaml"
    path.write_text(text.replace(old, new, 1), "utf-8")
    if old in text:
        assert not Draft7Validator(schema_of("vehicle")).is_valid(as_an_editor_reads(path))


def test_a_variant_may_leave_out_but_not_misspell():
    validator = Draft7Validator(schema_of("variant"))
    whole = {"format": 1, "variant_of": "a", "supply": {"low": "12 V"}}
    assert validator.is_valid(whole)
    assert not validator.is_valid({**whole, "supply": {"lwo": "12 V"}})
    assert not validator.is_valid({**whole, "applies": [{"question": "Is it?"}]})  # lists are whole
    assert not validator.is_valid({"format": 1, "supply": {}})


@given(
    st.sampled_from(sorted(RANGES)),
    st.decimals(0, 100, places=2).map(str),
    st.sampled_from([s for row in UNITS for s in row.spellings]),
    st.sampled_from(["{0} {1}", "{0}{1}", "{0} {1} ± 2 %", "AWG {0}", "{0} ft 3 in"]),
)
def test_what_the_reader_takes_the_editor_takes(unit, number, spelling, form):
    text = form.format(number, spelling)
    try:
        read(text, unit)
    except FigureError:
        return
    owner, name = FIGURE_IN[unit]
    schema = {**schema_of(owner[0]), "$ref": f"#/definitions/{owner[1]}/properties/{name}"}
    assert Draft7Validator(schema).is_valid(text)


def _figures():
    for kind, top in KINDS.items():
        for noun in nouns_below(top)[1:]:
            for field in fields_of(noun):
                if field.kind == "figure" and not field.many:
                    yield field.unit, ((kind, noun.__name__), field.name)


FIGURE_IN = dict(_figures())
RANGES = {unit: RANGES[unit] for unit in FIGURE_IN}


def test_each_unit_has_an_example_that_is_read():
    for unit, example in EXAMPLES.items():
        read(example, unit)
    assert json.loads(schema_text("shop"))["title"]

"""`check --json` says what its schema promises to a machine, for good and for spoilt input."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from jsonschema import Draft202012Validator

from baybook.cli import main
from workbooks import SHOP, copy_workbook, edit

SCHEMA = json.loads((Path(__file__).parents[1] / "schema" / "check.json").read_text("utf-8"))
VALIDATOR = Draft202012Validator(SCHEMA)


def printed(book):
    return json.loads(CliRunner().invoke(main, ["check", "--json", "--workbook", str(book)]).stdout)


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    return printed(copy_workbook(tmp_path_factory.mktemp("schema") / "fits"))


def test_the_schema_is_one():
    Draft202012Validator.check_schema(SCHEMA)


def test_a_whole_workbook(whole):
    VALIDATOR.validate(whole)
    assert len(whole["fits"]) >= 5


def test_a_workbook_that_cannot_be_read(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    edit(book, SHOP, "valid_months: 12", "valid_months: 0")
    told = printed(book)
    VALIDATOR.validate(told)
    assert [problem["code"] for problem in told["problems"]] == ["DA-15"]


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("verdict", "fine"),
        ("fingerprint", ""),
        ("figures", {"current_low": {"value": 43.8}}),
        ("findings", [{"code": "CA-01"}]),
        ("circuit", "W1"),
    ],
)
def test_the_schema_refuses_another_shape(whole, key, value):
    bent = json.loads(json.dumps(whole))
    bent["fits"][0][key] = value
    assert not VALIDATOR.is_valid(bent)

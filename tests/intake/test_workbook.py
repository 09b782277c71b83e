"""The example workbook, and what a fit knows of it."""

import dataclasses
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel

from baybook.fit import Fit
from baybook.intake.document import read_vehicle
from baybook.quantity import Quantity, State, Unknown
from workbooks import COBBLE, EXAMPLE, MIRREN, SHOP, TANSY, copy_workbook, edit, example_fit, load

FITS = [
    "brunsall-tansy/j1",
    "brunsall-tansy/j2",
    "dunstrel-cobble-tow-pack/j9",
    "dunstrel-cobble/j10",
    "dunstrel-cobble/j11",
    "dunstrel-cobble/j13",
    "dunstrel-cobble/j9",
    "dunstrel-cobble/j9b",
    "ostrigg-drey/j12",
    "ostrigg-drey/j3",
    "ostrigg-drey/j4",
    "pellmare-mirren/j5",
    "pellmare-mirren/j6",
    "tavlow-camber/j8",
    "tessick-orlet/j7",
]


def figures(node):
    """Yield every figure below a model or a fit, the unknown ones too."""
    if isinstance(node, Quantity | Unknown):
        yield node
    for part in parts(node):
        yield from figures(part)


def parts(node):
    match node:
        case BaseModel():
            return [getattr(node, name) for name in type(node).model_fields]
        case Fit():
            names = [field.name for field in dataclasses.fields(node) if field.name != "marks"]
            return [getattr(node, name) for name in names]
        case tuple():
            return node
        case dict():
            return node.values()
        case _:
            return ()


def test_the_example_is_whole_and_sorted():
    assert [fit.id for fit in load(EXAMPLE).fits] == FITS


@pytest.mark.parametrize("fit_id", FITS)
def test_every_figure_stands_where_its_mark_points(fit_id):
    seen = 0
    for figure in figures(example_fit(fit_id)):
        lines = (EXAMPLE.parent / figure.where.file).read_text("utf-8").splitlines()
        text = lines[figure.where.line - 1][figure.where.column - 1 :]
        assert text.startswith(figure.written if isinstance(figure, Quantity) else "unknown")
        seen += 1
    assert seen > 200


@pytest.mark.parametrize("fit_id", FITS)
def test_every_figure_has_a_basis_with_its_trail(fit_id):
    for figure in figures(example_fit(fit_id)):
        match figure.basis.state:
            case State.MEASURED:
                assert figure.basis.by
                assert figure.basis.on
            case State.PAPER:
                assert figure.basis.document
            case State.ESTIMATED:
                assert figure.basis.by


@pytest.mark.parametrize("fit_id", FITS)
def test_every_path_of_a_fit_has_a_mark(fit_id):
    fit = example_fit(fit_id)
    roots = {
        "shop", "vehicle", "fit", "charger", "station", "cable", "output_cable", "lugs",
        "clips", *(("connector",) if fit.connector else ()),
    }  # fmt: skip
    assert roots <= {path.split(".")[0] for path in fit.marks}
    for family in fit.job.protection:
        assert fit.mark(f"protection.{family}.voltage").file.endswith(f"protection/{family}.yaml")
    for name in fit.passages:
        assert fit.mark(f"passages.{name}.sizes.0.hole").file.endswith(f"passage/{name}.yaml")
    for name in fit.sundries:
        assert fit.mark(f"sundries.{name}.use").file.endswith(f"sundry/{name}.yaml")
    assert fit.mark("fit.charger").path.endswith(".charger")
    assert fit.mark("fit.charger").path.startswith("fits.")
    assert fit.mark("vehicle.supply.low.no.such.path") == fit.mark("vehicle.supply.low")


def test_the_nearest_basis_wins_and_a_word_of_its_own_is_kept():
    supply = example_fit("dunstrel-cobble/j9b").vehicle.supply
    assert supply.low.basis.instrument == "DM-3"
    assert supply.hot_idle.basis.instrument == "CM-1"
    assert supply.rest.basis.method == "engine off for one hour"
    assert supply.base_night.basis.note.startswith("winter night")
    assert supply.rated.basis.state is State.PAPER


def test_sheet_and_shop_figures_have_the_basis_of_their_file():
    fit = example_fit("dunstrel-cobble/j9b")
    assert fit.charger.cut_out.basis.state is State.PAPER
    assert fit.charger.cut_out.basis.document == "Wendric data sheet WS-520, revision A"
    assert fit.shop.limits.input_drop.value.basis.state is State.RULE


def test_a_zone_that_was_measured_on_the_vehicle_replaces_the_shops():
    pickup, estate = example_fit("dunstrel-cobble/j9b"), example_fit("brunsall-tansy/j1")
    assert pickup.shop.zones["engine-bay"].temperature.value == 65
    assert pickup.mark("shop.zones.engine-bay.temperature").file == f"fits/{COBBLE}"
    assert pickup.mark("shop.zones.sill.temperature").file == f"fits/{SHOP}"
    assert estate.shop.zones["engine-bay"].temperature.value == 70


def test_what_yaml_would_turn_into_something_else_stays_text(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, TANSY, "engine: 1.5 petrol", "engine: 12:30")
    edit(root, TANSY, "chemistry: AGM", "chemistry: no")
    edit(root, TANSY, "code: V1", "code: 010")
    for number, odd in (("P28", "2024-11-29"), ("P29", '"null"'), ("P30", "1e3")):
        edit(root, MIRREN, f"photo: {number}", f"photo: {odd}")
        edit(root, MIRREN, f"  {number}:\n", f"  {odd}:\n")
    vehicles = {fit.slug: fit.vehicle for fit in load(root).fits}
    vehicle = vehicles["brunsall-tansy"]
    photos = [point.photo for point in vehicles["pellmare-mirren"].points.values()]
    assert (vehicle.engine, vehicle.battery.chemistry, vehicle.code) == ("12:30", "no", "010")
    assert photos == ["2024-11-29", "null", "1e3"]
    assert set(photos) < set(vehicles["pellmare-mirren"].photos)


def test_what_nobody_knows_is_a_value(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, TANSY, "torque: {value: 20 N·m, basis", "torque: {value: unknown, basis")
    fit = next(fit for fit in load(root).fits if fit.job.id == "j1")
    point = fit.vehicle.points["body-left"]
    assert isinstance(point.torque, Unknown)
    assert point.torque.basis.document.startswith("Brunsall")


def test_each_file_is_read_once(monkeypatch):
    opened = []
    honest = Path.open

    def counting(path, *args, **options):
        opened.append(path)
        return honest(path, *args, **options)

    monkeypatch.setattr(Path, "open", counting)
    load(EXAMPLE)
    again = {path for path in opened if opened.count(path) > 1}
    # Once more for its variant, which needs a tree of its own, and shows its pictures.
    base = EXAMPLE / COBBLE
    assert again == {base, *(base.parent / "photos").iterdir()}
    assert all(opened.count(path) == 2 for path in again)
    assert len(set(opened)) > 20


# ------------------------------------------------------------------ no input brings it down

TEXT = (EXAMPLE / TANSY).read_text("utf-8")
SCRAPS = [
    "", " ", "\n", ":", "- ", "[", "]", "{", "}", '"', "'", "#", "&a ", "*a", "!t ", "<<: ",
    "---\n", "basis: ", "value: ", "unknown", "null", "\t", "é", "\x00", "| ", "> ", "? ", "%", "@",
    "12 V",
]  # fmt: skip


def no_sheets(_kind):
    return ()


@pytest.fixture(scope="module")
def spoilt(tmp_path_factory):
    return copy_workbook(tmp_path_factory.mktemp("spoilt") / "fits")


@given(st.integers(0, len(TEXT)), st.integers(0, 30), st.lists(st.sampled_from(SCRAPS), max_size=3))
def test_a_file_spoilt_anywhere_is_read_or_told(spoilt, start, gone, scraps):
    text = TEXT[:start] + "".join(scraps) + TEXT[start + gone :]
    (spoilt / TANSY).write_text(text, encoding="utf-8")
    document, findings = read_vehicle(spoilt / TANSY, spoilt, no_sheets)
    assert (document is None) == bool(findings)
    lines = text.count("\n") + 2
    for finding in findings:
        assert finding.where.file == f"fits/{TANSY}"
        assert 1 <= finding.where.line <= lines


@given(st.text(max_size=200))
def test_any_text_at_all_is_told(spoilt, text):
    (spoilt / TANSY).write_text(text, encoding="utf-8", errors="surrogatepass")
    document, findings = read_vehicle(spoilt / TANSY, spoilt, no_sheets)
    assert document is None
    assert findings

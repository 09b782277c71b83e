"""Signal panels: colours, contrast and letters, as page and print use them."""

import re
from pathlib import Path

import pytest

from baybook.standards import register

TEMPLATES = Path(__file__).parents[2] / "templates"
CSS = (TEMPLATES / "assets" / "site.css").read_text("utf-8")
TYPST = (TEMPLATES / "print" / "tokens.typ").read_text("utf-8")
WORDS = {"low risk (CAUTION)": "caution", "medium risk (WARNING)": "warning"}
BLACK, WHITE = "#000000", "#FFFFFF"


def luminance(colour):
    """Relative luminance of an sRGB colour, WCAG 2.x."""
    shares = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def panel(word):
    """Return (bar, letters) of a signal word on the page."""
    bar = re.search(rf"--{word}: (#\w+);", CSS)[1]
    letters = re.search(rf"\.{word} \.bar \{{[^}}]* color: (#\w+);", CSS)[1]
    return bar.upper(), letters.upper()


@pytest.mark.rows("bay_print", "BP034", "BP035", "BP036")
def test_worked_contrast(row):
    letters, background = re.search(r"(white|black) on ISO \w+ (#\w+)", row["item"]).groups()
    found = contrast(WHITE if letters == "white" else BLACK, background)
    assert found == pytest.approx(row.value, abs=0.005), row


@pytest.mark.rows("bay_print", "BP031")
@pytest.mark.parametrize("word", ["danger", "warning", "caution", "notice"])
def test_letters_stand_out_from_their_panel(row, word):
    # white on ISO orange fails, black on orange passes
    assert contrast(*panel(word)) >= row.value, row


@pytest.mark.rows("safety_language", "SL018", "SL019", "SL020")
def test_panel_colour_by_risk(row):
    word = re.search(r"\((\w+)\)", row["item"])[1].lower()
    assert panel(word)[0] == row["value"], row
    assert f'{word}: (bar: rgb("{row["value"]}")' in TYPST, row
    letters = re.search(r"contrast (\w+)", row["condition"])[1]
    assert panel(word)[1] == (WHITE if letters == "white" else BLACK), row


@pytest.mark.rows("safety_language", "SL005", "SL006", "SL007")
def test_letters_of_a_panel(row):
    letters = row["condition"].split()[0]
    assert panel(row["item"].lower())[1] == (WHITE if letters == "white" else BLACK), row


@pytest.mark.rows("safety_language", "SL013", "SL014")
def test_safety_colours_that_the_panels_borrow(row):
    word = "danger" if row.id == "SL013" else "notice"
    assert panel(word)[0] == row["value"], row


# ------------------------------------------------------------------ size of letters


def height(distance_mm, arcmin):
    """Height of a capital at a distance, NUREG-0700, 1.3.1-4."""
    return 6.283 * distance_mm * arcmin / 21600


@pytest.mark.rows("bay_print", "BP001")
def test_height_form(row):
    assert row["value"] == "H = 6.283 * D * MA / 21600", row


@pytest.mark.rows("bay_print", "BP007", "BP008", "BP009", "BP01[03458]")
def test_worked_height_of_a_capital(row):
    distance = float(re.search(r"at (\d+) mm", row["item"])[1])
    arcmin = float(row["condition"].split()[0])
    assert height(distance, arcmin) == pytest.approx(row.value, abs=0.0051), row


@pytest.mark.rows("bay_print", "BP020")
def test_a_step_can_be_read_at_arm_s_length(row):
    # capitals are 0.70 em: 12 pt subtends 16 arcmin up to 637 mm
    points = {name: float(size) for name, size in re.findall(r"#let ([\w-]+) = (\d+)pt", TYPST)}
    body, torque, signal = (float(part) for part in row["value"].split(" / "))
    assert points["action"] >= body, row
    assert points["figure-size"] >= torque, row
    assert points["signal-size"] >= signal, row
    assert 0.70 * points["action"] * 25.4 / 72 >= height(636, 16), row


@pytest.mark.rows("process", "PR024")
def test_the_boundary_of_high_voltage_is_offered(row):
    assert f"{row['value']} V DC" in register()["cfr571-305"].offers, row

"""Every public function of the trade says what it returns, in which unit, for which arguments.

And it means it: a pure function is called just outside of each range that its docstring
states, and with no number at all, and must refuse.
"""

import ast
import importlib
import inspect
import math
import re
from pathlib import Path

import pytest

import baybook
from baybook.sizing.bolts import Screw
from baybook.sizing.source import NoSolution
from baybook.sizing.validity import OutOfRange
from baybook.standards import register

PACKAGE = Path(baybook.__file__).parent
ID = re.compile(r"\[((?:[a-z]+[a-z0-9]*(?:-[a-z0-9]+)+)|(?:[a-z]{2,}\d{3,}[a-z]?))\]")
NUMBER = re.compile(r"\b(float|int)\b")
RANGE = re.compile(
    r"\babove\b|\bor more\b|\bbelow\b|\d to (-?\d|\d/0|the )|\bas listed\b|\bas in the table\b"
    r"|\ba column\b|\bany\b|\bas for\b"
)
LIMITS = {
    "above": re.compile(r"\babove (-?[\d.]+\d|\d)"),
    "least": re.compile(r"(-?[\d.]*\d) or more"),
    "ends": re.compile(r"(-?[\d.]*\d) to (-?[\d.]*\d)(?![\d/])"),
}


def functions():
    """Yield (module, node) of each public function of sizing and checks."""
    for room in ("sizing", "checks"):
        for file in sorted((PACKAGE / room).glob("*.py")):
            if file.stem == "chart_axis":  # ticks of a scale: no rule of the trade
                continue
            for node in ast.parse(file.read_text("utf-8")).body:
                if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                    yield f"{room}.{file.stem}", node


ALL = list(functions())
each = pytest.mark.parametrize(
    ("module", "node"), ALL, ids=[f"{module}.{node.name}" for module, node in ALL]
)


def told(node):
    return ast.get_docstring(node) or ""


def arguments(node):
    """Yield (name, annotation) of each argument."""
    args = node.args
    for arg in (*args.posonlyargs, *args.args, *args.kwonlyargs):
        yield arg.arg, ast.unparse(arg.annotation)


def numbers(node):
    """Return the arguments that are, or hold, plain numbers."""
    return [name for name, kind in arguments(node) if NUMBER.search(kind)]


def line_of(node, name):
    """Return what the docstring says of an argument; its further lines are joined."""
    block = re.search(
        rf"^{re.escape(name)} {{2,}}(\S.*(?:\n {{3,}}\S.*)*)", told(node), flags=re.MULTILINE
    )
    return " ".join(block[1].split()) if block else ""


@each
def test_it_says_what_it_returns(module, node):
    summary = told(node).partition("\n\n")[0]
    assert re.match(r"[A-Z].*[.\]]$", summary, flags=re.DOTALL), (module, summary)
    if node.returns is not None and NUMBER.search(ast.unparse(node.returns)):
        assert re.search(r"\[[^\]]+\]$", summary), f"no unit: {summary}"


@each
def test_it_gives_unit_and_range_of_each_number(module, node):
    kinds = dict(arguments(node))
    for name in numbers(node):
        line = line_of(node, name)
        assert line, f"{module}.{node.name}: nothing about {name}"
        assert RANGE.search(line), f"{module}.{node.name}: no range: {name}  {line}"
        if "float" in kinds[name]:
            assert re.search(r"\[[^\]]+\]", line), f"{module}.{node.name}: no unit: {name}  {line}"


REFUSING = ("above", "within", "below", "listed")  # of sizing.validity


def refuses(node):
    """Tell whether a function raises by itself, or asks for a range."""
    for part in ast.walk(node):
        if isinstance(part, ast.Raise):
            return True
        if isinstance(part, ast.Call) and getattr(part.func, "id", "") in REFUSING:
            return True
    return False


@each
def test_it_says_what_it_raises(module, node):
    if refuses(node):
        assert re.search(r"^Raises:\n    \w+: ", told(node), flags=re.MULTILINE), module


@each
def test_it_cites_the_register(module, node):
    cited = ID.findall(told(node))
    assert cited, f"{module}.{node.name} cites nothing"
    assert set(cited) <= set(register()), module


# ------------------------------------------------------------------ and it means it

ENUMS = {"Screw": Screw.HEX}
WORDS = {
    ("lead_acid", "chemistry"): "lead-acid, flooded",
    ("proof_load", "thread"): "M8",
    ("steel_torque", "thread"): "M8",
    ("stud_torque", "thread"): "M8",
    ("stud_current", "thread"): "M8",
    ("clamping_stud_current", "thread"): "M8",
    ("proof_load", "property_class"): "8.8",
    ("steel_torque", "property_class"): "8.8",
    ("stud_torque", "material"): "brass",
    ("stud_current", "material"): "brass",
    ("socket_torque", "across_in"): "3/16",
    ("nut_factor", "surface"): "lubricated",
    ("most_unprotected_length", "rule"): "cfr183-455",
}
# arguments that make each pure function answer; where any number between serves, 1 does
FIGURES = {
    "steady_temperature": {"zone_C": 30, "theta_max_C": 105, "I": 20, "I_T": 40},
    "carries_at": {
        "points": [(30.0, 40.0)],
        "ambient_C": 50,
        "theta_max_C": 105,
        "theta_ref_C": 30.0,
    },
    "cfr183_ampacity": {"awg": 8, "insulation_C": 105, "engine_space": True, "bundled": 2},
    "table_current": {"awg": 8, "insulation_C": 105},
    "engine_factor": {"insulation_C": 105},
    "bolt_torque": {"K": 0.2, "d_m": 0.008, "F_N": 1000},
    "steel_torque": {"K": 0.2},
    "screw_clamp_torque": {"awg": 8},
    "resistance_factor": {"theta_C": 60},
    "resistance_at": {"r20_ohm_per_m": 0.002, "theta_C": 60},
    "awg_area_mm2": {"gauge": 6},
    "gauge_within": {"area_mm2": 10},
    "spare_current": {"hot_A": 90, "headroom": 0.9, "base_A": 30, "charger_A": 30},
    "charge_hours": {"energy_Wh": 500, "power_W": 240, "efficiency": 0.9},
    "heat_loss": {"output_W": 240, "efficiency": 0.9},
    "long_end": {"tolerance": 0.02},
    "one_load": {"U": 12, "P": 100, "idle_ohm": 0.01, "warming": 0.0},
    "constant_power": {"U": 12, "R": 0.01, "P": 100},
    "force_per_fixing": {"force": 100, "fixings": 4, "lost": 1},
    "pull_out_allowable": {"sheet_mm": 0.8, "screw_mm": 4.8, "tensile_MPa": 270},
    "least_screw_pitch": {"screw_mm": 4.8},
    "least_screw_edge": {"screw_mm": 4.8},
    "k_factor": {"theta_initial_C": 105, "theta_final_C": 250},
    "let_through_ratio": {"I": 1000, "t_s": 0.1, "k": 115, "area_mm2": 10},
    "crimp_pull_out": {"awg": 8},
    "clamp_pull": {"area_mm2": 10},
    "scale_reading": {"force_N": 80},
    "smallest_rating": {"ratings_A": [30.0, 40.0], "factor": 0.8, "I_B": 20},
    "rest_voltage": {"charge": 0.75},
}
PLAIN = re.compile(r"^(float|int|str|bool|Screw|Sequence\[(Point|float)\])$")


def pure():
    """Yield (function, node) where every argument is a plain number, word or choice."""
    for module, node in ALL:
        kinds = [kind for _, kind in arguments(node)]
        if set(kinds) <= {"bool"} or not all(PLAIN.match(kind) for kind in kinds):
            continue
        if module.startswith("checks.") or module == "sizing.validity":
            continue  # they write down what they are given; or are the refusal itself
        yield getattr(importlib.import_module(f"baybook.{module}"), node.name), node


PURE = [(found, node) for found, node in pure() if node.name != "constant"]
each_pure = pytest.mark.parametrize(("function", "node"), PURE, ids=[node.name for _, node in PURE])


def answers(node):
    """Return arguments within every range."""
    given = FIGURES.get(node.name, {})
    found = {}
    for name, kind in arguments(node):
        if name in given:
            found[name] = given[name]
        elif kind == "str":
            found[name] = WORDS[node.name, name]
        elif kind == "bool":
            found[name] = False
        else:
            found[name] = ENUMS.get(kind, 1)
    return found


def outside(line):
    """Yield numbers just outside of the range that a docstring states."""
    for low in LIMITS["above"].findall(line):
        yield from (float(low), float(low) - 1)
    for low in LIMITS["least"].findall(line):
        yield float(low) - 0.001 - 1e-6 * abs(float(low))
    for low, high in LIMITS["ends"].findall(line):
        least, most = sorted((float(low), float(high)))
        yield from (least - 1, most * 1.01 + 1 if most > 1 else most + 0.01)


@each_pure
def test_within_its_ranges_it_answers(function, node):
    found = function(**answers(node))
    assert isinstance(found, (float, int, str, tuple, bool))
    for part in found if isinstance(found, tuple) else (found,):
        assert not isinstance(part, float) or math.isfinite(part)


@each_pure
def test_outside_of_a_range_it_refuses(function, node):
    for name in numbers(node):
        if not isinstance(answers(node)[name], (int, float)):
            continue
        for value in (*outside(line_of(node, name)), math.nan):
            with pytest.raises((OutOfRange, NoSolution)):
                function(**{**answers(node), name: value})


def test_the_pure_functions_are_found():
    assert len(PURE) > 45
    assert inspect.getdoc(PURE[0][0])

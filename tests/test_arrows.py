"""The house: nouns import nouns, a verb imports no other verb; see DEVELOPERS.md."""

import ast
from pathlib import Path

import pytest

import baybook

PACKAGE = Path(baybook.__file__).parent
NOUNS = {
    "quantity",
    "terms",
    "shop",
    "sheet",
    "part",
    "second",
    "point",
    "route",
    "job",
    "vehicle",
    "fit",
    "finding",
    "circuit",
    "cascade",
    "solved",
    "figure",
    "chart",
    "design",
    "pairing",
    "step",
    "view",
    "guide",
    "overlay",
    "record",
    "book",
}
VERBS = {"intake", "sizing", "checks", "compose", "wording", "drawing", "publish"}
DOORS = {"units", "standards", "shipped"}
FLOW = {
    "decide",
    "matrix",
    "telling",
    "making",
    "crew",
    "sweeping",
    "notes",
    "superseded",
    "unchanged",
    "pipeline",
    "cli",
    "desk",
    "plain",
} | {"mkdocs_plugin"}
FILES = sorted(path.relative_to(PACKAGE) for path in PACKAGE.rglob("*.py"))


def imports(file: Path) -> set[str]:
    """Return the rooms and nouns of ours that a file imports, `baybook.x.y` as `x`."""
    found = set()
    for node in ast.walk(ast.parse((PACKAGE / file).read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.level == 0 and node.module:
            names = [node.module, *(f"{node.module}.{alias.name}" for alias in node.names)]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        else:
            continue
        found |= {name.split(".")[1] for name in names if name.startswith("baybook.")}
    return found & (NOUNS | VERBS | DOORS | FLOW)


def room(file: Path) -> str:
    return file.parts[0] if len(file.parts) > 1 else file.stem


@pytest.mark.parametrize("file", [f for f in FILES if room(f) in NOUNS], ids=str)
def test_noun_imports_only_nouns(file):
    assert imports(file) <= NOUNS


@pytest.mark.parametrize("file", [f for f in FILES if room(f) in VERBS], ids=str)
def test_verb_imports_no_other_verb(file):
    assert imports(file) <= NOUNS | DOORS | {room(file)}


@pytest.mark.parametrize("file", [f for f in FILES if room(f) in DOORS], ids=str)
def test_door_imports_no_verb(file):
    assert imports(file) <= NOUNS | {room(file)}


def test_command_imports_only_the_desk():
    assert imports(Path("cli.py")) <= {"desk", "sweeping"}


def test_only_pipeline_and_desk_know_several_verbs():
    several = {room(f) for f in FILES if len(imports(f) & VERBS) > 1}
    assert several <= {
        "decide",
        "matrix",
        "telling",
        "making",
        "notes",
        "superseded",
        "pipeline",
        "desk",
    }


CALCULATING = [f for f in FILES if room(f) in {"sizing", "checks", "compose"}]


@pytest.mark.parametrize("file", CALCULATING, ids=str)
def test_calculation_touches_no_file_clock_or_environment(file):
    text = (PACKAGE / file).read_text("utf-8")
    tree = ast.parse(text)
    modules = {
        name
        for node in ast.walk(tree)
        if isinstance(node, ast.Import | ast.ImportFrom)
        for name in (
            [node.module] if isinstance(node, ast.ImportFrom) else [a.name for a in node.names]
        )
    }
    called = {
        node.func.id
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    assert not modules & {"os", "pathlib", "time", "random", "logging", "subprocess", "io"}
    assert not called & {"open", "print", "input"}

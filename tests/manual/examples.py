"""What the manual shows of each rule: the bad fits of `tests/refused/` and what the tool says.

    python tests/manual/examples.py

writes `templates/examples.json` again; `test_rulebook.py` fails when it is not what is said now.
"""

import difflib
import json
import re
import sys
import tempfile
from datetime import date
from pathlib import Path

import yaml

TOP = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(TOP / "tests"))

from baybook.checks import RULES, approve, judge  # noqa: E402
from baybook.decide import decide  # noqa: E402
from baybook.design import Refusal  # noqa: E402
from baybook.finding import Amount, Listing, Message, Name, Ref  # noqa: E402
from baybook.intake.problems import CODES  # noqa: E402
from baybook.intake.read import read_workbook  # noqa: E402
from baybook.intake.texts import read_texts  # noqa: E402
from baybook.sizing.choose import choose  # noqa: E402
from refused.cases import CASES, J4  # noqa: E402
from refused.slips import DEVICES, LEFT_OUT, PUNCTUATION, SLIPS  # noqa: E402
from workbooks import DREY, EXAMPLE, SHOP, TANSY, copy_workbook, edit_first, load, spoilt_fit  # noqa: E402

FILE = TOP / "templates" / "examples.json"
WALK = TOP / "templates" / "en" / "release.yaml"
TODAY = date(2024, 12, 2)
_DIGITS = 9  # of a figure in the file; a page shows far fewer
_GERMAN = "texts/de.yaml"
_LINE = '"Engine bay": "Motorraum"\n'
_SPOILT_FILES = {
    # what no edit of a text can show is done to the file itself
    "DA-01": lambda root: (root / TANSY).unlink(),
    "DA-02": lambda root: (root / TANSY).write_text((root / TANSY).read_text("utf-8"), "utf-16"),
}
_EDITS = {
    "DA-17": ((TANSY, "engine: 1.5 petrol", "engine: 1.5 petrol ☂"),),
    "DA-19": ((SHOP, "languages: [en]", "languages: [en, de]"), (_GERMAN, _LINE, "")),
    "DA-20": (
        (SHOP, "languages: [en]", "languages: [en, de]"),
        (_GERMAN, _LINE, _LINE + '"Engine room": "Maschinenraum"\n'),
    ),
}


def examples():
    """Return for each code its examples, as the file holds them."""
    rules = {code: _of_rule(code) for code in RULES}
    walk = re.findall(r'^"rule\.(ST-\d+)\.title"', WALK.read_text("utf-8"), re.MULTILINE)
    data = {code: [_of_data(code)] for code in CODES}
    return rules | {"KR-01": [_of_kept()]} | data | {code: [] for code in walk}


def _of_rule(code):
    """Return the shortest bad fit of each verdict, worst first."""
    shortest = {}
    for case in CASES:
        if case.code == code:
            weight = sum(len(old) + len(new) for _, old, new in case.changes)
            known = shortest.get(case.verdict)
            if known is None or weight < known[0]:
                shortest[case.verdict] = (weight, case)
    order = sorted(shortest, key=["refused", "hold", "caution"].index)
    return [_plain(_found(shortest[v][1]), *_shown(shortest[v][1])) for v in order]


def _found(case):
    with tempfile.TemporaryDirectory() as folder:
        found = choose(spoilt_fit(Path(folder), case.fit, *case.changes), judge)
    result = found if isinstance(found, Refusal) else approve(found)
    return next(f for f in result.findings if f.code == case.code and f.verdict == case.verdict)


def _shown(case):
    return case.fit, case.changes


def _of_kept():
    change = (DREY, "codes: [OV-01, OV-02, OV-10]", "codes: [OV-01, OV-10]")
    with tempfile.TemporaryDirectory() as folder:
        outcome = decide(spoilt_fit(Path(folder), J4, change), TODAY)
    return _plain(next(f for f in outcome.faults if f.code == "KR-01"), J4, (change,))


def _of_data(code):
    if code in _SPOILT_FILES:
        return _plain(_read(code, (), _SPOILT_FILES[code]), "", ())
    changes = _EDITS.get(code)
    if changes is None:
        rows = [(*row[:3], row[3]) for row in (*SLIPS, *LEFT_OUT)]
        rows += [(*row[:3], "DA-03") for row in PUNCTUATION]
        rows += [(*row[:3], "DA-04") for row in DEVICES]
        fitting = [row[:3] for row in rows if row[3] == code]
        changes = (min(fitting, key=lambda row: ("\t" in row[2], len(row[1] + row[2]))),)
    return _plain(_read(code, changes), "", changes)


def _read(code, changes, spoil=lambda _: None):
    with tempfile.TemporaryDirectory() as folder:
        root = copy_workbook(Path(folder) / "fits")
        for name, old, new in changes:
            edit_first(root, name, old, new)
        spoil(root)
        book, problems = read_workbook(root)
        if book is not None and not problems:
            problems = read_texts(root, load(root))[1]
    return next(f for f in problems if f.code == code)


def _plain(finding, fit, changes):
    where = finding.where
    return {
        "fit": fit,
        "changes": [_lines(*change) for change in changes],
        "verdict": finding.verdict.value,
        "place": finding.place,
        "where": [where.file, where.line, where.column],
        "title": value(finding.title),
        "found": value(finding.found),
        "allowed": value(finding.allowed),
        "why": value(finding.why),
        "way_out": value(finding.way_out),
        "sources": list(finding.sources),
    }


def _lines(name, old, new):
    """Return an edit as whole lines of the file, those that stay left out."""
    with tempfile.TemporaryDirectory() as folder:
        root = copy_workbook(Path(folder) / "fits")
        before = (root / name).read_text("utf-8")
    after = before.replace(old, new, 1)
    old_lines, new_lines = (text.split("\n") for text in (before, after))
    blocks = difflib.SequenceMatcher(a=old_lines, b=new_lines, autojunk=False).get_opcodes()
    gone = [line for tag, a, b, _, _ in blocks if tag != "equal" for line in old_lines[a:b]]
    come = [line for tag, _, _, c, d in blocks if tag != "equal" for line in new_lines[c:d]]
    first = next(a for tag, a, *_ in blocks if tag != "equal")
    changed = next(line for line in (*come, *gone) if line.strip())
    return [name, _above(old_lines[:first], changed), _bare(gone), _bare(come)]


def _above(lines, line):
    """Return the keys that a line stands under, outermost first."""
    keys = []
    for above in reversed(lines):
        bare = above.lstrip()
        if bare and not bare.startswith("#") and _indent(above) < _indent(line):
            keys.insert(0, re.sub(r" +# .*", "", above))
            line = above
    return keys


def _indent(line):
    return len(line) - len(line.lstrip())


def _bare(lines):
    return [line for line in lines if line.strip() and not line.lstrip().startswith("# ")]


def value(node):
    """Return a typed value as JSON; the key says its type."""
    if isinstance(node, Message):
        return {"say": node.id, "values": {name: value(inner) for name, inner in node.values}}
    if isinstance(node, Amount):
        figure = float(f"{node.value:.{_DIGITS}g}")
        return {"amount": [figure, node.unit, node.digits, node.written, node.show]}
    if isinstance(node, Ref):
        return {"ref": [node.kind, node.id]}
    if isinstance(node, Listing):
        return {"list": [value(item) for item in node.items]}
    return {"name": node.text} if isinstance(node, Name) else node


def names(node):
    """Yield every text of a person among values of the file."""
    if isinstance(node, dict):
        if set(node) == {"name"}:
            yield node["name"]
        node = list(node.values())
    if isinstance(node, list):
        for inner in node:
            yield from names(inner)


def texts(made):
    """Return the example's own texts that occur, by language: a name is in none of them."""
    used = set(names(list(made.values())))
    return {
        file.stem: {
            text: told
            for text, told in sorted(yaml.safe_load(file.read_text("utf-8")).items())
            if text in used
        }
        for file in sorted((EXAMPLE / "texts").glob("*.yaml"))
    }


def as_text(made):
    """Return the file: a line for each example, so that a change of one is seen as one."""
    lines = []
    for code in sorted(made):
        kept = [_json(one) for one in made[code]]
        lines.append(f'"{code}": [' + ("\n " + ",\n ".join(kept) if kept else "") + "]")
    rules = "{\n" + ",\n".join(lines) + "\n}"
    return '{"texts": ' + _json(texts(made)) + ',\n"rules": ' + rules + "}\n"


def _json(node):
    return json.dumps(node, ensure_ascii=False)


if __name__ == "__main__":
    FILE.write_text(as_text(examples()), "utf-8")

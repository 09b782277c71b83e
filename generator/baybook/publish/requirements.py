"""What of a told guide must be found again by its reader, as rows of text.

A row has an anchor, the words that no other row starts with, and the parts that stand with it.
A row counts as found only where its parts stand between its own anchor and the next anchor of
the same kind: the torque of joint D does not stand in for the torque of joint J.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from baybook.publish.workings import main_figures

Node = Mapping[str, Any]
Words = Mapping[str, str]

_TRAILS = 4000  # the trails to a figure's inputs stand between them
_WORDS = {
    "people": {"page": "page.steps.people", "print": "print.step.people"},
    "before": {"page": "page.steps.before", "print": "print.true-before"},
    "initials": {"page": "page.hold.initials", "print": "print.initials"},
    "second": {"page": "page.hold.second", "print": "print.second-person"},
}


@dataclass(frozen=True, slots=True)
class Row:
    kind: str  # rows of one kind end each other
    name: str  # for the message: "torque A"
    anchor: tuple[str, ...]  # these words, one directly after the other
    parts: tuple[str, ...]
    slack: int = 240  # characters of other words that may stand between the parts
    before: tuple[str, ...] = ()  # anchor of the step that must come next; (): it may be anywhere


def guide_rows(guide: Node, words: Words) -> tuple[Row, ...]:
    """Return every row of a told guide on its page."""
    return _rows(guide, words, "page")


def step_rows(guide: Node, words: Words) -> tuple[Row, ...]:
    """Return what must be on any paper that is worked from: the guide without its workings."""
    rows = _rows(guide, words, "print")
    return tuple(row for row in rows if not row.kind.startswith(("figure", "size")))


def _rows(guide: Node, words: Words, surface: str) -> tuple[Row, ...]:
    """Return the rows as they stand on a surface: "page" or "print"."""
    own = {name: words[ids[surface]] for name, ids in _WORDS.items()}
    return (
        *_lines("reason", guide["reasons"]),
        *_facts(guide, surface),
        *_cautions(guide),
        *_steps(guide, own["people"]),
        *_starts(guide, own["before"]),
        *_boxes(guide, words),
        *_holds(guide, words["word.hold"], (own["initials"], own["second"])),
        *_torques(guide),
        *_readings(guide),
        *_tree(guide),
        *_cuts(guide),
        *_kit(guide),
        *_envelope(guide),
        *_sizes(guide),
        *_follows(guide),
        *_lines("undoing", guide["undo"]),
        *_lines("assumption", guide["assumptions"]),
        *_lines("note on readings", guide["reading_notes"]),
        *_lines("second torque visit", [guide["retorque"]]),
        *workings_rows(main_figures(guide["figures"])),
    )


def refusal_rows(refusal: Node) -> tuple[Row, ...]:
    """Return every row of a told refusal."""
    table = [
        Row(
            "found",
            f"found {number}",
            (_text(line["what"]),),
            (_text(line["found"]), _text(line["allowed"])),
        )
        for number, line in enumerate(refusal["table"], 1)
    ]
    # The heading may say it already, there without a full stop.
    reason = Row("reason", "reason 1", (_text(refusal["short_reason"]).rstrip("."),), ())
    ways = _lines("way out", refusal["way_out"])
    title = Row("title", "title", (refusal["code"],), (_text(refusal["title"]),))
    return (title, reason, *table, *ways)


def _text(told: Any) -> str:  # noqa: ANN401 - a told value
    return str(told["text"])


def _shown(amount: Node) -> tuple[str, ...]:
    """Return a figure as it stands large: with its unit, and in the reader's other unit."""
    written = f"{amount['figure']} {amount['unit']}".strip()
    return (written, amount["converted"]) if amount["converted"] else (written,)


def _some(*told: Any) -> tuple[str, ...]:  # noqa: ANN401
    return tuple(_text(one) for one in told if one)


def _lines(kind: str, lines: Any) -> tuple[Row, ...]:  # noqa: ANN401
    return tuple(Row(kind, f"{kind} {n}", (_text(line),), ()) for n, line in enumerate(lines, 1))


def _facts(guide: Node, surface: str) -> Iterator[Row]:
    """Yield the large figures: on paper each stands above its label, on the page behind it."""
    for number, fact in enumerate(guide["facts"], 1):
        label, amount = (_text(fact["label"]),), _shown(fact["amount"])
        shown = label + amount if surface == "page" else amount + label
        yield Row("fact", f"fact {number}", shown, ())


def _cautions(guide: Node) -> Iterator[Row]:
    yield from _lines("caution", guide["cautions"])
    for number, line in enumerate(guide["applies"], 1):
        yield Row("applies", f"applies {number}", (_text(line["text"]),), _some(line["answer"]))
    yield from _lines("draft", guide["draft"])


def _all_steps(guide: Node) -> Iterator[Node]:
    for chapter in guide["chapters"]:
        yield from chapter["steps"]


def _anchor(step: Node) -> tuple[str, str]:
    return str(step["number"]), _text(step["action"])


def _steps(guide: Node, people: str) -> Iterator[Row]:
    for step in _all_steps(guide):
        parts = _some(step["value"], step["value_note"], step["tool"])
        if step["people"] > 1:
            parts += (people.format(count=step["people"]),)
        yield Row("step", f"step {step['number']}", _anchor(step), parts)


def _starts(guide: Node, word: str) -> Iterator[Row]:
    """Yield what must be true before the first step of each chapter."""
    for chapter in guide["chapters"]:
        first, conditions = chapter["steps"][0], _some(*chapter["true_before"])
        if conditions:
            name = f"true before step {first['number']}"
            yield Row("start", name, (word, conditions[0]), conditions[1:], before=_anchor(first))


def _boxes(guide: Node, words: Words) -> Iterator[Row]:
    for step in _all_steps(guide):
        for box in step["boxes"]:
            anchor = (words[f"page.signal.{box['signal']}"], _text(box["hazard"]))
            parts = _some(box["consequence"], box["avoidance"])
            name = f"box {box['id']} at step {step['number']}"
            yield Row("box", name, anchor, parts, before=_anchor(step))


def _holds(guide: Node, word: str, signed: tuple[str, str]) -> Iterator[Row]:
    """Yield each hold once, with the boxes that are signed: initials, second person."""
    seen: set[int] = set()
    for hold in (row["hold"] for row in (*_all_steps(guide), *guide["readings"])):
        if hold is None or hold["number"] in seen:
            continue
        seen.add(hold["number"])
        fields = [part for field in hold["fields"] for part in _field(field)]
        body = [_text(line) for line in hold["body"]]
        anchor = (word, str(hold["number"]), _text(hold["title"]))
        signatures = signed if hold["second_person"] else signed[:1]
        yield Row("hold", f"{word} {hold['number']}", anchor, (*body, *fields, *signatures))


def _field(field: Node) -> tuple[str, ...]:
    """Return what stands over a box to write in: label, meter points, limits."""
    named = any(run["kind"] == "letter" for run in field["label"]["runs"])
    points = () if named else tuple(field["points"])
    return (*_some(field["label"], field["low"], field["high"]), *points)


def _torques(guide: Node) -> Iterator[Row]:
    for line in guide["torques"]:
        parts = _some(line["torque"], line["instead"], line["thread"])
        yield Row(
            "torque", f"torque {line['letter']}", (line["letter"], _text(line["joint"])), parts
        )


def _readings(guide: Node) -> Iterator[Row]:
    for line in guide["readings"]:
        parts = _some(line["predicted"], line["low"], line["high"], line["if_low"], line["if_high"])
        parts += tuple(line["points"])
        yield Row("reading", f"reading {line['id']}", (line["id"], _text(line["what"])), parts)


def _tree(guide: Node) -> Iterator[Row]:
    for line in guide.get("fault_tree", ()):
        anchor = (str(line["number"]), _text(line["question"]))
        parts = _some(line["yes"], line["no"])
        yield Row("question", f"question {line['number']}", anchor, parts)


def _cuts(guide: Node) -> Iterator[Row]:
    for line in guide["cuts"]:
        anchor = (line["tag"], _text(line["colour"]), _text(line["area"]))
        yield Row("cut", f"cut {line['tag']}", anchor, _some(line["length"]))


def _kit(guide: Node) -> Iterator[Row]:
    for number, line in enumerate(guide["kit"], 1):
        anchor = (*_shown(line["count"]), _text(line["part"]))
        yield Row("kit", f"kit {number}", anchor, _some(line["note"]))


def _envelope(guide: Node) -> Iterator[Row]:
    for number, line in enumerate(guide["envelope"], 1):
        yield Row("limit", f"limit {number}", (_text(line["text"]),), _some(line["answer"]))


def _sizes(guide: Node) -> Iterator[Row]:
    for line in guide["sizes"]:
        parts = _some(
            line["current"], line["voltage"], line["drop"], line["carries"], line["result"]
        )
        area = _text(line["area"])
        # A result may name another size, so these rows do not end each other.
        yield Row(f"size {area}", f"size {area}", (area,), parts)


def _follows(guide: Node) -> Iterator[Row]:
    for number, line in enumerate(guide["cascade"], 1):
        cells = tuple(_text(cell["text"]) for cell in line["cells"])
        yield Row("size follows", f"size follows {number}", (_text(line["what"]),), cells)
    for number, line in enumerate(guide["substitutes"], 1):
        parts = _some(line["result"], line["changes"])
        yield Row("size instead", f"size instead {number}", (_text(line["what"]),), parts)


def workings_rows(figures: Iterable[Node]) -> Iterator[Row]:
    """Yield a row for each worked-out figure."""
    for figure in figures:
        # The formula starts the row; symbol and result stand together behind the inputs.
        result = f"{figure['symbol']} = {_text(figure['amount'])}"
        inputs = [_text(item["amount"]) for item in figure["inputs"]]
        yield Row(
            "figure",
            f"figure {figure['name']}",
            (_text(figure["title"]), figure["formula"]),
            (_text(figure["numbers"]), *inputs, result),
            _TRAILS,
        )

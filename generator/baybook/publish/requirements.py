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


@dataclass(frozen=True, slots=True)
class Row:
    kind: str  # rows of one kind end each other
    name: str  # for the message: "torque A"
    anchor: tuple[str, ...]  # these words, one directly after the other
    parts: tuple[str, ...]
    slack: int = 240  # characters of other words that may stand between the parts


def guide_rows(guide: Node, words: Words) -> tuple[Row, ...]:
    """Return every row of a told guide."""
    return (
        *_head(guide),
        *_cautions(guide),
        *_steps(guide),
        *_boxes(guide, words),
        *_holds(guide, words),
        *_torques(guide),
        *_readings(guide),
        *_tree(guide),
        *_cuts(guide),
        *_kit(guide),
        *_envelope(guide),
        *_sizes(guide),
        *_follows(guide),
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


def step_rows(guide: Node, words: Words) -> tuple[Row, ...]:
    """Return what must be on any paper that is worked from: the guide without its workings."""
    return tuple(
        row for row in guide_rows(guide, words) if not row.kind.startswith(("figure", "size"))
    )


def _text(told: Any) -> str:  # noqa: ANN401 - a told value
    return str(told["text"])


def _some(*told: Any) -> tuple[str, ...]:  # noqa: ANN401
    return tuple(_text(one) for one in told if one)


def _lines(kind: str, lines: Any) -> tuple[Row, ...]:  # noqa: ANN401
    return tuple(Row(kind, f"{kind} {n}", (_text(line),), ()) for n, line in enumerate(lines, 1))


def _head(guide: Node) -> Iterator[Row]:
    yield from _lines("reason", guide["reasons"])
    for number, fact in enumerate(guide["facts"], 1):
        # The figure stands large above its label on paper, and beside it for a screen reader.
        yield Row("fact", f"fact {number}", (_text(fact["label"]),), ())
        yield Row("fact figure", f"fact figure {number}", (_text(fact["amount"]),), ())


def _cautions(guide: Node) -> Iterator[Row]:
    yield from _lines("caution", guide["cautions"])
    for number, line in enumerate(guide["applies"], 1):
        yield Row("applies", f"applies {number}", (_text(line["text"]),), _some(line["answer"]))
    yield from _lines("draft", guide["draft"])


def _all_steps(guide: Node) -> Iterator[Node]:
    for chapter in guide["chapters"]:
        yield from chapter["steps"]


def _steps(guide: Node) -> Iterator[Row]:
    for step in _all_steps(guide):
        number = str(step["number"])
        parts = _some(step["value"], step["value_note"], step["tool"])
        yield Row("step", f"step {number}", (number, _text(step["action"])), parts)


def _boxes(guide: Node, words: Words) -> Iterator[Row]:
    for step in _all_steps(guide):
        for box in step["boxes"]:
            anchor = (words[f"page.signal.{box['signal']}"], _text(box["hazard"]))
            parts = _some(box["consequence"], box["avoidance"])
            yield Row("box", f"box {box['id']} at step {step['number']}", anchor, parts)


def _holds(guide: Node, words: Words) -> Iterator[Row]:
    word = words["word.hold"]
    seen: set[int] = set()
    for hold in (row["hold"] for row in (*_all_steps(guide), *guide["readings"])):
        if hold is None or hold["number"] in seen:
            continue
        seen.add(hold["number"])
        fields = [part for field in hold["fields"] for part in _field(field)]
        body = [_text(line) for line in hold["body"]]
        anchor = (word, str(hold["number"]), _text(hold["title"]))
        yield Row("hold", f"{word} {hold['number']}", anchor, (*body, *fields))


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
        second = line["count"]["converted"]  # stands between, as it does under the count
        anchor = tuple(filter(None, (_text(line["count"]), second, _text(line["part"]))))
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

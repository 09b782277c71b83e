"""Templates of a shop's own that leave something out: each an edit of a shipped one.

Every overlay says what it drops, the edit of a page's template and of a print's, and how the
check after rendering names the first thing that is lost on each.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from baybook.shipped import shipped

STEPS, MACROS = "pages/parts/steps.html.j2", "pages/macros.html.j2"
READINGS = "pages/parts/readings.html.j2"
Edit = tuple[str, str, str]  # file in templates/, text as shipped, text of the overlay


@dataclass(frozen=True, kw_only=True)
class Overlay:
    drops: str
    page: Edit
    paper: Edit
    lost: str  # how the first loss is named, on the page
    lost_on_paper: str = ""  # where it is named otherwise

    def __str__(self) -> str:
        return self.drops


_PANEL = '{{ m.panel(box, step.number ~ "-" ~ loop.index) }}{% endfor %}'
_PEOPLE = (
    '{% if step.people > 1 %} <span class="people">'
    '{{ w("page.steps.people", count=step.people) }}</span>{% endif %}'
)

WARNING = Overlay(
    drops="every warning",
    page=(STEPS, _PANEL, "{% endfor %}"),
    paper=("print/steps.typ", "..panels.slice(over),", ""),
    lost="box fumes at step 9: ",
)
TORQUE = Overlay(
    drops="every torque",
    page=("pages/parts/wiring.html.j2", "{{ m.value(line.torque) }}", ""),
    paper=("print/reference.typ", "value(row.torque)", "none"),
    lost="torque A: `7.0\N{NO-BREAK SPACE}N·m`",
)
HOLD = Overlay(
    drops="every hold at a step",
    page=(STEPS, "{{ m.hold(step.hold) }}", ""),
    paper=("print/steps.typ", "(across(marked-hold(words, step.hold)),)", "()"),
    lost="HOLD 1: ",
    lost_on_paper="HOLD 2: ",  # the first is signed on the first sheet
)

OVERLAYS = (
    WARNING,
    TORQUE,
    HOLD,
    Overlay(
        drops="one warning of several that say the same",
        page=(
            STEPS,
            "{% for box in step.boxes %}" + _PANEL,
            "{% for box in step.boxes if step.number != 88 %}" + _PANEL,
        ),
        paper=(
            "print/steps.typ",
            "let panels = step.boxes.map(",
            "let panels = step.boxes.filter(_ => step.number != 88).map(",
        ),
        lost="box fumes at step 88: `DANGER Exhaust gas`",
    ),
    Overlay(
        drops="how a harm is avoided",
        page=(MACROS, ' <span class="avoid">{{ box.avoidance|said }}</span>', ""),
        paper=("print/parts.typ", "text(weight: 600, told(box.avoidance))", "none"),
        lost="box fumes at step 9: `Lead the exhaust outside, or run the engine in the open. ",
    ),
    Overlay(
        drops="the figure of every step: torque, fuse rating, set voltage",
        page=(STEPS, "{% if step.value %}{{ m.value(step.value) }}{% endif %}", ""),
        paper=("print/steps.typ", "value(step.value, under", "value(none, under"),
        lost="step 1: `8`",
    ),
    Overlay(
        drops="the limits of every hold",
        page=(MACROS, ": {{ limits(field.low, field.high) }}", ""),
        paper=("print/parts.typ", " + text(size: body, limits(words, field.low, field.high))", ""),
        lost="HOLD 2: `12.38\N{NO-BREAK SPACE}V`, `12.77\N{NO-BREAK SPACE}V`",
    ),
    Overlay(
        drops="the box for the initials",
        page=(MACROS, '{{ w("page.hold.initials") }}', ""),
        paper=("print/parts.typ", 'fields.push(write-in(words.at("print.initials"), 19mm))', ""),
        lost="HOLD 1: `Initials`",
    ),
    Overlay(
        drops="the box for the second person",
        page=(MACROS, '{{ w("page.hold.second") }}', ""),
        paper=(
            "print/parts.typ",
            "if hold.second_person {",
            "if false {",
        ),
        lost="HOLD 2: `Second person`",
    ),
    Overlay(
        drops="the large figures: set voltage, cable, fuse rating",
        page=("pages/guide.html.j2", "<dd>{{ m.value(fact.amount) }}</dd>", ""),
        paper=("print/first.typ", "value(fact.amount, size: fact-size)", ""),
        lost="fact 1: `set at the charger 24.0 V`",
        lost_on_paper="fact 1: `24.0 V set at the charger`",
    ),
    Overlay(
        drops="one answer of the fault tree",
        page=(READINGS, "{{ line.yes|said }}", ""),
        paper=("print/readings.typ", "small(told(row.yes))", "[]"),
        lost="question 1: `Charge the battery first. ",
    ),
    Overlay(
        drops="the upper limit of every reading",
        page=(READINGS, "{{ m.plain(line.high) }}", ""),
        paper=("print/readings.typ", "limit(words, row.high)", "[]"),
        lost="reading R1: `14.98\N{NO-BREAK SPACE}V`",
    ),
    Overlay(
        drops="what must be true before a chapter",
        page=(STEPS, "<li>{{ line|said }}</li>", ""),
        paper=("print/steps.typ", 'text("   ") + told(item)', "none"),
        lost="true before step 1: `True before you start",
    ),
    Overlay(
        drops="that a step needs two",
        page=(STEPS, _PEOPLE, ""),
        paper=("print/steps.typ", "if step.people > 1 {", "if false {"),
        lost="step 26: `2 people",
    ),
    Overlay(
        drops="how to switch off",
        page=(
            "pages/parts/after.html.j2",
            "{% for line in guide.undo %}",
            "{% for line in guide.undo[1:] %}",
        ),
        paper=("print/reference.typ", "guide.undo.map(", "guide.undo.slice(1).map("),
        lost="undoing 1: `Off in ten seconds. ",
    ),
)


def lay_over(folder: Path, *edits: Edit) -> Path:
    """Write the edited templates into a folder of a shop's own; each text must stand there once."""
    for name, before, own in edits:
        file = folder / name
        text = (file if file.exists() else shipped("templates") / name).read_text("utf-8")
        assert text.count(before) == 1, f"{before!r} stands {text.count(before)} times in {name}"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text.replace(before, own), "utf-8")
    return folder

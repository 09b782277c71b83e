"""The whole guide on one screen: every part is a view of the one checked circuit."""

from __future__ import annotations

from baybook.compose import head, labels, people, tables, terms
from baybook.compose.cascade import cascade_lines, substitute_lines
from baybook.compose.chapters import chapters
from baybook.compose.equipment import own_form
from baybook.compose.fault_tree import fault_tree
from baybook.compose.identity import identify
from baybook.compose.kit import kit
from baybook.compose.photos import photo_lines
from baybook.compose.plan import plan_view
from baybook.compose.practice import RETORQUE_KM, RETORQUE_MONTHS
from baybook.compose.readings import reading_notes, readings
from baybook.compose.second_words import said_of_battery
from baybook.compose.sources import sources
from baybook.compose.strip import route_view
from baybook.compose.wiring import wiring
from baybook.compose.work import Work
from baybook.design import CheckedDesign
from baybook.finding import say
from baybook.guide import Guide


def compose(checked: CheckedDesign) -> Guide:
    """Return the guide of a checked design: complete, and not yet walked."""
    work = Work(checked=checked)
    return said_of_battery(work, _guide(work))


def _guide(work: Work) -> Guide:
    checked = work.checked
    work_chapters = chapters(work)
    steps = tuple(step for chapter in work_chapters for step in chapter.steps)
    design = checked.design
    tree = fault_tree(work, readings(work))
    return Guide(
        identity=identify(design.fit),
        what=head.what(work),
        verdict=checked.verdict,
        short_reason=head.short_reason(work),
        reasons=head.reasons(work),
        findings=head.ranked(checked.findings),
        facts=head.facts(work),
        applies=terms.applies(work),
        people=people.people(work, steps),
        minutes=people.working_minutes(steps),
        time=people.time(steps),
        tools=people.tools(steps),
        cautions=people.cautions(work),
        kit=kit(work),
        cuts=tables.cuts(work),
        cut_note=tables.cut_note(work),
        torques=tables.torques(work),
        wiring=wiring(work),
        route=route_view(work),
        plan=plan_view(work),
        chapters=work_chapters,
        readings=tree.readings,
        reading_notes=reading_notes(work),
        fault_tree=tree.lines,
        sizes=tables.sizes(design.candidates, work.fit.cable, design.choice.area_mm2),
        sizes_note=tables.sizes_note(work),
        cascade=cascade_lines(design.cascades, design.choice.area_mm2),
        substitutes=substitute_lines(design),
        settings=tables.settings(work),
        envelope=terms.envelope(work),
        assumptions=terms.assumptions(work),
        retorque=say("retorque", distance=RETORQUE_KM.amount, count=RETORQUE_MONTHS),
        undo=labels.undo(work),
        labels=labels.labels(work),
        end_labels=labels.end_labels(work),
        figures=design.figures,
        charts=design.charts,
        sources=sources(design.fit, design.figures, checked.findings),
        draft=head.drafts(work),
        own=own_form(work),
        photos=photo_lines(work, steps),
    )

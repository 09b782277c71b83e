"""What may stand in for a part that was chosen: judged by the same rules, one part at a time.

Only the part itself is another one; power, setting and everything that was surveyed stay. What
changes with it is its cascade.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from baybook.design import Design, Substitute
from baybook.finding import Verdict
from baybook.fit import Fit
from baybook.part import CableSheet
from baybook.quantity import Quantity
from baybook.sizing.cascade import cascade
from baybook.sizing.protection import continuous_factor, fuse_ambient
from baybook.sizing.weighed import Judge, Weighed, candidate, weigh
from baybook.sizing.work_out import with_protection, work_out

_RATINGS = 2  # of each family: the smallest that carries the design current, and the next


def substitutes(design: Design, judge: Judge) -> tuple[Substitute, ...]:
    """Return what was tried in place of cable size, protection and cable, passing or not.

    Sizes: every larger one of the stock. Protection: of each family the smallest rating that
    carries the design current, and the next. Cable: of each other sheet that the fit names
    the sizes from the chosen area on, up to the first that passes. [shop-rule]

    design  passing, with its candidates
    judge   as for choose
    """
    return (
        *_sizes(design, judge),
        *_protections(design, judge),
        *_cables(design, judge),
    )


def _sizes(design: Design, judge: Judge) -> Iterator[Substitute]:
    weighed = {one.choice: at for at, one in enumerate(design.candidates)}
    for size in sorted(design.fit.cable.sizes, key=lambda size: size.area.value):
        if size.area.value <= design.choice.area_mm2:
            continue
        choice = replace(design.choice, area_mm2=size.area.value)
        if choice in weighed:
            at = weighed[choice]
            yield Substitute(
                kind="size", candidate=design.candidates[at], cascade=design.cascades[at]
            )
        else:
            yield _substitute("size", weigh(work_out(design.fit, choice), judge))


def _protections(design: Design, judge: Judge) -> Iterator[Substitute]:
    fit, chosen = design.fit, (design.choice.family, design.choice.rating_A)
    if not design.choice.family:
        return  # the vehicle maker's own fuse is not exchanged
    for family, rating in _ratings(fit, design.choice.input_limit_A):
        if (family, rating.value) == chosen:
            continue
        other = with_protection(
            design, replace(design.choice, family=family, rating_A=rating.value)
        )
        found = judge(other, "OC")
        if not any(finding.verdict is Verdict.REFUSED for finding in found):
            found = judge(other)
        yield _substitute("protection", Weighed(design=other, findings=found))


def _ratings(fit: Fit, current_A: float) -> Iterator[tuple[str, Quantity]]:
    ambient_C = fuse_ambient(fit)
    for name, sheet in zip(fit.job.protection, fit.protections, strict=True):
        factor = continuous_factor(fit, sheet, ambient_C)
        if factor is None:
            continue
        ratings = sorted(sheet.ratings, key=lambda rating: rating.value)
        carrying = (rating for rating in ratings if rating.value * factor >= current_A)
        yield from ((name, rating) for rating, _ in zip(carrying, range(_RATINGS), strict=False))


def _cables(design: Design, judge: Judge) -> Iterator[Substitute]:
    for name, sheet in zip(design.fit.job.other_cables, design.fit.other_cables, strict=True):
        yield from _of_cable(design, judge, _with_cable(design.fit, name, sheet))


def _of_cable(design: Design, judge: Judge, fit: Fit) -> Iterator[Substitute]:
    for size in sorted(fit.cable.sizes, key=lambda size: size.area.value):
        if size.area.value < design.choice.area_mm2:
            continue
        found = weigh(
            work_out(fit, replace(design.choice, area_mm2=size.area.value)),
            judge,
        )
        yield _substitute("cable", found)
        if not found.refused:
            return


def _with_cable(fit: Fit, name: str, sheet: CableSheet) -> Fit:
    return replace(fit, cable=sheet, job=fit.job.model_copy(update={"cable": name}))


def _substitute(kind: str, found: Weighed) -> Substitute:
    return Substitute(kind=kind, candidate=candidate(found), cascade=cascade(found.design))

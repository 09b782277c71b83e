"""A licensed person's approval: bound to the figures, and to the licence."""

from dataclasses import dataclass, replace
from datetime import date

import pytest

from baybook.checks.approvals import standing
from baybook.finding import Name, say
from baybook.shop import Approval
from variants import job
from workbooks import example_fit

J1 = "brunsall-tansy/j1"
FIGURES = "f1a2"
BEFORE, AFTER = date(2025, 6, 1), date(2026, 1, 21)  # the approver's licence lapses on 2026-01-20


@dataclass(frozen=True)
class Drafted:
    """What of a guide an approval touches."""

    draft: tuple = ()
    cautions: tuple = ("local code",)


def fit(*approvals, required=True):
    found = example_fit(J1)
    shop = found.shop.model_copy(update={"approval_required": required})
    return job(replace(found, shop=shop), approvals=approvals)


def approved(by="approver", figures=FIGURES):
    return Approval(by=by, on=date(2024, 12, 1), figures=figures)


def test_not_required_nothing_changes():
    assert standing(Drafted(), fit(required=False), FIGURES, BEFORE) == Drafted()


def test_an_approval_that_holds_is_named_with_its_licence_and_day():
    found = standing(Drafted(), fit(approved()), FIGURES, BEFORE)
    named = {"by": Name("approver"), "licence": Name("DEMO-0417"), "on": Name("2024-12-01")}
    assert found.draft == ()
    assert found.cautions == ("local code", say("caution.approved", **named))


def test_on_its_last_day_the_licence_still_holds():
    assert not standing(Drafted(), fit(approved()), FIGURES, date(2026, 1, 20)).draft


@pytest.mark.parametrize(
    ("approvals", "today", "why"),
    [
        ((), BEFORE, "draft.approval.missing"),
        ((approved(by="bay"),), BEFORE, "draft.approval.nobody"),  # no licence
        ((approved(by="stranger"),), BEFORE, "draft.approval.nobody"),
        ((approved(),), AFTER, "draft.approval.lapsed"),
        ((approved(figures="0000"),), BEFORE, "draft.approval.changed"),
        ((approved(figures="ffff"),), BEFORE, "draft.approval.changed"),
    ],
)
def test_else_it_stays_a_draft_and_says_why(approvals, today, why):
    drafted = standing(Drafted(), fit(*approvals), FIGURES, today)
    assert [message.id for message in drafted.draft] == [why]
    assert drafted.cautions == ("local code",)


def test_one_that_holds_is_enough():
    fits = fit(approved(figures="0000"), approved())
    found = standing(Drafted(), fits, FIGURES, BEFORE)
    assert found.draft == ()
    assert len(found.cautions) == 2


def test_earlier_reasons_stay():
    drafted = standing(Drafted(draft=("estimate",)), fit(), FIGURES, BEFORE)
    assert drafted.draft[0] == "estimate"
    assert len(drafted.draft) == 2

"""One process or several: the same site, whatever the order in which vehicles are made."""

import pytest

from baybook.crew import crew
from baybook.making import Hand, Order
from baybook.pipeline import render
from baybook.publish.store import PassingStore
from conftest import TODAY
from workbooks import SHOP, TANSY, alone, copy_workbook, edit, leave_only

FOUR = {"brunsall-tansy", "pellmare-mirren", "tavlow-camber", "tessick-orlet"}


@pytest.fixture(scope="module")
def root(tmp_path_factory):
    root = copy_workbook(tmp_path_factory.mktemp("crew") / "fits")
    edit(root, SHOP, "papers: [a4, letter]", "papers: [a4]")
    leave_only(root, *FOUR)
    alone(root / TANSY, "j1")
    return root


@pytest.fixture(scope="module")
def one(root):
    ticks = []
    rendered = render(root, today=TODAY, workers=1, progress=lambda *tick: ticks.append(tick))
    assert (rendered.problems, rendered.lost) == ((), ())
    return rendered, ticks


def test_several_processes_make_the_same_bytes(root, one):
    several = render(root, today=TODAY, workers=2)
    assert dict(several.files) == dict(one[0].files)
    assert dict(several.issued) == dict(one[0].issued)
    assert several.reports == one[0].reports


def test_every_vehicle_is_told_as_it_is_read_and_made(one):
    assert one[1] == [(stage, n, 4) for stage in ("read", "make") for n in (1, 2, 3, 4)]


def test_reports_come_by_fit_and_the_files_by_address(one):
    fits = [report.fit for report in one[0].reports]
    assert fits == sorted(fits)
    assert len(fits) == 5
    assert list(one[0].files) == sorted(one[0].files)


def test_few_vehicles_start_no_process(root):
    store = PassingStore()
    hand = Hand(root, store)
    with crew(root, hand, store, workers=1) as hands:
        assert [glance.vehicle.slug for glance in hands.glance(["tavlow-camber"])] == [
            "tavlow-camber"
        ]


def test_a_hand_makes_nothing_before_it_knows_the_languages(root):
    hand = Hand(root, PassingStore())
    with pytest.raises(ValueError, match="share first"):
        hand.make(Order(slug="tavlow-camber", issued={}))

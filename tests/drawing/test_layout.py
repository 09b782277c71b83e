"""The layout engines: both give what we asked for, and each failure says what failed."""

import stat
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baybook.drawing.layout import RANK_GAP, Grid, Layout, LayoutError, dot_text

WIDTHS = st.tuples(*[st.integers(5, 100).map(lambda n: 2 * n)] * 6)
HEIGHTS = st.lists(st.integers(1, 60).map(lambda n: 2 * n), min_size=1, max_size=20).map(tuple)
GRIDS = st.builds(Grid, WIDTHS, HEIGHTS)


@settings(max_examples=6)
@given(grids=st.lists(GRIDS, min_size=1, max_size=3))
def test_the_two_engines_agree(grids):
    """Tolerance by the trial of both engines: 0.01 pt across, 3.7 pt down."""
    ours, system = Layout().place(grids), Layout("dot").place(grids)
    for one, other in zip(ours, system, strict=True):
        assert one.x == pytest.approx(other.x, abs=0.01)
        assert one.y == pytest.approx(other.y, abs=3.7)


@settings(max_examples=6)
@given(grid=GRIDS)
def test_boxes_keep_order_size_and_distance(grid):
    """By hand: rows follow each other at RANK_GAP, columns stand side by side."""
    (placed,) = Layout().place([grid])
    top = 0.0
    for y, height in zip(placed.y, grid.heights, strict=True):
        assert y == pytest.approx(top + height / 2, abs=0.5)
        top += height + RANK_GAP
    edges = [(x - w / 2, x + w / 2) for x, w in zip(placed.x, grid.widths, strict=True)]
    assert all(right <= left + 0.1 for (_, right), (left, _) in pairwise(edges))


def test_a_batch_gives_what_single_calls_give():
    grids = [Grid((20, 30), (10, 20)), Grid((40, 50, 60), (12,)), Grid((20, 30), (10, 20))]
    assert Layout().place(grids) == tuple(Layout().place([grid])[0] for grid in grids)
    assert Layout().place([]) == ()


def test_dot_text_is_fixed_boxes_and_invisible_edges():
    text = dot_text(Grid((36, 72), (18, 18)), "g0")
    assert text.startswith("digraph g0 {")
    assert "fixedsize=true" in text
    assert "r1c1 [" in text
    assert "height=0.250000" in text
    assert "width=1.000000" in text


def engine(tmp_path, script):
    path = tmp_path / "engine"
    path.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
    path.chmod(path.stat().st_mode | stat.S_IXUSR)
    return str(path)


GRID = Grid((20, 30), (10, 20))


@pytest.mark.parametrize(
    ("script", "says"),
    [
        ("echo broken font >&2; exit 3", r"failed \(3\): broken font"),
        ("exec sleep 5", "took longer than 0.2 s"),
        ("cat > /dev/null; echo graph 1 2 3", "ends in the middle of a drawing"),
        ("cat > /dev/null; echo stop; echo stop", "placed 2 drawings of 1"),
        ("cat > /dev/null; echo graph 1 2; echo stop", "cannot be read"),
        ("cat > /dev/null; printf 'graph 1 1 1\\nnode r0c0 x 1\\nstop\\n'", "cannot be read"),
    ],
)
def test_a_failing_engine_is_named(tmp_path, script, says):
    with pytest.raises(LayoutError, match=says):
        Layout(engine(tmp_path, script), deadline_s=0.2).place([GRID])


def test_a_missing_engine_is_named():
    with pytest.raises(LayoutError, match="'no-such-engine' not found"):
        Layout("no-such-engine").place([GRID])

"""The layout engine, behind one small interface: grids of boxes in, positions out.

DOT is written with the `graphviz` package; the engine is a command. The default comes
with pip and gives the same positions on every machine; a system's `dot` serves as well.
Both get sizes in even points, so nothing hangs on how an engine rounds.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import metadata
from pathlib import Path
from shutil import which
from types import MappingProxyType

import graphviz

ENGINE = "graphviz-pure"
RANK_GAP = 8.0  # pt; dot keeps at least this much between ranks
_POINTS = 72.0
_DEADLINE_S = 20.0
_STEADY = "100"  # weight of the rail edges: they stay straight before anything else does


class LayoutError(RuntimeError):
    """The layout engine is missing, failed, or answered something else than positions."""


@dataclass(frozen=True, slots=True)
class Grid:
    """Rows of boxes: one width per column, one height per row, in even points.

    Half of an even number is whole: centres then fall on whole points in every engine.
    """

    widths: tuple[int, ...]
    heights: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    """Centres of columns and rows, y downwards from the top edge, in points."""

    x: tuple[float, ...]
    y: tuple[float, ...]
    width: float
    height: float


@cache
def _command(engine: str) -> str:
    beside = Path(sys.executable).parent / engine  # a full path stays itself
    if beside.is_file():
        return str(beside)
    try:
        files = metadata.distribution(engine).files or []
    except metadata.PackageNotFoundError:
        files = []
    for file in files:
        path = Path(str(file.locate())).resolve()
        if path.stem == engine and path.is_file() and path.suffix in {"", ".exe"}:
            return str(path)
    found = which(engine)
    if found is None:
        raise LayoutError(
            f"layout engine {engine!r} not found beside Python, in its packages or on PATH"
        )
    return found


def _inches(points: float) -> str:
    return f"{points / _POINTS:.6f}"


def dot_text(grid: Grid, name: str) -> str:
    """Return the grid in the DOT language.

    Each box is a node of fixed size. Edges down a column carry a high weight and one
    `group`, so that rails stay straight; an edge chain along each row keeps its order.
    """
    graph = graphviz.Digraph(
        name,
        graph_attr={"nodesep": "0.02", "ranksep": _inches(RANK_GAP), "splines": "none"},
        node_attr={"shape": "box", "fixedsize": "true", "label": ""},
        edge_attr={"style": "invis"},
    )
    for row, height in enumerate(grid.heights):
        with graph.subgraph() as rank:
            rank.attr(rank="same")
            for column, wide in enumerate(grid.widths):
                size = {"width": _inches(wide), "height": _inches(height)}
                rank.node(f"r{row}c{column}", group=f"c{column}", **size)
            for column in range(1, len(grid.widths)):
                rank.edge(f"r{row}c{column - 1}", f"r{row}c{column}")
        if row:
            for column in range(len(grid.widths)):
                graph.edge(f"r{row - 1}c{column}", f"r{row}c{column}", weight=_STEADY)
    return str(graph.source)


def _graphs(plain: str) -> Iterator[list[list[str]]]:
    rows: list[list[str]] = []
    for line in plain.splitlines():
        words = line.split()
        if words == ["stop"]:
            yield rows
            rows = []
        elif words:
            rows.append(words)
    if rows:
        raise LayoutError("the layout engine's answer ends in the middle of a drawing")


def _points(word: str) -> float:
    return round(float(word) * _POINTS, 1)


def _placed(grid: Grid, rows: Iterable[list[str]]) -> Placed:
    try:
        head, *rest = rows
        wide, high = _points(head[2]), _points(head[3])
        at = {
            row[1]: (_points(row[2]), round(high - _points(row[3]), 1))
            for row in rest
            if row[0] == "node"
        }
        x = tuple(at[f"r0c{column}"][0] for column in range(len(grid.widths)))
        y = tuple(at[f"r{row}c0"][1] for row in range(len(grid.heights)))
    except (KeyError, IndexError, ValueError) as error:
        raise LayoutError(f"the layout engine's answer cannot be read: {error}") from error
    return Placed(x, y, wide, high)


@dataclass(frozen=True, slots=True)
class Layout:
    """One engine. A call places any number of grids with one process."""

    engine: str = ENGINE
    deadline_s: float = _DEADLINE_S

    def place(self, grids: Sequence[Grid]) -> tuple[Placed, ...]:
        """Return the positions of each grid's columns and rows, in the order given.

        Raises LayoutError if the engine is missing, fails, takes longer than the
        deadline, or answers something else than one drawing per grid.
        """
        text = "\n".join(dot_text(grid, f"g{number}") for number, grid in enumerate(grids))
        graphs = list(_graphs(self._run(text)))
        if len(graphs) != len(grids):
            raise LayoutError(f"{self.engine} placed {len(graphs)} drawings of {len(grids)}")
        return tuple(_placed(grid, rows) for grid, rows in zip(grids, graphs, strict=True))

    def _run(self, text: str) -> str:
        command = [_command(self.engine), "-Kdot", "-Tplain"]
        try:
            done = subprocess.run(  # noqa: S603 - the engine's own path, no shell, DOT on stdin
                command, input=text, capture_output=True, text=True, check=False,
                encoding="utf-8", timeout=self.deadline_s, env=dict(_QUIET),
            )  # fmt: skip
        except subprocess.TimeoutExpired as error:
            raise LayoutError(f"{self.engine} took longer than {self.deadline_s:g} s") from error
        except OSError as error:
            raise LayoutError(f"{self.engine} cannot be started: {error}") from error
        if done.returncode:
            raise LayoutError(
                f"{self.engine} failed ({done.returncode}): {done.stderr.strip()[:200]}"
            )
        return done.stdout


_QUIET = MappingProxyType({"LC_ALL": "C"})  # nothing of the machine's settings reaches the engine

"""Break sizing and checks one place at a time, and count which breaks the tests meet.

    pip install cosmic-ray
    python tests/bench/mutate.py ROOM SEED PER_FILE RESULT.jsonl TESTFILE…

ROOM is sizing or checks; `checks/cable,fixing` looks at two modules alone. The changes are
cosmic-ray's. The tests are collected and timed once, with the functions that each calls; only
modules that some test calls are broken. Every mutant gets a process of its own, in which the
changed function takes the place of the right one and the tests that call it run until one fails.
Where the result is there already, what survived in it is put to the tests named now, and nothing
else is broken.
"""

import ast
import gc
import importlib
import inspect
import json
import os
import random
import signal
import sys
import time
from collections.abc import Iterator
from functools import _lru_cache_wrapper
from operator import itemgetter
from pathlib import Path
from types import CodeType, FunctionType

import pytest
from _pytest.runner import runtestprotocol
from cosmic_ray import plugins
from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code

sys.path.insert(0, str(Path(__file__).parents[1]))

from silenced import rules

TOP = Path(__file__).parents[2]
PACKAGE = TOP / "generator" / "baybook"
LEFT_OUT = ("Decorator", "Variable")  # break the import, or name what does not exist
SECONDS, ENOUGH_S = 90, 25


def operators() -> list[str]:
    return sorted(n for n in plugins.operator_names() if not any(out in n for out in LEFT_OUT))


def bodies(file: Path) -> list[tuple[int, int, str]]:
    """Return the first and last line and the name of each function of a module."""
    tree = ast.parse(file.read_text())
    return [
        (node.body[0].lineno, node.end_lineno or 0, node.name)
        for node in tree.body
        if isinstance(node, ast.FunctionDef)
    ]


def places(file: Path) -> Iterator[tuple[str, int, tuple[int, int]]]:
    """Yield operator, occurrence and position of each change within a function."""
    inside, nodes = bodies(file), list(ast_nodes(get_ast(file.read_text())))
    for name in operators():
        operator = plugins.get_operator(name)()
        spots = [spot for node in nodes for spot in operator.mutation_positions(node)]
        for number, (start, _) in enumerate(spots):
            if any(first <= start[0] <= last for first, last, _ in inside):
                yield name, number, start


def sample(seed: int, per_file: int, files: list[Path]) -> list[tuple[Path, str, int, int]]:
    """Return up to so many changes of each file, each at a place of its own."""
    chosen = []
    draw = random.Random(seed)  # noqa: S311 - no secret
    for file in files:
        rows = sorted(places(file))
        draw.shuffle(rows)
        unlike = {start: (file, name, number, start[0]) for name, number, start in rows}
        chosen += list(unlike.values())[:per_file]
    draw.shuffle(chosen)
    return chosen


def function_code(text: str, file: Path, name: str) -> CodeType:
    module = compile(text, str(file), "exec")
    return next(c for c in module.co_consts if isinstance(c, CodeType) and c.co_name == name)


def forget() -> None:
    """Empty what was worked out and kept, by us or by a test; the example as it was read stays."""
    for thing in gc.get_objects():
        if isinstance(thing, _lru_cache_wrapper) and thing.__module__ != "workbooks":
            thing.cache_clear()


class Mutants:
    def __init__(self, room: str, seed: int, per_file: int, result: Path) -> None:
        room, _, modules = room.partition("/")
        wanted = modules.split(",") if modules else ["[a-z]*"]
        self.files = sorted(f for name in wanted for f in (PACKAGE / room).glob(f"{name}.py"))
        self.seed, self.per_file, self.result = seed, per_file, result

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        for file in self.files:
            importlib.import_module(f"baybook.{file.parent.name}.{file.stem}")
        callers = self.callers(session.items)
        called = [file for file in self.files if any(name == str(file) for name, _ in callers)]
        fresh = sample(self.seed, self.per_file, called)
        for file, name, number, line in self.survivors() if self.result.exists() else fresh:
            function = next(n for first, last, n in bodies(file) if first <= line <= last)
            text = mutate_code(file.read_text(), plugins.get_operator(name)(), number)
            tests = enough(callers.get((str(file), function), []))
            row = {
                "file": str(file.relative_to(PACKAGE)),
                "line": line,
                "change": f"{name}#{number}",
                "result": self.outcome(file, function, text, tests) if tests else "not called",
                "new": changed_line(file.read_text(), text),
            }
            with self.result.open("a") as out:
                out.write(json.dumps(row) + "\n")
        return True

    def survivors(self) -> list[tuple[Path, str, int, int]]:
        """Return what no test file has met so far; the last word on a change counts."""
        rows = [json.loads(row) for row in self.result.read_text().splitlines()]
        last = {(row["file"], row["change"]): row for row in rows}
        left = [row for row in last.values() if not row["result"].startswith("killed")]
        changes = [(row, *row["change"].split("#")) for row in left]
        return [(PACKAGE / r["file"], name, int(number), r["line"]) for r, name, number in changes]

    def callers(self, items: list[pytest.Item]) -> dict[tuple[str, str], list]:
        """Run each test once; return by function the tests that call it, the telling ones first.

        Nearly every test calls nearly every rule. First come those that name the function or
        its rule's code, then those that go through more of its lines, then the quicker ones.
        """
        found: dict[tuple[str, str], list] = {}
        files = {str(file) for file in self.files}
        for number, item in enumerate(items):
            lines: dict[tuple[str, str], set[int]] = {}

            def note(frame, _event, _arg, lines=lines):
                code = frame.f_code
                if code.co_filename not in files:
                    return None
                lines.setdefault((code.co_filename, code.co_name), set()).add(frame.f_lineno)
                return note

            forget()
            start = time.process_time()
            sys.settrace(note)
            reports = runtestprotocol(item, log=False, nextitem=None)  # its fixtures are its own
            sys.settrace(None)
            seconds = time.process_time() - start
            if any(report.failed for report in reports):
                sys.exit(f"fails unbroken: {item.nodeid}")
            about = f"{item.name} {inspect.getsource(item.function)}"
            for (file, function), seen in lines.items():
                named = any(name in about for name in names(function))
                rank = (not named, -len(seen), seconds, number)
                found.setdefault((file, function), []).append((rank, item))
        return found

    def outcome(self, file: Path, function: str, text: str, tests: list[pytest.Item]) -> str:
        child = os.fork()
        if not child:
            os._exit(survives(file, function, text, tests))
        end = time.monotonic() + SECONDS
        while time.monotonic() < end:
            done, status = os.waitpid(child, os.WNOHANG)
            if done:
                return "survived" if status == 0 else "killed"
            time.sleep(0.02)
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        return "killed by time"


def is_of(thing: FunctionType, file: Path, function: str) -> bool:
    return thing.__qualname__ == function and thing.__code__.co_filename == str(file)


def names(function: str) -> list[str]:
    """Return what a test calls a function by: the code of its rule, else its name."""
    return [code for code, rule in rules().items() if rule.__name__ == function] or [function]


def changed_line(old: str, new: str) -> str:
    pairs = zip(old.splitlines(), new.splitlines(), strict=False)
    return next((after.strip() for before, after in pairs if before != after), "")


def enough(callers: list) -> list[pytest.Item]:
    """Return at least five callers, about half a minute of them."""
    chosen, spent = [], 0.0
    for (_, _, seconds, _), item in sorted(callers, key=itemgetter(0)):
        spent += seconds
        if spent > ENOUGH_S and len(chosen) >= 5:
            break
        chosen.append(item)
    return chosen


def survives(file: Path, function: str, text: str, tests: list[pytest.Item]) -> int:
    """Return 0 if no test fails with the changed function."""
    try:
        new = function_code(text, file, function)
        for thing in gc.get_objects():
            if isinstance(thing, FunctionType) and is_of(thing, file, function):
                thing.__code__ = new
        forget()
        for item in tests:
            if any(report.failed for report in runtestprotocol(item, log=False, nextitem=None)):
                return 1
    except BaseException:  # noqa: BLE001 - whatever it is, it was noticed
        return 1
    return 0


if __name__ == "__main__":
    room, seed, per_file, result, *tests = sys.argv[1:]
    plugin = Mutants(room, int(seed), int(per_file), Path(result).resolve())
    sys.exit(pytest.main(["-q", "-p", "no:cacheprovider", *tests], plugins=[plugin]))

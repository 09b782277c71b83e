"""Switch off each rule in turn, and tell which rules no test misses.

    python tests/bench/rules_off.py RESULT.jsonl TESTFILE…

Every rule of both gates is silenced in a process of its own. Only tests that name its code run
there, in their name or in their text, until one fails; the result says which, or that none did.
"""

import inspect
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest
from _pytest.runner import runtestprotocol

sys.path.insert(0, str(Path(__file__).parents[1]))

from silenced import rules, silence


class RulesOff:
    def __init__(self, result: Path) -> None:
        self.result = result

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.result.write_text("")
        for code in rules():
            tests = [item for item in session.items if names(item, code)]
            row = {"rule": code, "tests": len(tests), "missed_by": missed_by(code, tests)}
            with self.result.open("a") as out:
                out.write(json.dumps(row) + "\n")
        return True


def names(item: pytest.Item, code: str) -> bool:
    """Tell whether a test names a rule; one of many cases does so by its own case alone."""
    if not isinstance(item, pytest.Function):
        return False
    own = [item.name, *(item.callspec.params.values() if hasattr(item, "callspec") else ())]
    told = [text for text in own if isinstance(text, str)]
    if any(other in text for other in rules() for text in told):
        return any(code in text for text in told)
    return code in inspect.getsource(item.function)


def missed_by(code: str, tests: Sequence[pytest.Item]) -> str:
    """Return the first test that fails without the rule; "": none does."""
    ours, theirs = os.pipe()
    child = os.fork()
    if not child:
        os.write(theirs, first_to_fail(code, tests).encode())
        os._exit(0)
    os.close(theirs)
    with os.fdopen(ours) as answer:
        said = answer.read()
    os.waitpid(child, 0)
    return said


def first_to_fail(code: str, tests: Sequence[pytest.Item]) -> str:
    silence(rules()[code])
    for item in tests:
        if any(report.failed for report in runtestprotocol(item, log=False, nextitem=None)):
            return item.nodeid
    return ""


if __name__ == "__main__":
    result, *tests = sys.argv[1:]
    plugin = RulesOff(Path(result).resolve())
    sys.exit(pytest.main(["-q", "-p", "no:cacheprovider", *tests], plugins=[plugin]))

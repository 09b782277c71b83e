"""One rule asked of a worked-out example, with single figures of its solution moved."""

from dataclasses import replace
from functools import cache

from baybook.checks import RULES, judge
from baybook.sizing.choose import choose
from workbooks import example_fit


@cache
def design(name):
    return choose(example_fit(name), judge)


def found(code, worked_out):
    return tuple(RULES[code](worked_out))


def solved(one, part, **update):
    """Return a design with figures of one part of its solution moved."""
    moved = replace(getattr(one.solved, part), **update)
    return replace(one, solved=replace(one.solved, **{part: moved}))


def word(message):
    return message.id.rpartition(".")[2]

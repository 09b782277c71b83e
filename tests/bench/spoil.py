"""A workbook spoilt at random: the ways of a tired person, and those of somebody who means it."""

# ruff: noqa: SIM905 - a list of wild words is read easier as one text

from __future__ import annotations

import os
import re
from collections.abc import Callable
from random import Random

NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.\d+)?")
UNITS = tuple(
    "V mV A mA W Ah Wh mm cm m in ft mm² N·m lbf·in lbf·ft kg g lb °C °F % mΩ Ω s min h kN N"
    .replace("  ", " ").split(" ")
)  # fmt: skip
WILD_NUMBERS = (
    *"0 -1 -0.0 1e309 -1e309 nan inf .inf 1e-320 0x1F 1_000 1,5 1.000,5".split(" "),
    *"½ ٣ ١٢ 1e5 --3 3-4".split(" "),
    "1 000",
    "9" * 400,
)  # fmt: skip
WILD_VALUES = (
    *r"""
~
null
true
no
[]
{}
[[]]
{a: {b: c}}
2024-13-45
!!python/object:os.system x
!!binary aGk=
&a [*a]
*nowhere
<<: 3
? x
'
"
|
>
%
@x
`x`
- -
a: b: c
“13.8 V”
<script>alert(1)</script>
{{ 7*7 }}
#set page(fill: red)
../../../etc/passwd
C:\x
13.8 V # V
$(id)
…
💥""".split("\n"),
    "\u202eabc",
    "\x07",
    "\ufeff",
    "\u0000",
    "\ud7ff",
    "a" * 5000,
    "ß" * 300,
    "0" * 1000,
)
WILD_KEYS = (
    *"__class__ model_config 0 null true ?[a] << id fits figures state é".split(" "),
    "",
    "a b",
    "? [a]",
)  # fmt: skip
LAUGHS = "a: &a [x,x]\n" + "".join(
    f"a{i}: &a{i} [*a{i - 1 or ''},*a{i - 1 or ''}]\n" for i in range(1, 30)
)


def _lines(text: str) -> list[str]:
    return text.split("\n")


def number(text: str, rng: Random) -> str:
    """Change one number."""
    found = list(NUMBER.finditer(text))
    if not found:
        return text
    one = rng.choice(found)
    if rng.random() < 0.5:
        new = rng.choice(WILD_NUMBERS)
    else:
        scale = rng.choice((0.001, 0.1, 0.5, 0.9, 1.1, 2, 10, 1000))
        new = f"{float(one[0]) * scale:g}"
    return text[: one.start()] + new + text[one.end() :]


def unit(text: str, rng: Random) -> str:
    """Change one unit for another."""
    found = [(m.start(2), m.end(2)) for m in re.finditer(r"(\d )([^\s,:}\]#]+)", text)]
    if not found:
        return text
    start, end = rng.choice(found)
    return text[:start] + rng.choice(UNITS) + text[end:]


def value(text: str, rng: Random) -> str:
    """Put something else in the place of a value."""
    lines = _lines(text)
    at = rng.randrange(len(lines))
    head, colon, _ = lines[at].partition(": ")
    if not colon:
        return text
    other = rng.choice(WILD_VALUES) if rng.random() < 0.6 else _a_value(lines, rng)
    lines[at] = f"{head}: {other}"
    return "\n".join(lines)


def _a_value(lines: list[str], rng: Random) -> str:
    return rng.choice(lines).partition(": ")[2]


def key(text: str, rng: Random) -> str:
    """Change a key."""
    lines = _lines(text)
    at = rng.randrange(len(lines))
    found = re.match(r"(\s*(?:- )?)([\w-]+)(:.*)", lines[at])
    if not found:
        return text
    name = found[2]
    spot = rng.randrange(len(name))
    typo = name[:spot] + rng.choice("aeiou_-x") + name[spot + rng.randrange(2) :]
    new = rng.choice((*WILD_KEYS, typo, typo, typo, typo, name.upper()))
    lines[at] = found[1] + new + found[3]
    return "\n".join(lines)


def line(text: str, rng: Random) -> str:
    """Lose, double, swap, move or indent a line."""
    lines = _lines(text)
    at, other = rng.randrange(len(lines)), rng.randrange(len(lines))
    way = rng.randrange(6)
    if way == 0:
        del lines[at]
    elif way == 1:
        lines.insert(other, lines[at])
    elif way == 2:
        lines[at], lines[other] = lines[other], lines[at]
    elif way == 3:
        lines[at] = " " * rng.randrange(1, 5) + lines[at]
    elif way == 4:
        lines[at] = lines[at].lstrip()
    else:
        lines[at] = "\t" + lines[at]
    return "\n".join(lines)


def block(text: str, rng: Random) -> str:
    """Lose or double some lines that stand together."""
    lines = _lines(text)
    at = rng.randrange(len(lines))
    some = lines[at : at + rng.randrange(1, 25)]
    if rng.random() < 0.6:
        del lines[at : at + len(some)]
    else:
        to = rng.randrange(len(lines))
        lines[to:to] = some
    return "\n".join(lines)


def letters(text: str, rng: Random) -> str:
    """Spoil a few characters anywhere."""
    for _ in range(rng.randrange(1, 6)):
        at = rng.randrange(len(text) + 1)
        new = rng.choice(":{}[]#'\"\t\n -&*!|>%@`,?\u00a0\u202e\u200b.0aé")
        text = text[:at] + new + text[at + rng.randrange(2) :]
    return text


def heap(_text: str, rng: Random) -> str:
    """Write something that only a machine would write."""
    depth = rng.randrange(10, 3000)
    wild = ("[", "{a: ", "- ", "a: &a [*a, ", "\n", "---\n", "a: 1\n")
    whole = (LAUGHS, "&a a: *a", "x" * 1_000_000, "a: " + "b" * 1_000_000)
    return rng.choice((*(one * depth for one in wild), *whole))


def raw(text: str, rng: Random) -> bytes:
    """Spoil the bytes of the file."""
    content = bytearray(text.encode("utf-8", "replace"))
    way = rng.randrange(7)
    if way == 0:
        return bytes(content[: rng.randrange(len(content) + 1)])
    if way == 1:
        return text.encode("utf-16")
    if way == 2:
        return text.encode("latin-1", "replace")
    if way == 3:
        return bytes(content.replace(b"\n", b"\r\n"))
    if way == 4:
        return b"\xef\xbb\xbf" + bytes(content)
    for _ in range(rng.randrange(1, 20)):
        content[rng.randrange(len(content))] = rng.randrange(256)
    return bytes(content) if way == 5 else os.urandom(0) + bytes(reversed(content))


TEXT_WAYS: tuple[Callable[[str, Random], str], ...] = (
    number, number, number, unit, unit, value, value, value, key, key, line, line, block, letters,
)  # fmt: skip


def spoilt(text: str, rng: Random) -> bytes:
    """Return a file's text spoilt in one to three ways, as bytes."""
    luck = rng.random()
    if luck < 0.03:
        return heap(text, rng).encode("utf-8", "surrogatepass")
    if luck < 0.10:
        return raw(text, rng)
    for _ in range(rng.choice((1, 1, 1, 2, 3))):
        text = rng.choice(TEXT_WAYS)(text, rng)
    return text.encode("utf-8", "surrogatepass")

"""The commands that a reader is told to type, taken from the pages and run as they stand there.

A block marked `console` holds commands after `$ ` and what they answer; `…` stands for any more
of it. A block marked `diff` is an edit: the file after `---`, then lines out and lines in. All
blocks of all pages run in one shell and one folder, in the order in which a reader meets them.
"""

import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
_BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_FAULT = re.compile(r"nothing checked|\d checked: .*\brefused\b(?!, kept)")
_MARK = "@@answered"
_EDIT = """
import pathlib, sys
path = pathlib.Path(sys.argv[1])
old, new = sys.argv[2:]
text = path.read_text("utf-8")
assert old in text, f"{old!r} does not stand in {path}"
path.write_text(text.replace(old, new, 1), "utf-8")
"""


@dataclass(frozen=True, kw_only=True)
class Command:
    typed: str
    shown: str  # what the page says it answers
    refused: bool  # the page shows that it ends with a fault


def blocks(text):
    """Yield the marked blocks of a page: their mark and what is in them."""
    for match in _BLOCK.finditer(text):
        yield match[1], match[2]


def commands(text):
    """Return the commands and edits of a page, in their order."""
    found = []
    for mark, inside in blocks(text):
        if mark == "console":
            found += _typed(inside)
        elif mark == "diff":
            found += _edits(inside)
    return found


def _typed(inside):
    for part in re.split(r"^\$ ", inside, flags=re.MULTILINE)[1:]:
        typed, _, shown = part.partition("\n")
        yield Command(typed=typed, shown=shown, refused=_FAULT.search(shown) is not None)


def _edits(inside):
    head, _, body = inside.partition("\n")
    file = head.removeprefix("--- ")
    for hunk in re.findall(r"(?:^-.*\n)+(?:^\+.*\n)*|(?:^\+.*\n)+", body, re.MULTILINE):
        old, new = ("\n".join(ln[1:] for ln in hunk.splitlines() if ln[0] == s) for s in "-+")
        yield _edit(file, old, new)


def _edit(file, old, new):
    args = " ".join(_quoted(one) for one in (_EDIT, file, old, new))
    return Command(typed=f"{_quoted(sys.executable)} -c {args}", shown="", refused=False)


def _quoted(text):
    return "'" + text.replace("'", "'\\''") + "'"


def run(found, folder, env):
    """Run commands in one shell that stands in `folder`; return (status, answer) of each."""
    lines = []
    for command in found:
        lines += [f"{{\n{command.typed}\n}} 2>&1 </dev/null", f'printf "\\n{_MARK} %s\\n" $?']
    script = folder.parent / "typed.sh"
    script.write_text("\n".join(lines), "utf-8")
    done = subprocess.run(
        [shutil.which("bash"), script],
        cwd=folder, env=env, capture_output=True, text=True, check=False, timeout=900,
    )  # fmt: skip
    pieces = re.split(rf"\n?{_MARK} (\d+)\n", done.stdout)
    return [(int(status), answer) for answer, status in zip(pieces[::2], pieces[1::2])]  # noqa: B905


def fits(shown, answer):
    """Tell whether an answer is what a page shows of it."""
    pattern = ""
    for line in shown.rstrip("\n").split("\n"):
        if line == "…":
            pattern += r"(?:.*\n)*?"
        else:
            pattern += ".*".join(re.escape(piece.rstrip()) for piece in line.split("…")) + r" *\n"
    whole = answer.rstrip("\n") + "\n"
    rest = r"(?:.*\n)*" if shown.rstrip("\n").endswith("\n…") or shown.strip() == "…" else ""
    return re.fullmatch(pattern + rest, whole) is not None

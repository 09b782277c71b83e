"""What intake says when something in a file is not right.

One code per kind of fault; the reason picks the sentences of what would be right and of the
way out. The sentences stand in `templates/<language>/data.yaml`:

    rule.<code>.title, rule.<code>.why             the kind of fault
    data.<reason>.allowed, data.<reason>.way_out   the very fault
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable

from baybook.finding import Finding, Listing, Message, Name, Value, Verdict, say
from baybook.quantity import Mark

CODES = {
    "DA-01": "a file cannot be opened",
    "DA-02": "a file is not the plain text that is read",
    "DA-03": "the punctuation of a file is broken",
    "DA-04": "a file uses a device of YAML that is not read here",
    "DA-05": "a key stands twice",
    "DA-06": "a key is missing",
    "DA-07": "a key, folder or file is not known",
    "DA-08": "a value is blank",
    "DA-09": "a value has the wrong form",
    "DA-10": "a figure cannot be read",
    "DA-11": "a word is not one of the words that are understood",
    "DA-12": "a whole number or a date cannot be read",
    "DA-13": "a figure has no basis, or a basis is incomplete",
    "DA-14": "an id leads nowhere",
    "DA-15": "two figures contradict each other",
    "DA-16": "a name cannot be used as an id, or is used twice",
    "DA-17": "a text has a character that no page or print can show",
    "DA-18": "a conductor is not copper",
    "DA-19": "a text has no translation",
    "DA-20": "a translation belongs to no text",
    "DA-21": "a picture cannot be published",
    "DA-22": "a list has too few or too many entries",
}

_NOTHING = say("data.found.nothing")


def problem(
    code: str,
    reason: str,
    where: Mark,
    *,
    at: str = "",
    found: Value = _NOTHING,
    **values: Value,
) -> Finding:
    """Build the finding for one fault.

    code     one of CODES
    reason   id of the sentences, without `data.` and the part
    at       dotted path as other findings use it, `vehicle.supply.low`; else the path in the file
    values   what the sentences name
    """
    place = at or where.path or where.file
    return Finding(
        verdict=Verdict.REFUSED,
        code=code,
        place=place,
        where=where,
        title=say(f"rule.{code}.title", at=Name(place)),
        found=found,
        allowed=say(f"data.{reason}.allowed", **values),
        why=Message(f"rule.{code}.why"),
        way_out=say(f"data.{reason}.way_out", **values),
        sources=(),
    )


def nearest(word: str, valid: Iterable[str], *, count: int = 3) -> Value:
    """Return the valid names that are most like `word`, best first; all if none is like it."""
    names = sorted(set(valid))
    near = difflib.get_close_matches(word, names, n=count, cutoff=0.5) or names
    if not near:
        return _NOTHING
    return Listing(tuple(Name(name) for name in near))


def shown(text: str) -> Value:
    """Return what a person wrote as a value for a sentence, cut where it is endless."""
    longest = 60
    return Name(text if len(text) <= longest else text[:longest] + " …") if text else _NOTHING

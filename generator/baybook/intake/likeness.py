"""A fit that differs from another of its vehicle in a few things: its entry says only those.

`like:` names the other. Mappings are merged key by key, as in a variant; every value keeps the
place where it was written. What speaks of one fit alone does not go with it.
"""

from __future__ import annotations

from collections.abc import Iterator

from baybook.finding import Finding, Name
from baybook.intake.problems import nearest, problem
from baybook.intake.tree import Branch, Row, Scalar
from baybook.intake.variant import merged

KEY = "like"
# Its name, who went through it, what it alone asks for, and what it was refused for.
OWN = frozenset({"id", "title", "checked", "approvals", "asked", "refused", KEY})


def fill(tree: Branch) -> Iterator[Finding]:
    """Complete the entries of `fits:` that are like another; yield those whose other is not there.

    Only a whole entry can be the other, so that no reader follows a chain.
    """
    fits = tree.get("fits")
    if not isinstance(fits, Row):
        return
    whole = {
        str(entry["id"]): entry
        for entry in fits
        if isinstance(entry, Branch) and isinstance(entry.get("id"), Scalar) and KEY not in entry
    }
    for index, entry in enumerate(fits):
        if isinstance(entry, Branch) and KEY in entry:
            yield from _fill(fits, index, entry, whole)


def _fill(fits: Row, index: int, entry: Branch, whole: dict[str, Branch]) -> Iterator[Finding]:
    named = entry.pop(KEY)
    other = whole.get(str(named)) if isinstance(named, Scalar) else None
    if other is None:
        at, near = f"vehicle.fits.{index}.{KEY}", nearest(str(named), whole)
        found = Name(str(named)) if isinstance(named, Scalar) else Name(KEY)
        yield problem("DA-14", "like", named.mark, at=at, found=found, near=near)
        return
    base = Branch(other.mark)
    for key in other:
        if key not in OWN:
            base[key], base.keys_at[key] = other[key], other.keys_at[key]
    filled = merged(base, entry)
    filled.mark = entry.mark
    fits[index] = filled

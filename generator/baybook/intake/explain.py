"""What a model could not take → findings in our own words; no library's sentence gets through."""

from __future__ import annotations

import re
import types
from collections.abc import Iterator, Mapping, Sequence
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError

from baybook.finding import Finding, Listing, Message, Name, Value
from baybook.intake.problems import nearest, problem, shown
from baybook.intake.reader import Fault
from baybook.intake.tree import Branch, Node, Row, Scalar
from baybook.quantity import Mark
from baybook.units import FigureError

_Place = tuple[int | str, ...]

# What the validator calls its complaints, and what we make of them.
_WRONG_FORM = {
    "string_type": "plain-value",
    "bool_type": "plain-value",
    "int_type": "plain-value",
    "date_type": "plain-value",
    "is_instance_of": "figure-form",
    "tuple_type": "list-form",
    "dict_type": "mapping-form",
    "model_type": "mapping-form",
    "model_attributes_type": "mapping-form",
}


def explain(
    error: ValidationError, tree: Branch, model: type[BaseModel], prefix: str
) -> Iterator[Finding]:
    """Yield one finding for each fault.

    tree     what was validated
    model    the model it was validated against
    prefix   what findings call the top of this file: `shop`, `vehicle`, `charger`
    """
    details = error.errors(include_url=False)
    misspelt = _misspelt(details, model)
    for detail in details:
        place: _Place = detail["loc"]
        if (detail["type"] == "missing" and place in misspelt) or _is_told(tree, place):
            continue
        yield _finding(dict(detail), place, tree, model, prefix)


def _finding(
    detail: Mapping[str, Any], place: _Place, tree: Branch, model: type[BaseModel], prefix: str
) -> Finding:
    kind = detail["type"]
    if kind in ("missing", "extra_forbidden"):
        return _key_finding(kind, place, tree, model, prefix)
    if place and place[-1] == "[key]":
        place = place[:-1]
    node, mark = locate(tree, place)
    at = dotted(prefix, place)
    found = _found(node)
    cause = detail.get("ctx", {}).get("error")
    if isinstance(cause, FigureError):
        if isinstance(node, Branch) and isinstance(value := node.get("value"), Scalar):
            mark = value.mark
        return problem("DA-10", f"figure.{cause.reason}", mark, at=at, found=found, **cause.values)
    if isinstance(cause, Fault):
        return problem(cause.code, cause.reason, mark, at=at, found=found, **cause.values)
    if kind in ("literal_error", "enum"):
        words = re.findall(r"'([^']*)'", detail["ctx"]["expected"])
        choices = Listing(tuple(Name(word) for word in words))
        near = _near(str(node), words)
        reason, hint = ("word", {"near": near}) if near else ("word-any", {})
        return problem("DA-11", reason, mark, at=at, found=found, words=choices, **hint)
    if kind == "string_pattern_mismatch":
        text = Name(str(place[-1])) if not isinstance(node, Scalar) else found
        form = "number-form" if place[:1] == ("photos",) else "id-form"
        return problem("DA-16", form, mark, at=at, found=text)
    return problem("DA-09", _WRONG_FORM.get(kind, "form"), mark, at=at, found=found)


def _near(written: str, words: Sequence[str]) -> Value | None:
    """Return the words that a writer may have meant, None if there is nothing to go by.

    Of sizes none is nearest by its spelling: a wrong one would be another torque. All that differ
    from what was written by their figures alone stand side by side.
    """
    sizes = [word for word in words if _unsized(word) == _unsized(written)]
    near = nearest(written, sizes or words, count=len(sizes) or 1)
    told = near.items if isinstance(near, Listing) else ()
    if len(told) == len(words) > 1:
        return None  # none is like it
    other_size = not sizes and any(sign.isdigit() for one in told for sign in str(one))
    return None if other_size else near


def _unsized(text: str) -> str:
    return re.sub(r"[0-9]+", "", text).lower()


def _key_finding(
    kind: str, place: _Place, tree: Branch, model: type[BaseModel], prefix: str
) -> Finding:
    key = str(place[-1])
    at = dotted(prefix, place)
    if kind == "missing":
        _, mark = locate(tree, place[:-1])
        return problem("DA-06", "key-missing", mark, at=at, key=Name(key))
    holder, _ = locate(tree, place[:-1])
    mark = holder.keys_at[key] if isinstance(holder, Branch) else tree.mark
    valid = _fields(model, place[:-1])
    return problem("DA-07", "key", mark, at=at, found=Name(key), near=nearest(key, valid))


def _misspelt(details: list[Any], model: type[BaseModel]) -> set[_Place]:
    """Return the keys that are missing only because they are there misspelt."""
    places = set()
    for detail in details:
        if detail["type"] == "extra_forbidden":
            *above, key = detail["loc"]
            best = nearest(str(key), _fields(model, tuple(above)), count=1)
            if isinstance(best, Listing) and len(best.items) == 1:
                places.add((*above, getattr(best.items[0], "text", "")))
    return places


def _is_told(tree: Branch, place: _Place) -> bool:
    node, _ = locate(tree, place)
    if isinstance(node, Branch):  # a figure that is written out
        node = node.get("value")
    return isinstance(node, Scalar) and node.told


def is_blank(scalar: Scalar) -> bool:
    """Tell whether nothing is written, or one of YAML's words for nothing."""
    return not scalar.strip() or (scalar.plain and scalar in ("~", "null", "Null", "NULL"))


def locate(tree: Branch, place: _Place) -> tuple[Node | None, Mark]:
    """Return what stands at a place and where; the nearest place above if nothing does."""
    node: Node = tree
    mark = tree.mark
    for step in place:
        if isinstance(node, Branch) and step in node:
            mark = node.keys_at[str(step)]
            node = node[str(step)]
        elif isinstance(node, Row) and isinstance(step, int) and step < len(node):
            node = node[step]
            mark = node.mark
        else:
            return None, mark
    return node, node.mark if isinstance(node, Scalar) else mark


def dotted(prefix: str, place: _Place) -> str:
    """`("routes", "a", "segments", 0)` → `vehicle.routes.a.segments.0`."""
    return ".".join([prefix, *(str(step) for step in place)])


def _found(node: Node | None) -> Value:
    if isinstance(node, Scalar):
        return shown(str(node))
    if isinstance(node, Branch):
        value = node.get("value")
        return shown(str(value)) if isinstance(value, Scalar) else Message("data.found.mapping")
    return Message("data.found.list" if isinstance(node, Row) else "data.found.nothing")


def _fields(model: type[BaseModel], place: _Place) -> tuple[str, ...]:
    """Return the keys that the model knows at a place."""
    kind: object = model
    for step in place:
        kind = _inner(kind, step)
    found = _model(kind)
    return tuple(found.model_fields) if found else ()


def _inner(kind: object, step: int | str) -> object:
    found = _model(kind)
    if found is not None:
        field = found.model_fields.get(str(step))
        return field.annotation if field else None
    for option in _options(kind):
        if get_origin(option) in (dict, tuple):
            inner: object = get_args(option)[1 if get_origin(option) is dict else 0]
            return inner
    return None


def _model(kind: object) -> type[BaseModel] | None:
    for option in _options(kind):
        if isinstance(option, type) and issubclass(option, BaseModel):
            return option
    return None


def _options(kind: object) -> tuple[object, ...]:
    """Unfold `X | None` and Annotated."""
    if get_origin(kind) is Annotated:
        return _options(get_args(kind)[0])
    if get_origin(kind) in (Union, types.UnionType):
        return tuple(inner for option in get_args(kind) for inner in _options(option))
    return (kind,)

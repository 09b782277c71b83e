"""The one list of fields: what a file may hold, read off the nouns.

Schema, survey sheet and draft are made from it, so that none has a field that another lacks.
"""

from __future__ import annotations

import types
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import cache
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from annotated_types import MinLen
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from baybook.quantity import InUnit, Quantity, Unknown


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One key of a file: what its value is."""

    owner: str  # name of the noun it stands in: "Supply"
    name: str  # "hot_idle"
    description: str
    required: bool
    many: Literal["", "list", "map"]  # a list of such values, or a mapping by name
    kind: Literal["figure", "word", "text", "id", "yes", "whole", "day", "group"]
    unit: str = ""  # of a figure
    unknown: bool = False  # a figure: `unknown` is an answer
    words: tuple[str, ...] = ()  # of a closed list
    names: str = ""  # of a mapping: the pattern of its names
    listed: type[StrEnum] | None = None  # where the words have meanings
    group: type[BaseModel] | None = None  # the noun below
    annotation: Any = None  # what one answer is validated against, without the list around it

    @property
    def key(self) -> str:
        """Return the address of the field: `Supply.hot_idle`."""
        return f"{self.owner}.{self.name}"


@cache
def fields_of(noun: type[BaseModel]) -> tuple[Field, ...]:
    """Return the fields of one noun in their order."""
    return tuple(_field(noun, name, info) for name, info in noun.model_fields.items())


def nouns_below(noun: type[BaseModel]) -> tuple[type[BaseModel], ...]:
    """Return a noun and all below it, each once, in the order in which a file meets them."""
    return tuple(dict.fromkeys(_walk(noun)))


def _walk(noun: type[BaseModel]) -> Iterator[type[BaseModel]]:
    yield noun
    for field in fields_of(noun):
        if field.group:
            yield from _walk(field.group)


def _field(noun: type[BaseModel], name: str, info: FieldInfo) -> Field:
    many, inner, marks = _unfold(info.annotation, tuple(info.metadata))
    one = _one(inner, marks)
    answer = Quantity | Unknown if one.get("unknown") else inner
    return Field(
        owner=noun.__name__,
        name=name,
        description=info.description or "",
        required=info.is_required(),
        many=many,
        names=_names(info.annotation) if many == "map" else "",
        **one,
        annotation=Annotated[answer, *marks] if marks else answer,
    )


def _unfold(kind: Any, marks: tuple[Any, ...]) -> tuple[Any, Any, tuple[Any, ...]]:  # noqa: ANN401 - a type of any form
    """Return the container, what is in it, and the marks of what is in it."""
    while True:
        origin = get_origin(kind)
        if origin is Annotated:
            kind, *more = get_args(kind)
            marks = (*marks, *more)
        elif origin in (Union, types.UnionType):
            options = [one for one in get_args(kind) if one not in (type(None), Unknown)]
            kind = options[0]
        elif origin in (tuple, dict):
            inner = get_args(kind)[1 if origin is dict else 0]
            _, one, below = _unfold(inner, ())
            return ("map" if origin is dict else "list"), one, below
        else:
            return "", kind, marks


def _names(kind: Any) -> str:  # noqa: ANN401 - a type of any form
    """Return the pattern that the names of a mapping follow."""
    name = get_args(kind)[0]
    patterns = (getattr(at, "pattern", None) for one in name.__metadata__ for at in one.metadata)
    return next(filter(None, patterns), "")


def _one(kind: Any, marks: tuple[Any, ...]) -> dict[str, Any]:  # noqa: ANN401 - one line a kind
    if kind is Quantity:
        unit = next(mark for mark in marks if isinstance(mark, InUnit))
        return {"kind": "figure", "unit": unit.unit, "unknown": unit.unknown}
    if get_origin(kind) is Literal:
        return {"kind": "word", "words": get_args(kind)}
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        return {"kind": "word", "words": tuple(str(one) for one in kind), "listed": kind}
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return {"kind": "group", "group": kind}
    plain = {bool: "yes", int: "whole", date: "day"}
    if kind in plain:
        return {"kind": plain[kind]}
    text = any(isinstance(mark, MinLen) for mark in marks)
    pattern = any(getattr(mark, "pattern", None) for mark in marks)
    pattern = pattern or any(
        getattr(one, "pattern", None) for mark in marks for one in getattr(mark, "metadata", ())
    )
    return {"kind": "id" if pattern and not text else "text"}

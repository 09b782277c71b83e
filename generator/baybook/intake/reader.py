"""What the models ask when text is not enough: a figure, a date, a whole number, true or false."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from baybook.finding import Name, Value
from baybook.intake.tree import Scalar
from baybook.quantity import Basis, Mark, Quantity, State, Unknown
from baybook.units import EXAMPLES, read

FIGURE_KEYS = ("value", "basis", "note", "method")
UNKNOWN = "unknown"


class Fault(ValueError):  # noqa: N818  not an error of the program: a slip of the person who wrote
    """A scalar that cannot be what the model needs, with the code and sentences for it."""

    def __init__(self, code: str, reason: str, **values: Value) -> None:
        super().__init__(reason)
        self.code = code
        self.reason = reason
        self.values = values


@dataclass(frozen=True, slots=True)
class FileReader:
    """Implements `fit.Reader` for one file.

    bases     the bases that the file defines, by name; None stands for a faulty one
    default   the basis of a figure that names none; None: each figure has to name one
    """

    bases: Mapping[str, Basis | None]
    default: Basis | None

    def boolean(self, raw: object) -> bool:
        """`true` or `false`. YAML's yes, no, on, off are words like any other."""
        text = _text(raw)
        if text not in ("true", "false"):
            raise Fault("DA-11", "true-false")
        return text == "true"

    def whole(self, raw: object) -> int:
        text = _text(raw)
        if not re.fullmatch(r"0|[1-9][0-9]{0,5}", text):
            raise Fault("DA-12", "whole")
        return int(text)

    def day(self, raw: object) -> date:
        text = _text(raw)
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
            raise Fault("DA-12", "day")
        try:
            return date.fromisoformat(text)
        except ValueError:
            raise Fault("DA-12", "no-day") from None

    def quantity(self, raw: object, unit: str, *, unknown: bool) -> Quantity | Unknown:
        """`13.2 V`, or a mapping with `value` and what is to be said about it."""
        text, extra = _figure_parts(raw, unit)
        where = text.mark if isinstance(text, Scalar) else Mark("", 1, 1)
        basis = self._basis(text, extra)
        if text == UNKNOWN:
            if not unknown:
                raise Fault("DA-10", "figure.unknown", example=Name(EXAMPLES[unit]))
            return Unknown(basis=basis, where=where)
        interval = read(text, unit)
        return Quantity(
            value=interval.value,
            low=interval.low,
            high=interval.high,
            unit=unit,
            written=" ".join(text.split()),
            basis=basis,
            where=where,
        )

    def _basis(self, text: str, extra: Mapping[str, str]) -> Basis:
        name = text.basis if isinstance(text, Scalar) else ""
        basis = self.bases.get(name) if name else self.default
        if basis is None and not name:
            raise Fault("DA-13", "no-basis")
        if basis is None:  # its own fault is told where it stands
            basis = Basis(state=State.ESTIMATED)
        return basis.model_copy(update=dict(extra))


def _text(raw: object) -> str:
    if not isinstance(raw, str):
        raise Fault("DA-09", "plain-value")
    return raw.strip()


def _figure_parts(raw: object, unit: str) -> tuple[str, Mapping[str, str]]:
    """Return the written figure, and the note and method that go to its basis."""
    if isinstance(raw, str):
        return raw, {}
    example = Name(EXAMPLES[unit])
    parts: Mapping[str, object] = raw if isinstance(raw, Mapping) else {}
    for key in parts:
        if key == "basis":  # a vehicle file's are settled before the models see it
            raise Fault("DA-13", "basis-here")
        if key not in FIGURE_KEYS:
            near = difflib.get_close_matches(key, FIGURE_KEYS, n=1, cutoff=0.0)[0]
            raise Fault("DA-07", "figure-key", key=Name(key), near=Name(near), example=example)
    if "value" not in parts:
        raise Fault("DA-06", "figure-value", example=example)
    texts = {key: text for key, text in parts.items() if isinstance(text, str)}
    if len(texts) < len(parts):
        raise Fault("DA-09", "plain-value")
    return texts.pop("value"), {key: str(text) for key, text in texts.items()}

"""The whole tree of a guide, refusal or finding into its told form (see book.py)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields, is_dataclass
from datetime import date
from enum import Enum
from functools import cache
from types import MappingProxyType
from typing import Any

from pydantic import BaseModel

from baybook.book import Told
from baybook.figure import Figure
from baybook.finding import Amount, Listing, Message, Name, Ref, Value
from baybook.guide import Guide, RefusalSheet
from baybook.quantity import Quantity, in_words
from baybook.step import Hold
from baybook.wording.catalogue import Catalogue, CatalogueError, inline, parse
from baybook.wording.figures import differs, ended, significant, stated, tell_amount
from baybook.wording.worked import Titles, between, with_numbers

Run = dict[str, str]
NO_TEXTS: Mapping[str, str] = MappingProxyType({})  # the workbook's own language
# By its kind a node is known at once; a guide has some ten thousand of them.
_AS_IS = frozenset({str, int, bool, type(None)})
_SAID = frozenset({Message, Name, Ref, Listing})


def tell(
    node: object,
    catalogue: Catalogue,
    *,
    battery: bool = False,
    texts: Mapping[str, str] = NO_TEXTS,
    us: bool = False,
) -> Any:  # noqa: ANN401 - JSON of any shape
    """Return the told form of `node` in the catalogue's language.

    battery  whether a figure on its own is of a fit that charges a second battery
    texts    the shop's own texts in that language, by the text as it was written; what is not
             among them is a name, and told as it is
    us       whether a US reader is told lengths, temperatures and masses in his units too

    A person's text is put into the reader's language here and nowhere before: sizing, rules and
    the order of the steps never see a translation, so that no figure can depend on one.

    Raises CatalogueError for a message without a sentence, or a sentence that asks for a
    value the message does not bring.
    """
    if isinstance(node, (Guide, RefusalSheet)):
        battery = node.identity.battery
    titles = Titles(catalogue=catalogue, battery=battery)
    return _Teller(catalogue, titles, _numbers(node), texts, us).tell(node)


def _numbers(node: object) -> dict[tuple[str, str], int]:
    """Collect the numbers that references to steps and holds are told by."""
    if not isinstance(node, Guide):
        return {}
    steps = {("step", step.id): step.number for step in node.steps}
    holds = {("hold", hold.id): hold.number for hold in _holds(node)}
    return steps | holds


def _holds(guide: Guide) -> Iterator[Hold]:
    for step in guide.steps:
        if step.hold:
            yield step.hold
    for reading in guide.readings:
        if reading.hold:
            yield reading.hold


@cache
def _names(kind: type) -> tuple[str, ...]:
    """Return the fields of a noun, none for what is not one."""
    if issubclass(kind, BaseModel):
        return tuple(kind.model_fields)
    return tuple(f.name for f in fields(kind)) if is_dataclass(kind) else ()


@dataclass(frozen=True)
class _Teller:
    catalogue: Catalogue
    titles: Titles
    numbers: Mapping[tuple[str, str], int] = field(default_factory=dict)
    texts: Mapping[str, str] = field(default_factory=dict)
    us: bool = False

    def tell(self, node: object) -> Told:
        kind: type = type(node)
        if kind in _AS_IS:
            return node  # type: ignore[return-value]
        if kind in _SAID:
            return _said(self.runs(node))  # type: ignore[arg-type]
        if kind is tuple or kind is list or kind is frozenset:
            return [self.tell(item) for item in node]  # type: ignore[attr-defined]
        if kind is Amount or kind is Quantity:
            amount = node if kind is Amount else Amount.of(node)  # type: ignore[arg-type]
            return tell_amount(amount, self.catalogue.language, us=self.us)  # type: ignore[arg-type]
        if names := _names(kind):
            return self._fields(node, names)
        return self._seldom(node)

    def _seldom(self, node: object) -> Told:
        if isinstance(node, Enum):
            return str(node.value)
        if isinstance(node, float):
            return ended(node)
        if isinstance(node, (str, int)):
            return node
        if isinstance(node, date):
            return node.isoformat()
        if isinstance(node, Mapping):
            return {str(key): self.tell(value) for key, value in node.items()}
        raise TypeError(f"cannot tell a {type(node).__name__}")

    def _fields(self, node: object, names: tuple[str, ...]) -> dict[str, Told]:
        told = {
            name: value if type(value) in _AS_IS else self.tell(value)
            for name in names
            for value in [getattr(node, name)]
        }
        if self.texts and isinstance(node, BaseModel):
            told |= {name: self._translated(told[name]) for name in in_words(type(node))}
        return told | self._figure(node, told["inputs"]) if isinstance(node, Figure) else told

    def _translated(self, told: Told) -> Told:
        if isinstance(told, list):
            return [self._translated(item) for item in told]
        return self.texts.get(told, told) if isinstance(told, str) else told

    def _figure(self, figure: Figure, inputs: Any) -> dict[str, Told]:  # noqa: ANN401 - told inputs
        """Return what a told figure has beside its fields: what it is, and its numbers put in."""
        language = self.catalogue.language
        for told, given in zip(inputs, figure.inputs, strict=True):
            shown = significant if given.figure else stated
            amount = shown(given.value, given.unit, given.written)
            told["amount"] = self.tell(amount)
            told["otherwise"] = given.written if given.end or differs(amount, language) else ""
            told["title"] = self.tell(self.titles.of_input(given, figure.name))
        numbers = {told["symbol"]: told["amount"]["runs"] for told in inputs}
        return {
            "title": self.tell(self.titles.of_figure(figure.name, figure.zone)),
            "amount": self.tell(Amount(figure.value, figure.unit, figure.digits, show=figure.show)),
            "between": self.tell(between(figure)),
            "inputs": inputs,
            "numbers": _said(with_numbers(figure, numbers)),
        }

    def runs(self, value: Value) -> list[Run]:
        """Return the runs of one value."""
        if isinstance(value, Message):
            return self._message(value)
        if isinstance(value, Name):
            text = self.texts.get(value.text, value.text)
            return [{"kind": part.kind, "text": part.text} for part in inline(text)]
        if isinstance(value, Amount):
            return self._amount(value)
        if isinstance(value, Ref):
            return self._ref(value)
        if isinstance(value, Listing):
            return self._listing(value)
        return [{"kind": "text", "text": str(value)}]

    def _amount(self, amount: Amount) -> list[Run]:
        """Return a figure in a sentence; what a US reader is told besides stands in brackets."""
        told: Any = tell_amount(amount, self.catalogue.language, us=self.us)
        runs: list[Run] = told["runs"]
        if self.us and told["converted"]:
            return [*runs, {"kind": "converted", "text": f" ({told['converted']})"}]
        return runs

    def _message(self, message: Message) -> list[Run]:
        values = dict(message.values)
        count = values.get("count")
        if isinstance(count, Amount):
            count = int(count.value)
        sentence = self.catalogue.sentence(message.id, count if isinstance(count, int) else None)
        runs: list[Run] = []
        for part in parse(sentence):
            if part.kind != "value":
                runs.append({"kind": part.kind, "text": part.text})
            elif part.text in values:
                runs.extend(self.runs(values[part.text]))
            else:
                raise CatalogueError(f"`{message.id}` asks for {{{part.text}}}: not in the message")
        return runs

    def _ref(self, ref: Ref) -> list[Run]:
        if ref.kind == "joint":
            return [{"kind": "letter", "text": ref.id}]
        if ref.kind in {"step", "hold"}:
            number = self.numbers.get((ref.kind, ref.id))
            if number is None:
                raise CatalogueError(f"no {ref.kind} `{ref.id}` to refer to")
            if ref.kind == "step":
                return [{"kind": "text", "text": str(number)}]
            word = self.catalogue.sentence("word.hold")
            return [{"kind": "strong", "text": f"{word} {number}"}]
        if ref.kind == "fit":
            return [{"kind": "text", "text": ref.id}]
        return [{"kind": "strong", "text": ref.id}]

    def _listing(self, listing: Listing) -> list[Run]:
        between = self.catalogue.sentence("word.list.between")
        last = self.catalogue.sentence("word.list.last")
        runs: list[Run] = []
        for place, item in enumerate(listing.items):
            if place:
                joint = last if place == len(listing.items) - 1 else between
                runs.append({"kind": "text", "text": joint})
            runs.extend(self.runs(item))
        return runs


def _said(runs: list[Run]) -> dict[str, Told]:
    # A unit keeps to its figure; text and letters bring their own spaces.
    text = "".join(
        [
            f"\N{NO-BREAK SPACE}{run['text']}" if run["kind"] == "unit" else run["text"]
            for run in runs
        ]
    )
    return {"runs": runs, "text": text}  # type: ignore[dict-item]

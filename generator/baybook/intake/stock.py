"""What cannot be a sheet of labels: labels beside the paper, over each other, or too small."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.finding import Finding, Name, Value
from baybook.intake.document import Document
from baybook.intake.problems import problem
from baybook.quantity import Quantity
from baybook.shop import LabelStock, Shop

# Sizes of the papers in metres: ISO 216 A4, and ANSI/ASME Y14.1 Letter (8.5 × 11 in).
_PAPERS = {"a4": (0.210, 0.297), "letter": (0.2159, 0.2794)}
_SMALLEST = {"width": (0.060, "60 mm"), "height": (0.025, "25 mm")}  # four lines of 9 pt
_MOST = 40  # labels in a row or a column
_CLOSE = 0.0005  # m: what a ruler tells apart


def stock_faults(document: Document[Shop]) -> Iterator[Finding]:
    """Yield what is wrong with the shop's sheets of labels."""
    for index, stock in enumerate(document.model.label_stock):
        for reason, key, found, values in _faults(stock):
            path = f"label_stock.{index}.{key}"
            mark = document.mark(path)
            yield problem(
                "DA-15", reason, mark, at=f"shop.{path}", found=Name(found), **dict(values)
            )


Fault = tuple[str, str, str, tuple[tuple[str, Value], ...]]  # reason, key, found, values


def _faults(stock: LabelStock) -> Iterator[Fault]:
    for key, (least, written) in _SMALLEST.items():
        size: Quantity = getattr(stock, key)
        if size.low < least:
            yield "least", key, size.written, (("least", Name(written)),)
    for key, pitch, size in (
        ("pitch_across", stock.pitch_across, stock.width),
        ("pitch_down", stock.pitch_down, stock.height),
    ):
        if pitch.value < size.value:
            yield "least", key, pitch.written, (("least", Name(size.written)),)
    for key, number, begin, pitch, size, most in (
        ("columns", stock.columns, stock.left, stock.pitch_across, stock.width, 0),
        ("rows", stock.rows, stock.top, stock.pitch_down, stock.height, 1),
    ):
        if not 1 <= number <= _MOST:
            yield "label-count", key, str(number), (("most", Name(str(_MOST))),)
            continue
        end = begin.value + (number - 1) * pitch.value + size.value
        paper = _PAPERS[stock.paper][most]
        if end > paper + _CLOSE:
            yield "label-edge", key, _millimetres(end), (("most", Name(_millimetres(paper))),)


def _millimetres(metres: float) -> str:
    return f"{metres * 1000:.1f} mm"

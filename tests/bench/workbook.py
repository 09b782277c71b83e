"""A workbook of many vehicles that all differ, made from the example."""

import re
from pathlib import Path

from workbooks import SHOP, copy_workbook, leave_only


def generate(folder: Path, count: int, *, labels: bool = False) -> Path:
    """Write a workbook with `count` vehicles of one guide each; return its folder.

    Each is the example's pickup with its chassis run, voltages and names changed a little, so
    that every guide has figures and sentences of its own. Sheets of labels are prints too:
    without `labels` there are none.
    """
    book = copy_workbook(folder)
    source = book / "vehicles" / "dunstrel-cobble"
    text = (source / "vehicle.yaml").read_text("utf-8")
    leave_only(book)
    if not labels:
        shop = (book / SHOP).read_text("utf-8")
        (book / SHOP).write_text(shop.partition("label_stock:")[0], "utf-8")
    text = _only_the_guide(_without_pictures(text))
    for number in range(count):
        made = book / "vehicles" / f"cobble-{number:05d}"
        made.mkdir()
        (made / "vehicle.yaml").write_text(_varied(text, number), "utf-8")
    return book


def _without_pictures(text: str) -> str:
    """Leave the numbers to photos on paper: a file that all share would be made once only."""
    return re.sub(r"(?ms)^photos:$.*?(?=^\S)", "", text)


def _only_the_guide(text: str) -> str:
    """Drop the kept refusal, so that each vehicle gives one guide."""
    head, fits = text.split("\nfits:", 1)
    entries = re.split(r"(?m)^(?=  - id: )", fits)
    guide = next(entry for entry in entries if entry.startswith("  - id: j9b"))
    return f"{head}\nfits:\n{guide}"


def _varied(text: str, number: int) -> str:
    changes = {
        "length: 3.9 m": f"length: {3.40 + (number % 50) * 0.01:.2f} m",
        "length: 0.9 m": f"length: {0.80 + number // 50 % 20 * 0.01:.2f} m",
        "4.2 mΩ ± 10 %": f"{4.0 + number % 7 * 0.1:.1f} mΩ ± 10 %",
        # The code is longer than the example's: so is the last line of a label.
        "place: front wall of the tray box, upright": "place: wall of the tray box, upright",
    }
    for old, new in changes.items():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    text = re.sub(r"(?m)^code: .*$", f"code: V{number:05d}", text)
    return re.sub(r"(?m)^model: .*$", f"model: Cobble {number:05d}", text)

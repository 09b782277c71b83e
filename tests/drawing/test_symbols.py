"""Pictograms and marks: one ink, no words, nothing from outside."""

import re
from xml.etree import ElementTree as ET

import pytest

from baybook.shipped import shipped

FOLDER = shipped("templates") / "symbols"
NAMES = {
    "airbag", "arc", "chafe", "crush", "drill", "fumes", "hot", "moving", "sensor", "alert",
    "torque", "ok", "caution", "hold", "hold-white", "refused", "unknown",
}  # fmt: skip


def test_every_symbol_is_there():
    assert {path.stem for path in FOLDER.glob("*.svg")} == NAMES


@pytest.mark.parametrize("name", sorted(NAMES))
def test_symbol_is_one_ink_without_words(name):
    text = (FOLDER / f"{name}.svg").read_text("utf-8")
    root = ET.fromstring(text)  # noqa: S314 - our own file
    assert root.get("viewBox") == "0 0 48 48"
    tags = {element.tag.rpartition("}")[2] for element in root.iter()}
    assert tags <= {"svg", "path", "circle"}
    inks = set(re.findall(r'(?:fill|stroke)="([^"]+)"', text)) - {"none"}
    assert inks == ({"#fff"} if name == "hold-white" else {"currentColor"})

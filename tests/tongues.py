"""A checkout of two languages for tests: a second catalogue that says the same as the first.

What is tested with it is how languages are published, not how they are worded, so it needs no
translator: the German folder is the English one, with a word changed where a test looks for it.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path

from baybook.intake.texts import wanted
from baybook.standards.register import register_words
from swapped import swap_shipped
from workbooks import SHOP, alone, copy_workbook, edit, leave_only, load

TEXTS = "texts/de.yaml"
TEXT = "Open the bonnet"


def two_languages(top: Path, monkeypatch) -> None:
    """Let the program find its templates, tables and hand-written pages under `top`."""
    swap_shipped(top, monkeypatch, without="de")
    german = top / "templates" / "de"
    shutil.copytree(top / "templates" / "en", german)
    sources = json.dumps(register_words(), ensure_ascii=False)
    (german / "sources.yaml").write_text(sources, "utf-8")
    shutil.copytree(top / "site", top / "site" / "de")
    config = top / "site" / "de" / "mkdocs.yml"
    config.write_text(config.read_text("utf-8").replace("../templates", "../../templates"), "utf-8")
    word = german / "page.yaml"
    word.write_text(word.read_text("utf-8").replace('"English"', '"Deutsch"'), "utf-8")


def workbook(folder: Path) -> Path:
    """Return a copy of the example with two languages, one guide and one refusal in it."""
    root = copy_workbook(folder)
    edit(root, SHOP, "languages: [en]", "languages: [en, de]")
    leave_only(root, "brunsall-tansy")
    alone(root / "vehicles" / "brunsall-tansy" / "vehicle.yaml", "j1")
    write_texts(root, translations(root))
    return root


def translations(root: Path) -> dict[str, str]:
    """Return a German text for every text of a workbook: the same, in marks."""
    return {text: f"«{text}»" for text in wanted(load(root).fits)}


def write_texts(root: Path, texts: dict[str, str]) -> Path:
    """Write the file of the German texts, a line each."""
    quoted = {json.dumps(t, ensure_ascii=False): json.dumps(d, ensure_ascii=False)
              for t, d in texts.items()}  # fmt: skip
    path = root / TEXTS
    path.parent.mkdir(exist_ok=True)
    path.write_text("".join(f"{t}: {d}\n" for t, d in quoted.items()), "utf-8")
    return path

"""The pickup's workbook alone, published again and again: what tests of a site's life share."""

import json
from datetime import date

from baybook.desk.publishing import run_publish
from workbooks import COBBLE, SHOP, copy_workbook, edit, leave_only

FIRST, LATER = date(2024, 12, 2), date(2025, 6, 2)
GUIDE = "guides/dunstrel-cobble/j9b"
ISSUED = "issued/dunstrel-cobble/j9b"


def pickup(folder, papers="[a4]"):
    """Return a workbook of the pickup alone with j9 and j9b."""
    book = copy_workbook(folder)
    leave_only(book, "dunstrel-cobble")
    text = (book / COBBLE).read_text("utf-8")
    (book / COBBLE).write_text(text.partition("\n  # 23 V would suit")[0] + "\n", "utf-8")
    edit(book, SHOP, "papers: [a4, letter]", f"papers: {papers}")
    return book


def publish(book, *, today=FIRST, drafts=False):
    cache = book.parent / "cache"
    return run_publish(book, book.parent / "_site", drafts=drafts, today=today, cache=cache)


def page(book, address=GUIDE):
    return (book.parent / "_site" / address / "index.html").read_text("utf-8")


def tree(folder):
    return {p.relative_to(folder): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def revisions(book, fit=ISSUED):
    return [json.loads(p.read_text("utf-8")) for p in sorted((book / fit).glob("*.json"))]


def refuse(book):
    """Ask for the size that hunts, without expecting the refusal."""
    text = (book / COBBLE).read_text("utf-8")
    head, tail = text.split("  - id: j9b", 1)
    asked = tail.replace("    checked:", "    asked:\n      area: 16 mm²\n    checked:", 1)
    (book / COBBLE).write_text(f"{head}  - id: j9b{asked}", "utf-8")

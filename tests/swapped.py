"""A copy of all that travels with the program, for tests that change a file of it."""

from __future__ import annotations

import shutil
from pathlib import Path

import baybook.shipped
from baybook.shipped import shipped


def swap_shipped(top: Path, monkeypatch, *, without: str = "") -> None:
    """Let the program find its templates, tables and hand-written pages under `top`."""
    for folder in ("templates", "site"):
        shutil.copytree(shipped(folder), top / folder, ignore=shutil.ignore_patterns(without))
    package = top / "generator" / "baybook"
    shutil.copytree(shipped("standards"), package / "standards")
    monkeypatch.setattr(baybook.shipped, "_PACKAGE", package)

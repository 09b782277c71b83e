"""Debian's Chromium through playwright; every page is watched for errors and outside requests."""

import os
import shutil

import pytest
from playwright.sync_api import sync_playwright

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="session")
def browser():
    path = shutil.which("chromium") or shutil.which("chromium-browser")
    assert path, "install Debian's chromium: the README's test command does"
    os.environ.setdefault("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")
    with sync_playwright() as play:
        running = play.chromium.launch(executable_path=path, args=FLAGS)
        yield running
        running.close()


@pytest.fixture
def visit(browser, address):
    """Open pages of the example site; no error and no outside request may have happened."""
    trouble: list[str] = []
    contexts = []

    def open_page(path="", *, width=1280, **options):
        context = browser.new_context(viewport={"width": width, "height": 900}, **options)
        contexts.append(context)
        page = context.new_page()
        page.on(
            "console", lambda m: trouble.append(m.text) if m.type in {"error", "warning"} else None
        )
        page.on("pageerror", lambda e: trouble.append(str(e)))
        page.on(
            "request",
            lambda r: trouble.append(r.url) if not r.url.startswith((address, "data:")) else None,
        )
        page.on(
            "response", lambda r: trouble.append(f"{r.status} {r.url}") if r.status >= 400 else None
        )
        page.goto(address + path)
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert trouble == []

"""The process that builds the hand-written pages.

    python -m baybook.publish.hand_written build.json

It runs MkDocs with the frame of the guides as its theme, and every warning as an error. Nothing
else imports this file: MkDocs stays out of our own process.
"""

from __future__ import annotations

import json
import logging
import re
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from jinja2 import ChoiceLoader, Environment, StrictUndefined
from markupsafe import Markup
from mkdocs.commands.build import build as run
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page

from baybook.overlay import Overlay
from baybook.publish.frame import furnish, symbol
from baybook.publish.layouts import layouts, sandboxed
from baybook.publish.markup import PageError
from baybook.rulebook import rule_address
from baybook.shipped import shipped

_SYMBOL = re.compile(r":symbol-([a-z-]+):")
_RULE = re.compile(r'href="rule:([A-Z]{2}-[0-9]{2})"')
_BUILT = re.compile(r'href="built:([^"]+)"')


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """What the process is told, as JSON."""

    config: str
    staging: str
    words: dict[str, str]
    frame: dict[str, Any]
    overlay: dict[str, Any]  # an Overlay, as data


class Frame(BasePlugin):  # type: ignore[type-arg,no-untyped-call]
    """Makes MkDocs' environment as strict as ours and puts pages into the common frame."""

    def __init__(self, build: Build) -> None:
        self._build = build

    def on_files(self, files: Files, /, **_: object) -> Files:
        """Leave out the sitemap: it would carry the day of the build."""
        for file in [file for file in files if file.src_uri == "sitemap.xml"]:
            files.remove(file)
        return files

    def on_env(self, env: Environment, /, **_: object) -> Environment:
        overlay = Overlay(**self._build.overlay)
        if overlay.under("pages"):
            env = sandboxed(env)
        loaders = (env.loader, layouts(overlay))
        env.loader = ChoiceLoader([loader for loader in loaders if loader])
        env.autoescape = True
        env.undefined = StrictUndefined
        env.trim_blocks = env.lstrip_blocks = True
        furnish(env, self._build.words)
        env.filters["built"] = Markup  # what MkDocs made of a hand-written page
        env.globals.update(self._build.frame)
        return env

    def on_page_content(self, html: str, /, page: Page, **_: object) -> str:
        """Put in what only we know: symbols, and the way to our own pages and rules.

        `:symbol-name:` becomes that symbol, and an unknown name stops the build. A link to
        `built:manual/rules.html` or `rule:OC-02` leads to a page that MkDocs does not see.
        """
        top = "../" * page.url.count("/") or "./"
        html = _SYMBOL.sub(lambda match: str(symbol(match[1])), html)
        html = _RULE.sub(lambda match: f'class="q" href="{top}{rule_address(match[1])}"', html)
        return _BUILT.sub(lambda match: f'href="{top}{match[1]}"', html)


def main(request: str) -> int:
    """Build what `request` names; return the exit status, with the reason on stderr."""
    build = Build(**json.loads(Path(request).read_text("utf-8")))
    logging.basicConfig(level=logging.WARNING, format="%(levelname)s: %(message)s")
    try:
        run(_config(build))
    except (MkDocsException, PageError) as cause:
        sys.stderr.write(f"{cause}\n")
        return 1
    return 0


def _config(build: Build) -> MkDocsConfig:
    theme = {"name": None, "custom_dir": str(shipped("templates") / "pages" / "mkdocs")}
    config = load_config(build.config, site_dir=build.staging, strict=True, theme=theme)
    config.theme.static_templates = set()
    config.plugins["baybook-frame"] = Frame(build)
    return config


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))

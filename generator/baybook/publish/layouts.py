"""Where the templates of pages come from: ours, or a shop's own in a sandbox."""

from __future__ import annotations

import traceback
from typing import NoReturn

from jinja2 import BaseLoader, ChoiceLoader, Environment, FileSystemLoader, FunctionLoader
from jinja2.sandbox import ImmutableSandboxedEnvironment

from baybook.overlay import Overlay
from baybook.publish.markup import PageError
from baybook.shipped import shipped


class Sandbox(ImmutableSandboxedEnvironment):
    """Runs the templates of a shop; what goes wrong in one is told with its file and line."""

    def handle_exception(self, source: str | None = None) -> NoReturn:
        """Raise PageError in place of whatever a template ran into."""
        try:
            super().handle_exception(source)
        except Exception as cause:  # noqa: BLE001 - whatever it was, its template is told
            frames = traceback.extract_tb(cause.__traceback__)
            at = [frame for frame in frames if not frame.filename.endswith(".py")]
            place = f"{at[-1].filename}:{at[-1].lineno}: " if at else ""
            raise PageError(f"{place}{cause}") from None


def sandboxed(env: Environment) -> Environment:
    """Return a sandbox with loader and filters of an environment."""
    made = Sandbox(loader=env.loader)
    made.filters.update(env.filters)
    return made


def layouts(overlay: Overlay) -> BaseLoader:
    """Return a loader of the templates of pages: the shop's own first."""
    ours = FileSystemLoader(shipped("templates") / "pages")
    own = overlay.under("pages")
    if not own:
        return ours

    def load(name: str) -> tuple[str, str, None] | None:
        return (own[name], f"{overlay.folder}/pages/{name}", None) if name in own else None

    return ChoiceLoader([FunctionLoader(load), ours])

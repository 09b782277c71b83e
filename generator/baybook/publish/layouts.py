"""Where the templates of pages come from, and what runs them: ours, or a shop's in a sandbox."""

from __future__ import annotations

import re
import traceback
from typing import Any, NoReturn

from jinja2 import BaseLoader, ChoiceLoader, Environment, FileSystemLoader, FunctionLoader, nodes
from jinja2.compiler import CodeGenerator, Frame
from jinja2.runtime import Context
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup, escape

from baybook.overlay import Overlay
from baybook.publish.markup import PageError, Words
from baybook.shipped import shipped

_MARKS_UP = re.compile("[&<>'\"]")
_OF_ANY_DICT = frozenset(dir(dict))


class _Writer(CodeGenerator):
    """Lets `Shipped.written` escape what a template prints."""

    def _output_child_pre(
        self, node: nodes.Expr, frame: Frame, finalize: CodeGenerator._FinalizeInfo
    ) -> None:
        if frame.eval_ctx.volatile or not frame.eval_ctx.autoescape or finalize.src is not None:
            super()._output_child_pre(node, frame, finalize)
        else:
            self.write("environment.written(")


class _Page(Context):
    """Says a fixed word at once: it asks for nothing of the page, and a guide has thousands."""

    def call(self, called: Any, /, *args: Any, **kwargs: Any) -> Any:  # noqa: ANN401
        if type(called) is not Words:
            return super().call(called, *args, **kwargs)
        kwargs.pop("_loop_vars", None)  # Jinja2 sends these along
        kwargs.pop("_block_vars", None)
        return called(*args, **kwargs)


class Shipped(Environment):
    """Runs the templates that we ship: what any environment does, with fewer steps for each value.

    A page prints some twenty thousand values, most of them markup already or a word without signs.
    """

    code_generator_class = _Writer
    context_class = _Page

    @staticmethod
    def written(value: object) -> str:
        """Return a value as it stands in a page: escaped, unless it is markup."""
        if type(value) is Markup:
            return value
        if type(value) is str and not _MARKS_UP.search(value):
            return value
        return escape(value)

    def getattr(self, obj: object, attribute: str) -> object:
        """Return what `obj.attribute` is in a template; a told value is a dict."""
        if type(obj) is dict and attribute in obj and attribute not in _OF_ANY_DICT:
            return obj[attribute]
        return super().getattr(obj, attribute)


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

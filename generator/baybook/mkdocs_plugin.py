"""Our guides in somebody else's MkDocs site.

    plugins:
      - baybook:
          workbook: fits
          folder: guides

The finished pages go beside theirs as they are, never through their Markdown or theme, and not
into their navigation: link to `guides/index.html`. Publishing is MkDocs' own here: it empties its
output folder first, so a failed build leaves no site. `baybook publish` swaps in one step.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from mkdocs.config import base, config_options
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files


class BaybookConfig(base.Config):  # type: ignore[no-untyped-call]
    workbook = config_options.Dir(exists=True)
    folder = config_options.Type(str, default="guides")
    drafts = config_options.Type(bool, default=False)
    templates = config_options.Optional(config_options.Dir(exists=True))


class BaybookPlugin(BasePlugin[BaybookConfig]):  # type: ignore[no-untyped-call]
    """Adds every page, print and data file of a workbook under one folder of the site."""

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        folder = self.config.folder.strip("/")
        taken = {file.dest_uri for file in files}
        for address, content in self._finished().items():
            src = f"{folder}/{address}"
            if src in taken:
                raise PluginError(
                    f"baybook: {src} is also a page of this site; choose another `folder`"
                )
            files.append(_finished_file(config, src, content))
        return files

    def _finished(self) -> Mapping[str, bytes]:
        """Return the guides and the pages about them, or stop the build with every message."""
        # Imported here: MkDocs loads every plugin to list them, and the rooms are heavy.
        from baybook.desk.report import catalogue, finding_lines  # noqa: PLC0415
        from baybook.pipeline import STOPS, render  # noqa: PLC0415
        from baybook.publish.overlaid import OverlayError, read_overlay  # noqa: PLC0415

        today = datetime.now(UTC).astimezone().date()
        try:
            templates = self.config.templates
            overlay = read_overlay(Path(templates) if templates else None)
            rendered = render(
                Path(self.config.workbook), drafts=self.config.drafts, today=today, overlay=overlay
            )
        except (*STOPS, OverlayError) as cause:
            raise PluginError(f"baybook: no guide was added: {cause}") from cause
        words = catalogue()
        wrong = [finding_lines(finding, words) for finding in rendered.problems]
        if wrong or rendered.lost:
            raise PluginError("\n".join(["baybook: no guide was added", *wrong, *rendered.lost]))
        return rendered.files


def _finished_file(config: MkDocsConfig, src: str, content: bytes) -> File:
    """Return a file that MkDocs copies as it is.

    A generated `.html` file keeps its address. JSON, CSS and PDF are media files to MkDocs.
    """
    made: Any = File.generated(config, src, content=content)
    return made  # type: ignore[no-any-return]

"""`check --format github`: a workflow command for each finding, shown at its line in a review.

The form and its escapes are those of "Workflow commands for GitHub Actions": `%`, carriage
return and line feed in a message, a colon and a comma besides in a property.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, Final

from baybook.desk.raised import Raised
from baybook.desk.sarif import message
from baybook.finding import Verdict
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell

_COMMANDS: Final = {Verdict.REFUSED: "error", Verdict.HOLD: "warning"}
_IN_MESSAGE: Final = {"%": "%25", "\r": "%0D", "\n": "%0A"}
_IN_PROPERTY: Final = {**_IN_MESSAGE, ":": "%3A", ",": "%2C"}


def workflow_commands(
    raised: Sequence[Raised], words: Catalogue, path: Callable[[str], str]
) -> Iterator[str]:
    """Yield one command for each finding; a refusal that is kept is a notice.

    path  turns a finding's file into its path from the top of the repository
    """
    for one in raised:
        finding = one.finding
        command = "notice" if one.kept else _COMMANDS.get(finding.verdict, "notice")
        told: Any = tell(finding, words)
        properties = {
            "file": path(finding.where.file),
            "line": str(finding.where.line),
            "col": str(finding.where.column),
            "title": f"{finding.verdict} {finding.code}",
        }
        listed = ",".join(f"{key}={_escaped(v, _IN_PROPERTY)}" for key, v in properties.items())
        yield f"::{command} {listed}::{_escaped(message(told), _IN_MESSAGE)}"


def _escaped(text: str, table: Mapping[str, str]) -> str:
    return "".join(table.get(sign, sign) for sign in text)

"""`check --format sarif`: findings for a code review, as SARIF 2.1.0 (OASIS, errata 01)."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, Final
from urllib.parse import quote

from baybook import __version__
from baybook.desk.raised import Raised
from baybook.desk.report import flat, text_of
from baybook.finding import Verdict
from baybook.plain import fingerprint
from baybook.rulebook import rule_address
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell

SCHEMA: Final = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
_LEVELS: Final = {Verdict.REFUSED: "error", Verdict.HOLD: "warning", Verdict.CAUTION: "note"}
_BASE: Final = "SRCROOT"


def sarif_log(
    raised: Sequence[Raised], words: Catalogue, path: Callable[[str], str], site: str = ""
) -> dict[str, Any]:
    """Return the log of one run.

    path  turns a finding's file into its path from the top of the repository
    site  where the guides are published, with the manual that explains every code
    """
    told: list[tuple[Raised, Any]] = [(one, tell(one.finding, words)) for one in raised]
    codes = list(dict.fromkeys(one.finding.code for one in raised))
    whys = {one.finding.code: flat(parts["why"]["text"]) for one, parts in reversed(told)}
    driver = {
        "name": "baybook",
        "semanticVersion": __version__,
        "rules": [_rule(code, whys[code], site) for code in codes],
    }
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "originalUriBaseIds": {_BASE: {"description": {"text": "the top of the repository"}}},
        "results": [_result(one, parts, codes, path) for one, parts in told],
    }
    return {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}


def _rule(code: str, why: str, site: str) -> dict[str, Any]:
    rule: dict[str, Any] = {"id": code, "fullDescription": {"text": why}}
    return rule | {"helpUri": f"{site.rstrip('/')}/{rule_address(code)}"} if site else rule


def _result(
    raised: Raised, told: Mapping[str, Any], codes: Sequence[str], path: Callable[[str], str]
) -> dict[str, Any]:
    finding = raised.finding
    uri = quote(path(finding.where.file))
    result: dict[str, Any] = {
        "ruleId": finding.code,
        "ruleIndex": codes.index(finding.code),
        "level": _LEVELS.get(finding.verdict, "none"),
        "message": {"text": message(told)},
        "locations": [
            {
                "physicalLocation": {
                    "artifactLocation": {"uri": uri, "uriBaseId": _BASE},
                    "region": {
                        "startLine": finding.where.line,
                        "startColumn": finding.where.column,
                    },
                },
                "logicalLocations": [{"fullyQualifiedName": finding.place}],
            }
        ],
        # Lines move; what is wrong where in the fit stays the same finding.
        "partialFingerprints": {"place/v1": fingerprint((finding.code, finding.place, uri))},
        "properties": {"verdict": str(finding.verdict), "fits": list(raised.fits)},
    }
    if raised.kept:
        why = "The fit lists this code under `refused:`: it is published as a refusal."
        result["suppressions"] = [{"kind": "inSource", "justification": why}]
    return result


def message(told: Mapping[str, Any]) -> str:
    """Return a told finding in sentences: what, found, allowed, way out."""
    parts = [
        flat(told["title"]["text"]),
        f"found {flat(text_of(told['found']))}",
        f"allowed {flat(text_of(told['allowed']))}",
        flat(told["way_out"]["text"]),
    ]
    return ". ".join(part for part in parts if part) + "."

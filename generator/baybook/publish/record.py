"""The as-built record on one sheet of paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

from baybook.book import Told
from baybook.publish.typeset import PrintJob, as_json, require_glyphs, typeset

_WORDS = ("print.", "record.")


def render_record(
    told: Mapping[str, Any],
    *,
    words: Mapping[str, str],
    shop: Mapping[str, Told],
    language: str,
    papers: Sequence[str],
) -> dict[str, bytes]:
    """Return the PDF of a told record by paper.

    Raises PrintError for a character that the shipped font lacks.
    """
    identity = told["identity"]
    data = {
        "kind": "record",
        "language": language,
        "record": told,
        "words": {key: text for key, text in words.items() if key.startswith(_WORDS)},
        "shop": shop,
        "title": words["print.record.title"].format(
            vehicle=identity["vehicle"]["text"], code=identity["code"], vin=told["vin"]["text"]
        ),
    }
    fit = identity["fit"]
    require_glyphs(fit, data)
    seconds = int(datetime.fromisoformat(told["on"]).replace(tzinfo=UTC).timestamp())
    job = PrintJob(fit=fit, data=as_json(data), papers=tuple(papers), seconds=seconds)
    return typeset([job])[fit]

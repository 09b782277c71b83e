"""Where a long word may be parted in the reader's language, marked with soft hyphens.

German lives by long words, and the columns of a drawing are narrow: `Haupttrennschalter` is parted
between its syllables, never in the middle of one.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import Any

import pyphen

SOFT_HYPHEN = "\N{SOFT HYPHEN}"
_LONG = re.compile(r"[^\W\d_]{7,}")


def with_syllables(told: Any, language: str) -> Any:  # noqa: ANN401 - JSON of any shape
    """Return a told view with soft hyphens in the long words of its runs, nowhere else.

    language  of the reader; one without known syllables leaves the view as it is
    """
    if pyphen.language_fallback(language) is None:
        return told
    return _marked(told, language)


def _marked(told: Any, language: str) -> Any:  # noqa: ANN401 - JSON of any shape
    if isinstance(told, list):
        return [_marked(one, language) for one in told]
    if not isinstance(told, dict):
        return told
    if "runs" in told:
        runs = [run | {"text": _syllables(run["text"], language)} for run in told["runs"]]
        return told | {"runs": runs}
    return {key: _marked(one, language) for key, one in told.items()}


@lru_cache(maxsize=4096)  # the texts of a vehicle or two: not of ten thousand
def _syllables(text: str, language: str) -> str:
    return _LONG.sub(lambda word: _patterns(language).inserted(word[0], SOFT_HYPHEN), text)


@cache
def _patterns(language: str) -> pyphen.Pyphen:
    return pyphen.Pyphen(lang=pyphen.language_fallback(language))

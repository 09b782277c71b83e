"""How a finished page is taken apart again.

Cheaper by far than a parser, and enough: what a person wrote is escaped in every page.
"""

from __future__ import annotations

import re
from typing import Final

_COMMENT = r"!--.*?-->|![^>]*>"
# `*+` gives nothing back: what it took is all that may stand there.
_NAME = r"[a-zA-Z][\w-]*+"
_ATTRIBUTES = r"""[^<>"']*+(?:(?:"[^"]*"|'[^']*')[^<>"']*+)*+>"""

# Split by it, a page is a text, a tag, a text, a tag, ..., a text.
MARKUP: Final = re.compile(rf"(<(?:{_COMMENT}|/?{_NAME}{_ATTRIBUTES}))", re.DOTALL)
# Finds the tags that have attributes, a third of all; "" for a comment, which may hold tags too.
LADEN: Final = re.compile(rf"<(?:{_COMMENT}|({_NAME}(?!>){_ATTRIBUTES}))", re.DOTALL)

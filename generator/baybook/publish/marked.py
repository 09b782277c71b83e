"""How a finished page is taken apart again.

Cheaper by far than a parser, and enough: what a person wrote is escaped in every page.
"""

from __future__ import annotations

import re
from typing import Final

COMMENT: Final = "<!"  # begins one, and what is said of the document itself
# Split by it, a page is a text, a tag, a text, a tag, ..., a text.
# `*+` gives nothing back: what it took is all that may stand there.
MARKUP: Final = re.compile(
    r"""(<!--.*?-->|<![^>]*>"""
    r"""|</?[a-zA-Z][\w-]*+[^<>"']*+(?:(?:"[^"]*"|'[^']*')[^<>"']*+)*+>)""",
    re.DOTALL,
)

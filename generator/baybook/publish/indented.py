"""JSON with a line for each value, for what stands under version control.

The library's quick encoder knows no lines, its other one takes longer than a guide's page.
"""

from __future__ import annotations

import json
from json.encoder import encode_basestring as _quoted

_one = json.JSONEncoder(ensure_ascii=False).encode


def indented(node: object, line: str = "\n") -> str:
    """Return what `json.dumps` would, one step a level, by sorted keys, no letter escaped.

    line  begins a new one at this level
    """
    if isinstance(node, str):
        return _quoted(node)
    inner = f"{line} "
    if isinstance(node, dict) and node:
        parts = [f"{_quoted(key)}: {indented(node[key], inner)}" for key in sorted(node)]
        return f"{{{inner}{f',{inner}'.join(parts)}{line}}}"
    if isinstance(node, (list, tuple)) and node:
        return f"[{inner}{f',{inner}'.join(indented(item, inner) for item in node)}{line}]"
    return _one(node)

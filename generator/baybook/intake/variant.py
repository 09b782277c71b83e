"""A vehicle that differs from another in a few things: its file says only those.

`variant_of:` names the base. Mappings are merged key by key; a list, and a figure with all that is
said of it, is replaced whole. Every value keeps the place where it was written.
"""

from __future__ import annotations

from baybook.intake.tree import Branch, Node, Scalar

KEY = "variant_of"
_FIGURE = "value"  # a mapping with this key is one figure


def base_of(tree: Branch) -> Scalar | None:
    """Return the name of the base, None for a vehicle of its own."""
    written = tree.get(KEY)
    return written if isinstance(written, Scalar) else None


def merged(base: Branch, own: Branch) -> Branch:
    """Return a tree of both, in the order of the base; neither is changed."""
    whole = Branch(own.mark)
    for key, node in base.items():
        _put(whole, key, node, base)
    for key, node in own.items():
        _put(whole, key, _over(base.get(key), node), own)
    return whole


def _over(base: Node | None, own: Node) -> Node:
    if not isinstance(base, Branch) or not isinstance(own, Branch):
        return own
    return own if _FIGURE in base or _FIGURE in own else merged(base, own)


def _put(whole: Branch, key: str, node: Node, written: Branch) -> None:
    whole[key] = node
    whole.keys_at[key] = written.keys_at[key]

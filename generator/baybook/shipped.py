"""Where the folders that travel with the package are: in a checkout and in an installed wheel."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def shipped(folder: str) -> Path:
    """Return the path of `templates`, `site` or `standards`.

    An installed wheel holds them inside the package; an editable install leaves
    `templates` and `site` at the top of the checkout.
    """
    inside = _PACKAGE / folder
    return inside if inside.is_dir() else _PACKAGE.parents[1] / folder

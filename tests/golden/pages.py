"""The finished pages that are kept word for word, but for the stamps of what lies beside them."""

import re
from pathlib import Path

FOLDER = Path(__file__).parent
FITS = ("j1", "j9b")
STAMP = re.compile(r"(assets/[\w.-]+)\?[0-9a-f]{8}\b")


def produced(site: Path) -> dict[str, str]:
    """Return golden file name → page of the published example site."""
    return {
        f"{fit}.html": STAMP.sub(
            r"\1", next(site.glob(f"guides/*/{fit}/index.html")).read_text("utf-8")
        )
        for fit in FITS
    }

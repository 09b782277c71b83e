"""The finished pages that are kept word for word."""

from pathlib import Path

FOLDER = Path(__file__).parent
FITS = ("j1", "j9b")


def produced(site: Path) -> dict[str, str]:
    """Return golden file name → page of the published example site."""
    return {
        f"{fit}.html": next(site.glob(f"guides/*/{fit}/index.html")).read_text("utf-8")
        for fit in FITS
    }

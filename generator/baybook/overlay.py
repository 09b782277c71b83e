"""Templates of a shop's own, which stand in for shipped ones of the same name."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Overlay:
    """What a shop lays over the shipped templates; nothing, unless it is asked for."""

    folder: str = ""  # as a person named it, for messages
    files: tuple[tuple[str, str], ...] = ()  # name as under templates/ → text, by name

    def under(self, folder: str) -> dict[str, str]:
        """Return the texts of one folder, `pages` or `print`, by their names in it."""
        top = f"{folder}/"
        return {name.removeprefix(top): text for name, text in self.files if name.startswith(top)}


NO_OVERLAY = Overlay()

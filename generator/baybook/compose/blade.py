"""The colour of a blade fuse, by which a technician finds its rating in a box."""

from __future__ import annotations

import re

from baybook.finding import Message, say
from baybook.sheet import CueInput
from baybook.standards.handbook import handbook

_BLADE = re.compile(r"\bISO ?8820-3\b", re.IGNORECASE)


def body_colour(cue: CueInput) -> Message | None:
    """Colour of the lead's own fuse. [iso8820-3]

    None where its sheet does not name the standard, or nobody has read the colour of its rating.
    """
    colour = handbook().blade_colour.get(cue.fuse.value)
    if colour is None or not _BLADE.search(cue.fuse_standard or ""):
        return None
    return say(f"blade.{colour}")

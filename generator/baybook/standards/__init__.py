"""The published tables, one CSV each with a source on every row, and the register of sources.

A noun among the rooms: it holds figures and decides nothing. The tables are read once.
"""

from baybook.standards.load import Cfr183, Standards, load
from baybook.standards.register import Source, register

__all__ = ["Cfr183", "Source", "Standards", "load", "register"]

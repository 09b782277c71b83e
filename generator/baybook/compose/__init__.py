"""CheckedDesign → Guide, Refusal → RefusalSheet: steps in their order, tables, kit, readings."""

from baybook.compose.guide import compose
from baybook.compose.identity import identify
from baybook.compose.refusal import refuse

__all__ = ["compose", "identify", "refuse"]

"""Each rule once, and the two gates: `approve` for a design, `release` for a guide."""

from baybook.checks.judge import approve, judge
from baybook.checks.kept import kept
from baybook.checks.registry import RULES
from baybook.checks.release import release

__all__ = ["RULES", "approve", "judge", "kept", "release"]

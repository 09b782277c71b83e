"""FX: whether the load that the profile holds things to is one of a crash or of the road."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import Found
from baybook.design import Design
from baybook.finding import Amount, Name, Verdict, say
from baybook.standards.handbook import handbook

# Read once on import, so that the rule opens no file. The lowest that is published by direction.
_LEAST_G = {
    way: min(g for (_, direction), g in handbook().crash_g.items() if direction == way)
    for way in ("forward", "sideways")
}


def crash_load(design: Design) -> Iterator[Found]:
    """Tell where the profile holds things to less than any published crash figure.

    a ≥ 6.6 g forward and 5 g across, the figures of the heaviest vehicles        [iso12991]
    A figure for cargo, 0.8 g and less, is not one of a crash.
    """
    restraint = design.fit.shop.restraint
    stated = {"forward": restraint.forward, "sideways": restraint.sideways or restraint.other}
    for way, least_g in _LEAST_G.items():
        load = stated[way]
        if load.low < least_g:
            least = Amount(least_g, "g_n", 1).at_least()
            yield Found(
                verdict=Verdict.CAUTION,
                place="shop.restraint",
                where=load.where,
                found=Amount.of(load).plain(),
                allowed=least,
                sources=("iso12991",),
                values={
                    "load": Amount.of(load).plain(),
                    "least": least,
                    "way": say(f"rule.FX-14.{way}"),
                    "basis": Name(restraint.basis),
                },
            )

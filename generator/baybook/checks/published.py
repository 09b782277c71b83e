"""OC: published rules and standards that a profile or a sheet names."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import SHEET, SHOP_RULE, Found, amps
from baybook.checks.part import about_part, sheet
from baybook.design import Design
from baybook.finding import Amount, Listing, Name, Verdict
from baybook.standards.rule_sets import rule_sets

# Read once on import, so that the rules below open no file.
_SETS = rule_sets()


def rule_is_known(design: Design) -> Iterator[Found]:
    """Name only published rules that the tool holds: for clips and for the distance of a fuse.

    [shop-rule]
    """
    limits, spacing = design.fit.shop.limits, design.fit.shop.spacing
    for where, named, known in (
        ("limits.fuse_distance_rule", limits.fuse_distance_rule, tuple(_SETS.distance)),
        ("spacing.clip_rule", spacing.clip_rule, tuple(_SETS.support_m)),
    ):
        if named is not None and named not in known:
            yield Found(
                verdict=Verdict.REFUSED,
                place=f"shop.{where}",
                where=design.fit.mark(f"shop.{where}"),
                found=Name(named),
                allowed=Listing(tuple(Name(rule) for rule in known)),
                sources=(SHOP_RULE,),
                values={
                    "rule": Name(named),
                    "known": Listing(tuple(Name(rule) for rule in known)),
                },
            )


def scope_of_standard(design: Design) -> Iterator[Found]:
    """Tell where a sheet claims a part of ISO 8820 that does not cover the part it describes.

    Rating, volts and breaking capacity within the scope of the part that is claimed
    [iso8820-3], [iso8820-5], [iso8820-6], [iso8820-10]
    """
    own = sheet(design)
    scope = _SETS.fuse_scope.get(own.standard or "") if own else None
    if own is None or scope is None:
        return
    rating = design.choice.rating_A
    outside = (
        (rating < scope.least_A or rating > scope.most_A, Amount(rating, "A", 0)),
        (own.voltage.value > scope.voltage_V, Amount.of(own.voltage, 0)),
        (own.breaking.value > scope.breaking_A, Amount.of(own.breaking, 0)),
    )
    for wrong, found in outside:
        if wrong:
            yield about_part(
                design,
                "standard",
                verdict=Verdict.CAUTION,
                found=found,
                allowed=Name(own.standard or ""),
                sources=(scope.source, SHEET),
                standard=Name(own.standard or ""),
                stated=found,
            )


def preferred_rating(design: Design) -> Iterator[Found]:
    """Ask where a sheet states a rating that the part of ISO 8820 it claims does not prefer.

    The list is remembered and was not read: it tells a slip of the pen, it bears no margin.
    [iso8820-preferred], rating [fit-sheet]
    """
    own, rating = sheet(design), design.choice.rating_A
    listed = _SETS.preferred_A.get(own.standard or "") if own else None
    if own is None or listed is None or rating in listed:
        return
    yield about_part(
        design,
        "rating",
        verdict=Verdict.CAUTION,
        found=Amount(rating, "A", 0),
        allowed=Listing(tuple(amps(value) for value in sorted(listed))),
        sources=("iso8820-preferred", SHEET),
        standard=Name(own.standard or ""),
    )

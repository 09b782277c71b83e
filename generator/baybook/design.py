"""Noun: the worked-out circuit, what was weighed on the way, and every figure with its trace."""

from __future__ import annotations

from dataclasses import dataclass

from baybook.cascade import Cascade
from baybook.chart import Chart
from baybook.circuit import Circuit
from baybook.equipment import Outlet
from baybook.figure import Figure
from baybook.finding import Finding, Verdict, worst
from baybook.fit import Fit
from baybook.solved import Solved


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What the sizing may decide."""

    power_W: float  # the charger's power step
    input_limit_A: float  # I_B, the limit that belongs to it
    power_kept: bool
    set_V: float
    area_mm2: float
    family: str  # of the protection, id of its sheet; "" at a factory fuse
    rating_A: float
    second_family: str = ""  # of the protection at a second battery's end; "" for a station
    second_rating_A: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One weighed choice with what it passed and failed."""

    choice: Choice
    current_A: float | None  # at the lowest supply voltage; None: no solution exists
    charger_V: float | None
    drop: float | None  # share of the lowest supply voltage
    margin_V: float | None  # charger volts less its cut-out
    carries_A: float  # I_T in the worst zone
    findings: tuple[Finding, ...]

    @property
    def passes(self) -> bool:
        return all(f.verdict is not Verdict.REFUSED for f in self.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Substitute:
    """What was tried in place of a part that was chosen, by the same rules."""

    kind: str  # "size" | "protection" | "cable"
    candidate: Candidate
    cascade: Cascade


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """How far one survey figure may be moved alone until a rule refuses the chosen design."""

    name: str  # "length" "supply" "supply_high" "ambient" "internal" "base"
    zone: str  # id, of an ambient; else ""
    value: float  # the last that passes
    unit: str
    rule: str  # code of the rule that refuses the next step; "": none did as far as was tried


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingOption:
    """A set voltage with what it would give. For the list of settings and its chart."""

    set_V: float
    power_W: float  # at the low end of the tolerance: what it is sure to give
    limit: str  # what binds: "station power", "station current", "charger power", "charger current"
    fits: bool  # inside window, margin and touch limit, tolerance counted


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """A finished circuit with its figures. Not yet checked: see CheckedDesign."""

    fit: Fit
    choice: Choice
    circuit: Circuit
    figures: tuple[Figure, ...]
    candidates: tuple[Candidate, ...]  # every size that was weighed at the chosen power and setting
    settings: tuple[SettingOption, ...]
    solved: Solved
    charts: tuple[Chart, ...] = ()
    cascades: tuple[Cascade, ...] = ()  # one for each candidate, in the same order
    substitutes: tuple[Substitute, ...] = ()
    bounds: tuple[Bound, ...] = ()
    outlet: Outlet | None = None  # of a finished design whose load is a station

    def figure(self, name: str) -> Figure:
        """Return the figure of this name; KeyError if there is none."""
        for figure in self.figures:
            if figure.name == name:
                return figure
        raise KeyError(name)


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedDesign:
    """A design that every rule let pass. Only `checks.approve` makes one."""

    design: Design
    findings: tuple[Finding, ...]  # cautions and holds

    @property
    def verdict(self) -> Verdict:
        return worst([f.verdict for f in self.findings])

    @property
    def draft(self) -> bool:
        return any(f.draft for f in self.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """A fit without a possible design: what is wrong, and the way out."""

    fit: Fit
    findings: tuple[Finding, ...]
    candidates: tuple[Candidate, ...]
    figures: tuple[Figure, ...] = ()
    charts: tuple[Chart, ...] = ()
    cascades: tuple[Cascade, ...] = ()  # one for each candidate, in the same order

"""The settings of the charger, each worked out no sooner than somebody looks at it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from baybook.design import Design, SettingOption
from baybook.fit import Fit
from baybook.sizing.least import first_of_least
from baybook.sizing.output import Step, in_order_of_choice, miss, offer, set_voltages
from baybook.sizing.recall import Recall
from baybook.sizing.weighed import (
    BAND,
    LEAD,
    PLUG,
    PROTECTION,
    SECOND,
    SETTING,
    Way,
    Weighed,
    keeps,
    weigh,
)
from baybook.sizing.work_out import output_at, with_setting


class Dial:
    """The settings of the charger at one power step, each worked out when it is looked at."""

    def __init__(self, *, fit: Fit, step: Step, way: Way, probe: Design) -> None:
        self._fit, self._step, self._way, self._probe = fit, step, way, probe
        self._at: dict[float, Design] = {}
        self._of_lead: dict[float, int] = {}
        self._mates = keeps(probe, way.judge, PLUG)
        self._sheets = way.recall.sheet(fit.charger), way.recall.sheet(fit.station)

    def at(self, set_V: float) -> Design:
        """Return the bare design at a setting."""
        if set_V not in self._at:
            recall = self._way.recall
            output = output_at(self._fit, self._step.power_W, set_V, recall)
            self._at[set_V] = with_setting(self._probe, set_V, output, recall)
        return self._at[set_V]

    def fits(self, set_V: float) -> bool:
        """Tell whether no rule of the output refuses; its band is the same with every lead."""
        return self._mates and not self._band(set_V)[0] and not self._lead(set_V)

    def _lead(self, set_V: float) -> int:
        """Count the rules that refuse a setting for what reaches the station."""
        if set_V not in self._of_lead:
            self._of_lead[set_V] = len(weigh(self.at(set_V), self._way.judge, LEAD).refused)
        return self._of_lead[set_V]

    def option(self, set_V: float) -> SettingOption:
        """Return a setting as the guide lists it."""
        output = self.at(set_V).solved.output
        return SettingOption(
            set_V=set_V, power_W=output.sure_W, limit=output.limit, fits=self.fits(set_V)
        )

    def nearest(self, order: Sequence[float]) -> Weighed:
        """Return the setting with the fewest refusals; of equals the nearest to the window.

        What was seen of a setting already is the least that it earns.
        """

        def at_least(set_V: float) -> tuple[int, float]:
            refused, away_V = self._band(set_V)
            return refused + self._of_lead.get(set_V, 0), away_V

        def rank(at: int) -> tuple[int, float]:
            seen = _of_output(weigh(self.at(order[at]), self._way.judge, SETTING))
            return len(seen.refused), self._band(order[at])[1]

        at = first_of_least([at_least(set_V) for set_V in order], rank)
        return _of_output(weigh(self.at(order[at]), self._way.judge))

    def _band(self, set_V: float) -> tuple[int, float]:
        """Return how many rules refuse the band of a setting, and how far it is off [V]."""

        def make() -> tuple[int, float]:
            design = self.at(set_V)
            refused = weigh(design, self._way.judge, BAND).refused
            return len(refused), miss(self._fit.station, design.solved.output)

        return self._way.recall.shared(("band", *self._sheets, set_V), make)


def order_of(fit: Fit, step: Step, recall: Recall) -> list[float]:
    """Set voltages in the order they are to be tried, remembered. [V]

    [shop-rule]
    """

    def make() -> list[float]:
        offers = [
            (set_V, offer(fit.charger, fit.station, step.power_W, set_V))
            for set_V in set_voltages(fit.charger)
        ]
        return in_order_of_choice(offers, fit.charger.output_default.value)

    sheets = recall.sheet(fit.charger), recall.sheet(fit.station)
    return recall.shared(("order", sheets, step.power_W), make)


def _of_output(weighed: Weighed) -> Weighed:
    """Leave out what hangs on cable and protection: none was chosen yet."""
    later = {"CA", PROTECTION, SECOND}
    own = (f for f in weighed.findings if f.code.partition("-")[0] not in later)
    return replace(weighed, findings=tuple(own))

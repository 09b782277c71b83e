"""Numbers of the trade that no standard, sheet or survey gives.

Each is common practice: printed with that mark, never the base of a safety margin of the
design. `minutes` are a planning figure of the shop's kind, not a promise.
"""

from __future__ import annotations

from dataclasses import dataclass

from baybook.finding import Amount

SOURCE = "common practice"


@dataclass(frozen=True, slots=True)
class Practice:
    """One number; what it is for stands above it."""

    value: float
    unit: str
    digits: int
    show: str = ""

    @property
    def amount(self) -> Amount:
        usual = "" if self.unit == "1" else self.unit  # a share shows as per cent
        return Amount(self.value, self.unit, self.digits, show=self.show or usual)


# Characters at the end of a VIN that tell two vehicles of a model apart.
VIN_END = Practice(8, "1", 0, "1")
# Distance of the key, so that nothing wakes.
KEY_AWAY = Practice(5, "m", 0)
# Wait for the modules: 20 to 60 min are quoted.
SLEEP_WAIT = Practice(60, "min", 0)
# Wait where the vehicle's maker names none.
RESTRAINT_WAIT = Practice(10, "min", 0)
# The same for what the high-voltage side keeps.
DISCHARGE_WAIT = Practice(10, "min", 0)
# A conductor counts as dead below this.
DEAD_BELOW = Practice(0.5, "V", 1)
# No short between plus and return above this.
NO_SHORT_ABOVE = Practice(10, "ohm", 0)
# One and the same conductor below this.
CONTINUOUS_BELOW = Practice(0.5, "ohm", 1)
# Depth stop past the panel.
STOP_PAST_PANEL = Practice(0.003, "m", 0, "mm")
# Bare metal round a body point.
BRIGHT_RING = Practice(0.025, "m", 0, "mm")
# First fixing from a terminal, at most.
FIRST_CLIP = Practice(0.15, "m", 0, "mm")
# Movement in a pull by hand.
NO_MOVEMENT = Practice(0, "m", 0, "mm")
# Paint on a drilled edge.
PAINT_DRIES = Practice(20, "min", 0)
# Engine speed of the loaded readings.
RUN_SPEED = Practice(2000, "rpm", 0)
# Before the loaded readings.
RUN_TIME = Practice(5, "min", 0)
# At load, before joints are felt with a thermometer.
WARM_TIME = Practice(20, "min", 0)
# At idle with every load on.
IDLE_TIME = Practice(5, "min", 0)
# Road check, part of it on a rough surface.
ROAD_TIME = Practice(10, "min", 0)
# Clean stops and restarts of the charger.
RESTARTS = Practice(5, "1", 0, "1")
# A clamp that reads sleep currents tells so much apart.
SLEEP_STEP = Practice(0.001, "A", 0, "mA")
# A workshop booster for lorries, or two batteries in series at a 12 V vehicle.
JUMP_BOOST = Practice(24, "V", 0)
# First visit to check every torque.
RETORQUE_KM = Practice(1000, "km", 0)
RETORQUE_MONTHS = 1  # whichever comes first

MINUTES = {
    "look": 2.0,
    "measure": 3.0,
    "open": 10.0,
    "place": 10.0,
    "drill": 4.0,
    "fit": 5.0,
    "cut": 2.0,
    "lay": 10.0,
    "clip": 1.0,
    "strip": 1.0,
    "crimp": 2.0,
    "join": 3.0,
    "scan": 10.0,
    "sign": 3.0,
    "talk": 10.0,
}

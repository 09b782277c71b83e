"""A second opinion: a fit and a choice worked out again from first principles.

Nothing of the tool's own reckoning is imported: roots come from scipy, the laws are written out,
the published tables that are needed stand below with their source. What the two have in common
is what a person wrote: the fit, and the choice that is to be judged.
"""

from __future__ import annotations

import math

from scipy.optimize import brentq

from baybook.design import Choice
from baybook.fit import Fit
from baybook.part import CableSheet
from baybook.quantity import Quantity, State
from baybook.terms import AmpacitySource, CueKind, Fastener

COPPER = 234.5 + 20  # IEC 60364-5-54, annex A: the line meets zero 234.5 K below 0 °C
K_COPPER = 226.0  # IEC 60364-5-54, annex A
CARRIES, STANDS = 1.35, 1.45  # ISO 8820-3, 110 to 135 %; IEC 60364-4-43, 433.1
G_N = 9.80665  # third CGPM, 1901
ADIABATIC_S = 5.0  # IEC 60364-4-43, 434.5.2
HOTTEST_C = 500.0  # no law of copper beyond
ENGINE_105 = 0.85  # 33 CFR 183.425, Table 5 note 1
BUNDLES = ((25, 0.4), (7, 0.5), (4, 0.6), (3, 0.7), (1, 1.0))  # note 2
AWG_MM2 = {12: 3.31, 10: 5.26, 8: 8.37, 6: 13.3, 4: 21.1, 2: 33.6}  # ASTM B258, as printed
# 33 CFR 183.425, Table 5, column of 105 °C
TABLE_5 = {12: 45.0, 10: 60.0, 8: 80.0, 6: 120.0, 4: 160.0, 2: 210.0}


# ------------------------------------------------------------------ where the copper lies


def pieces(fit: Fit, *, short: bool = False) -> dict[str, list[tuple[str, float]]]:
    """Return source, feed and return as lists of (zone, metres), cut lengths; long or short."""
    shop = fit.shop.lengths
    marks, end = [], 0.0
    for segment in fit.vehicle.routes[fit.job.route].segments:
        own = segment.length
        given, off = own.high > own.value, shop.segment_tolerance.value
        long = own.high if given else own.value * (1 + off)
        length = (own.low if given else own.value * (1 - off)) if short else long
        marks.append((segment.zone, end, end + length))
        end += length
    half, step = shop.end_allowance.value / 2, shop.cutting_step.value
    fused = fit.vehicle.points[fit.job.source.positive].factory_fuse is not None
    fuse = 0.0 if fused else fit.job.source.fuse_at.value

    def cut(low: float, high: float, *, before: float, behind: float) -> list[tuple[str, float]]:
        inside = [
            (zone, min(b, high) - max(a, low))
            for zone, a, b in marks
            if min(b, high) - max(a, low) > 1e-12
        ]
        inside[0] = (inside[0][0], inside[0][1] + before)
        inside[-1] = (inside[-1][0], inside[-1][1] + behind)
        whole = sum(metres for _, metres in inside)
        spare = math.ceil(whole / step - 1e-7) * step - whole
        inside[-1] = (inside[-1][0], inside[-1][1] + spare)
        return inside

    found = {
        "feed": cut(fuse, end, before=half if fused else 0.0, behind=half),
        "return": cut(0.0, end, before=half, behind=half),
    }
    if not fused:
        found["source"] = cut(0.0, fuse, before=half, behind=0.0)
    return found


def bundle(conductors: int) -> float:
    return next(factor for fewest, factor in BUNDLES if conductors >= fewest)


def ampacity(fit: Fit, cable: CableSheet, area: float, zone: str, conductors: int) -> float:
    """I_T of a size in a zone, by the source that the profile names."""
    place, size = fit.shop.zones[zone], next(s for s in cable.sizes if s.area.value == area)
    ambient, limit = place.temperature.high, cable.conductor_max.value
    if fit.shop.ampacity is AmpacitySource.CFR_183_425:
        gauge = min(awg for awg, mm2 in AWG_MM2.items() if size.area.low >= mm2 * 0.997)
        root = min(1.0, math.sqrt((105 - ambient) / 75))
        engine = ENGINE_105 if place.engine_space else 1.0
        return TABLE_5[gauge] * min(root, engine) * bundle(conductors)
    rows = {row.ambient.value: row.current.low for row in size.ampacity}
    reference = cable.reference_ambient.value
    carried = rows.get(ambient)
    if carried is None:
        carried = rows[reference] * math.sqrt((limit - ambient) / (limit - reference))
        carried = min([carried, *(amps for at, amps in rows.items() if at < ambient)])
        carried = max([carried, *(amps for at, amps in rows.items() if at > ambient)])
    return carried * bundle(conductors)


# ------------------------------------------------------------------ the input loop


class Loop:
    """Both ways of the input, each stretch as warm as the current makes it."""

    def __init__(self, fit: Fit, area: float) -> None:
        size = next(s for s in fit.cable.sizes if s.area.value == area)
        segments = fit.vehicle.routes[fit.job.route].segments
        self.fit, self.r20 = fit, size.resistance.high
        self.limit = fit.cable.conductor_max.value
        self.pieces = pieces(fit)
        self.carries = {
            zone: ampacity(
                fit, fit.cable, area, zone, 2 + max(s.bundled for s in segments if s.zone == zone)
            )
            for part in self.pieces.values()
            for zone, _ in part
        }
        self.contacts = {
            "source": fit.shop.joints.positive.high,
            "return": fit.shop.joints.negative.high,
        }

    def warm(self, zone: str, amps: float) -> float:
        ambient = self.fit.shop.zones[zone].temperature.high
        return ambient + (self.limit - ambient) * (amps / self.carries[zone]) ** 2

    def ohm(self, amps: float, uses: tuple[str, ...] = ("source", "feed", "return")) -> float:
        found = sum(
            metres * self.r20 * (1 + (self.warm(zone, amps) - 20) / COPPER)
            for use in uses
            for zone, metres in self.pieces.get(use, ())
        )
        return found + sum(self.contacts[use] for use in uses if use in self.contacts)

    def metres(self) -> float:
        return sum(metres for part in self.pieces.values() for _, metres in part)

    def hot(self) -> float:
        copper = self.metres() * self.r20 * (1 + (self.limit - 20) / COPPER)
        return copper + sum(self.contacts.values())

    def hottest(self, amps: float) -> float:
        return max(self.warm(zone, amps) for zone in self.carries)

    def solve(self, volts: float, watts: float) -> float | None:
        """Current of the lower root of U·I − I²·R(I) = P, None where the power cannot arrive."""

        def arrives(amps: float) -> float:
            return volts * amps - amps**2 * self.ohm(amps) - watts

        def slope(amps: float) -> float:
            by = 1e-4
            return (arrives(amps + by) - arrives(amps - by)) / (2 * by)

        peak = brentq(slope, 1e-3, volts / self.ohm(0.0), xtol=1e-10)
        if arrives(peak) < 0:
            return None
        amps = brentq(arrives, 0.0, peak, xtol=1e-12, rtol=1e-14)
        return None if self.hottest(amps) > HOTTEST_C else amps


def reckon(fit: Fit, choice: Choice) -> dict[str, float | None]:
    """Return every figure of the choice that is reckoned here, by name."""
    loop = Loop(fit, choice.area_mm2)
    return {
        **_feed(fit, choice, loop),
        **_faults(fit, choice, loop),
        **_output(fit, choice),
        **_budget(fit, choice, loop),
        **_place(fit, choice),
    }


def watts_in(fit: Fit, choice: Choice) -> float:
    steps = fit.charger.power.steps if fit.charger.power else ()
    written = next((s.power for s in steps if s.power.value == choice.power_W), None)
    step = written or fit.charger.output_power
    most = min(step.high, fit.charger.output_power.high, fit.station.input_power.high)
    return most / fit.charger.efficiency.low


def _feed(fit: Fit, choice: Choice, loop: Loop) -> dict[str, float | None]:
    watts = watts_in(fit, choice)
    found: dict[str, float | None] = {"power": watts, "carries": min(loop.carries.values())}
    volts = {
        "low": fit.vehicle.supply.low.low,
        "typical": fit.vehicle.supply.typical.value,
        "rest": fit.vehicle.supply.rest.value,
    }
    for name, supply in volts.items():
        amps = loop.solve(supply, watts)
        found[f"{name}.current"] = amps
        if amps is not None:
            out = loop.ohm(amps, ("source", "feed"))
            if "source" not in loop.pieces:
                out = loop.ohm(amps, ("feed",)) + loop.contacts["source"]
            back = loop.ohm(amps, ("return",))
            found |= {
                f"{name}.volts": supply - amps * (out + back),
                f"{name}.drop": amps * (out + back) / supply,
                f"{name}.out": out,
                f"{name}.back": back,
                f"{name}.hottest": loop.hottest(amps),
            }
    return found


def resistance(fit: Fit) -> tuple[float, float] | None:
    """Low and high end of the battery's internal resistance."""
    known = fit.vehicle.battery.internal
    if not isinstance(known, Quantity):
        return None
    if known.basis.state is State.ESTIMATED:
        return 0.7 * known.value, 1.5 * known.value  # RULES: an estimate in a margin
    return known.low, known.high


def _faults(fit: Fit, choice: Choice, loop: Loop) -> dict[str, float | None]:
    supply, internal = fit.vehicle.supply, resistance(fit)
    k = K_COPPER * math.sqrt(
        math.log((fit.cable.short_circuit.value + 234.5) / (loop.limit + 234.5))
    )
    found: dict[str, float | None] = {
        "far_ohm": loop.hot(),
        "k": k,
        "overload": CARRIES * choice.rating_A / (STANDS * min(loop.carries.values())),
        "protection": _carried(fit, choice),
    }
    if internal is None:
        return found | dict.fromkeys(("near", "far", "opens_near", "opens_far"))
    near = supply.high.high / internal[0]
    far = supply.low.low / (internal[1] + loop.hot())
    for name, amps in (("near", near), ("far", far)):
        times = [
            gate.within.value
            for gate in gates(fit, choice)
            if gate.multiple.value * choice.rating_A <= amps and gate.within.value <= ADIABATIC_S
        ]
        opens = min(times) if times else None
        found |= {name: amps, f"opens_{name}": opens}
        found[f"withstand_{name}"] = (
            None if opens is None else amps**2 * opens / (k * choice.area_mm2) ** 2
        )
    return found


def gates(fit: Fit, choice: Choice):
    fuse = fit.vehicle.points[fit.job.source.positive].factory_fuse
    if fuse is not None:
        return fuse.opens
    return fit.protections[fit.job.protection.index(choice.family)].opens


def _carried(fit: Fit, choice: Choice) -> float | None:
    point = fit.vehicle.points[fit.job.source.positive]
    if point.factory_fuse is not None:
        return point.factory_fuse.continuous.low
    sheet = fit.protections[fit.job.protection.index(choice.family)]
    ambient = fit.shop.zones[zone_of_fuse(fit)].temperature.high
    rows = sorted((row.ambient.value, row.factor.low) for row in sheet.derating)
    d = next((factor for at, factor in rows if at >= ambient), None)
    k = fit.shop.limits.continuous_factor.value.value
    return None if d is None else choice.rating_A * k * d


def zone_of_fuse(fit: Fit) -> str:
    segments, end = fit.vehicle.routes[fit.job.route].segments, 0.0
    for segment in segments:
        end += segment.length.value
        if fit.job.source.fuse_at.value <= end:
            return segment.zone
    return segments[-1].zone


# ------------------------------------------------------------------ the output, and the rest


def given(fit: Fit, choice: Choice, volts: float) -> float:
    """Power at an output voltage."""
    amps = min(fit.charger.output_current.value, fit.station.input_current.value)
    most = min(choice.power_W, fit.charger.output_power.value, fit.station.input_power.value)
    return min(most, volts * amps)


def _output(fit: Fit, choice: Choice) -> dict[str, float | None]:
    charger, cable = fit.charger, fit.output_cable
    tolerance, over = charger.output_tolerance.high, charger.overshoot.high
    size = next(s for s in cable.sizes if s.area.value == fit.job.output_area.value)
    zone = fit.vehicle.mounts[fit.job.mount].zone
    ambient, limit = fit.shop.zones[zone].temperature.high, cable.conductor_max.value
    carries = ampacity(fit, cable, size.area.value, zone, 2)
    power = given(fit, choice, choice.set_V)
    amps = power / choice.set_V
    warm = min(limit, ambient + (limit - ambient) * (amps / carries) ** 2)
    metres, joint = fit.job.output_length.high, 0.0
    if fit.second is not None:
        metres += fit.shop.lengths.end_allowance.value
        joint = fit.shop.joints.protection.high
    ohm = 2 * metres * size.resistance.high * (1 + (warm - 20) / COPPER) + joint
    return {
        "low_V": choice.set_V * (1 - tolerance),
        "high_V": choice.set_V * (1 + tolerance) + over,
        "default_high_V": charger.output_default.value * (1 + tolerance) + over,
        "power_W": power,
        "sure_W": given(fit, choice, choice.set_V * (1 - tolerance)),
        "out_A": amps,
        "lead_carries": carries,
        "lead_ohm": ohm,
        "station_V": choice.set_V - amps * ohm,
        "out_drop": amps * ohm / choice.set_V,
    }


def _budget(fit: Fit, choice: Choice, loop: Loop) -> dict[str, float | None]:
    supply, limits = fit.vehicle.supply, fit.shop.limits
    drawn = loop.solve(supply.low.low, watts_in(fit, choice))
    sleep = supply.sleep.high + fit.charger.standby.high
    usable = limits.standby_share.value.value * fit.vehicle.battery.capacity.low
    found: dict[str, float | None] = {"sleep": sleep, "standby_d": usable / sleep / 24}
    for speed, hot in (("idle", supply.hot_idle), ("cruise", supply.hot_cruise)):
        for light, base in (("day", supply.base_day), ("night", supply.base_night)):
            known = hot is not None and drawn is not None
            found[f"{speed}_{light}"] = (
                limits.alternator_headroom.value.value * hot.low - base.high - drawn
                if known
                else None
            )
    return found


def _place(fit: Fit, choice: Choice) -> dict[str, float | None]:
    mount, pull = fit.vehicle.mounts[fit.job.mount], fit.shop.restraint
    ways = [(one or pull.other).value for one in (pull.rearward, pull.sideways, pull.upward)]
    worst = max(pull.forward.value, *ways)
    left = mount.fixings - pull.fixings_lost
    ambient, derating = fit.shop.zones[mount.zone].temperature.high, fit.charger.derating
    share = 1 - derating.per_kelvin.value * max(0.0, ambient - derating.full_to.value)
    power = given(fit, choice, choice.set_V)
    return {
        "heat": power / fit.charger.efficiency.low - power,
        "derated": 0.0 if ambient >= derating.stop.value else max(0.0, share),
        "charger_N": fit.charger.mass.high * pull.forward.value * G_N,
        "station_N": fit.station.mass.high * pull.forward.value * G_N,
        "strap_N": fit.station.mass.high * worst * G_N,
        "fixing_N": fit.charger.mass.high * worst * G_N / left if left > 0 else math.inf,
        "held_N": _held(fit),
        "tip": mount.screw_length.high - mount.panel.low,
    }


def _held(fit: Fit) -> float | None:
    """AISI S100: 0.85 t d F_u / 3 for a self-tapping screw; else the maker's figure alone."""
    mount = fit.vehicle.mounts[fit.job.mount]
    stated = mount.holds.low if isinstance(mount.holds, Quantity) else None
    if mount.fastener is not Fastener.SELF_TAPPING:
        return stated
    metric = mount.panel.low * 1e3 * mount.screw.low * 1e3 * mount.sheet_strength.low
    bites = 0.85 * metric / 3
    return bites if stated is None else min(bites, stated)


def cut_out(fit: Fit) -> float:
    by_volts = fit.vehicle.cues[fit.job.cue].kind is CueKind.VOLTAGE
    return (fit.charger.cut_out if by_volts else fit.charger.cut_out_run).high

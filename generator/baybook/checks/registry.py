"""Every rule by its code, each once, in the order in which one decides.

The letters of a code name its subject: OV output, OC overcurrent, CA cable, SU supply, CU cue,
NE negative, TQ torque, RT route, HT heat, FX fixing, RS restraints, ES estimates, AG agreement.
A code is never used again for another rule.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from baybook.checks import (
    agree,
    cable,
    copper,
    cue,
    estimate,
    fault,
    fixing,
    lead,
    negative,
    output,
    protection,
    route,
    supply,
    torque,
)
from baybook.checks.found import Rule

RULES: Mapping[str, Rule] = MappingProxyType(
    {
        "SU-05": supply.single_charger,
        "SU-06": supply.class_known,
        "SU-01": supply.voltage_class,
        "SU-02": supply.allowance,
        "OV-01": output.over_absolute_maximum,
        "OV-03": output.default_comes_back,
        "OV-02": output.outside_window,
        "OV-06": output.over_touch_limit,
        "OV-08": lead.connector_halves,
        "OV-10": lead.output_rating,
        "OV-11": lead.terminal,
        "OV-07": lead.output_drop,
        "CU-01": cue.voltage_with_converter,
        "CU-02": cue.thresholds,
        "NE-01": negative.sensor_on_post,
        "NE-03": negative.chassis_return,
        "CA-08": copper.less_than_copper,
        "CA-09": copper.more_than_standard,
        "CA-10": copper.warmer_than_class,
        "CA-07": cable.capacity_known,
        "CA-03": cable.no_solution,
        "OC-02": protection.protects_cable,
        "OC-09": protection.overload,
        "CA-01": cable.drop,
        "CA-02": cable.hunting,
        "CA-04": cable.terminal,
        "CA-05": cable.parts_take_it,
        "OC-01": protection.carries_design_current,
        "OC-03": protection.charger_upstream,
        "OC-04": protection.voltage_class,
        "OC-05": fault.breaking_capacity,
        "OC-06": fault.opens_far_fault,
        "OC-08": fault.withstand,
        "OC-07": protection.distance,
        "OC-10": protection.stud_takes_lug,
        "OC-11": protection.automatic_reset,
        "OC-12": fault.gates_stated,
        "NE-02": negative.isolator,
        "SU-04": supply.cruise_deficit,
        "SU-03": supply.idle_deficit,
        "RT-01": route.exhaust_distance,
        "RT-02": route.hole,
        "HT-01": route.derating,
        "FX-01": fixing.tip_protrusion,
        "FX-02": fixing.depth_unknown,
        "FX-03": fixing.fixings_left,
        "RS-01": fixing.restraints_listed,
        "RS-02": fixing.restraint_wait,
        "OV-04": output.default_outside,
        "OV-05": output.default_destroys_once,
        "OV-09": lead.constant_voltage_trial,
        "TQ-01": torque.unknown,
        "TQ-02": torque.over_palm_limit,
        "CU-03": cue.stops_at_rest,
        "CU-04": cue.ignition_alone,
        "CA-11": copper.maximum_unread,
        "ES-01": estimate.estimated_margin,
        "AG-01": agree.laws_hold,
    }
)

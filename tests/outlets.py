"""A charger's output as a guide hands it to the page, for tests of what another station meets."""

from baybook.equipment import Outlet

OUTLET = Outlet(
    low_V=40.59,
    high_V=41.81,
    set_V=41.0,
    default_low_V=41.58,
    default_high_V=42.82,
    default_after_reset=True,
    absolute_margin=0.05,
    charger_A=18.0,
    plug_A=25.0,
    lead_A=18.0,
    full_W=520.0,
    counted_W=520.0,
    connector="one",
    mates=("one", "two"),
    polarity="by pin",
)

"""A variant of the example's estate whose body carries the return: allowed, and measured."""

from baybook.fit import Fit
from workbooks import TANSY, spoilt_fit

FIT = "brunsall-tansy/j1"

ALLOWED = ("\nroutes:\n", "\nbody_return: yes\n\nroutes:\n")
LOOP = """
body_loops:
  - start: body-boot
    end: body-left
    drop: {value: 62 mV ± 5 %, basis: survey, method: millivoltmeter on bare metal}
    current: {value: 40 A ± 2 %, basis: clamp, method: load bank from the battery's plus}
"""
POINT = """  body-boot:
    role: negative
    kind: body point
    what: body point on the left wheel arch
    place: boot left, 300 mm below the charger
    zone: load-bay
    thread: M8
    torque: {value: 18 N·m, basis: manual}
    tool: 13 mm socket
    photo: P10
    at_post: false
"""
SOURCE = (
    "      negative: body-left\n",
    "      negative: body-boot\n      return_path: chassis\n      return_length: 0.4 m\n",
)
# One cable through the bulkhead instead of two: a gland in the hole that is there.
WALL = (
    (
        "          form: grommet      # in a hole that is there\n          family: osmick-gm\n",
        "          form: gland\n          family: osmick-g\n",
    ),
    ("          hole: {value: 22 mm,", "          hole: {value: 16.5 mm,"),
    ("          each: false ", "          each: true "),
)
CHANGES = tuple(
    (TANSY, old, new)
    for old, new in (
        ALLOWED,
        ("\nroutes:\n", f"{LOOP}\nroutes:\n"),
        ("  negative-post: ", f"{POINT}  negative-post: "),
        SOURCE,
        *WALL,
    )
)


def chassis_fit(folder, *changes: tuple[str, str]) -> Fit:
    """Return the fit by the chassis, with more changes to the vehicle file's text."""
    return spoilt_fit(folder, FIT, *CHANGES, *((TANSY, old, new) for old, new in changes))

"""A variant of the example's estate whose feed starts at a point that others draw from too."""

from workbooks import TANSY, spoilt_fit

FIT = "brunsall-tansy/j1"
LINE = """    line:
      drop: {value: 30 mV ± 5 %, basis: survey}
      current: {value: 25 A ± 2 %, basis: clamp}
      carries: {value: 60 A, basis: manual}
      loads:
        - what: trailer socket
          current: {value: 8 A ± 10 %, basis: clamp}
        - what: fridge in the boot
          power: {value: 60 W ± 5 %, basis: manual}
"""
STUD = "    photo: P2\n    at_post: true\n"
CHANGES = ((TANSY, STUD, STUD.replace("true", "false") + LINE),)


def shared_fit(folder, *changes: tuple[str, str]):
    """Return the fit on the shared line, with more changes to the vehicle file's text."""
    return spoilt_fit(folder, FIT, *CHANGES, *((TANSY, old, new) for old, new in changes))

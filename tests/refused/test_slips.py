"""The table of slips is long enough, and what only a rule can see is refused by it."""

import pytest

from baybook.checks import judge
from baybook.design import Refusal
from baybook.sizing.choose import choose
from refused.slips import DEVICES, LEFT_OUT, MISFITS, PUNCTUATION, SLIPS
from workbooks import spoilt_fit


@pytest.mark.parametrize("slip", MISFITS, ids=[slip[4] for slip in MISFITS])
def test_what_is_well_written_and_wrong_is_refused(tmp_path, slip):
    fit, file, old, new, code, name = slip
    found = choose(spoilt_fit(tmp_path, fit, (file, old, new)), judge)
    assert isinstance(found, Refusal)
    told = [str(finding.found) for finding in found.findings if finding.code == code]
    assert any(name in one for one in told)


def test_fifty_ways_and_more_are_tried_and_none_twice():
    tried = [(*slip[:3],) for slip in (*SLIPS, *PUNCTUATION, *DEVICES, *LEFT_OUT)]
    tried += [slip[1:4] for slip in MISFITS]
    assert len(set(tried)) == len(tried) > 50

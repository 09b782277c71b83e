"""Lists of many vehicles: what their entries have in common is held once."""

from dataclasses import replace

from baybook.publish.listing import Alike, listed
from publish import told


def test_what_two_vehicles_have_in_common_is_one_object():
    alike = Alike()
    one, other = listed(told.guide()), listed(told.guide())
    assert one.content["guide"]["figures"] is not other.content["guide"]["figures"]
    ((first,),), ((second,),) = alike([[one]]), alike([[other]])
    for key in ("figures", "sources"):
        assert first.content["guide"][key] is second.content["guide"][key]


def test_nothing_is_changed_by_it_and_what_differs_stays_apart():
    alike = Alike()
    one = listed(told.guide())
    guide = one.content["guide"]
    other = replace(one, content={**one.content, "guide": {**guide, "figures": []}})
    assert alike([[one], [other]]) == ((one,), (other,))
    assert one.content["guide"] is guide

"""Workbooks spoilt at random: each is a finding with a place, or a design that is judged."""

from bench.fuzz import only_read, run


def test_no_spoilt_workbook_is_a_traceback_or_a_hang(tmp_path):
    found = run(20, 120, tmp_path)
    assert [(number, at, trace) for number, at, _, trace in found.finds] == []
    assert found.ways["fault"] > 60  # most are spoilt for good
    assert found.ways["checked"] > 8  # and some are not
    assert found.ways["published"] >= 1


def test_every_fault_of_a_spoilt_workbook_has_a_place_and_words(tmp_path):
    found = run(21, 200, tmp_path, only_read)
    assert [(number, at, trace) for number, at, _, trace in found.finds] == []
    assert found.ways["fault"] > 120
    assert found.ways["read"] > 15

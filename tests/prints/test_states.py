"""Drafts, real data, refusals and withdrawals on paper."""

from dataclasses import replace

import pytest
import zxingcpp

from prints import sample
from prints.paper import PAPERS, edited, pages, printed, raster


def test_a_draft_says_so_on_every_sheet_and_why():
    guide = replace(sample.GUIDE, draft=(sample.s("Internal resistance is an estimate."),))
    texts = pages(printed(sample.entry(guide, state="draft"))["a4"])
    assert all("DRAFT · Not approved. Do not work from it." in text for text in texts)
    assert "Internal resistance is an estimate." in texts[0]


def test_a_released_guide_is_no_draft():
    released = printed(sample.entry(sample.GUIDE))["a4"]
    assert not any("DRAFT" in text for text in pages(released))


def test_real_data_carries_no_demonstration_mark():
    def change(guide):
        guide["identity"]["demonstration"] = False

    assert "Demonstration" not in " ".join(pages(printed(edited(change))["a4"]))


@pytest.mark.parametrize("paper", PAPERS)
def test_a_refusal_is_one_sheet_without_anything_to_build_from(paper):
    entry = sample.entry(sample.REFUSAL, "refusal", "refused")
    (text,) = pages(printed(entry, paper)[paper])
    assert "Refused OV-01: the charger can destroy the station" in text
    assert "Refused pairing, " in text
    assert "Install job sheet" not in text
    assert "Both are sold as 24 V." in text
    assert "30.8 V" in text
    assert "28.5 V" in text
    assert "Use another charger." in text
    for word in ("Kit", "Cut list", "Steps", "Torque"):
        assert word not in text


@pytest.mark.parametrize("paper", PAPERS)
def test_a_withdrawal_is_one_black_sheet(paper):
    entry = sample.entry(sample.WITHDRAWAL, "withdrawal", "withdrawn")
    pdf = printed(entry, paper)[paper]
    (text,) = pages(pdf)
    assert "WITHDRAWN. STOP." in text
    assert "It was revision 3 of 2024-11-29." in text
    assert "The rules refuse this fit now." in text
    assert "reports@example.invalid" in text
    image = raster(pdf, 0, 2).convert("L")
    dark = sum(image.histogram()[:64]) / (image.width * image.height)
    assert dark > 0.8
    assert zxingcpp.read_barcodes(image)[0].text.endswith("/dunstrel-cobble/j9b/?r=3")

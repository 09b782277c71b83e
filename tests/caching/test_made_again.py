"""What was made before is used again only where the same would be made: byte for byte.

Each test changes one thing and compares a publish with the cache to one without; and it asks
which vehicles were made, so that nothing is made in vain.
"""

import shutil
from datetime import date

import pytest

from baybook import notes, unchanged
from baybook.pipeline import publish, render
from baybook.publish import site
from caching.publishes import ALL, made
from conftest import TODAY
from workbooks import COBBLE, SHOP, TANSY, edit, edit_first


def test_what_did_not_change_is_not_made_again(top):
    assert made(top / "fits") == 0


@pytest.mark.parametrize(
    ("name", "old", "new", "vehicles"),
    [
        (TANSY, "# ", "# now ", 1),
        ("datasheets/sundry/osmick-h.yaml", "# ", "# now ", 2),
        ("datasheets/charger/sorrel-240.yaml", "# ", "# now ", 3),  # their lines of the matrix
        ("datasheets/cable/cordrow-f105.yaml", "# ", "# now ", 3),
        (COBBLE, "# ", "# now ", 2),  # and its variant
        (SHOP, "# ", "# now ", 3),
    ],
)
def test_a_change_concerns_the_vehicles_that_were_made_of_it(top, name, old, new, vehicles):
    edit_first(top / "fits", name, old, new)
    assert made(top / "fits") == vehicles
    assert made(top / "fits") == 0


OWN, BASE = "vehicles/brunsall-tansy/photos/", "vehicles/dunstrel-cobble/photos/"


@pytest.mark.parametrize(("folder", "vehicles"), [(OWN, 1), (BASE, 2)], ids=["own", "the base's"])
def test_a_picture_that_changes_is_made_again_with_what_shows_it(top, folder, vehicles):
    root = top / "fits"
    first = render(root, today=TODAY, cache=top / "cache", workers=1)
    file = root / folder / "positive-clamp.png"
    file.write_bytes((root / BASE / "box-wall.png").read_bytes())
    assert made(root) == vehicles
    assert made(root) == 0
    again = render(root, today=TODAY, cache=top / "cache", workers=1)
    assert set(again.files) != set(first.files)


def test_a_picture_that_comes_or_goes_is_noticed(top):
    root = top / "fits"
    folder = root / OWN
    shutil.copy(folder / "sensor.jpg", folder / "another.jpg")  # nothing names it
    assert made(root) == 1
    (folder / "another.jpg").unlink()
    made(root)
    (folder / "sensor.jpg").rename(folder / "probe.jpg")
    made(root)  # as without a cache: told as missing, and nothing is made
    edit(root, TANSY, "    file: sensor.jpg\n", "    file: probe.jpg\n")
    made(root)
    assert made(root) == 0


def test_only_lines_of_the_matrix_are_made_of_a_sheet_that_a_vehicle_does_not_name(
    top, monkeypatch
):
    edit_first(top / "fits", "datasheets/charger/sorrel-240.yaml", "# ", "# now ")
    asked = []
    recall = notes.Notes.recall

    def watched(self, orders, texts):
        done, left = recall(self, orders, texts)
        asked.extend((order.slug, order.pages) for order in left)
        return done, left

    monkeypatch.setattr(notes.Notes, "recall", watched)
    render(top / "fits", today=TODAY, cache=top / "cache", workers=1)
    assert dict(asked) == {slug: slug == "brunsall-tansy" for slug in ALL}


def test_a_figure_that_changes_in_a_sheet_reaches_the_pages(top):
    name = "datasheets/charger/sorrel-240.yaml"
    before = (top / "fits" / name).read_text("utf-8")
    edit_first(top / "fits", name, "efficiency: 0.", "efficiency: 0.8 # 0.")
    assert (top / "fits" / name).read_text("utf-8") != before
    assert made(top / "fits") == 3


def test_a_vehicle_that_goes_or_comes_changes_the_lists_only(top):
    shutil.move(top / "fits" / "vehicles" / "brunsall-tansy", top / "away")
    assert made(top / "fits") == 0
    shutil.move(top / "away", top / "fits" / "vehicles" / "brunsall-tansy")
    assert made(top / "fits") == 0


def test_a_sheet_that_is_broken_stops_a_publish_that_could_do_without(top):
    (top / "fits" / "datasheets/sundry/osmick-c.yaml").write_text("brand: [", "utf-8")
    assert made(top / "fits") == 0


def test_a_sheet_that_is_gone_or_could_be_meant_is_noticed(top):
    root = top / "fits"
    shutil.copy(root / "datasheets/battery/lfp-120.yaml", root / "datasheets/battery/tun-500.yaml")
    made(root)
    (root / "datasheets/battery/tun-500.yaml").unlink()
    (root / "datasheets/protection/tarrock-bf32.yaml").unlink()
    made(root)


def test_another_tool_another_language_another_way_to_ask_make_everything(top, monkeypatch):
    assert made(top / "fits", drafts=True) == 3
    for module in (notes, site, unchanged):
        monkeypatch.setattr(module, "tool_digest", lambda: "another")
    assert made(top / "fits") == 3


def test_a_translation_that_changes_makes_what_says_it(top):
    root = top / "fits"
    edit(root, SHOP, "languages: [en]", "languages: [en, de]")
    wanted = {}
    for name in sorted(ALL):
        fits = notes_on(root, name)
        wanted |= fits
    lines = [f"{yaml_text(text)}: {yaml_text(text)}" for text in wanted]
    (root / "texts" / "de.yaml").write_text("\n".join(lines) + "\n", "utf-8")
    assert made(root) == 3
    assert made(root) == 0
    others = {text for name in ALL - {"brunsall-tansy"} for text in notes_on(root, name)}
    own = next(text for text in notes_on(root, "brunsall-tansy") if text not in others)
    old = f"{yaml_text(own)}: {yaml_text(own)}"
    edit(root, "texts/de.yaml", old, f"{yaml_text(own)}: {yaml_text('anders')}")
    assert made(root) == 1


def notes_on(root, slug):
    from baybook.making import Hand  # noqa: PLC0415 - this test alone
    from baybook.publish.store import PassingStore  # noqa: PLC0415

    return Hand(root, PassingStore()).glance(slug).wanted


def yaml_text(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def test_what_was_published_since_is_asked_for(top):
    root, site_ = top / "fits", top / "site"
    published = publish(root, site_, today=TODAY, cache=top / "cache")
    assert len(published.issued) == 3
    assert made(root) == 0  # the revisions stand now, and are the ones that were made
    (revision,) = (root / "issued" / "brunsall-tansy" / "j1").iterdir()
    revision.write_text(revision.read_text("utf-8").replace('"text": "', '"text": "0', 1), "utf-8")
    assert made(root) == 1


def test_a_licence_that_lapses_makes_a_new_day(top):
    root, lapses = top / "fits", date(2026, 1, 20)
    assert render(root, today=TODAY, cache=top / "cache").until == lapses
    assert made(root, today=lapses) == 0
    assert made(root, today=date(2026, 1, 21)) == 3
    edit(root, SHOP, f"    until: {lapses} ", "    until: 2024-12-02 ")
    assert render(root, today=date(2024, 12, 2)).until == date(2024, 12, 2)


def test_a_file_that_changes_while_it_is_read_is_not_noted(top, monkeypatch):
    """A note must not say of the new file what was made of the old one."""
    root = top / "fits"
    edit_first(root, TANSY, "# ", "# now ")
    whole, looks = notes.inventory, []

    def late(workbook):
        looks.append(1)
        if len(looks) == 2:
            edit_first(root, TANSY, "# now ", "# later ")
        return whole(workbook)

    monkeypatch.setattr(notes, "inventory", late)
    render(root, today=TODAY, cache=top / "cache", workers=1)
    edit_first(root, TANSY, "# later ", "# now ")
    assert made(root) == 1

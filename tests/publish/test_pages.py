"""The pages as bytes: strict, escaped, clean under their own policy, the same twice."""

import json
import re
from copy import deepcopy

import jinja2
import pytest

from baybook.overlay import NO_OVERLAY
from baybook.publish.frame import environment
from baybook.publish.markup import PageError
from baybook.publish.pages import entry_pages
from publish import told
from publish.markup_reader import ids, read

ALL = (told.guide(), told.refusal(), told.withdrawal())
GONE = "guides/tavlow-camber/j8/index.html"


@pytest.fixture(scope="module")
def files():
    return told.pages(*ALL, prints={told.FIT: {"a4": b"%PDF-a4", "letter": b"%PDF-letter"}})


@pytest.fixture(scope="module")
def html(files):
    return {name: content.decode() for name, content in files.items() if name.endswith(".html")}


# ------------------------------------------------------------------ what is there


def test_every_entry_has_a_page_and_data_at_its_address(files):
    for entry in ALL:
        assert f"guides/{entry.fit}/index.html" in files
        assert f"guides/{entry.fit}/guide.json" in files
    assert {"index.html", "index.json", "assets/site.css", "assets/site.js"} <= set(files)
    assert "assets/fonts/OFL.txt" in files


def test_prints_stand_beside_the_page_and_are_linked(files, html):
    assert files[f"guides/{told.FIT}/job-sheet-a4.pdf"] == b"%PDF-a4"
    assert 'href="job-sheet-a4.pdf"' in html[told.PAGE]
    assert 'href="job-sheet-letter.pdf"' in html[told.PAGE]


def test_a_guide_shows_its_parts_in_the_order_of_the_work(html):
    wanted = ["hurts", "vehicle", "cautions", "kit", "wiring", "torque", "route", "steps",
              "readings", "envelope", "sizes", "undo", "workings", "sources",
              "revision"]  # fmt: skip
    found = [i for i in ids(read(html[told.PAGE])) if i in wanted]
    assert found == wanted


def holds_of(guide_):
    rows = [*(step for chapter in guide_["chapters"] for step in chapter["steps"])]
    return [row["hold"] for row in (*rows, *guide_["readings"]) if row["hold"]]


def test_a_us_reader_finds_gauges_in_the_table_of_sizes_and_his_limits_beside_a_box():
    def american(guide_):
        guide_["sizes"][0]["area"]["converted"] = "AWG 7"
        guide_["readings"][0]["high"]["converted"] = "54 °F"
        fields = [field for one in holds_of(guide_) for field in one["fields"]]
        limit = next(
            field["high"] or field["low"] for field in fields if field["high"] or field["low"]
        )
        limit["converted"] = "0.75 in"

    page = told.page(told.changed(told.guide(), american))
    for second in ("AWG 7", "54 °F", "0.75 in"):
        assert f'</span> <span class="converted">({second})</span>' in page, second
    assert '<span class="converted">()' not in told.page(told.guide())


def test_a_box_stands_above_its_step_and_a_hold_below(html):
    page = html[told.PAGE]
    assert (
        page.index('class="panel danger"')
        < page.index("Hazard crush", page.index('id="steps"'))
        < page.index("Do thing number 4")
        < page.index("Do thing number 5")
    )
    assert page.index("Do thing number 5") < page.index("Behind every screw")
    assert page.index("Behind every screw") < page.index("Do thing number 6")


def test_what_can_hurt_is_named_before_the_work_the_gravest_first():
    def repeat(guide):
        steps = guide["chapters"][-1]["steps"]
        steps[-1]["boxes"] = guide["chapters"][0]["steps"][1]["boxes"]

    page = told.page(told.changed(told.guide(), repeat))
    summary = page[page.index('id="hurts"') : page.index('id="vehicle"')]
    assert re.findall(r'#step-(\d+)"><strong>(\w+)</strong> Hazard (\w+)', summary) == [
        ("4", "DANGER", "crush"),
        ("2", "WARNING", "arc"),
        ("4", "WARNING", "drill"),
        ("6", "CAUTION", "hot"),
        ("9", "NOTICE", "sensor"),
    ]


def test_a_hold_of_the_readings_stands_there_and_is_named_in_the_steps(html):
    page = html[told.PAGE]
    assert page.count('id="hold-5"') == 1
    assert page.index('id="reading-R2"') < page.index('id="hold-5"') < page.index('id="reading-R3"')
    assert 'href="#hold-5"' in page[: page.index('id="readings"')]


def test_notice_has_no_alert_triangle(html):
    page = html[told.PAGE]
    notice = page[page.index('class="panel notice"') :]
    bar = notice[: notice.index("NOTICE")]
    assert "symbol-alert" not in bar
    danger = page[page.index('class="panel danger"') :]
    assert "symbol-alert" in danger[: danger.index("DANGER")]


def test_a_refusal_holds_nothing_to_build_from(html):
    page = html["guides/ostrigg-drey/j4/index.html"]
    rule = '<a class="q" href="../../../manual/rules-ov.html#OV-01">OV-01</a>'
    assert f"Refused {rule}: the charger can destroy the station" in page
    assert "<svg" in page  # its mark
    for word in ("HOLD", 'id="steps"', 'id="kit"', 'id="wiring"', 'class="drawing"'):
        assert word not in page


def test_a_withdrawal_stops_the_reader_before_anything_else(html):
    page = html[GONE]
    assert page.index("WITHDRAWN. STOP.") < page.index("<h1>")
    assert 'id="steps"' not in page


def test_what_is_withdrawn_is_not_to_be_checked_again(html):
    held, ended = (html[page][html[page].index('id="revision"') :] for page in (told.PAGE, GONE))
    assert "Check again after" in held
    assert "Check again after" not in ended
    assert "<li>Revision " in ended


# ------------------------------------------------------------------ marks


def test_demonstration_data_is_marked_everywhere_and_kept_out_of_search(html, files):
    for page in html.values():
        assert "Demonstration data." in page
        assert '<meta name="robots" content="noindex">' in page
    for name in files:
        if name.endswith(".json") and not name.endswith("offline.json"):
            assert json.loads(files[name])["demonstration"] is True


def test_a_real_released_guide_may_be_found():
    page = told.page(told.guide(), demonstration=False)
    assert "noindex" not in page
    assert "Demonstration" not in page


def test_a_draft_says_why_and_is_kept_out_of_search():
    why = {"runs": [{"kind": "text", "text": "No approval."}], "text": "No approval."}
    draft = told.changed(told.guide(state="draft"), lambda guide: guide.update(draft=[why]))
    page = told.page(draft, demonstration=False)
    assert page.index("DRAFT") < page.index("No approval.") < page.index("<h1>")
    assert "noindex" in page
    assert "Released" not in page


# ------------------------------------------------------------------ strict


def test_an_unknown_word_raises():
    made = environment(told.WORDS, NO_OVERLAY)
    with pytest.raises(PageError, match=r"page\.kit\.titel"):
        made.from_string('{{ w("page.kit.titel") }}').render()


def test_a_word_without_its_value_raises():
    made = environment(told.WORDS, NO_OVERLAY)
    with pytest.raises(PageError, match="strip"):
        made.from_string('{{ w("page.cut.strip") }}').render()


def test_a_missing_value_raises():
    entry = told.changed(told.guide(), lambda guide: guide.pop("retorque"))
    with pytest.raises(jinja2.UndefinedError, match="retorque"):
        told.page(entry)


def test_an_unknown_symbol_raises():
    def other(guide):
        guide["chapters"][0]["steps"][1]["boxes"][0]["symbol"] = "skull"

    with pytest.raises(PageError, match="skull"):
        told.page(told.changed(told.guide(), other))


def test_a_missing_drawing_raises():
    with pytest.raises(jinja2.UndefinedError, match="wiring-wide"):
        entry_pages(told.book(), told.guide(), {}, {})


@pytest.mark.parametrize(
    "svg",
    [
        "<svg><script>x</script></svg>",
        "<svg><style>x</style></svg>",
        '<svg><path style="fill:red"/></svg>',
        '<svg><path onclick="x()"/></svg>',
        '<svg><path fill="url(https://x.invalid/a)"/></svg>',
    ],
)
def test_a_drawing_with_script_or_style_raises(svg):
    drawn = {told.FIT: told.VIEWS | {"route-wide": svg}}
    with pytest.raises(PageError, match="a drawing holds"):
        entry_pages(told.book(), told.guide(), drawn, {})


# ------------------------------------------------------------------ escaped and clean

HOSTILE = (
    '</title></script><script>alert(1)</script><img src=x onerror=\'a\'>"><b style="x">{{ 7 * 7 }}'
)
# Strings that come from closed lists or patterns, never from a person's text.
CLOSED = {
    "kind",
    "verdict",
    "signal",
    "symbol",
    "state",
    "stands",
    "phase",
    "fit",
    "name",
    "inside",
}


def poisoned(node, key=""):
    if isinstance(node, dict):
        # An input names the figure that it comes from; everywhere else a figure is text.
        names = {"figure", "end"} if "symbol" in node else set()
        return {key: value if key in names else poisoned(value, key) for key, value in node.items()}
    if isinstance(node, list):
        return [poisoned(value, key) for value in node]
    if isinstance(node, str) and key not in CLOSED:
        return node + HOSTILE
    return node


@pytest.mark.parametrize("entry", ALL, ids=lambda entry: entry.kind)
def test_hostile_text_in_every_field_stays_text(entry):
    bad = deepcopy(entry)
    bad.content[bad.kind] = poisoned(bad.content[bad.kind])
    shop = poisoned({"name": "S", "about": "A", "rule_set": "4"})
    for name, content in told.pages(bad, **shop).items():
        if name.endswith(".html"):
            reader = read(content)
            assert_clean(reader)
            assert "alert(1)" in "".join(reader.text)
            assert "49" not in "".join(reader.text).replace("2024", "")


def test_a_report_address_that_is_no_link_is_only_text():
    page = told.page(
        told.guide(), site={"address": "https://a.invalid", "reports": "javascript:x()"}
    )
    assert "javascript:x()" in page
    assert 'href="javascript:' not in page


def test_a_report_carries_the_guide_in_its_subject(html):
    assert (
        'href="mailto:reports@example.invalid?subject=Guide%20V6/J9b%2C%20revision%203"'
        in html[told.PAGE]
    )


def test_pages_are_clean_under_their_own_policy(html):
    for page in html.values():
        assert_clean(read(page))


def assert_clean(reader):
    policy = [
        e for e in reader.elements if e.attributes.get("http-equiv") == "Content-Security-Policy"
    ]
    assert len(policy) == 1
    assert policy[0].attributes["content"].startswith("default-src 'none'; ")
    for element in reader.elements:
        assert element.tag not in {"style", "iframe", "object", "embed", "base", "img"}, element
        assert "style" not in element.attributes, element
        assert not [name for name in element.attributes if name.startswith("on")], element
        if element.attributes.get("type") == "application/ld+json":
            continue  # data: no browser runs it, and test_howto reads it
        if element.tag == "script":
            own = r"(\.\.?/)+assets/[a-z]+\.js\?[0-9a-f]{8}"
            assert re.fullmatch(own, element.attributes["src"])
            assert "".join(element.text).strip() == ""
        if element.attributes.get("rel") == "canonical":
            continue  # it names the page's address on the site; nothing is fetched from it
        for name in ("href", "src", "action"):
            target = element.attributes.get(name) or ""
            assert not re.match(r"(?!mailto:)[a-z]+:|//", target), element


def test_ids_stand_once_in_a_page_and_links_inside_it_lead_somewhere(html):
    for name, page in html.items():
        reader = read(page)
        found = ids(reader)
        assert len(set(found)) == len(found), name
        inside = {
            e.attributes["href"][1:]
            for e in reader.elements
            if (e.attributes.get("href") or "").startswith("#")
        }
        # The other figures of a whole guide are not in this cut-down one.
        assert inside - set(found) <= {"figure-loop_resistance"}, name


def test_every_field_has_a_label(html):
    for page in html.values():
        reader = read(page)
        labelled = {e.attributes["for"] for e in reader.elements if e.tag == "label"}
        for element in reader.elements:
            if element.tag in {"input", "select"}:
                assert element.attributes.get("aria-label") or element.attributes["id"] in labelled


# ------------------------------------------------------------------ the same twice, and cheap


def test_the_same_book_gives_the_same_bytes(files):
    again = told.pages(*ALL, prints={told.FIT: {"a4": b"%PDF-a4", "letter": b"%PDF-letter"}})
    assert again == files


def test_a_page_does_not_grow_with_the_book():
    many = [told.guide(fit=f"dunstrel-cobble/j{number}") for number in range(12)]
    alone = told.pages(many[0])[f"guides/{many[0].fit}/index.html"]
    among = told.pages(*many)[f"guides/{many[0].fit}/index.html"]
    assert among == alone

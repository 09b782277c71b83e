"""A page leads to the other fits of its vehicle, each by what differs; and asks "is it mine?"."""

import re

import pytest

from baybook.publish.listing import listed
from baybook.publish.markup import Words
from baybook.publish.others import asked_for, others
from baybook.publish.pages import entry_pages
from publish import told
from publish.markup_reader import read

HERE = told.guide()
WORDS = Words(told.WORDS)


def named(entry, **texts):
    def change(content):
        for key, text in texts.items():
            content["identity"][key] = {"text": text, "runs": [{"kind": "text", "text": text}]}

    return told.changed(entry, change)


def page(entry, *siblings):
    drawings = {entry.fit: told.VIEWS}
    files = entry_pages(told.book(), entry, drawings, {}, siblings=tuple(map(listed, siblings)))
    return files[f"guides/{entry.fit}/index.html"].decode()


def differs(sibling):
    (found,) = others(HERE, [HERE, sibling], WORDS)
    return found.differs


@pytest.mark.parametrize(
    ("key", "name"),
    [
        ("charger", "charger"),
        ("station", "station or battery"),
        ("drive", "steering"),
        ("variant", "vehicle"),
    ],
)
def test_what_differs_is_said_and_nothing_else(key, name):
    sibling = named(told.guide(fit="dunstrel-cobble/j1"), **{key: "Another <one>"})
    assert differs(sibling) == (f"{name} Another &lt;one&gt;",)


def test_where_nothing_differs_the_code_tells_them_apart():
    assert differs(told.guide(fit="dunstrel-cobble/j1")) == ("code V6/J9b",)


def test_a_page_does_not_lead_to_itself():
    assert others(HERE, [HERE], WORDS) == ()
    assert "Nothing else is worked out for this vehicle." in page(HERE, HERE)


@pytest.mark.parametrize("entry", [told.guide(), told.refusal("dunstrel-cobble/j4")])
def test_guide_and_refusal_lead_to_the_other_fits_with_their_verdicts(entry):
    refusal = named(told.refusal("dunstrel-cobble/j13"), station="Tun 500")
    guide = named(told.guide(fit="dunstrel-cobble/j1"), charger="Sorrel 240")
    html = page(entry, entry, refusal, guide)
    section = html[html.index('id="others"') :].partition("</section>")[0]
    assert re.findall(r'href="(?:\.\./)+(guides/[^"]+)"', section) == [
        "guides/dunstrel-cobble/j13/index.html",
        "guides/dunstrel-cobble/j1/index.html",
    ]
    assert "OV-01" in section
    assert "station or battery Tun 500" in section
    assert "charger Sorrel 240" in section


def test_the_finder_is_asked_for_make_and_model():
    assert asked_for(named(HERE, make="Dünstrel & Co", model="Cobble")) == (
        "make=D%C3%BCnstrel+%26+Co&model=Cobble"
    )
    assert 'index.html?make=Dunstrel&amp;model=Cobble"' in page(HERE)


def test_each_look_is_a_question_with_the_answer_that_the_guide_wants():
    def change(content):
        content["applies"][0]["answer"]["text"] = "no"

    reader = read(page(told.changed(HERE, change)).encode())
    checks = [e for e in reader.elements if e.attributes.get("class") == "check"]
    assert [check.attributes["data-answer"] for check in checks] == ["no", "yes"]
    choices = [e for e in reader.elements if e.attributes.get("type") == "radio"]
    assert [(c.attributes["name"], c.attributes["value"]) for c in choices] == [
        ("applies-1", "yes"),
        ("applies-1", "no"),
        ("applies-2", "yes"),
        ("applies-2", "no"),
    ]


def test_not_mine_leads_to_ask_for_a_guide():
    html = page(HERE)
    section = html[html.index('id="vehicle"') :].partition("</section>")[0]
    assert "subject=A%20guide%20is%20wanted%3B%20V6/J9b%20is%20not%20for%20it" in section
    assert "guides/" not in section

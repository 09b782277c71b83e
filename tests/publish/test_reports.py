"""Where an error is reported, and what the report brings along by itself."""

from email.utils import getaddresses
from urllib.parse import parse_qs, unquote, urlsplit

import pytest

from baybook.publish.frame import report_link
from publish import told
from publish.markup_reader import read

FORM = {"address": "https://a.invalid", "reports": "https://a.invalid/report?lang=en#form"}
NO_LINK = {"address": "https://a.invalid", "reports": "javascript:x()"}
STEPS = [
    str(step["number"]) for c in told.guide().content["guide"]["chapters"] for step in c["steps"]
]


def links(page):
    return {
        element.attributes["aria-label"].rpartition(" ")[2]: element.attributes["href"]
        for element in read(page).elements
        if element.attributes.get("class") == "report"
    }


def test_every_step_has_a_mail_that_names_guide_revision_and_step():
    found = links(told.page(told.guide()))
    assert list(found) == STEPS
    for number, href in found.items():
        mail = urlsplit(href)
        assert getaddresses([mail.path]) == [("", "reports@example.invalid")]
        subject = parse_qs(mail.query, strict_parsing=True)["subject"]
        assert subject == [f"Guide V6/J9b, revision 3, step {number}"]


def test_every_step_has_a_form_that_is_given_guide_revision_and_step():
    found = links(told.page(told.guide(), site=FORM))
    assert list(found) == STEPS
    for number, href in found.items():
        form = urlsplit(href)
        assert form._replace(query="").geturl() == "https://a.invalid/report#form"
        wanted = {"lang": "en", "guide": told.FIT, "revision": "3", "step": number}
        assert parse_qs(form.query, strict_parsing=True) == {k: [v] for k, v in wanted.items()}


@pytest.mark.parametrize("entry", [told.guide(), told.refusal(), told.withdrawal()])
def test_the_report_of_a_whole_page_names_no_step(entry):
    page = told.page(entry, site=FORM)
    (href,) = {
        element.attributes["href"]
        for element in read(page).elements
        if (element.attributes.get("href") or "").startswith("https://a.invalid/report")
        and element.attributes.get("class") != "report"
        and "guide=" in element.attributes["href"]
    }
    assert set(parse_qs(urlsplit(href).query)) == {"lang", "guide", "revision"}


def test_an_address_that_is_no_link_makes_none():
    assert links(told.page(told.guide(), site=NO_LINK)) == {}


def test_what_a_person_wrote_cannot_leave_its_parameter():
    hostile = "a&b=c#d?e \"<'%\u00e4"
    for address in ("https://a.invalid/", "mailto:a@b.invalid"):
        link = urlsplit(report_link(address, "x", guide=hostile))
        assert link.fragment == ""
        assert len(parse_qs(link.query, strict_parsing=True)) == 1
        assert unquote(link.query) in {f"guide={hostile}", "subject=x"}

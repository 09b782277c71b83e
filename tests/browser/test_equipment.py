"""The script that judges a reader's own station says what the Python rule says, case by case.

And a reader's way through the form on a published page, with script and without.
"""

import random
from dataclasses import asdict, replace
from math import inf, nextafter

import pytest

from baybook.checks.equipment import own_station
from baybook.equipment import Own
from baybook.shipped import shipped
from browser.test_site import guide_path
from outlets import OUTLET

ASSETS = shipped("templates") / "assets/guide"
CASES = 8000
POLARITIES = ("by pin", "centre positive", "centre negative", "unknown")


def beside(figure):
    return figure, nextafter(figure, inf), nextafter(figure, -inf)


def some_outlet(rng):
    return replace(
        OUTLET,
        default_after_reset=rng.random() < 0.5,
        default_high_V=rng.choice((42.82, 61.3, 30.0)),
        absolute_margin=rng.choice((0.05, 0.1, 1 / 3, 0.0)),
        plug_A=rng.choice((25.0, 10.0)),
        lead_A=rng.choice((18.0, 9.1, 12.3)),
        full_W=rng.choice((520.0, 2000.0)),
        counted_W=rng.choice((520.0, 300.0)),
        polarity=rng.choice(POLARITIES),
    )


def some_station(rng, outlet):
    """Return an entry: blanks, nonsense, plain figures, and the limits with their next doubles."""
    limits = [outlet.low_V, outlet.high_V, outlet.default_low_V, outlet.default_high_V,
              outlet.high_V / (1 - outlet.absolute_margin),
              outlet.default_high_V / (1 - outlet.absolute_margin)]  # fmt: skip
    edges = [figure for limit in limits for figure in beside(limit)]

    def volts(low, high):
        return rng.choice((None, rng.uniform(low, high), rng.choice(edges), rng.choice(edges)))

    amps = (outlet.charger_A, outlet.plug_A, outlet.lead_A, outlet.counted_W / outlet.high_V)
    watts = (outlet.full_W, outlet.counted_W, outlet.lead_A * outlet.set_V)
    odd = rng.random() < 0.05
    return Own(
        window_min_V=0.0 if odd else volts(5, 45),
        start_V=volts(5, 45),
        window_max_V=volts(35, 120),
        absolute_V=volts(35, 150),
        input_A=rng.choice((None, rng.uniform(1, 30), *(x for a in amps for x in beside(a)))),
        input_W=rng.choice((None, rng.uniform(50, 3000), *(x for a in watts for x in beside(a)))),
        connector=rng.choice((None, "one", "two", "-")),
        polarity=rng.choice((None, *POLARITIES)),
    )


@pytest.fixture(scope="module")
def judging(browser):
    """Return a blank page with the scripts of the form."""
    page = browser.new_page()
    page.set_content('<html lang="en"><body></body></html>')
    for name in ("number.js", "equipment.js"):
        page.add_script_tag(path=ASSETS / name)
    yield page
    page.close()


def test_script_and_rule_give_the_same_verdict_and_codes(judging):
    rng = random.Random(7)  # noqa: S311 - cases, not secrets
    cases = []
    for _ in range(CASES):
        outlet = some_outlet(rng)
        cases.append((outlet, some_station(rng, outlet)))
    asked = [[asdict(outlet), asdict(own)] for outlet, own in cases]
    got = judging.evaluate("cases => cases.map(([outlet, own]) => judgeOwn(outlet, own))", asked)
    verdicts, reasons = set(), set()
    for (outlet, own), said in zip(cases, got, strict=True):
        answer = own_station(outlet, own)
        told = [f"{reason.said} {reason.code}" for reason in answer.reasons]
        assert said == {"verdict": answer.verdict, "reasons": told}, (outlet, own)
        verdicts.add(answer.verdict)
        reasons |= set(told)
    # Each answer and each reason was reached, so that none agrees by never being asked.
    assert verdicts == {"no", "unknown", "not refused"}
    assert len(reasons) == 20


def test_every_reason_that_can_be_given_has_its_words(visit, published):
    page = visit(guide_path(published, "j9b"))
    told = page.eval_on_selector_all("[data-reason]", "all => all.map(one => one.dataset.reason)")
    assert len(told) == len(set(told)) == 21


@pytest.mark.parametrize(
    ("language", "typed", "number"),
    [
        ("en", "12.5", 12.5),
        ("en", " 12,5 ", 12.5),
        ("de", "12,5", 12.5),
        ("de", "12.5", 12.5),
        ("en", "12.345", 12.345),
        ("de", "12,345", 12.345),
        ("en", "0,125", 0.125),
        ("en", "\N{MINUS SIGN}3", -3),
        ("en", ",5", 0.5),
        ("en", "7.", 7),
        ("en", "", "blank"),
        ("en", "1,000", "no number"),  # a thousand, or one
        ("de", "1.000", "no number"),
        ("en", "1.2.3", "no number"),
        ("en", "1,234.5", "no number"),
        ("en", "12 V", "no number"),
        ("en", "1e3", "no number"),
        ("en", "Infinity", "no number"),
        ("en", "twelve", "no number"),
        ("en", ".", "no number"),
    ],
)
def test_a_figure_is_read_one_way_or_not_at_all(browser, language, typed, number):
    page = browser.new_page()
    page.set_content(f'<html lang="{language}"><body></body></html>')
    page.add_script_tag(path=ASSETS / "number.js")
    got = page.evaluate(
        """typed => {
          const value = readNumber(typed);
          return value === null ? "blank" : Number.isNaN(value) ? "no number" : value;
        }""",
        typed,
    )
    page.close()
    assert got == number


# ------------------------------------------------------------------ on a published page

WHOLE = {
    "window_min_V": "32",
    "start_V": "36",
    "window_max_V": "95",
    "absolute_V": "100,5",
    "input_A": "13",
    "input_W": "900",
}


def enter(page, **changed):
    for name, text in (WHOLE | changed).items():
        page.fill(f"#own-{name}", text)
    page.select_option("#own-connector", "vantle-a")
    page.select_option("#own-polarity", "by pin")
    page.get_by_role("button", name="Ask the rules").click()
    return page.locator("#own-answer").inner_text()


def test_the_best_answer_is_not_refused_and_says_whom_to_ask(visit, published):
    page = visit(guide_path(published, "j9b"), width=360)
    answer = enter(page)
    assert "Not refused by these rules" in answer
    assert "not a yes" in answer
    assert "OV-09" in answer
    assert "ask the shop" in answer
    assert "do not hold for any other station" in answer
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_a_refusal_names_its_rule_and_leads_to_it(visit, published):
    page = visit(guide_path(published, "j9b"))
    answer = enter(page, absolute_V="40", window_max_V="39")
    assert answer.startswith("No")
    assert "Refused OV-01" in answer
    assert "Not refused" not in answer
    page.locator("#own-answer").get_by_role("link", name="OV-01").click()
    assert page.url.endswith("manual/rules-ov.html#OV-01")


@pytest.mark.parametrize("absolute", ["", "10O", "1,000", "-100", "0"])
def test_a_blank_or_unread_field_is_unknown_and_never_better(visit, published, absolute):
    page = visit(guide_path(published, "j9b"))
    answer = enter(page, absolute_V=absolute)
    assert answer.startswith("Unknown")
    assert "Not refused" not in answer
    fault = page.locator("#own-absolute_V-fault")
    assert fault.is_visible() == bool(absolute)
    assert (
        page.locator("#own-absolute_V").get_attribute("aria-invalid") == str(bool(absolute)).lower()
    )


def test_an_answer_follows_the_entries_and_goes_with_them(visit, published):
    page = visit(guide_path(published, "j9b"))
    assert enter(page).startswith("Not refused")
    page.fill("#own-absolute_V", "40")
    assert page.locator("#own-answer").inner_text().startswith("No\n")
    page.get_by_role("button", name="Clear", exact=True).click()
    assert page.locator("#own-answer").inner_text().strip() == ""


def test_without_script_it_says_what_to_ask_the_shop(visit, published):
    page = visit(guide_path(published, "j9b"), java_script_enabled=False)
    section = page.locator("#equipment")
    assert not page.locator("#own").is_visible()
    assert "Absolute maximum voltage" in section.inner_text()
    assert (
        section.get_by_role("link", name="Ask the shop").get_attribute("href").startswith("mailto:")
    )


# ------------------------------------------------------------------ readings


def found(page, reading, typed):
    page.fill(f"#box-{reading}", typed)
    return page.locator(f"#found-{reading}")


def limits(page, reading):
    row = page.locator(f"#reading-{reading}")
    return row.get_attribute("data-low"), row.get_attribute("data-high")


def test_a_reading_is_in_up_to_its_printed_limits(visit, published):
    page = visit(guide_path(published, "j9b"))
    low, high = limits(page, "R1")
    row = page.locator("#reading-R1").inner_text()
    assert low in row
    assert high in row
    for typed in (low, high, low.replace(".", ","), f"{high} V"):
        assert found(page, "R1", typed).inner_text() == "In"
    assert found(page, "R1", f"{float(low) - 0.01:.2f}").inner_text().startswith("Low")
    assert found(page, "R1", f"{float(high) + 0.01:.2f}").inner_text().startswith("High")
    assert found(page, "R1", "twelve").inner_text().startswith("No number.")
    assert found(page, "R1", f"{low} mV").inner_text().startswith("No number.")
    assert found(page, "R1", "").inner_text() == ""


def test_a_miss_leads_into_the_fault_tree_and_is_kept(visit, published):
    page = visit(guide_path(published, "j9b"))
    line = found(page, "R1", "1")
    question = line.get_by_role("link").get_attribute("href")
    assert page.locator(question).count() == 1
    assert line.get_attribute("aria-live") == "polite"
    page.reload()
    assert page.locator("#found-R1").inner_text().startswith("Low")
    page.locator("#forget").click()
    assert page.locator("#found-R1").inner_text() == ""
    assert page.locator("#box-R1").input_value() == ""


def test_every_reading_with_a_limit_is_judged(visit, published):
    page = visit(guide_path(published, "j9b"))
    rows = page.locator("tr.reading")
    assert rows.count() > 10
    for row in rows.all():
        low, high = row.get_attribute("data-low"), row.get_attribute("data-high")
        assert low is not None or high is not None
        row.locator("input").fill(low or high)
        assert row.locator(".found").inner_text() == "In"


def test_a_hold_judges_what_is_typed_between_its_limits(visit, published):
    page = visit(guide_path(published, "j9b"))
    place = page.locator(".hold [data-unit][data-high]").first
    place.locator("input").fill("9999")
    assert place.locator(".found").inner_text() == "High"
    place.locator("input").fill(place.get_attribute("data-high"))
    assert place.locator(".found").inner_text() == "In"

"""The check after rendering finds each thing that a page or a print lost, one by one."""

from copy import deepcopy

import pytest

from baybook.publish.prints import render_prints
from baybook.publish.verify import (
    page_text,
    verify_charts,
    verify_entries,
    verify_page,
    verify_refusal,
)
from baybook.publish.verify_prints import verify_prints
from prints import sample
from publish import told

GUIDE = told.guide().content["guide"]


def steps(guide):
    return [step for chapter in guide["chapters"] for step in chapter["steps"]]


def amount(figure, unit):
    text = f"{figure}\N{NO-BREAK SPACE}{unit}"
    runs = [{"kind": "figure", "text": figure}, {"kind": "unit", "text": unit}]
    return {"figure": figure, "unit": unit, "converted": "", "text": text, "runs": runs}


def losses():
    """Yield every way in which one thing that matters can be lost, by name."""
    for place, line in enumerate(GUIDE["torques"]):
        yield f"torque {line['letter']}", lambda g, p=place: g["torques"].pop(p)
        yield f"torque {line['letter']}", lambda g, p=place: g["torques"][p].update(torque=None)
    for place, line in enumerate(GUIDE["readings"]):
        for limit in ("predicted", "low", "high"):
            if line[limit]:
                yield (
                    f"reading {line['id']}",
                    lambda g, p=place, k=limit: g["readings"][p].update({k: None}),
                )
        yield f"reading {line['id']}", lambda g, p=place: g["readings"].pop(p)
        yield f"reading {line['id']}", lambda g, p=place: g["readings"][p]["points"].pop()
    for place, step in enumerate(steps(GUIDE)):
        yield f"step {step['number']}", lambda g, p=place: steps(g)[p].update(action=said("Wait."))
        for box in range(len(step["boxes"])):
            name = f"box {step['boxes'][box]['id']} at step {step['number']}"
            yield name, lambda g, p=place, b=box: steps(g)[p]["boxes"].pop(b)
        if step["value"]:
            yield (
                f"step {step['number']}",
                lambda g, p=place: steps(g)[p].update(value=amount("99", "V")),
            )
        if step["hold"] and step["hold"]["stands"] == "steps":
            number = step["hold"]["number"]
            yield f"HOLD {number}", lambda g, p=place: steps(g)[p].update(hold=None)
            for field in range(len(step["hold"]["fields"])):
                yield (
                    f"HOLD {number}",
                    lambda g, p=place, f=field: steps(g)[p]["hold"]["fields"][f].update(low=None),
                )
    yield "HOLD 5", lambda g: g["readings"][1].update(hold=None)
    yield "fact 1", lambda g: g["facts"][0].update(amount=amount("23.5", "V"))
    yield "undoing 1", lambda g: g["undo"].pop(0)
    yield "assumption 1", lambda g: g["assumptions"].pop(0)
    yield "second torque visit", lambda g: g.update(retorque=said("Some day."))
    yield "figure current_low", lambda g: g["figures"].pop(0)
    yield "figure current_low", lambda g: g["figures"][0].update(amount=amount("43.9", "A"))
    yield "cut W2", lambda g: g["cuts"].pop()
    yield "kit 1", lambda g: g["kit"].pop()
    yield "limit 1", lambda g: g["envelope"].pop()
    yield "caution 1", lambda g: g["cautions"].pop()
    yield "reason 1", lambda g: g["reasons"].pop()
    yield "size 25", lambda g: g["sizes"][0].update(carries=amount("99.6", "A"))


def said(text):
    return {"runs": [{"kind": "text", "text": text}], "text": text}


def test_a_whole_page_has_lost_nothing():
    files = told.pages(told.guide(), told.refusal(), told.withdrawal())
    book = told.book(told.guide(), told.refusal(), told.withdrawal())
    assert verify_entries(book, files) == ()


@pytest.mark.parametrize(
    ("name", "lose"), list(losses()), ids=lambda value: value if isinstance(value, str) else ""
)
def test_each_loss_is_found_and_named(name, lose):
    page = told.page(told.changed(told.guide(), lose)).encode()
    lost = verify_page(page, GUIDE, told.WORDS)
    assert any(line.startswith(name) for line in lost), lost


def test_the_torque_of_one_joint_does_not_stand_in_for_another():
    def same(guide):
        for line in guide["torques"]:
            line["torque"] = amount("4.5", "N·m")

    def without_the_last(guide):
        same(guide)
        guide["torques"][-1]["torque"] = None

    wanted = deepcopy(GUIDE)
    same(wanted)
    page = told.page(told.changed(told.guide(), without_the_last)).encode()
    assert [
        line for line in verify_page(page, wanted, told.WORDS) if line.startswith("torque")
    ] == ["torque K: `4.5\N{NO-BREAK SPACE}N·m`"]


def test_a_longer_figure_does_not_hold_a_shorter_one():
    page = told.page(
        told.changed(told.guide(), lambda g: g["torques"][0].update(torque=amount("14.5", "N·m")))
    )
    assert any(
        line.startswith("torque D") for line in verify_page(page.encode(), GUIDE, told.WORDS)
    )


@pytest.mark.parametrize(
    ("opened", "closed"),
    [
        ('<section id="torque" hidden>', ""),
        ('<section id="torque" aria-hidden="true">', ""),
        ('<section id="torque"><template>', "</template>"),
        ("<section><!--", "-->"),
    ],
)
def test_what_is_in_the_page_but_not_shown_is_lost(opened, closed):
    page = told.page(told.guide())
    begin = page.index('<section id="torque">')
    end = page.index("</section>", begin)
    inside = page[begin:end].removeprefix('<section id="torque">')
    hidden = page[:begin] + opened + inside + closed + page[end:]
    lost = verify_page(hidden.encode(), GUIDE, told.WORDS)
    assert any(line.startswith("torque D") for line in lost), lost


def test_a_refusal_without_its_figures_or_way_out_is_found():
    entry = told.refusal()
    wanted = entry.content["refusal"]
    assert verify_refusal(told.page(entry).encode(), wanted) == ()
    for change, name in (
        (lambda r: r["table"].pop(), "found 1"),
        (lambda r: (r["way_out"].pop(), r["findings"].pop()), "way out 1"),
        (lambda r: (r.update(title=said("other")), r["findings"].pop()), "title"),
    ):
        lost = verify_refusal(told.page(told.changed(entry, change)).encode(), wanted)
        assert any(line.startswith(name) for line in lost), (name, lost)


def test_a_missing_page_and_a_missing_banner_are_found():
    book = told.book(told.guide(), told.withdrawal())
    files = told.pages(told.guide(), told.withdrawal())
    address = "guides/tavlow-camber/j8/index.html"
    files[address] = files[address].replace(b"WITHDRAWN. STOP.", b"")
    del files[told.PAGE]
    assert verify_entries(book, files) == (
        f"{told.PAGE}: the whole page",
        f"{address}: the banner of a withdrawn guide",
    )


def test_text_is_read_as_it_is_shown():
    shown = b"<p>4.5&nbsp;<span>N&middot;m</span></p>U<sub>s</sub>"
    html = shown + b"<svg><text>no</text></svg><script>no</script>"
    assert page_text(html).split() == ["4.5", "N", "·", "m", "U_s"]


@pytest.fixture(scope="module")
def prints():
    return render_prints(
        sample.book(told.guide()), {told.FIT: sample.DRAWN}, papers=("a4", "letter")
    )


def test_a_whole_print_has_lost_nothing(prints):
    assert verify_prints(told.book(told.guide(), told.refusal()), prints) == ()


def test_a_print_that_lost_something_is_found(prints):
    def heavier(guide):
        guide["torques"][2]["torque"] = amount("21.0", "N·m")

    book = told.book(told.changed(told.guide(), heavier))
    assert verify_prints(book, prints) == tuple(
        f"{told.FIT}, print {paper}: torque K: `21.0\N{NO-BREAK SPACE}N·m`"
        for paper in ("a4", "letter")
    )


def test_a_word_that_was_parted_at_its_hyphen_is_read_as_one():
    def parted(guide):
        steps(guide)[0]["action"] = said("-".join(["post"] * 30))

    entry = told.changed(told.guide(), parted)
    book = sample.book(entry)
    assert verify_prints(book, render_prints(book, {told.FIT: sample.DRAWN}, papers=("a4",))) == ()


@pytest.mark.parametrize(
    ("entry", "change", "name"),
    [
        (told.refusal(), lambda r: r.update(title=said("another thing")), "title"),
        (told.refusal(), lambda r: r.update(way_out=[said("Build it.")]), "way out 1"),
        (told.withdrawal(), lambda w: w.update(why=said("Nobody knows.")), "`Nobody knows.`"),
    ],
)
def test_a_refusal_or_withdrawal_on_paper_is_read_too(entry, change, name):
    made = render_prints(sample.book(entry), {}, papers=("a4",))
    assert verify_prints(sample.book(entry), made) == ()
    (lost,) = verify_prints(sample.book(told.changed(entry, change)), made)
    assert lost.startswith(f"{entry.fit}, print a4: {name}")


def test_a_guide_without_a_print_is_found():
    assert verify_prints(told.book(told.guide()), {}) == (f"{told.FIT}: no print",)


def test_a_chart_in_words_is_missed():
    charts = [
        {"title": {"text": "Voltage along the run"}, "lines": [{"text": "It stops at 11.5 V."}]}
    ]
    page = b"<h3>Voltage along the run</h3><ul><li>It stops at <b>11.5&nbsp;V</b>.</li></ul>"
    assert verify_charts(page, charts) == ()
    assert verify_charts(page.replace(b"11.5", b"11.6"), charts) == ("`It stops at 11.5 V.`",)
    assert verify_charts(b"<p>nothing</p>", []) == ()

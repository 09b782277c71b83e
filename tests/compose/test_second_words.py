"""A guide for a second battery speaks of no station and no plug."""

import json
import re
import string

import yaml

from baybook.checks import approve, judge
from baybook.compose import compose
from baybook.compose.second_words import TWINS
from baybook.shipped import shipped
from baybook.sizing.choose import choose
from baybook.wording.catalogue import load_catalogue
from baybook.wording.tell import tell
from workbooks import example_fit

ADDED = {"second", "battery"}


def english():
    return load_catalogue(shipped("templates"), "en")


def named(sentence):
    return {name for _, name, _, _ in string.Formatter().parse(sentence) if name}


def test_every_twin_has_its_sentence_and_no_value_of_its_own():
    words = english()
    for twin in TWINS:
        assert named(words.sentence(f"{twin}.second")) <= named(words.sentence(twin)) | ADDED, twin


def test_no_twin_is_left_over():
    file = shipped("templates") / "en" / "second.yaml"
    twins = {name.removesuffix(".second") for name in yaml.safe_load(file.read_text("utf-8"))}
    assert twins == TWINS


def test_the_guide_speaks_of_a_battery():
    checked = approve(choose(example_fit("tavlow-camber/j8"), judge))
    told = json.dumps(tell(compose(checked), english()), ensure_ascii=False)
    texts = re.findall(r'"text": "([^"]*)"', told)
    strange = [t for t in texts if re.search(r"\bstation|\bplug(ged|ging| in|\b(?!, primer))", t)]
    assert strange == []


def test_a_guide_for_a_station_is_left_as_it_is():
    checked = approve(choose(example_fit("brunsall-tansy/j1"), judge))
    assert ".second" not in repr(compose(checked)).replace("people.second", "")

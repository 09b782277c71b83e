"""Every sentence of every guide: short, the verb first, a number, and no promise."""

import re

import pytest
import yaml

from baybook.quantity import State
from baybook.shipped import shipped
from baybook.standards.register import Read
from baybook.step import Phase
from baybook.terms import CueKind, HazardKind, JointKind
from compose.jobs import GUIDES, REFUSALS, english, guide, told

# ASD-STE100: at most 20 words in a procedural sentence, and the imperative first.
MOST_WORDS = 20
VERBS = {
    "Answer", "Ask", "Bolt", "Book", "Cap", "Check", "Clamp", "Clean", "Clip", "Close", "Compare",
    "Connect", "Cover", "Crimp", "Cut", "Deburr", "Draw", "Drill", "Drive", "Fit", "Fix", "Hold",
    "Keep", "Label", "Lay", "Lock", "Leave", "Let", "Lift", "Listen", "Look", "Measure", "Open",
    "Paint", "Photograph", "Prove", "Pull", "Push", "Plug", "Read", "Remove", "Restore", "Run",
    "Scan", "Set", "Settle", "Show", "Shrink", "Sign", "Slide", "Stand", "Start", "Stick", "Stop",
    "Strip", "Switch",
    "Take", "Tell", "Tilt", "Unclip", "Unhook", "Unlock", "Wait", "Wax", "Write",
}  # fmt: skip
NO_NUMBER = re.compile(r"\b(tight|tightly|firmly|enough|properly|correctly|securely|well)\b")


def texts(node):
    if isinstance(node, dict):
        if set(node) == {"runs", "text"}:
            yield node["text"]
            return
        for value in node.values():
            yield from texts(value)
    if isinstance(node, list):
        for value in node:
            yield from texts(value)


def actions(name):
    return [
        step["action"]["text"] for chapter in told(name)["chapters"] for step in chapter["steps"]
    ]


@pytest.mark.parametrize("name", GUIDES)
def test_an_action_is_short_starts_with_a_verb_and_gives_a_number(name):
    for text in actions(name):
        for sentence in re.split(r"(?<=[a-z)])\. ", text):
            assert len(sentence.split(" ")) <= MOST_WORDS, sentence
        assert text.split(" ")[0] in VERBS, text
        assert text.endswith("."), text
        assert ".." not in text
        assert not NO_NUMBER.search(text), text


@pytest.mark.parametrize("name", [*GUIDES, *REFUSALS])
def test_nothing_is_called_safe(name):
    for text in texts(told(name)):
        assert not re.search(r"\bsafe(ly|ty)?\b", text, re.IGNORECASE), text


@pytest.mark.parametrize("name", [*GUIDES, *REFUSALS])
def test_no_sentence_is_empty_or_unfinished(name):
    for text in texts(told(name)):
        assert text.strip(), text
        assert "{" not in text
        assert "  " not in text
        assert ", ," not in text


def test_no_figure_is_typed_into_a_sentence():
    """A figure comes from the design, the survey or compose/practice.py."""
    for file in ("steps", "boxes", "guide"):
        for key, text in own_sentences(file):
            bare = re.sub(r"\{\w+\}|IEC|R0|IN −|OUT −", "", text)
            assert not re.search(r"\d", bare), f"{key}: {text}"


def own_sentences(file):
    path = shipped("templates") / "en" / f"{file}.yaml"
    for key, text in yaml.safe_load(path.read_text("utf-8")).items():
        for form in [text] if isinstance(text, str) else text.values():
            yield key, form


def test_local_code_and_licensed_practice_come_first():
    for name in GUIDES:
        first, second = (c["text"] for c in told(name)["cautions"][:2])
        assert first.startswith("Local code and law")
        assert "licensed" in second


def test_the_general_cautions_name_what_a_technician_must_not_forget():
    for name in GUIDES:
        whole = " ".join(c["text"] for c in told(name)["cautions"])
        for word in ("carbon monoxide", "lithium", "Strap", "insurer", "warranty"):
            assert word in whole


@pytest.mark.parametrize("name", GUIDES)
def test_boxes_say_hazard_consequence_and_an_avoidance_that_starts_with_a_verb(name):
    for chapter in told(name)["chapters"]:
        boxes = [box for step in chapter["steps"] for box in step["boxes"]]
        assert len(boxes) <= 3
        for box in boxes:
            assert box["hazard"]["text"]
            assert box["consequence"]["text"].endswith(".")
            first = box["avoidance"]["text"].split(" ")[0]
            assert first in VERBS | {"Join", "Move", "Lead"}, first


def test_property_damage_alone_is_a_notice():
    """ANSI Z535.6: NOTICE is for what hurts nobody; the graver words are for injury."""
    for name in GUIDES:
        for step in guide(name).steps:
            for box in step.boxes:
                if box.id in {"sensor", "overvoltage"}:
                    assert box.signal == "notice"
                if box.id in {"arc", "restraint", "drill"}:
                    assert box.signal == "warning"


def test_the_catalogue_loads_with_every_file_together():
    assert english().has("do.battery.off")


@pytest.mark.parametrize(
    "wanted",
    [
        *(f"what.{kind.name.lower()}" for kind in CueKind),
        *(f"note.cue.{kind.name.lower()}" for kind in CueKind if kind is not CueKind.VOLTAGE),
        *(f"torque.{kind.name.lower()}" for kind in JointKind),
        *(f"hazard.away.{kind.value.replace(' ', '-')}" for kind in HazardKind),
        *(f"basis.{state.value}" for state in State),
        *(f"source.read.{read.value.replace(' ', '-')}" for read in Read),
        *(f"chapter.{phase.name.lower()}" for phase in Phase),
    ],
)
def test_a_word_of_a_closed_list_has_its_sentence(wanted):
    assert english().has(wanted)

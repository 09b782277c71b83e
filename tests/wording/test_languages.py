"""The catalogues of all languages say the same: ids, values, plural forms, strong runs, signs."""

import re
from pathlib import Path

import pytest
import yaml
from babel import Locale
from fontTools.ttLib import TTFont

import baybook
from baybook.finding import term
from baybook.shipped import shipped
from baybook.standards.register import LANGUAGE, register_words
from baybook.terms import HazardKind, JointKind, Polarity, TableKind
from baybook.wording.catalogue import (
    Catalogue,
    CatalogueError,
    load_catalogue,
    parse,
    require_whole,
)
from workbooks import example

TEMPLATES = shipped("templates")
LANGUAGES = sorted(folder.name for folder in TEMPLATES.glob("??") if folder.is_dir())
OTHERS = [
    (language, file.name)
    for language in LANGUAGES
    if language != "en"
    for file in sorted((TEMPLATES / language).glob("*.yaml"))
]
MOST_WORDS = 20  # of a procedural sentence, ASD-STE100; kept for German too
# What stands where a number belongs, and what nobody may promise.
VAGUE = {
    "en": r"tight|tightly|firmly|enough|properly|correctly|securely|well|safe|safely|safety",
    "de": r"fest|fester|gut|ausreichend|genügend|genug|ordentlich|richtig|ordnungsgemäß|sorgfältig|"
          r"sicher|sichere|sicheren|sicheres|sicherer|Sicherheit|gegebenenfalls|eventuell",
}  # fmt: skip


def read(language, name):
    """Return the sentences of a file; those of the sources stand in their register in English."""
    if (language, name) == (LANGUAGE, "sources.yaml"):
        return register_words()
    return yaml.safe_load((TEMPLATES / language / name).read_text("utf-8"))


def forms(sentence):
    return sentence if isinstance(sentence, dict) else {"": sentence}


def values(text):
    return sorted({part.text for part in parse(text) if part.kind == "value"})


def strong(text):
    return sum(part.kind == "strong" for part in parse(text))


def bare(text):
    """Return a sentence without what stands in code: keys of a workbook stay English."""
    return re.sub(r"`[^`]*`", "", text)


@pytest.mark.parametrize(("language", "name"), OTHERS)
def test_a_file_has_the_ids_of_the_english_one(language, name):
    assert set(read(language, name)) == set(read("en", name))


@pytest.mark.parametrize(("language", "name"), OTHERS)
def test_a_sentence_has_the_values_and_strong_runs_of_the_english_one(language, name):
    english = read("en", name)
    for key, sentence in read(language, name).items():
        assert isinstance(sentence, dict) == isinstance(english[key], dict), key
        model = forms(english[key])
        whole = model.get("other", model.get(""))
        for form, text in forms(sentence).items():
            if form in {"", "other"}:
                assert values(text) == values(whole), key
                assert strong(text) == strong(whole), key


@pytest.mark.parametrize(("language", "name"), OTHERS)
def test_a_plural_has_the_forms_of_its_language(language, name):
    wanted = set(Locale.parse(language).plural_form.tags) | {"other"}
    for key, sentence in read(language, name).items():
        if isinstance(sentence, dict):
            assert set(sentence) == wanted, key


@pytest.mark.parametrize(("language", "name"), OTHERS)
def test_no_number_is_typed_that_english_does_not_have(language, name):
    english = read("en", name)
    for key, sentence in read(language, name).items():
        model = " ".join(forms(english[key]).values())
        for text in forms(sentence).values():
            for number in re.findall(r"(?<![\w{])\d+(?:[.,]\d+)?", text):
                assert number.replace(",", ".") in model, f"{key}: {number}"


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_font_has_every_sign_of_every_sentence(language):
    with TTFont(TEMPLATES / "fonts" / "AtkinsonHyperlegibleNext-Regular.ttf") as font:
        known = set(font.getBestCmap())
    for key, sentence in load_catalogue(TEMPLATES, language).sentences.items():
        for text in forms(sentence).values():
            assert not {sign for sign in text if ord(sign) not in known}, key


STEPS = [language for language in LANGUAGES if (TEMPLATES / language / "steps.yaml").exists()]


@pytest.mark.parametrize("language", STEPS)
def test_an_action_is_short_and_gives_a_number_in_place_of_a_vague_word(language):
    vague = re.compile(rf"\b({VAGUE[language]})\b", re.IGNORECASE)
    for key, sentence in read(language, "steps.yaml").items():
        if not key.startswith("do."):
            continue
        for text in forms(sentence).values():
            for part in re.split(r"(?<=[a-zäöüß)}])\. ", text):
                assert len(part.split(" ")) <= MOST_WORDS, f"{key}: {part}"
            assert not vague.search(bare(text)), f"{key}: {text}"


@pytest.mark.parametrize("language", LANGUAGES)
def test_nothing_is_promised_to_be_safe(language):
    promise = re.compile({"en": r"\bsafe(ly|ty)?\b", "de": r"\bsicher(e[nmrs]?|heit)?\b"}[language])
    for key, sentence in load_catalogue(TEMPLATES, language).sentences.items():
        for text in forms(sentence).values():
            assert not promise.search(bare(text)), f"{key}: {text}"


@pytest.mark.parametrize("language", example().shop.languages)
def test_a_language_that_the_example_is_published_in_is_whole(language):
    require_whole(load_catalogue(TEMPLATES, language), load_catalogue(TEMPLATES, "en"))


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("kind", [HazardKind, JointKind, Polarity, TableKind])
def test_a_word_of_a_closed_list_is_said_in_every_language(language, kind):
    words = load_catalogue(TEMPLATES, language)
    for word in kind:
        assert words.sentence(term(word).id)


def test_no_word_of_a_closed_list_reaches_a_reader_as_a_name():
    """A `Name` is never translated, so it must not carry the value of an enum."""
    raw = re.compile(r"Name\([\w.]+\.(?:kind|polarity|state|form)\.value\)")
    for file in Path(baybook.__file__).parent.rglob("*.py"):
        if file.parts[-2] != "intake":
            assert not raw.search(file.read_text("utf-8")), file.name


def test_what_a_language_lacks_is_named():
    german, english = Catalogue("de", {"b": "y"}), Catalogue("en", {"a": "x", "b": "y", "c": "z"})
    with pytest.raises(CatalogueError, match="the language `de` lacks 2 of 3 sentences: `a`, `c`"):
        require_whole(german, english)

"""A catalogue read by need says the same as the whole one, and parses what it is asked for."""

from concurrent.futures import ThreadPoolExecutor

import pytest

from baybook.shipped import shipped
from baybook.wording import by_need
from baybook.wording.by_need import catalogue_by_need
from baybook.wording.catalogue import CatalogueError, load_catalogue, read_sentences

LANGUAGES = ("en", "de")


@pytest.fixture
def parsed(monkeypatch):
    files = []

    def watched(file):
        files.append(file.name)
        return read_sentences(file)

    monkeypatch.setattr(by_need, "read_sentences", watched)
    return files


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_sentence_is_the_same(language):
    whole = load_catalogue(shipped("templates"), language)
    by_id = catalogue_by_need(shipped("templates"), language)
    assert {key: by_id.sentences[key] for key in whole.sentences} == dict(whole.sentences)
    assert catalogue_by_need(shipped("templates"), language).words() == whole.words()


def test_a_sentence_parses_no_file_that_does_not_name_it(parsed):
    words = catalogue_by_need(shipped("templates"), "en")
    assert parsed == []
    assert words.has("data.text-length.way_out")
    assert parsed == ["data.yaml"]
    assert len(words.sentences) > len(parsed)
    assert len(parsed) == len(set(parsed)) == len(list((shipped("templates") / "en").iterdir()))


def test_a_sentence_that_is_nowhere_is_refused(parsed):
    words = catalogue_by_need(shipped("templates"), "en")
    assert not words.has("rule.nowhere.title")
    with pytest.raises(CatalogueError, match="no sentence `rule"):
        words.sentence("rule.nowhere.title")
    assert parsed == []


def test_threads_may_ask_at_once():
    whole = load_catalogue(shipped("templates"), "en").sentences
    for _ in range(5):
        by_id = catalogue_by_need(shipped("templates"), "en").sentences
        with ThreadPoolExecutor(4) as threads:
            asked = [list(whole)[at::4] for at in range(4)]
            told = threads.map(lambda keys, by_id=by_id: {k: by_id[k] for k in keys}, asked)
            assert all(part.items() <= whole.items() for part in told)


def test_a_language_without_a_file_is_refused(tmp_path):
    with pytest.raises(CatalogueError, match="no sentences for the language `xx`"):
        catalogue_by_need(tmp_path, "xx")

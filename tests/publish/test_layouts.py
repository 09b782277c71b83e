"""Our templates are run with fewer steps, and print what any environment prints."""

import pytest
from jinja2 import Environment, StrictUndefined
from jinja2.exceptions import UndefinedError
from markupsafe import Markup, escape

from baybook.publish.layouts import Shipped
from baybook.publish.markup import Words


class Word(str):
    """A text that calls itself something else."""

    __slots__ = ()


class Bold:
    def __html__(self):
        return "<b>!</b>"

    def __repr__(self):
        return "Bold()"


VALUES = (
    "plain", "<b>", "a & b", "it's", '"', "", None, 3, 4.5, True, Markup("<b>"), Word("<b>"),
    Bold(), ["<b>"], {"<b>": 1},
)  # fmt: skip


@pytest.mark.parametrize("value", VALUES, ids=repr)
def test_a_value_is_written_as_it_is_escaped(value):
    assert Shipped.written(value) == escape(value)


TEMPLATES = (
    "{{ value }}",
    "{{ value ~ '<' }}|{{ value|upper }}",
    "{% macro m(x) %}<i>{{ x }}</i>{% endmacro %}{{ m(value) }}{{ m(m(value)) }}",
    "{% set x %}<u>{{ value }}</u>{% endset %}{{ x }}",
    "{% for one in [value] %}<a title='{{ one }}'>{% endfor %}",
    "{% autoescape false %}{{ value }}{% endautoescape %}{{ value }}",
)


@pytest.mark.parametrize("template", TEMPLATES)
@pytest.mark.parametrize("value", VALUES, ids=repr)
def test_a_template_prints_what_any_environment_prints(template, value):
    printed, wanted = (
        kind(autoescape=True, undefined=StrictUndefined).from_string(template).render(value=value)
        for kind in (Shipped, Environment)
    )
    assert printed == wanted


def test_words_are_said_the_same_in_a_loop_and_in_a_block():
    template = (
        "{% for one in [1, 2] %}{% set on = one %}{{ w('of', number=on) }}{{ w('w') }}{% endfor %}"
        "{% block last %}{% set three = '<3>' %}{{ w('of', number=three) }}{% endblock %}"
    )
    words = Words({"of": "No. {number}", "w": "a < b"})
    printed = Shipped(autoescape=True).from_string(template).render(w=words)
    assert printed == "No. 1a &lt; bNo. 2a &lt; bNo. &lt;3&gt;"


TOLD = {"text": "x", "items": 1, "get": 2, "none": None, 3: 4}


@pytest.mark.parametrize("name", ["text", "items", "get", "none", "keys", "missing"])
def test_a_name_means_what_it_means_in_any_environment(name):
    ours, any_ = (kind().getattr(TOLD, name) for kind in (Shipped, Environment))
    assert repr(ours) == repr(any_)


def test_a_name_that_is_not_there_raises():
    strict = Shipped(undefined=StrictUndefined)
    with pytest.raises(UndefinedError, match="no attribute 'missing'"):
        strict.from_string("{{ told.missing }}").render(told=TOLD)

"""The catalogues of all languages say the same: the same sentences, each with its places, and no figure of their own."""

import re

import pytest

from shipcalc.languages.catalogue import JOINTS, entries, places
from shipcalc.languages.known import LANGUAGES
from shipcalc.languages.values import KINDS

FIGURES = re.compile(r"\d+")
IN_PLACES = re.compile(r"\{\w+\}")


def figures(text: str) -> list[str]:
    return sorted(FIGURES.findall(IN_PLACES.sub("", text)))


def test_every_language_has_every_sentence() -> None:
    first, *others = (list(entries(language)) for language in LANGUAGES)
    assert all(other == first for other in others)
    assert set(JOINTS) <= set(first)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_translation_has_the_places_and_figures_of_its_sentence_and_no_others(language: str) -> None:
    for english, told in entries(language).items():
        assert places(told) == places(english), english
        assert figures(told) == figures(english), english
        assert {name.rstrip("0123456789") for name in places(english)} <= {*KINDS, "part"}, english


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_sentence_ends_as_its_english_does(language: str) -> None:
    for english, told in entries(language).items():
        assert english.endswith(".") == told.endswith((".", "。")) or english == "No.", english
        assert told == told.strip(), english


def test_what_is_not_latin_is_japanese() -> None:
    for language in LANGUAGES:
        letters = "".join(told for english, told in entries(language).items() if english not in JOINTS)
        assert bool(re.search("[\u3040-\u30ff\u4e00-\u9fff]", letters)) == (language == "ja")

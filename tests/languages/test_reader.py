"""A text in English is said again, with its days and sums; what is no text of ours stays as it was typed."""

import subprocess
import sys

import pytest

from shipcalc.errors import WrongInput
from shipcalc.languages.known import language_meant
from shipcalc.languages.reader import Reader
from tests.languages.test_values import plain


def said(english: str, language: str = "de", names: tuple[str, ...] = ()) -> str:
    return plain(Reader(language, names).say(english))


def test_a_sentence_is_said_with_its_values() -> None:
    assert said("Good until 8 Dec 2026") == "Gültig bis 8. Dez. 2026"
    assert said("$755.00 deposit (25 %); good until 8 Dec 2026", "fr") == (
        "Acompte de 755,00 $US (25 %) ; valable jusqu’au 8 déc. 2026"
    )
    assert (
        said("Enclosed trailer, 3 days sooner, cover 150,000", "es")
        == "Remolque cerrado, 3 días antes, cobertura 150.000"
    )
    assert (
        said("We recommend choice 2. The lowest price.", "ja") == "プラン2をお勧めいたします。最も低い料金のためです。"
    )


def test_a_way_is_said_with_the_names_of_countries() -> None:
    told = said(
        "The port of Tacoma, WA to the port of Bremerhaven, Germany, 9,121 nautical miles driven aboard (RoRo), by the Panama Canal"
    )
    assert (
        told
        == "Hafen Tacoma, WA – Hafen Bremerhaven, Deutschland, 9.121 Seemeilen an Bord gefahren (RoRo), über Panamakanal"
    )


def test_a_delivery_term_in_brackets_is_no_currency() -> None:
    assert said("To the port of Bremerhaven (CIP) $3,070.00, port charges are yours") == (
        "Bis zum Hafen Bremerhaven (CIP) 3.070,00 $, Hafenkosten tragen Sie"
    )


def test_what_has_no_translation_stays_english_and_is_listed_once() -> None:
    reader = Reader("de")
    for _ in range(2):
        assert (
            reader.say("The moon is made of cheese. Good until 8 Dec 2026")
            == "The moon is made of cheese. Good until 8 Dec 2026"
        )
    assert reader.missing == ("The moon is made of cheese. Good until 8 Dec 2026",)


@pytest.mark.parametrize("name", ["Price", "Name", "{day}", "8 Dec 2026", "{sum.__class__}", "Open trailer"])
def test_names_stay_as_they_were_typed(name: str) -> None:
    told = said(f"For {name}  ·  Good until 8 Dec 2026  ·  Amounts in US dollars (USD)", names=(name,))
    assert told == f"Für {name}  ·  Gültig bis 8. Dez. 2026  ·  Beträge in US-Dollar (USD)"
    assert said(name, names=(name,)) == name


def test_a_language_is_asked_for_by_code_or_name() -> None:
    assert [language_meant(text) for text in ("", "en", "English", "DE", " german ", "ja")] == [
        "en",
        "en",
        "en",
        "de",
        "de",
        "ja",
    ]
    with pytest.raises(WrongInput, match='no catalogue of "Elbisch"'):
        language_meant("Elbisch")


def test_a_plain_quote_does_without_babel() -> None:
    told = "import sys, shipcalc.cli.sales, shipcalc.actions.files, shipcalc.documents.buyer.pdf; print('babel' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"

"""How much of the offers of random quotes is said in each language, and that nothing in them is lost or made up on the way."""

import re
import sys
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

import pytest

from shipcalc.actions.quoting import open_books, quote
from shipcalc.actions.sources import invented_sources
from shipcalc.documents.buyer.language import reader_of
from shipcalc.documents.buyer.pdf import quote_data
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.languages.known import ENGLISH, LANGUAGES
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Quote
from shipcalc.records import replace
from tests.quote.kept_answers import DAY, fetched_or_kept, orders

EVERY = 22  # of 660 requests: home, border, RoRo, container, ferry, collected, to a terminal
LEAST = 0.95  # of all texts with letters; what is missing is printed
FIRST_PAGE = (
    "title",
    "under_title",
    "headings",
    "answers",
    "choices",
    "reason",
    "legs",
    "accept",
    "map_key",
    "boxes",
    "bank",
)
AMOUNT = re.compile(r"\d[\d.,\u202f\u00a0]*\d|\d")


@pytest.fixture(scope="module")
def quotes() -> list[Quote]:
    sources = invented_sources()
    books, found = open_books(sources), []
    for order in (*orders(), *fetched_or_kept())[::EVERY]:
        try:
            found.append(for_buyer(quote(order, sources, as_of=DAY, books=books)))
        except (NoAnswer, WrongInput):
            continue
    return found


def texts(told: object, key: str = "") -> Iterator[str]:
    """Yield the texts of an offer, without who the dealer is and without pictures."""
    if isinstance(told, str):
        yield told
    elif isinstance(told, Mapping):
        for name, one in told.items():
            yield from texts(one, name) if name not in ("dealer", "svg", "alt", "photo", "words") else ()
    elif isinstance(told, Sequence) and not isinstance(told, bytes):
        for one in told:
            yield from texts(one, key)


def amounts(text: str) -> Counter[str]:
    """Return the figures of a text without what stands between them."""
    named = re.sub(r"(\d{4})-\d\d-0?(\d+)", r"\1 / \2", text)  # the month of a day is said as a word
    return Counter(re.sub(r"\D", "", found) for found in AMOUNT.findall(named))


@pytest.mark.parametrize("language", LANGUAGES)
def test_nearly_all_that_a_buyer_reads_is_in_his_language(language: str, quotes: list[Quote]) -> None:
    missing: Counter[str] = Counter()
    count = first_page = 0
    for made in quotes:
        reader = reader_of(made, language)
        english = quote_data(made)
        quote_data(made, reader=reader)
        stayed = set(reader.missing)
        told = [text for text in texts(english) if any(letter.isalpha() for letter in text)]
        count += len(told)
        missing.update(text for text in told if text in stayed)
        first_page += sum(text in stayed for name in FIRST_PAGE for text in texts(english[name]))
    share = 1 - missing.total() / count
    told = "\n  ".join(text for text, _ in missing.most_common())
    sys.stdout.write(f"{language}: {share:.1%} of {count} texts; not yet:\n  {told}\n")  # seen with pytest -s -n 0
    assert len(quotes) > 20
    assert share >= LEAST
    assert first_page <= len(quotes) / 10


@pytest.mark.parametrize("language", ["de", "es", "fr"])
def test_every_amount_of_an_offer_is_in_its_translation(language: str, quotes: list[Quote]) -> None:
    for made in quotes:
        english = quote_data(made)
        told = quote_data(made, reader=reader_of(made, language))
        for one, other in zip(texts(english["answers"]), texts(told["answers"]), strict=True):
            assert amounts(other) == amounts(one), (one, other)
        for part in ("groups", "local", "choices", "total", "sums"):
            assert [amounts(text) for text in texts(told[part])] == [amounts(text) for text in texts(english[part])], (
                part
            )


@pytest.mark.parametrize("language", LANGUAGES)
def test_an_account_never_keeps_the_caution_about_accounts_from_being_said(language: str, quotes: list[Quote]) -> None:
    bare = quotes[0]
    with_bank = replace(bare, dealer=replace(bare.dealer, bank=("Heron & Vale; Motors", "Bank of Nowhere", "IBAN X")))
    caution = quote_data(bare, reader=reader_of(bare, language))["bank"][-1]
    assert quote_data(with_bank, reader=reader_of(with_bank, language))["bank"][-1] == caution
    assert caution != quote_data(bare)["bank"][-1] or language == ENGLISH

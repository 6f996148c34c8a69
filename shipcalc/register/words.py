"""Quotes are found by words of their buyer, vehicles and place, also where the words are not spelt just so."""

import re
import unicodedata
from collections.abc import Iterator, Sequence

from sqlalchemy import Connection, delete, insert, select

from shipcalc.quote.model import Quote
from shipcalc.register.tables import words

LEAST_LIKENESS = 78.0
MOST_LIKE_WORDS = 40
# What words of the carrier of a price in hand are about.
IN_HAND = "in hand"
_WORD = re.compile(r"\w+")
_SINGLE = re.compile(r"[^\w]+")


def words_in(text: str) -> tuple[str, ...]:
    """Return the words of a text, without case and accents."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    return tuple(dict.fromkeys(_WORD.findall("".join(letter for letter in plain if not unicodedata.combining(letter)))))


def keep_words(connection: Connection, number: str, quote: Quote) -> None:
    """Keep the words that a quote is found by, in place of those it had."""
    connection.execute(delete(words).where(words.c.number == number))
    rows = [{"number": number, "about": about, "word": word} for about, word in dict.fromkeys(_words_of(quote))]
    connection.execute(insert(words), rows)


def _words_of(quote: Quote) -> Iterator[tuple[str, str]]:
    yield from (("buyer", word) for word in words_in(quote.buyer))
    for vehicle in quote.vehicles:
        told = f"{vehicle.stock_number} {vehicle.name} {vehicle.serial or ''}"
        yield from (
            ("vehicle", word) for word in (*words_in(told), _SINGLE.sub("", vehicle.stock_number.casefold())) if word
        )
    to = quote.to
    yield from (("place", word) for word in words_in(f"{to.name} {to.subdivision} {to.postal_code} {to.country}"))
    for held in (option.in_hand for option in quote.options if option.in_hand is not None):
        yield from ((IN_HAND, word) for word in words_in(held.carrier))


def find_numbers(connection: Connection, text: str, about: str | None = None) -> tuple[str, ...]:
    """Return the numbers of the quotes that have every word of a text, begun or spelt nearly so."""
    found: set[str] | None = None
    for word in words_in(text):
        numbers = _with_word(connection, word, about)
        found = numbers if found is None else found & numbers
    return tuple(sorted(found or ()))


def _with_word(connection: Connection, word: str, about: str | None) -> set[str]:
    """Return the quotes with a word that begins so; only where there is none, those with a word that is spelt nearly so."""
    begins = words.c.word.between(word, word + "\U0010ffff")
    return _numbers(connection, begins, about) or _numbers(
        connection, words.c.word.in_(_like(connection, word, about)), about
    )


def _numbers(connection: Connection, condition: object, about: str | None) -> set[str]:
    asked = select(words.c.number).where(condition)  # type: ignore[arg-type]
    if about is not None:
        asked = asked.where(words.c.about == about)
    return set(connection.execute(asked).scalars())


def _like(connection: Connection, word: str, about: str | None) -> Sequence[str]:
    from rapidfuzz import fuzz, process

    asked = select(words.c.word).distinct()
    if about is not None:
        asked = asked.where(words.c.about == about)
    known = connection.execute(asked).scalars().all()
    like = process.extract(word, known, scorer=fuzz.ratio, score_cutoff=LEAST_LIKENESS, limit=MOST_LIKE_WORDS)
    return [found for found, *_ in like]

"""Quotes are found by words of their buyer, vehicles and place, also where the words are not spelt just so."""

import re
import unicodedata
from collections.abc import Iterator, Sequence

from sqlalchemy import ColumnElement, Connection, Select, and_, delete, false, func, insert, literal_column, select

from shipcalc.quote.model import Quote
from shipcalc.register.tables import LETTERS, words

LEAST_LIKENESS = 78.0
MOST_LIKE_WORDS = 40
LAST_LETTER = "\U0010ffff"
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


def has_words(
    connection: Connection, number: ColumnElement[str], text: str, about: str | None = None
) -> ColumnElement[bool]:
    """Say of a quote's number that the quote has every word of a text, begun so or spelt nearly so; without words, of none.

    Only what is wanted is handed out by the database, not the numbers of all the quotes that have a word.
    """
    each = [number.in_(_with_word(connection, word, about)) for word in words_in(text)]
    return and_(*each) if each else false()


def _with_word(connection: Connection, word: str, about: str | None) -> Select[tuple[str]]:
    """Return the quotes with a word that begins so; only where there is none, those with a word that is spelt nearly so."""
    begins = _about(select(words.c.number).where(_begins(word)), about)
    if connection.execute(begins.limit(1)).first() is not None:
        return begins
    return _about(select(words.c.number).where(words.c.word.in_(_like(connection, word, about))), about)


def _begins(start: str) -> ColumnElement[bool]:
    own = words.c.word  # no BETWEEN: PostgreSQL does not take one with a collation
    return and_(own >= start, own <= start + LAST_LETTER)


def _about(asked: Select[tuple[str]], about: str | None) -> Select[tuple[str]]:
    return asked if about is None else asked.where(words.c.about == about)


def _like(connection: Connection, word: str, about: str | None) -> Sequence[str]:
    """Return the words that are spelt nearly so: of those with the same first letter, else of all.

    A figure is never taken for another: a stock number or a ZIP that differs in one is another vehicle, another place.
    """
    if any(letter.isdigit() for letter in word):
        return ()
    from rapidfuzz import fuzz, process

    for start in (word[0], ""):
        known = _words_from(connection, start)
        like = process.extract(word, known, scorer=fuzz.ratio, score_cutoff=LEAST_LIKENESS, limit=MOST_LIKE_WORDS)
        found = [text for text, *_ in like]
        if (
            found
            and connection.execute(
                _about(select(words.c.number).where(words.c.word.in_(found)), about).limit(1)
            ).first()
        ):
            return found
    return ()


def _words_from(connection: Connection, start: str) -> Sequence[str]:
    """Return each word of letters that begins so once, stepping along their index over all the quotes that have it."""
    end = start + LAST_LETTER
    own = words.c.word
    letters: ColumnElement[bool] = literal_column(LETTERS[connection.dialect.name])
    steps = select(func.min(own).label("word")).where(letters, own >= start, own <= end).cte("steps", recursive=True)
    following = select(func.min(own)).where(letters, own > steps.c.word, own <= end).scalar_subquery()
    steps = steps.union_all(select(following).where(steps.c.word.is_not(None)))
    return connection.execute(select(steps.c.word).where(steps.c.word.is_not(None))).scalars().all()

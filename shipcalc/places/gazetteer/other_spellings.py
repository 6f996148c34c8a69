"""A second name that is spelt almost like the first: another language's (Roma, Lisboa), or a slip of the pen (Savanah).

The gazetteer's list of other names does not tell the two apart. `data/other_spellings.tsv` has those that are right; any other
that is as near as a slip is asked for.
"""

from functools import cache
from pathlib import Path

from shipcalc.places.gazetteer.spelling import spelling_key, spellings

FILE = Path(__file__).parents[1] / "data" / "other_spellings.tsv"
# A slip is one letter, or two in a long name; two that stand the wrong way round are one.
LONG = 8


def is_right(key: str, country: str) -> bool:
    """Whether a name is a right one of some city in that country, in another language or in older use."""
    return not right_spellings(country).isdisjoint(spellings(key))


def may_be_a_slip(key: str, first_name: str, country: str) -> bool:
    """Whether a city's other name is one that somebody meant to write as its first (both as `spelling_key` writes them)."""
    if first_name in spellings(key) or is_right(key, country) or _is_longer_or_shorter(key, first_name):
        return False
    return _is_near(key.replace(" ", ""), first_name.replace(" ", ""))


def _is_longer_or_shorter(key: str, first_name: str) -> bool:
    """Whether one has words that the other leaves out: Frankfurt Main, Washington DC."""
    words, first_words = set(key.split()), set(first_name.split())
    return words < first_words or first_words < words


def _is_near(name: str, first_name: str) -> bool:
    from rapidfuzz.distance import OSA

    shortest = min(len(name), len(first_name))
    return 0 < OSA.distance(name, first_name, score_cutoff=2) <= (2 if shortest >= LONG else 1)


@cache
def right_spellings(country: str) -> frozenset[str]:
    """Return all names in a country that are right, as `spelling_key` writes them."""
    lines = (line.split("\t") for line in FILE.read_text(encoding="utf-8").splitlines() if not line.startswith("#"))
    return frozenset(spelling_key(name) for name, its_country, _ in lines if its_country == country)

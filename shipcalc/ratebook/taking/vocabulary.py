"""The words by which carriers and forwarders head their columns, as `ratebook/data/mail_words.toml` has them."""

import re
import tomllib
from collections.abc import Iterable, Mapping
from pathlib import Path

FILE = Path(__file__).parents[1] / "data" / "mail_words.toml"


def _words(text: str) -> frozenset[str]:
    return frozenset(" ".join(word.split()) for word in text.split("|"))


def _section(name: str) -> Mapping[str, frozenset[str]]:
    return {field: _words(text) for field, text in _READ[name].items()}


_READ: Mapping[str, Mapping[str, str]] = tomllib.loads(FILE.read_text(encoding="utf-8"))
FROM, TO, FILLERS = (_words(_READ["sides"][name]) for name in ("from", "to", "fillers"))
LOW, HIGH = (_words(_READ["spans"][name]) for name in ("low", "high"))
PARTS, FIELDS, SURCHARGES = (_section(name) for name in ("parts", "fields", "surcharges"))
LIMITS, MEASURES, ADDRESSES = (_section(name) for name in ("limits", "measures", "addresses"))
PRICE_FILLERS = _words(_READ["prices"]["beside"])
EXCEPTING = _words(_READ["exceptions"]["words"])
BEYOND = _words(_READ["beyond"]["words"])
CONDITIONS = frozenset(word for words in _section("conditions").values() for word in words)


def any_of(words: Iterable[str]) -> str:
    """Return a pattern of any of these words, the longest first; `*` at the end of one is any ending."""
    longest_first = sorted(words, key=lambda word: (-len(word), word))
    patterns = (re.escape(word.removesuffix("*")) + r"\w*" * word.endswith("*") for word in longest_first)
    return f"(?:{'|'.join(patterns)})"

"""One spelling for every way of writing a name: without accents, capitals, points and hyphens."""

import re
import unicodedata

# Letters that Unicode does not take apart into a plain letter and an accent.
_LETTERS = str.maketrans(
    {
        "ß": "ss", "ø": "o", "Ø": "o", "æ": "ae", "Æ": "ae", "œ": "oe", "Œ": "oe", "đ": "d", "Đ": "d",
        "ł": "l", "Ł": "l", "ı": "i", "þ": "th", "Þ": "th", "ð": "d", "Ð": "d", "ħ": "h", "Ħ": "h", "ə": "a", "Ə": "a",
    }
)  # fmt: skip
_INITIALS = re.compile(r"\b(\w)\.\s?(?=\w\b)")  # D.C. → DC, U. S. A. → USA; St. Louis stays
_APOSTROPHES = re.compile("['’ʻʼ`´‘]")
_NOT_IN_WORDS = re.compile(r"[\W_]+")
_PLAIN = re.compile(r"[a-z ]+")

_SHORT = {"st": "saint", "ste": "sainte", "ft": "fort", "mt": "mount"}
_DIRECTIONS = {"n": "north", "s": "south", "e": "east", "w": "west"}
_UMLAUTS = (("ae", "a"), ("oe", "o"), ("ue", "u"), ("aa", "a"))

NICKNAMES = {
    "nyc": "new york city",
    "la": "los angeles",
    "sf": "san francisco",
    "dc": "washington dc",
    "philly": "philadelphia",
    "vegas": "las vegas",
    "nola": "new orleans",
    "slc": "salt lake city",
    "okc": "oklahoma city",
    "kc": "kansas city",
    "hk": "hong kong",
    "cdmx": "mexico city",
}


def spelling_key(text: str) -> str:
    """Return the spelling under which a name is kept: "St. Pölten" → "saint polten", "N. Little Rock" → "north little rock".

    The last word is never taken for a short form: MT alone is Montana and not a mount.
    """
    if text.isascii() and text.isalpha():  # one word of plain letters: quick, since thousands are asked for at a start
        return text.casefold()
    plain = _INITIALS.sub(r"\1", _APOSTROPHES.sub("", text))
    if not plain.isascii():
        plain = unicodedata.normalize("NFKD", plain.translate(_LETTERS))
        plain = "".join(letter for letter in plain if not unicodedata.combining(letter))
    words = _NOT_IN_WORDS.sub(" ", plain.casefold()).split()
    if len(words) > 1:
        words[:-1] = [_SHORT.get(word, word) for word in words[:-1]]
        words[0] = _DIRECTIONS.get(words[0], words[0])
    return " ".join(words)


def spellings(key: str) -> tuple[str, ...]:
    """Return the keys worth trying in turn: what a nickname stands for, the key, umlauts written out (duesseldorf)."""
    others = [NICKNAMES[key], key] if key in NICKNAMES else [key]
    shortened = key
    for long, short in _UMLAUTS:
        if long in key:
            others.append(key.replace(long, short))
            shortened = shortened.replace(long, short)
    if shortened != key:
        others.append(shortened)
    return tuple(dict.fromkeys(others))


def is_latin(text: str) -> bool:
    """Whether all letters are Latin, accents allowed."""
    if _PLAIN.fullmatch(text):
        return True
    return all(ord(c) < 0x250 or 0x1E00 <= ord(c) < 0x1F00 or not c.isalpha() for c in text)

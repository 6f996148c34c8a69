"""The catalogue of a language: sentences with named places, in English and in that language (gettext, `.po`).

`{day}`, `{n}`, `{sum}`, `{currency}`, `{place}`, `{name}` and `{code}` are said as `values.py` says them, `{part}` is looked up
once more; a figure behind the name tells two of a kind apart (`{n2}`).
"""

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from babel.messages.pofile import read_po

from shipcalc.languages.known import LANGUAGES
from shipcalc.languages.values import KINDS
from shipcalc.records import dataclass

FOLDER = Path(__file__).parent / "sentences"
PART = "part"
_PLACE = re.compile(r"\{([a-z]+)(\d*)\}")
_FIRST_WORD = re.compile(r"[^\W\d_]+")


@dataclass(frozen=True, slots=True)
class Template:
    """A sentence with places: how it is found in English, and what stands for it."""

    found: re.Pattern[str]
    told: str
    letters: int


@dataclass(frozen=True, slots=True)
class Catalogue:
    """Sentences without places by their text, those with places by their first word, the most telling first."""

    language: str
    whole: dict[str, str]
    by_word: dict[str, tuple[Template, ...]]
    joints: dict[str, str]

    def templates(self, english: str) -> Iterator[Template]:
        """Yield those that a text may be of: by its first word, then those that begin with a place."""
        word = _FIRST_WORD.match(english)
        yield from self.by_word.get(word[0].casefold(), ()) if word else ()
        yield from self.by_word.get("", ())


# How parts stand together, where no sentence has both.
JOINTS = ("{part} {part2}", "{part}; {part2}", "{part}: {part2}", "{part}, {part2}")


@lru_cache(maxsize=len(LANGUAGES))
def catalogue(language: str) -> Catalogue:
    """Return the catalogue of one of LANGUAGES."""
    texts = entries(language)
    joints = {joint: texts.pop(joint) for joint in JOINTS}
    by_word: dict[str, list[Template]] = {}
    for english, told in texts.items():
        if _PLACE.search(english):
            word = _FIRST_WORD.match(english)
            by_word.setdefault(word[0].casefold() if word else "", []).append(_template(english, told))
    return Catalogue(
        language,
        {lower(english): told for english, told in texts.items() if not _PLACE.search(english)},
        {word: tuple(sorted(found, key=lambda one: -one.letters)) for word, found in by_word.items()},
        joints,
    )


def entries(language: str) -> dict[str, str]:
    """Return every English sentence of a catalogue with what stands for it."""
    with (FOLDER / f"{language}.po").open("rb") as file:
        return {str(one.id): str(one.string) for one in read_po(file, locale=language) if one.id and one.string}


def places(text: str) -> list[str]:
    """Return the names of the places of a sentence, in the order of the alphabet."""
    return sorted(f"{kind}{number}" for kind, number in _PLACE.findall(text))


def lower(text: str) -> str:
    """Return text with its first letter small: a sentence is found with either."""
    return text[:1].lower() + text[1:]


def _template(english: str, told: str) -> Template:
    texts = _PLACE.split(english)
    first, *rest = texts
    pattern = _literal(first, at_start=True)
    for kind, number, literal in zip(rest[::3], rest[1::3], rest[2::3], strict=True):
        shape = ".+?" if kind == PART else KINDS[kind][0]
        pattern += f"(?P<{kind}{number}>{shape}){_literal(literal, at_start=False)}"
    return Template(re.compile(pattern, re.DOTALL), told, sum(map(len, texts[::3])))


def _literal(text: str, *, at_start: bool) -> str:
    if at_start and text[:1].isalpha():
        return f"[{text[0].lower()}{text[0].upper()}]{re.escape(text[1:])}"
    return re.escape(text)

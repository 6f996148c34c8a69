"""Whoever reads in another language: a text in English is looked up, and said again with its days, numbers and sums."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

from babel import Locale

from shipcalc.languages.catalogue import PART, Template, catalogue, lower
from shipcalc.languages.known import LANGUAGES
from shipcalc.languages.values import ALONE, KINDS

_PORT = "the port of "
# What begins with a value in English may begin with a word in another language.
_VALUES_BEGIN_WITH = "0123456789$€£"


class Reader:
    """Says texts again in one of LANGUAGES; what has no translation stays English and is kept in `missing`.

    `names` are texts that are the same in every language: people, vehicles, towns.
    """

    def __init__(self, language: str, names: Collection[str] = ()) -> None:
        assert language in LANGUAGES, "faces ask for one of LANGUAGES"
        self.language = language
        self._names = frozenset(names)
        self._locale = Locale.parse(language)
        self._catalogue = catalogue(language)
        self._said: dict[str, str | None] = {}
        self._missing: dict[str, None] = {}

    @property
    def missing(self) -> tuple[str, ...]:
        """Return the texts that stayed English, each once, in the order in which they were met."""
        return tuple(self._missing)

    def say(self, english: str) -> str:
        """Return a text in the reader's language; as it is, where it has no translation."""
        said = self._find(english)
        if said is None:
            self._missing[english] = None
            return english
        return _large(said) if english[:1] in _VALUES_BEGIN_WITH else said

    def say_all(self, told: Any, *, leave: Collection[str] = ()) -> Any:
        """Return data with every text in it said, but for what stands under the keys to `leave`."""
        if isinstance(told, str):
            return self.say(told)
        if isinstance(told, Mapping):
            return {key: one if key in leave else self.say_all(one, leave=leave) for key, one in told.items()}
        if isinstance(told, Sequence) and not isinstance(told, bytes):
            return [self.say_all(one, leave=leave) for one in told]
        return told

    def _find(self, english: str) -> str | None:
        """Return what stands for a text, None where nothing does; asked again and again for the same parts."""
        if english not in self._said:
            self._said[english] = None  # a text is no part of itself
            found = next(self._ways(english), None)
            self._said[english] = None if found is None else _as_large(found, english)
        return self._said[english]

    def _ways(self, english: str) -> Iterator[str]:
        """Yield what a text may be: a name, a value, a sentence of the catalogue, parts of it one after the other."""
        if english in self._names:
            yield english
        if value := self._value(english):
            yield value
        if not any(letter.isalpha() for letter in english):
            yield english
        if whole := self._catalogue.whole.get(lower(english)):
            yield whole
        for template in self._catalogue.templates(english):
            if filled := self._filled(template, english):
                yield filled
        yield from self._joined(english)

    def _value(self, english: str) -> str | None:
        for kind, pattern in ALONE:
            if pattern.fullmatch(english):
                return self._said_as(kind, english)
        return None

    def _said_as(self, kind: str, text: str) -> str | None:
        if kind == PART:
            return self._find(text)
        if kind == "place" and lower(text).startswith(_PORT):
            return self._find(text)
        try:
            return KINDS[kind][1](text, self._locale)
        except ValueError:  # 31 Feb, or a day without its month
            return None

    def _filled(self, template: Template, english: str) -> str | None:
        found = template.found.fullmatch(english)
        if found is None:
            return None
        values = {}
        for name, text in found.groupdict().items():
            said = self._said_as(name.rstrip("0123456789"), text)
            if said is None:
                return None
            values[name] = said
        return template.told.format_map(values)

    def _joined(self, english: str) -> Iterator[str]:
        """Yield a text of two parts that are each known, divided where its larger parts meet."""
        for joint, told in self._catalogue.joints.items():
            divider = joint.removeprefix("{part}").removesuffix("{part2}")
            at = english.find(divider)
            while at >= 0:
                first, second = english[:at], english[at + len(divider) :]
                at = english.find(divider, at + 1)
                if divider == " " and not (first.endswith(".") and second[:1].isupper()):
                    continue
                if (one := self._find(first)) is not None and (other := self._find(second)) is not None:
                    yield told.format_map({"part": one, "part2": other})


def _as_large(said: str, english: str) -> str:
    """Return what is said with its first letter large where the English has it large."""
    return _large(said) if english[:1].isupper() else said


def _large(text: str) -> str:
    return text[:1].upper() + text[1:]

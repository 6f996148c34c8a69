"""What a column is, by its header: which field, and which traits ("Open – $/mi" is a price per mile on an open trailer)."""

import re
from collections.abc import Mapping
from datetime import date
from functools import lru_cache

from shipcalc.ratebook.taking.place_headers import place_field, without
from shipcalc.ratebook.taking.stated import states
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, bare_words, traits_in
from shipcalc.ratebook.taking.vocabulary import FIELDS, FROM, HIGH, LOW, PARTS, PRICE_FILLERS, SURCHARGES, TO
from shipcalc.records import dataclass, replace

PRICES = frozenset({"rate", "linehaul", "total"})
PLACES = frozenset(
    {f"{side}{part}" for side in ("", "from_", "to_") for part in (*PARTS, "place", "zip_low", "zip_high")}
    | {"lane", "pol", "pod", "zip_low", "zip_high"}
)
SURCHARGE = "surcharge: "
# A surcharge of which the mail says no more than that.
UNNAMED = "surcharge"
# A header must be this like a synonym to be taken for it, and is then said to have been.
LIKE_ENOUGH = 88
SHORTEST_MISSPELT = 5
LONGEST_HEADER = 80
_PERCENT = re.compile(r"%|\b(?:per ?cent|percentage|pct|prozent|procent|pourcent(?:age)?|porcentaje)\b", re.IGNORECASE)
# What stands in brackets in a header is named, where it states something that the column does not take.
_ASIDE = re.compile(r"\(.*?\)|\[.*?\]")
_OF_FREIGHT = re.compile(r"\b(?:of|on|von der|du) (?:the )?(?:ocean |sea )?(?:freight|fracht|fret)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """What a column is. `field` is "" where the words say nothing known; `like` is the synonym that a misspelt header is near.

    `said` is an answer whether the figures of a surcharge are percentages or money.
    """

    header: str
    field: str = ""
    traits: Traits = NO_TRAITS
    like: str = ""
    said: str = ""
    valid_from: date | None = None
    valid_to: date | None = None

    @property
    def is_price(self) -> bool:
        """Return whether the cells below are prices of a carriage."""
        return self.field in PRICES

    @property
    def is_place(self) -> bool:
        """Return whether the cells below say where from or where to."""
        return self.field in PLACES


@lru_cache(maxsize=4096)
def meaning_of(header: str) -> Meaning:
    """Return what a header means; its field is "" where nothing of it is known."""
    if not header or len(header) > LONGEST_HEADER:
        return Meaning(header=header)
    for field, known in (("from_place", FROM), ("to_place", TO)):
        if len(bare_words(header)) > 2 and bare_words(header) in known:
            return Meaning(header=header, field=field)
    traits, rest = traits_in(header)
    whole, words = bare_words(header), bare_words(rest)
    for field, known in (*FIELDS.items(), *((SURCHARGE + name, known) for name, known in SURCHARGES.items())):
        if field not in PRICES and whole in known and not (field == "distance" and (traits.unit or traits.currency)):
            return Meaning(header=header, field=field, traits=_traits_of_whole(traits, field, header))
    field = _field_of(words, traits)
    if field:
        return Meaning(header=header, field=field, traits=traits)
    if says_percent(header) and (own := _percentage(header)):
        return own
    if (beside := _ASIDE.search(header)) and states(beside[0]):
        own = meaning_of(_ASIDE.sub(" ", header).strip())
        if own.field:
            of_box = own.traits.basis.endswith(("′", "′HC", "container"))  # "max 2 cars" is what a container holds
            return replace(
                own, header=header, traits=own.traits.over(replace(traits, variant="") if of_box else traits)
            )
    near = _nearest(words)
    return (
        Meaning(header=header, field=near[0], traits=traits, like=near[1])
        if near
        else Meaning(header=header, traits=traits)
    )


def is_known_header(text: str) -> bool:
    """Return whether a header is as a whole a word that is known: "ZIP3", "3-digit ZIP", "Min."."""
    words = bare_words(text)
    return any(
        words in known for known in (*FIELDS.values(), *PARTS.values(), *SURCHARGES.values(), FROM, TO, LOW, HIGH)
    ) or (place_field(words) != "")


def is_price_with_a_letter(header: str) -> bool:
    """Return whether a header is a word of prices with a letter or a number that nothing explains: "Rate A", "Price 2"."""
    words = bare_words(header).split()
    labels = [word for word in words if re.fullmatch(r"[a-z]|\d{1,2}", word)]
    return len(labels) == 1 and len(words) > 1 and all(word in FIELDS["rate"] for word in words if word not in labels)


def says_percent(text: str) -> bool:
    """Return whether words say that a number is a percentage."""
    return _PERCENT.search(text) is not None


def _percentage(header: str) -> Meaning | None:
    """Return the meaning of a surcharge's header that says "percent of freight" as well; None for another header."""
    bare = " ".join(re.sub(r"[()\[\],:]", " ", _OF_FREIGHT.sub(" ", _PERCENT.sub(" ", header))).split())
    own = meaning_of(bare)
    return replace(own, header=header) if bare != header and own.field.startswith(SURCHARGE) else None


def with_traits(meaning: Meaning, traits: Traits) -> Meaning:
    """Return a meaning with what is said above its header; what the header says itself counts."""
    return replace(meaning, traits=meaning.traits.over(traits))


def _traits_of_whole(traits: Traits, field: str, header: str) -> Traits:
    """Return the traits of a header that is a synonym as a whole, whose words mean nothing else: "Container", "Fuel"."""
    if field == "distance":
        return Traits(unit="km" if "k" in header.casefold() else "mi")
    return traits if field == "fuel_said" or field.startswith(SURCHARGE) else Traits(currency=traits.currency)


def _field_of(words: str, traits: Traits) -> str:
    if not words:
        says_price = (
            traits.currency
            or traits.unit
            or traits.basis
            or traits.trailer
            or traits.variant
            or traits.limits
            or traits.fuel is not None
        )
        return "rate" if says_price or traits.mode else ""
    if (
        traits.is_minimum
        and without(words, {"min", "minimum", "charge", "rate", "price", "amount", "fee", "freight"}) == ""
    ):
        return "minimum"
    for field, known in FIELDS.items():
        if words in known and not (field == "carrier" and traits.trailer):
            return field
    bare = without(words, _OF_SURCHARGES)
    surcharge = next((name for name, known in SURCHARGES.items() if words in known or bare in known), "")
    if surcharge:
        return SURCHARGE + surcharge
    return place_field(words) or _price_field(words, traits)


_OF_SURCHARGES = frozenset(
    "surcharge surcharges charge factor adder zuschlag toeslag recargo supplemento surtaxe".split()
)


def _price_field(words: str, traits: Traits) -> str:
    """Return a price's field where the words beside its traits are all words of prices: "flat rate to door" → rate."""
    rest = without(words, PRICE_FILLERS)
    if rest in ("", "total", "linehaul", "line haul", "all in", "base"):
        has_price_word = any(word in FIELDS["rate"] for word in words.split())
        if rest == "total":
            return "total"
        if rest in ("linehaul", "line haul"):
            return "linehaul"
        if rest == "" and (has_price_word or traits != NO_TRAITS):
            return "rate"
    return ""


def _nearest(words: str) -> tuple[str, str] | None:
    """Return the field whose synonym is spelled nearly so, and that synonym; None where two fields are as near."""
    from rapidfuzz import fuzz, process

    if len(words) < SHORTEST_MISSPELT:
        return None
    found = process.extract(words, _all_synonyms(), scorer=fuzz.ratio, score_cutoff=LIKE_ENOUGH, limit=3)
    fields = {_all_synonyms_by_word()[word] for word, _, _ in found}
    return (fields.pop(), found[0][0]) if len(fields) == 1 else None


@lru_cache(maxsize=1)
def _all_synonyms_by_word() -> Mapping[str, str]:
    known = {word: field for field, words in FIELDS.items() for word in words if len(word) >= SHORTEST_MISSPELT}
    known |= {word: "from_place" for word in FROM if len(word) >= SHORTEST_MISSPELT}
    known |= {word: "to_place" for word in TO if len(word) >= SHORTEST_MISSPELT}
    sides = (("from_", ("origin", "pickup", "from")), ("to_", ("destination", "delivery", "to")))
    known |= {
        f"{word} {part}": f"{side}{part}"
        for side, words in sides
        for word in words
        for part in ("city", "state", "zip", "zone")
    }
    return known


@lru_cache(maxsize=1)
def _all_synonyms() -> tuple[str, ...]:
    return tuple(_all_synonyms_by_word())

"""What each quotation of a form says: its own labels and headings, then what is said of all, then the letter; and its ends."""

import re
from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.figures import is_included
from shipcalc.ratebook.taking.forms import Form, without_number
from shipcalc.ratebook.taking.lane_text import ends_of_lane
from shipcalc.ratebook.taking.lasting import ended
from shipcalc.ratebook.taking.layers import over
from shipcalc.ratebook.taking.letter import Facts, Line, facts_in
from shipcalc.ratebook.taking.meanings import SURCHARGE
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.pairs import OF_ALL, OF_TRAITS, Pair, Part
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.rate import LeftOut
from shipcalc.ratebook.taking.spots import ends_in
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, bare_words, trailer_in, traits_in
from shipcalc.records import dataclass, replace

SIZES = ("per 20′", "per 40′", "per 40′HC")
_SEA = re.compile(r"\b(?:ocean|sea|basic|maritime|maritimo|seefracht|zeevracht|fcl|lcl|o/f)\b", re.IGNORECASE)
BUNKER = f"{SURCHARGE}bunker"
# How the sentences of a letter begin that say what a label does, whatever its language.
_AS_SENTENCE = {
    "reference": "Quotation no.",
    "valid_from": "valid from",
    "valid_to": "valid until",
    "validity": "valid",
    "issued": "Date:",
    "free_days": "free days",
    "trailer": "",
    "mode": "",
    "container": "",
    "currency": "currency",
    "basis": "",
}
_TO = re.compile(r"\s*(?:→|->|=>|>|\bto\b|\bnach\b|\bnaar\b|\s[–—-]\s)\s*", re.IGNORECASE)
Ends = tuple[tuple[End, ...], tuple[End, ...]]


@dataclass(frozen=True, slots=True)
class Quoted:
    """One quotation: its part, what is said of it, both its ends, and why they are not understood."""

    part: Part
    facts: Facts
    ends: Ends
    why: str = ""
    is_sea: bool = True


def facts_of_form(form: Form, around: Around) -> Iterator[Facts]:
    """Yield what each quotation of a form says, and what the letter says of it, for the days of its prices."""
    yield from (one.facts for one in quotations_of(form, with_values(form), around))


def not_understood(page: Page, part: Part, around: Around) -> Iterator[LeftOut]:
    """Yield the labels with figures behind them that say nothing which is understood, and those that say two things."""
    facts = _facts(page, part, around)
    known = {
        "free_days": facts.free_days,
        "reference": facts.reference,
        "valid_from": facts.valid_from or facts.unclear_days,
        "valid_to": facts.valid_to or facts.unclear_days,
        "validity": facts.valid_to or facts.valid_from or facts.unclear_days or facts.good_for,
    }
    for pair in part.pairs:
        clashes = any(pair.field in name for name in facts.clash)
        if clashes or (pair.field in known and not known[pair.field]):
            why = "is said in two ways" if clashes else "is not understood"
            yield LeftOut(page.short(pair.row, pair.cells[0]), f"{pair.label} {pair.text}", why)


def with_values(form: Form) -> Page:
    """Return a form's page in which a cell of a label and its value has the value alone."""
    own = {(pair.row, pair.at): pair.text for part in form.parts for pair in part.pairs if pair.cells == (pair.at,)}
    return replace(form.page, values={**form.page.values, **own}, texts={**form.page.texts, **own})


def quotations_of(form: Form, page: Page, around: Around) -> Iterator[Quoted]:
    """Yield the quotations of a form, each with what is said of it, of all before it, and in the letter."""
    general = [part for part in form.parts if not part.has_freight]
    shared = Facts()
    for part in general:
        shared = over(_facts(page, part, around), shared)
    quoting = [part for part in form.parts if part.has_freight]
    if not any(part.headings for part in quoting[1:]):
        shared = over(shared, _facts(page, Part((), quoting[0].headings), around))
    previous: Part | None = None
    places = [pair for part in general for pair in part.pairs]
    for part in quoting:
        own = _facts(page, part, around)
        first = previous or part
        of_all = Part(tuple(pair for pair in first.pairs if pair.field in OF_ALL))
        facts = over(over(over(own, shared), _facts(page, of_all, around)), around.facts)
        facts = ended(facts, around.answers, around.order)
        inherited = [*places, *(previous.pairs if previous is not None and not part.headings else ())]
        is_sea = _is_sea(part, facts)
        try:
            ends, why = _ends(page, part, inherited, is_sea, around), ""
        except Unclear as unclear:
            ends, why = ((), ()), unclear.why
        yield Quoted(part, replace(facts, start="", pol="", pod=""), ends, why, is_sea)
        previous = previous or part


def _facts(page: Page, part: Part, around: Around) -> Facts:
    """Return what the labels and the headings of a part say."""
    lines = [
        Line(pair.row, page.short(pair.row, pair.at), f"{_AS_SENTENCE[pair.field]} {value_of(page, pair)}".strip())
        for pair in part.pairs
        if pair.field in _AS_SENTENCE
    ]
    lines += [Line(spot[0], page.short(*spot), without_number(text)) for spot, text in part.headings]
    facts = facts_in(lines, around.order)
    said = facts.traits
    for text in (
        *(value_of(page, pair) for pair in part.of(*OF_TRAITS)),
        *(without_number(text) for _, text in part.headings),
    ):
        traits = traits_in(text)[0]
        said = said.over(replace(NO_TRAITS, basis=traits.basis, mode=traits.mode, trailer=trailer_in(text)))
    named = [value_of(page, pair) for pair in part.of("reference")]
    reference = facts.reference or (named[0] if named and len(named[0].split()) == 1 else "")
    for pair in part.of(BUNKER):
        said = said.over(Traits(fuel=True if is_included(value_of(page, pair)) else None))
    free = [value_of(page, pair) for pair in part.of("free_days")]
    one_number = all(len(re.findall(r"\d+", text)) == 1 for text in free)
    return replace(facts, traits=said, reference=reference, free_days=facts.free_days if one_number else None)


def value_of(page: Page, pair: Pair) -> str:
    """Return what stands behind a label."""
    return " ".join(page.text(pair.row, at) for at in pair.cells)


def _is_sea(part: Part, facts: Facts) -> bool:
    labels = " ".join(pair.label for pair in part.pairs if pair.is_freight)
    of_ports = bool(part.of("pol", "pod")) or any(
        pair.field.startswith(SURCHARGE) and pair.field != BUNKER for pair in part.pairs
    )
    if any(pair.meaning.traits.trailer or pair.meaning.traits.unit for pair in part.pairs if pair.is_freight):
        return False
    by_sea = bool(facts.traits.mode) or facts.traits.basis in (*SIZES, "per W/M", "per m³")
    return by_sea or _SEA.search(labels) is not None or (of_ports and not facts.traits.trailer)


def _ends(page: Page, part: Part, others: Sequence[Pair], is_sea: bool, around: Around) -> Ends:
    """Return both ends of a quotation: by its own labels, its headings, what is said of all. Raises Unclear."""
    own = _by_labels(page, part.pairs, is_sea, around)
    headed: dict[str, tuple[End, ...]] = {}
    for _, text in part.headings:
        headed |= _by_heading(without_number(text), is_sea, around)
    told = _by_labels(page, others, is_sea, around) if {*own, *headed} != {"from", "to"} else {}
    if around.facts.pol and around.facts.pod and is_sea:
        told = {"from": (End(around.facts.pol, "port"),), "to": (End(around.facts.pod, "port"),), **told}
    found = {**told, **headed, **own}
    return found.get("from", ()), found.get("to", ())


def _by_labels(page: Page, pairs: Sequence[Pair], is_sea: bool, around: Around) -> dict[str, tuple[End, ...]]:
    found: dict[str, tuple[End, ...]] = {}
    for pair in pairs:
        side = {"pol": "from", "pod": "to"}.get(pair.field, pair.field.partition("_")[0])
        text = value_of(page, pair)
        if pair.field == "lane":
            start, end, _ = ends_of_lane(text, around)
            found |= {"from": _as_ports(start) if is_sea else start, "to": _as_ports(end) if is_sea else end}
        elif side in ("from", "to") and not _is_head(pair, side, pairs):
            found[side] = (port_in(text),) if is_sea else ends_in(text, around.known.names)
    return found


def _is_head(pair: Pair, side: str, pairs: Sequence[Pair]) -> bool:
    """Return whether "From: …" is who writes, since another label says the port."""
    return pair.field == f"{side}_place" and any(one.field == {"from": "pol", "to": "pod"}[side] for one in pairs)


def _by_heading(text: str, is_sea: bool, around: Around) -> dict[str, tuple[End, ...]]:
    """Return the ends that a heading names: "Savannah to Antwerp, 20′", or one port alone as where to. Raises Unclear."""
    found = facts_in([Line(0, "", text)], around.order)
    if found.pol and found.pod and is_sea:
        return {"from": (End(found.pol, "port"),), "to": (End(found.pod, "port"),)}
    rest = _without_traits(text)
    if not bare_words(rest) or trailer_in(text):
        return {}
    both = [part.removeprefix("from ").removeprefix("From ") for part in _TO.split(rest)]
    if len(both) == 2 and is_sea:
        return {"from": (port_in(both[0]),), "to": (port_in(both[1]),)}
    if len(both) == 2:
        start, end, _ = ends_of_lane(rest, around)
        return {"from": start, "to": end}
    return _one_port(rest) if is_sea else {}


def _one_port(text: str) -> dict[str, tuple[End, ...]]:
    try:
        return {"to": (port_in(text),)}
    except Unclear:
        return {}


def _without_traits(heading: str) -> str:
    """Return a heading without its parts that say a container, a mode or a trailer: "Savannah to Antwerp, 20′ RoRo"."""
    parts = [part for part in re.split(r"\s*[,;|(]\s*|\s[–—-]\s", heading) if bare_words(traits_in(part)[1])]
    return ", ".join(part.strip(" )") for part in parts)


def _as_ports(ends: Sequence[End]) -> tuple[End, ...]:
    return tuple(end if end.kind == "port" else port_in(end.text) for end in ends)

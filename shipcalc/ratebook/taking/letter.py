"""What a mail says around its tables: how long it holds, in which currency, with or without fuel, its number."""

import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import Any

from shipcalc.ratebook.taking.abroad import country_among
from shipcalc.ratebook.taking.currencies import currencies_in
from shipcalc.ratebook.taking.days import Order, days_in
from shipcalc.ratebook.taking.ends import Unclear
from shipcalc.ratebook.taking.figures import looks_like_price
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.stated import says_money
from shipcalc.ratebook.taking.trait_words import MEASURE
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, trailer_in, traits_in
from shipcalc.ratebook.taking.validity import issued_in, validity_in
from shipcalc.ratebook.taking.vocabulary import BEYOND, any_of
from shipcalc.records import dataclass, replace

OF_TRAITS = "traits."
OF_LIMITS = "limits"
NUMBERED = re.compile(
    r"\b(?:(?:pricing |price |rate |tariff )?sheet(?= ?(?:no|nr|number|num|n°|nº|#))|"
    r"quotation|quote|offer|tariff|contract|agreement|price list|price sheet|rate sheet|proposal|"
    r"our ref(?:erence)?|reference|ref|angebot|preisliste|prijslijst|listino|cotation|quotazione|offerta|offerte|"
    r"offre|cotización|devis|tarif|lista|rfq|"
    r"bid)\b\.?"
    r"(?:\s*(?:no|nr|number|num|id|n°|nº)(?!\w)\.?|"
    r"\s*#)?\s*:?\s*((?!(?:19|20)\d\d\b)[A-Z]{0,6}[-/.]?[A-Z0-9]*\d[A-Z0-9]*(?:[-/.][A-Z0-9]+)*)(?![\w/])|"
    r"(?:^|\s[-–—|]\s)(?:no|nr|n°|nº)\.?\s*:?\s*(\d{1,6}[-/]\d{1,6})(?![\w/.-])|"
    r"\b(?:prices|rates|lanes)\s+([A-Z]{1,4}-\d[A-Z0-9/-]*)(?![\w/])",
    re.IGNORECASE,
)
FREE = re.compile(
    r"\b(\d{1,2}) (?:calendar |working )?(?:free days|days? (?:of )?free|tage frei)|"
    r"\b(?:free (?:days|time)|freizeit)[^0-9]{0,25}(\d{1,2})\b",
    re.IGNORECASE,
)
_START = re.compile(
    r"(?i:\b(?:ex|depuis|(?:transport|deliver(?:y|ies)|carriage|haulage|collections?)(?: \w+)? (?:from|von|van)|"
    r"(?:all )?(?:rates|prices)(?: are)? from|origin|pick ?-?ups? (?:in|at|from)|"
    r"from (?:our|your) (?:yard|terminal|depot|lot|store) (?:in|at)|"
    r"loading (?:in|at)|outbound from|shipping from|departing|ab|vanaf)\b:?)\s+"
    r"((?:[Pp]ort of )?[A-Z][\w'-]*(?: [A-Z][\w'-]*)*(?:,\s*[A-Z]{2}\b)?(?: \d{5})?)"
)
_NO_PLACE = re.compile(r"(?:vat|mwst|ust|tva|iva|btw|tax|baf|fuel|works?|duty|gst|customs)\b", re.IGNORECASE)
_TITLE_FROM = re.compile(
    r"(?:all )?(?:(?:prices|rates|lanes|shipments) )?(?:from|origin|ex|pick ?-?up(?: (?:in|at|from))?)\s*:?\s+([^:;]{3,40})",
    re.IGNORECASE,
)
_PORT = r"([^:;|]+?)"
_LOADING = r"(?:pol|port of loading|load(?:ing)? port|port of origin|verladehafen|ladehafen)"
_ARRIVAL = r"(?:pod|port of (?:discharge|destination)|discharge port|destination port|loschhafen|löschhafen|zielhafen)"
_POL = re.compile(rf"\b{_LOADING}\b\s*:?\s*{_PORT}\s*$", re.IGNORECASE)
_POD = re.compile(rf"\b{_ARRIVAL}\b\s*:?\s*{_PORT}\s*$", re.IGNORECASE)
_POL_POD = re.compile(rf"\b{_LOADING}\b\s*:?\s*{_PORT}[,;/ ]+{_ARRIVAL}\b\s*:?\s*{_PORT}\s*$", re.IGNORECASE)
_ALL_IN = re.compile(
    r"\b(?:prices?|rates?|sums?|amounts?|preise?|raten|beträge|prix|tarifs?|precios?|tarifas?|prezzi|tariffe|prijzen|tarieven)\b"
    r"[^.;:\d]{0,25}[ :](?:in|en)? ?(?:[$€£]|US\$|(?-i:[A-Z]{3})\b|euros?\b|us dollars?\b)(?!\s*\d)",
    re.IGNORECASE,
)
_OF_WAY = re.compile(
    r"\b(?:ro ?-?/?ro|lo ?-?/?lo|fcl|lcl|(?:ocean|sea) ?freight|by sea|sailings?|rates|tariff)\b", re.IGNORECASE
)
_BETWEEN = re.compile(rf"^{_PORT}(?: to | nach | naar |\s*(?:→|->|=>)\s*|\s[-–—]\s){_PORT}(?:[,;(].*)?$", re.IGNORECASE)
_FROM_TO = re.compile(rf"\b(?:from|ex|von|van|de) {_PORT} (?:to|nach|naar|à|a) {_PORT}(?:[,;.] .*)?$", re.IGNORECASE)
_FROM_ALONE = re.compile(rf"^(?:from|origin|von|van|de)\s*:\s*{_PORT}\s*$", re.IGNORECASE)
_TO_ALONE = re.compile(rf"^(?:to|destination|nach|naar|à)\s*:\s*{_PORT}\s*$", re.IGNORECASE)

_SENTENCE = re.compile(r"(?<=[.;!])\s+(?=[A-ZÀ-Þ])|\n")
_BEYOND = re.compile(rf"(?<!\w){any_of(BEYOND)}(?!\w)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Line:
    """One row of words outside of the tables, its cells put together; `where` is its first cell."""

    row: int
    where: str
    text: str
    has_figures: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What lines say; None or "" where they say nothing.

    `where` names the line of each fact; `clash` names facts that two lines tell differently.
    """

    traits: Traits = NO_TRAITS
    valid_from: date | None = None
    valid_to: date | None = None
    reference: str = ""
    start: str = ""
    pol: str = ""
    pod: str = ""
    free_days: int | None = None
    issued: date | None = None
    good_for: int | None = None
    sender: str = ""
    country: str = ""
    unclear_days: tuple[str, ...] = ()
    where: tuple[tuple[str, str], ...] = ()
    clash: tuple[str, ...] = ()


def lines_of(page: Page, rows: Iterable[int], columns: range | None = None) -> tuple[Line, ...]:
    """Return the rows of words among `rows`."""
    found = []
    for row in rows:
        cells = {at: text for at, text in page.row(row, columns).items() if (row, at) not in page.struck}
        if cells:
            texts = list(dict.fromkeys(cells.values()))
            figures = any(
                isinstance(page.values[row, c], (int, float))
                or (len(texts) > 1 and looks_like_price(page.values[row, c]))
                for c in cells
            )
            found.append(Line(row, page.short(row, min(cells)), " ".join(texts), figures))
    return tuple(found)


def facts_in(lines: Sequence[Line], order: Order) -> Facts:
    """Return what lines say together."""
    said: dict[str, object] = {}
    where: dict[str, str] = {}
    clash: list[str] = []
    unclear: list[str] = []
    limits: dict[str, None] = {}
    for line in lines:
        for name, value in _facts_of(line.text, order):
            if name == OF_LIMITS:
                limits[str(value)] = None
            elif name == "unclear":
                unclear.append(f"{line.where}: {value}")
            elif name not in said:
                said[name], where[name] = value, line.where
            elif said[name] != value and name != "sender":
                clash.append(name)
    for name in clash:
        said.pop(name, None)
    traits: dict[str, Any] = {
        name.removeprefix(OF_TRAITS): value for name, value in said.items() if name.startswith(OF_TRAITS)
    }
    own: dict[str, Any] = {name: value for name, value in said.items() if not name.startswith(OF_TRAITS)}
    told = tuple(where.items())
    own["country"] = country_among(line.text for line in lines)
    return Facts(
        traits=Traits(**traits, limits=tuple(limits)),
        unclear_days=tuple(unclear),
        where=told,
        clash=tuple(dict.fromkeys(clash)),
        **own,
    )


def port_named(text: str) -> str:
    """Return the code of the sea port that a text names, "" for none."""
    try:
        return port_in(text.strip(" .,-–—")).text
    except Unclear:
        return ""


def facts_of_text(text: str, order: Order = "") -> Iterator[tuple[str, object]]:
    """Yield what one line says, by the names of facts."""
    return _facts_of(text, order)


def _facts_of(text: str, order: Order) -> Iterator[tuple[str, object]]:
    yield from validity_in(text, order)
    yield from issued_in(text, order)
    for found in NUMBERED.finditer(text):
        number = found[1] or found[2] or found[3]
        if not days_in(number, order):
            yield "reference", number
            break
    if free := FREE.search(text):
        yield "free_days", int(free[1] or free[2])
    yield from _ports(text)
    if (title := _TITLE_FROM.fullmatch(text)) and not days_in(text, order):
        yield "start", title[1].strip(" .:")
    elif (start := _START.search(text)) and not days_in(start[1], order) and not _NO_PLACE.match(start[1]):
        yield "start", re.sub(r"^port of ", "", start[1], flags=re.IGNORECASE).strip(" .")
    limits, is_sum = traits_in(text)[0].limits, says_money(text) or "%" in text
    text = _of_the_table(text)
    traits = replace(traits_in(text)[0], trailer=trailer_in(text))
    first = re.split(r"[,;|]", text, maxsplit=1)[0]
    is_plain = _speaks_of_all(text, order) and (traits.currency or not currencies_in(text))
    if not is_plain and _speaks_of_all(first, order) and not any(sign.isdigit() for sign in first):
        own = traits_in(first)[0]
        yield from ((f"traits.{name}", value) for name in ("currency", "basis") if (value := getattr(own, name)))
    for name in ("currency", "fuel", "trailer", "mode", "basis", "unit"):
        value = getattr(traits, name)
        if value not in ("", None, MEASURE) and (name in ("fuel", "trailer", "mode") or _speaks_of_all(text, order)):
            yield f"traits.{name}", value
    if not is_sum:  # a line of a sum speaks of some vehicles alone, and is named
        yield from ((OF_LIMITS, limit) for limit in limits)


def _of_the_table(text: str) -> str:
    """Return a line without its sentences of what lies beyond the places of a table: their basis is not that of its prices."""
    if _BEYOND.search(text) is None:
        return text
    return " ".join(sentence for sentence in _SENTENCE.split(text) if _BEYOND.search(sentence) is None)


def _ports(text: str) -> Iterator[tuple[str, object]]:
    """Yield the ports that a line of the letter head names, those that are surely ports."""
    text = re.sub(r"\s{2,}", " ", _OF_WAY.sub(" ", text)).strip(" ,;:-")
    for pattern in (_POL_POD, _FROM_TO, _BETWEEN):
        if found := pattern.search(text):
            ports = [port_named(found[1]), port_named(found[2])]
            if all(ports):
                yield from zip(("pol", "pod"), ports, strict=True)
                return
    for name, pattern in (("pol", _POL), ("pod", _POD), ("pol", _FROM_ALONE), ("pod", _TO_ALONE)):
        if (one := pattern.search(text)) and (port := port_named(one[1])):
            yield name, port


def _speaks_of_all(text: str, order: Order) -> bool:
    """Return whether a sentence tells of all prices, and not of one sum in it: no figure stands beside its currency."""
    if _ALL_IN.search(text):
        return True
    text = re.sub(r"(?<!\d)20\d\d(?!\d)", ";", text)
    for day in reversed(days_in(text, order)):
        text = f"{text[: day.start]};{text[day.end :]}"
    return not re.search(r"(?:[$€£]|\b[A-Z]{3}\b)\s*\d|\d[\d.,]*\s*(?:[$€£]|%|\b(?:USD|EUR|CAD|GBP)\b)", text)

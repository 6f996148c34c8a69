"""Lines of words that hold what no column takes: sums in sentences, what marks at prices refer to."""

import re
from collections.abc import Iterable, Iterator, Sequence

from shipcalc.ratebook.taking.days import Order, days_in
from shipcalc.ratebook.taking.letter import FREE, NUMBERED, Line, facts_of_text
from shipcalc.ratebook.taking.rate import LeftOut
from shipcalc.ratebook.taking.stated import states
from shipcalc.ratebook.taking.trait_words import STANDARD
from shipcalc.ratebook.taking.traits import traits_in
from shipcalc.ratebook.taking.validity import GOOD_FOR, QUARTER
from shipcalc.ratebook.taking.vocabulary import ADDRESSES, any_of
from shipcalc.sheets.numbers import plain_text

_SUM = re.compile(
    r"[$€£¥]\s*\d|\d[\d.,]*\s*(?:[$€£%¥]|\b(?:usd|eur|cad|gbp|aud|chf|dollars?|euros?|percent|"
    r"per cent|prozent)\b)|\b(?:usd|eur|cad|gbp|aud|chf)\s*\d",
    re.IGNORECASE,
)
_ASKS = re.compile(
    r"\b(?:add|plus|extra|surcharge|minimum|at least|additional|fee|charged?|waiting|detention|"
    r"storage|tolls?|discount|deduct|less|increase|free|min)\b.*\d|\d.*\b(?:extra|surcharge|"
    r"minimum|free days|discount|an hour|per hour)\b",
    re.IGNORECASE,
)
_CONDITION = re.compile(
    r"\b(?:inop\w*|non-?run\w*|not running|do(?:es)? not run|nicht fahrbereit\w*|on request|"
    r"auf anfrage|op aanvraag|oversized?|round ?trip|per (?:load|truck(?:load)?)|"
    r"full (?:loads?|trucks?)|based on \d+|minimum (?:of )?\d+ (?:vehicles|cars|units)|"
    r"subject to (?!availability|change|"
    r"space)\w+ \w+)\b",
    re.IGNORECASE,
)
_MARK = re.compile(r"^\s*(\*+|†+|‡+|[¹²³]|\((?:[a-e1-9]|i+)\)|#)\s*(.+)$")
_OF_DAYS = frozenset(("valid_from", "valid_to", "issued", "unclear"))
_YEAR = re.compile(r"(?<![\w-])20\d\d(?![\w-])")
# Numbers that are of no price: pages, registers, versions, how a company is known.
_OF_NO_PRICE = re.compile(
    rf"\b{any_of(ADDRESSES['registers'])}\b[\s.:#nr°o-]*(?:[A-Z]{{0,6}}[- ]?\d[\w./-]*(?: (?:of|von|de|di|/) \d+)?)|"
    r"\b24\s?[/x]\s?7\b",
    re.IGNORECASE,
)
_STREET = re.compile(
    rf"\b{any_of(ADDRESSES['streets'])}\b[^;]{{0,40}}\b(?:[A-Z]{{2}}\.? )?\d{{4,5}}\b|"
    rf"{any_of(ADDRESSES['endings'])}\s\d{{1,4}}[a-z]?\b|"
    r"^[^;:]{3,40}\s\d{1,4}[a-z]?,\s(?:[A-Z]{1,3}[- ])?\d{4,5}(?: [A-Z]{2})?\s[A-ZÄÖÜ]|"
    r"^\d{1,5} [A-Z][\w .]+,[\w ,.]+\b[A-Z]{2} \d{5}",
    re.IGNORECASE,
)
ZONE_LINE = re.compile(r"zone\s+([a-z]|\d{1,2}|[ivx]{1,4})\s*(?:[:=]|\s[-–—]\s)\s*(.+)", re.IGNORECASE)
_ADDRESS = re.compile(r"@|\b(?:tel|phone|fax|mobile|www)\b|https?:|\b\d{3}[-. ]\d{3,4}[-.]\d{4}\b", re.IGNORECASE)
LONGEST_TOLD = 90
BESIDE = "is said beside the prices and is in none of them"
LIMIT = "is a limit for which the sheet has no column: at most a note of its rows says it"


def told_beside(lines: Sequence[Line], order: Order) -> Iterator[LeftOut]:
    """Yield the lines that say a sum or a condition, which is in no price that was taken, and the rows of figures, run by run."""
    run: list[Line] = []
    above: Line | None = None
    for line in lines:
        words = _without_days(line.text, order)
        if line.has_figures and re.search(r"(?<![\w/-])\d[\d.,]*(?![\w/-])", words) and not _ADDRESS.search(words):
            run = run if run and run[-1].row + 1 == line.row else []
            if not run and above is not None and above.row + 1 == line.row:
                run = [above]
            yield _figures(run, line)
            run.append(line)
        elif _SUM.search(words) or _ASKS.search(words) or _CONDITION.search(words) or unread_in(line.text, order):
            only_limits = not _SUM.search(words) and traits_in(line.text)[0].limits
            yield LeftOut(line.where, shortened(line.text), LIMIT if only_limits else BESIDE)
        above = line


def _figures(run: Sequence[Line], line: Line) -> LeftOut:
    what = f"{run[0].where}: {shortened(run[0].text)}" if run else ""
    return LeftOut(
        line.where, shortened(line.text), f"stands outside of the tables of prices{f', below {what}' if what else ''}"
    )


def says_sum(text: str) -> bool:
    """Return whether a remark says a sum or a condition: plus $60 toll."""
    return any(pattern.search(text) for pattern in (_SUM, _ASKS, _CONDITION))


def unread_in(text: str, order: Order) -> str:
    """Return what of a line states something and is read by nobody, "" for nothing: its numbers, limits, words of condition.

    Read are how long prices hold, numbers of quotations, free days, currency, fuel, trailer; addresses are no prices.
    """
    if _ADDRESS.search(text) or _STREET.search(text) or ZONE_LINE.fullmatch(text):
        return ""
    said = dict(facts_of_text(text, order))
    rest = NUMBERED.sub(" ", text) if "reference" in said else text
    for fact, pattern in (("free_days", FREE), ("good_for", GOOD_FOR)):
        rest = pattern.sub(" ", rest) if fact in said else rest
    if "start" in said:
        rest = re.sub(rf"{re.escape(str(said['start']))}(?:,? [A-Z]{{2}})?(?: \d{{5}})?", " ", rest)
    if said.keys() & _OF_DAYS:
        rest = _without_days(rest, order)
        rest = _YEAR.sub(" ", QUARTER.sub(" ", rest))
    traits, words = traits_in(_OF_NO_PRICE.sub(" ", rest))
    if traits.limits or traits.variant not in ("", STANDARD) or states(words):
        return " ".join((*traits.limits, words))
    return ""


def marks_in(lines: Iterable[Line]) -> tuple[tuple[str, str], ...]:
    """Return the notes that marks at prices refer to: `* plus ferry` → (*, plus ferry)."""
    return tuple((found[1], found[2]) for line in lines if (found := _MARK.match(line.text)))


def shortened(text: str) -> str:
    """Return a text of one line that is not too long to be told."""
    return text if len(text) <= LONGEST_TOLD else f"{text[: LONGEST_TOLD - 2].rstrip()} …"


def _without_days(text: str, order: Order) -> str:
    text = plain_text(NUMBERED.sub(" ", text))
    for one in reversed(days_in(text, order)):
        text = text[: one.start] + " " + text[one.end :]
    return text

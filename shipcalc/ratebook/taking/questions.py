"""What must be known of a mail's rates and is not said in it."""

from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.abroad import NO_COUNTRY
from shipcalc.ratebook.taking.answers import KEYS, Answers
from shipcalc.ratebook.taking.around import Known
from shipcalc.ratebook.taking.letter import Facts
from shipcalc.ratebook.taking.onward import ANY_PORT
from shipcalc.ratebook.taking.rate import Question, Rate


def open_questions(
    rates: Sequence[Rate], answers: Answers, sender: str, facts: Facts, known: Known, why: str
) -> Iterator[Question]:
    """Yield what is not said of these rates, the most weighty first. `why` are the reasons for which others were left out."""
    lanes = [rate for rate in rates if rate.target == "Lanes"]
    by_truck = [rate for rate in rates if rate.target in BY_TRUCK]
    yield from _who(rates, sender, known)
    if without := [rate for rate in rates if not rate.currency and rate.percent is None]:
        yield Question(
            "currency",
            f"In which currency are these prices, by its three letters ({_cells(without)})?",
            (),
            without[0].where,
        )
    if without := [rate for rate in by_truck if not rate.trailer]:
        yield Question(
            "trailer", f"On which trailers are these prices ({_cells(without)})?", KEYS["trailer"], without[0].where
        )
    if without := [rate for rate in lanes if rate.fuel_included is None]:
        yield Question(
            "fuel", f"Is fuel included in these prices, or not ({_cells(without)})?", KEYS["fuel"], without[0].where
        )
    if without := [rate for rate in lanes if rate.start is None]:
        yield Question("from", f"Where do these lanes begin ({_cells(without)})?", (), without[0].where)
    if without := [rate for rate in lanes if rate.end is None]:
        yield Question("to", f"Where do these lanes end ({_cells(without)})?", (), without[0].where)
    yield from _abroad(rates, answers, why)
    if facts.unclear_days and not answers.get("dates"):
        yield Question("dates", f"Which comes first in the days of this mail? {facts.unclear_days[0]}", KEYS["dates"])
    if _TWO_NUMBERS in why and not answers.get("decimals"):
        yield Question(
            "decimals", "What divides decimals in the figures of this mail, a point or a comma?", KEYS["decimals"]
        )
    if _TWO_DAYS in why and not facts.unclear_days and not answers.get("dates"):
        yield Question("dates", "Which comes first in the days of this mail?", KEYS["dates"])
    if without := [rate for rate in rates if rate.target == "Ocean quotations" and not rate.mode and not rate.label]:
        yield Question("mode", f"How do these vehicles go ({_cells(without)})?", KEYS["mode"], without[0].where)
    if without := [
        rate for rate in rates if rate.target == "Ocean quotations" and not rate.basis and rate.percent is None
    ]:
        yield Question(
            "basis",
            f"What is this freight for ({_cells(without)})?",
            ("per vehicle", "per W/M", "per m³", "per 20′", "per 40′", "per 40′HC"),
            without[0].where,
        )


def _abroad(rates: Sequence[Rate], answers: Answers, why: str) -> Iterator[Question]:
    """Yield what is not said of roads abroad: the country of their postal codes, the port that they begin at."""
    if NO_COUNTRY in why and not answers.get("country"):
        yield Question("country", "In which country are the postal codes of this mail, by its name or two letters?")
    without = [rate for rate in rates if rate.target == "On-carriage" and rate.start is None]
    if without and not answers.get("from"):
        text = f"From which port do these roads lead, by its name or code, or from {ANY_PORT} ({_cells(without)})?"
        yield Question("from", text, (), without[0].where)


LIKE_ENOUGH = 80
BY_TRUCK = ("Lanes", "Per mile", "On-carriage")
_TWO_NUMBERS, _TWO_DAYS = "can be read as", "can be 20"


def _who(rates: Sequence[Rate], sender: str, known: Known) -> Iterator[Question]:
    """Yield the question who sent the rates: nobody is named, or one that is spelt nearly as a carrier of the rate book."""
    if not rates:
        return
    carriers = {carrier.casefold() for carrier in known.carriers}
    names = list(dict.fromkeys(rate.carrier for rate in rates))
    if not all(names):
        yield Question("carrier", "Who sent these prices?")
        return
    for name in names:
        if name.casefold() in carriers:
            continue
        near = _like(name, known.carriers)
        is_code = name.isupper() and " " not in name
        if near or (is_code and not sender):
            yield Question(
                "carrier",
                f"Which carrier is {name}? Its name as the rate book has it, or is to have it"
                if not near
                else f"Is {name} one of these?",
                (*near, name) if near else (),
            )
            return


def _like(name: str, known: Sequence[str]) -> tuple[str, ...]:
    from rapidfuzz import fuzz, process

    return tuple(
        found
        for found, _, _ in process.extract(name, known, scorer=fuzz.token_set_ratio, score_cutoff=LIKE_ENOUGH, limit=3)
    )


def _cells(rates: Sequence[Rate]) -> str:
    cells = list(dict.fromkeys(rate.where for rate in rates))
    return cells[0] if len(cells) == 1 else f"{cells[0]} and {len(cells) - 1} more"

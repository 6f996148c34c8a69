"""What must be known of a mail's rates and is not said in it."""

from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.answers import KEYS, Answers
from shipcalc.ratebook.taking.letter import Facts
from shipcalc.ratebook.taking.rate import Question, Rate


def open_questions(rates: Sequence[Rate], answers: Answers, sender: str, facts: Facts) -> Iterator[Question]:
    """Yield what is not said of these rates, the most weighty first."""
    lanes = [rate for rate in rates if rate.target == "Lanes"]
    if rates and any(not rate.carrier for rate in rates) and not sender:
        yield Question("carrier", "Who sent these prices?")
    if without := [rate for rate in lanes if not rate.trailer]:
        yield Question("trailer", f"On which trailers are these prices ({_cells(without)})?", KEYS["trailer"], without[0].where)
    if without := [rate for rate in lanes if rate.fuel_included is None]:
        yield Question("fuel", f"Is fuel included in these prices, or not ({_cells(without)})?", KEYS["fuel"], without[0].where)
    if without := [rate for rate in lanes if rate.start is None]:
        yield Question("from", f"Where do these lanes begin ({_cells(without)})?", (), without[0].where)
    if without := [rate for rate in lanes if rate.end is None]:
        yield Question("to", f"Where do these lanes end ({_cells(without)})?", (), without[0].where)
    if facts.unclear_days and not answers.get("dates"):
        yield Question("dates", f"Which comes first in the days of this mail? {facts.unclear_days[0]}", KEYS["dates"])
    if without := [rate for rate in rates if rate.target == "Ocean quotations" and not rate.mode]:
        yield Question("mode", f"How do these vehicles go ({_cells(without)})?", KEYS["mode"], without[0].where)
    if without := [rate for rate in rates if rate.target == "Ocean quotations" and not rate.basis]:
        yield Question("basis", f"What is this freight for ({_cells(without)})?", ("per vehicle", "per W/M", "per m³", "per 20′", "per 40′", "per 40′HC"), without[0].where)


def _cells(rates: Sequence[Rate]) -> str:
    cells = list(dict.fromkeys(rate.where for rate in rates))
    return cells[0] if len(cells) == 1 else f"{cells[0]} and {len(cells) - 1} more"

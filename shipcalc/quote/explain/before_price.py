"""What may change the buyer's decision and so stands above the price: where the price ends, entry, passages of the day."""

from collections.abc import Iterator, Mapping, Sequence

from shipcalc.places.gazetteer.regions import country_name
from shipcalc.places.sea.passages import PASSAGES
from shipcalc.pricing.stage_charges import arises
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.ratebook.rows.ways import PassageState
from shipcalc.records import replace

# Institute Cargo Clauses 1.1.09, clause 6: war is excluded from all three conditions (read at second hand).
_WITHOUT_WAR = "Marine cover excludes war: war risk cover is asked for by name, at the day's rate."
_READS: Mapping[str, str] = {passage.name: passage.reads for passage in PASSAGES}


def ends_at_the_port(one: OneWay) -> Iterator[str]:
    """Yield where the price ends, and what is missing, where it does not reach the buyer."""
    port = one.arrival
    if port is None or one.reaches_the_door:
        return
    where = f"{port.row.name}, {country_name(port.place.country)}"
    yield (
        f"The price ends at the {one.called.place} of {where}: {one.network.arrivals.why}. "
        f"The onward journey to {one.request.to.name}, about {port.onward_mi:,} miles, is not in it, and is counted "
        "only in the order of the choices."
    )


def hand_over_missing(one: OneWay) -> Iterator[str]:
    """Yield that the agent's charge for handing over at arrival is in no price, where no row of the rate book holds for it."""
    country, port = one.request.to.country, one.arrival
    if port is None or is_domestic(country):
        return
    if not any(
        _is_hand_over(row) and arises(row, one.request.vehicles, mode=one.mode, to_country=country)
        for row in one.book.stage_charges
    ):
        yield f"What the agent in {port.row.name} charges for releasing and handing it over is not in the price."


def _is_hand_over(row: StageCharge) -> bool:
    return row.stage == "destination terminal" and row.code.casefold().startswith("hand-over")


def entry_unchecked(request: Request, book: RateBook) -> Iterator[str]:
    """Yield that nobody looked whether the country lets such a vehicle in, where the rate book has no row for it."""
    country = request.to.country
    known = {row.country.upper() for row in book.countries} | {row.country.upper() for row in book.entry_rules}
    if is_domestic(country) or country in known:
        return
    name = country_name(country)
    yield (
        f"We do not know whether {name} admits such a vehicle: age, use and the side of the steering wheel may rule it out. "
        "Have the buyer ask customs there, or a licensed customs broker, before anything is paid."
    )


def passages_of_the_day(one: OneWay, shown: Sequence[int]) -> Iterator[str]:
    """Yield the cautions of the passages that a way takes, as the manager has set them, each sentence once.

    `shown` are the ways that the buyer is shown, in their order.
    """
    states = {row.passage.casefold(): row for row in one.book.passages}
    told: dict[str, list[str]] = {}
    for name in one.passages:
        row = states.get(name)
        if row is not None and row.state == "caution":
            told.setdefault(_said(row), []).append(_READS[name])
    for said, names in told.items():
        yield f"The {one.called.carrier} passes {' and '.join(names)}. {said}".strip()
    if told:
        yield f"{_WITHOUT_WAR} {_around(one, states, shown)}"


def _around(one: OneWay, states: Mapping[str, PassageState], shown: Sequence[int]) -> str:
    """Return which of the choices keeps clear of the passages that a caution stands on, by the number it is shown under."""
    for number, way in enumerate(shown, start=1):
        taken = replace(one, number=way).passages
        if not any(name in states and states[name].state == "caution" for name in taken):
            return f"Choice {number} goes around these waters."
    return "None of the choices goes around these waters."


def _said(row: PassageState) -> str:
    since = f"Since {row.since.isoformat()}: " if row.since else ""
    return f"{since}{row.note or ''}"

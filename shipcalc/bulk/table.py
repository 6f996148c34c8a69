"""The rows of a block as an Arrow table: the one place that says which columns there are.

vehicle        stock number
to, place      what the destination is called in its list; the place as one writes it
trailer        open or enclosed
miles          road miles: to the door, or to the port
price          the cheapest, as a quote would say it; empty where there is none, and then why_not says why
days_from/to   days from ready to the delivery window's first and last day
carrier        only for the office
way, sea_miles, buyer_pays_locally     only where something goes by sea
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from shipcalc.bulk.answers import NONE, WAYS, Answers
from shipcalc.bulk.plan import Block, Plan
from shipcalc.money import Int64, decimals
from shipcalc.places.finding import written

if TYPE_CHECKING:
    import pyarrow as pa

LARGEST_DIGITS = 14

COLUMNS = ("vehicle", "to", "place", "trailer", "miles", "price", "currency", "days_from", "days_to")
FOR_OFFICE = ("carrier",)
BY_SEA = ("buyer_pays_locally", "way", "sea_miles")


def column_names(plan: Plan) -> tuple[str, ...]:
    """Return the columns of a plan's table."""
    office = FOR_OFFICE if plan.for_office else ()
    return (*COLUMNS, *office, *(BY_SEA if plan.crosses_the_sea else ()), "why_not")


def table_of(plan: Plan, block: Block, answers: Answers) -> "pa.Table":
    """Return the rows of a block: vehicle by vehicle, place by place, trailer by trailer."""
    import pyarrow as pa

    shape = answers.price.shape
    vehicles, places, trailers = (np.arange(size, dtype=np.int32) for size in shape)
    destinations = plan.destinations
    here = slice(block.places.start, block.places.stop)
    names = [written(place.name, place.country, place.subdivision) for place in destinations.places[here]]
    stock_numbers = [plan.vehicles[number].stock_number for number in block.vehicles]
    spread_places = np.broadcast_to(places[:, np.newaxis], shape)
    currency = plan.book.pricing.currency
    columns: dict[str, pa.Array] = {
        "vehicle": _words(np.broadcast_to(vehicles[:, np.newaxis, np.newaxis], shape), stock_numbers),
        "to": _words(spread_places, destinations.names[here]),
        "place": _words(*_without_doubles(spread_places, names)),
        "trailer": _words(np.broadcast_to(trailers, shape), plan.trailers),
        "miles": _numbers(answers.miles),
        "price": _amounts(answers.price, currency),
        "currency": _words(np.zeros(shape, dtype=np.int8), (currency,)),
        "days_from": _numbers(answers.days_from),
        "days_to": _numbers(answers.days_to),
        "carrier": _words(answers.carrier, answers.carriers),
        "buyer_pays_locally": _amounts(np.where(answers.price == NONE, NONE, answers.locally), currency),
        "way": _words(answers.way, WAYS),
        "sea_miles": _numbers(answers.nautical_miles),
        "why_not": _words(np.where(answers.why == 0, NONE, answers.why), answers.reasons),
    }
    return pa.table({name: columns[name] for name in column_names(plan)})


def _words(numbers: NDArray[Any], words: Sequence[str]) -> "pa.DictionaryArray":
    """Return a column of words by number, empty where the number is NONE."""
    import pyarrow as pa

    flat = numbers.reshape(-1)
    mask = flat == NONE
    index = pa.array(flat.astype(np.int32, copy=False), mask=mask if mask.any() else None)
    return pa.DictionaryArray.from_arrays(index, pa.array(list(words), pa.string()))


def _without_doubles(numbers: NDArray[np.int32], words: Sequence[str]) -> tuple[NDArray[np.int32], tuple[str, ...]]:
    """Return the same column with each word once: many ZIPs have one post office's name."""
    own = {word: number for number, word in enumerate(dict.fromkeys(words))}
    translated = np.array([own[word] for word in words], dtype=np.int32)
    return translated[numbers], tuple(own)


def _numbers(column: NDArray[Any]) -> "pa.Array":
    import pyarrow as pa

    flat = column.reshape(-1)
    mask = flat == NONE
    return pa.array(flat, mask=mask if mask.any() else None)


def _amounts(minor: Int64, currency: str) -> "pa.Array":
    """Return amounts in minor units as decimals of the currency, empty where NONE; the bytes of Arrow's decimal128."""
    import pyarrow as pa

    flat = minor.reshape(-1)
    halves = np.empty((len(flat), 2), dtype="<i8")
    halves[:, 0], halves[:, 1] = flat, flat >> 63
    valid = np.packbits(flat != NONE, bitorder="little")
    kind = pa.decimal128(LARGEST_DIGITS, decimals(currency))
    return pa.Array.from_buffers(kind, len(flat), [pa.py_buffer(valid), pa.py_buffer(halves)])

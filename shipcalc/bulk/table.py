"""The rows of a block as an Arrow table: the one place that says which columns there are.

vehicle        stock number
to, place      what the destination is called in its list; the place as one writes it
trailer        open or enclosed
miles          road miles: to the door, or to the port
price          the cheapest, as a quote would say it; empty where there is none, and then why_not says why
days_from/to   days from ready to the delivery window's first and last day
carrier        only for the office
way, sea_miles, buyer_pays_locally     only where something goes by sea
not_in_sum     there: "duty and tax" where no figures are known for them, so that the row looks cheaper than it is
"""

from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from shipcalc.bulk.answers import NONE, NOT_IN_SUM, WAYS, Answers
from shipcalc.bulk.plan import Block, Plan
from shipcalc.money import Int64, decimals

if TYPE_CHECKING:
    import pyarrow as pa

LARGEST_DIGITS = 14
# So many carriers, reasons or notes may a block name.
MOST_WORDS = 2**15 - 1

COLUMNS = ("vehicle", "to", "place", "trailer", "miles", "price", "currency", "days_from", "days_to")
FOR_OFFICE = ("carrier",)
BY_SEA = ("buyer_pays_locally", "not_in_sum", "way", "sea_miles", "note")


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
    stock_numbers = [plan.vehicles[number].stock_number for number in block.vehicles]
    currency = plan.book.pricing.currency
    there = len(destinations)
    columns: dict[str, pa.Array] = {
        "vehicle": _words(vehicles[:, np.newaxis, np.newaxis], stock_numbers, shape, most=len(plan.vehicles)),
        "to": _words(places[:, np.newaxis], destinations.names[here], shape, most=there),
        "place": _words(places[:, np.newaxis], destinations.labels[here], shape, most=there),
        "trailer": _words(trailers, plan.trailers, shape),
        "miles": _numbers(answers.miles),
        "price": _amounts(answers.price, currency),
        "currency": _words(np.zeros(1, dtype=np.int8), (currency,), shape),
        "days_from": _numbers(answers.days_from),
        "days_to": _numbers(answers.days_to),
        "carrier": _words(answers.carrier, answers.carriers, shape),
        "why_not": _words(np.where(answers.why == 0, NONE, answers.why), answers.reasons, shape),
    }
    if plan.crosses_the_sea:
        columns["buyer_pays_locally"] = _amounts(np.where(answers.price == NONE, NONE, answers.locally), currency)
        columns["not_in_sum"] = _words(answers.lacks, NOT_IN_SUM, shape)
        columns["way"] = _words(answers.way, WAYS, shape)
        columns["note"] = _words(answers.note, answers.notes, shape)
        columns["sea_miles"] = _numbers(answers.nautical_miles)
    return pa.table({name: columns[name] for name in column_names(plan)})


def _words(
    numbers: NDArray[Any], words: Sequence[str], shape: tuple[int, ...], *, most: int = MOST_WORDS
) -> "pa.DictionaryArray":
    """Return a column of words by number, empty where the number is NONE; in the dictionary each word stands once.

    `numbers` has the shape, or one that numpy spreads to it. The numbers in the dictionary take as few bytes as `most` words
    need, because most of a table is made of them; and as many in every block, because a file has one kind of column.
    """
    import pyarrow as pa

    own, translated = _own_words(tuple(words), most)
    narrow = translated[numbers]
    return pa.DictionaryArray.from_arrays(_numbers(np.broadcast_to(narrow, shape)), own)


@lru_cache(maxsize=16)
def _own_words(words: tuple[str, ...], most: int) -> "tuple[pa.Array, NDArray[Any]]":
    """Return the words, each once, and for each of the given ones its number among them: the same for block after block."""
    import pyarrow as pa

    own = {word: number for number, word in enumerate(dict.fromkeys(words))}
    kind = np.int8 if most < 2**7 else np.int16 if most < 2**15 else np.int32
    assert len(own) <= most, "a column of a block has no more words than one of the plan may have"
    # One more than there are words: NONE, which is -1, takes the last.
    texts = [word.encode() for word in own]
    # Not `pa.array`, which imports pandas to see whether it is given something of it: half a second.
    ends = np.concatenate([[0], np.cumsum([len(text) for text in texts], dtype=np.int32)]).astype(np.int32)
    array = pa.StringArray.from_buffers(len(texts), pa.py_buffer(ends), pa.py_buffer(b"".join(texts)))
    return array, np.array([*(own[word] for word in words), NONE], dtype=kind)


def _numbers(column: NDArray[Any]) -> "pa.Array":
    import pyarrow as pa

    flat = np.ascontiguousarray(column).reshape(-1)
    return pa.Array.from_buffers(pa.from_numpy_dtype(flat.dtype), len(flat), [_where_known(flat), pa.py_buffer(flat)])


def _where_known(flat: NDArray[Any]) -> "pa.Buffer | None":
    """Return Arrow's bits, one a number, unset where it is NONE; no bits at all where none is."""
    import pyarrow as pa

    known = flat != NONE
    return None if known.all() else pa.py_buffer(np.packbits(known, bitorder="little"))


def _amounts(minor: Int64, currency: str) -> "pa.Array":
    """Return amounts in minor units as decimals of the currency, empty where NONE; the bytes of Arrow's decimal128."""
    import pyarrow as pa

    flat = minor.reshape(-1)
    halves = np.empty((len(flat), 2), dtype="<i8")
    halves[:, 0], halves[:, 1] = flat, flat >> 63
    kind = pa.decimal128(LARGEST_DIGITS, decimals(currency))
    return pa.Array.from_buffers(kind, len(flat), [_where_known(flat), pa.py_buffer(halves)])

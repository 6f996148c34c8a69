"""What a carrier pays on a ferry: its own fare where the sheet Ferries has one, else what the ferry asks of anyone."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.ferries import Ferry

if TYPE_CHECKING:
    from shipcalc.pricing.columns import AnyFerry


def fares_of(ferries: Iterable[Ferry], row: Carrier) -> tuple[Ferry, ...]:
    """Return the rows that are a carrier's own."""
    name = row.carrier.casefold()
    return tuple(ferry for ferry in ferries if ferry.carrier and ferry.carrier.casefold() == name)


def fare_on(ferry: "AnyFerry", fares: Iterable[Ferry]) -> "AnyFerry":
    """Return the row whose price a carrier with these fares pays on a ferry."""
    if not isinstance(ferry, Ferry):
        return ferry
    return next((own for own in fares if own.terminals == ferry.terminals), ferry)

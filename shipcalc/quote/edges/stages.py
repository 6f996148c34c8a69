"""What is charged by cost stage whatever carries the vehicle: packing, export papers, clearance, treatments of a season."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.loads import BY_TRUCK, Load
from shipcalc.pricing.markups import selling_markup
from shipcalc.pricing.stage_charges import stage_lines
from shipcalc.quote.edges.edge import no_words, same_days, takes_all
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.territory import stages_without
from shipcalc.quote.price.parts import Charged, Rated
from shipcalc.quote.price.seasonal import all_year_rows, each_season
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.vehicles.vehicle import Vehicle

# What bars a shipment is asked before there are ways (Holds, Entry rules); what takes days before a ship decides which ship, and
# is asked at the port; what is charged is told among what is in the price.
ineligible, days, words = takes_all, same_days, no_words


def lines(request: Request, book: RateBook, network: Network) -> Iterator[Charged]:
    """Yield for each mode, and for ways without a ship, what is charged all year; then what hangs on the season of sailing."""
    loads = (*network.sea.loads, BY_TRUCK)
    alike: dict[tuple[str, int], list[int]] = {}
    for number, load in enumerate(loads):
        alike.setdefault((load.mode, load.containers), []).append(number)
    of_lane = np.append(network.sea.load, len(loads) - 1)
    seasons = ((None, all_year_rows(book)), *enumerate(each_season(book)))
    for season, rows in seasons:
        for numbers in alike.values():
            own: Int64 = np.where(np.isin(of_lane, numbers), 0, -1)[np.newaxis, :]
            buyer, load = request.wishes.buyer_is, loads[numbers[0]]
            part = charges(rows, request.vehicles, load, request.to.country, book, buyer=buyer)
            yield Charged(part, own, season)


def charges(
    rows: tuple[StageCharge, ...],
    vehicles: tuple[Vehicle, ...],
    load: Load,
    country: str,
    book: RateBook,
    *,
    buyer: str = "",
    alone: bool = False,
) -> Rated:
    """Return what rows charge for vehicles that are handed over so, sold to a kind of buyer; `alone`: each of them is a shipment
    by itself.
    """
    own = partial(stage_lines, rows, vehicles, mode=load.mode, containers=load.containers, to_country=country)
    return Rated(
        partial(own, without=stages_without(country), alone=alone), selling_markup(book, country, buyer).port_ppm
    )

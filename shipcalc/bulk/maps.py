"""A single vehicle's table as a price map: by state, by the first figures of the ZIP, or by country."""

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

import numpy as np

from shipcalc.bulk.answers import NOT_IN_SUM
from shipcalc.bulk.plan import Plan
from shipcalc.errors import WrongInput, asked
from shipcalc.pictures.nearest import Spots
from shipcalc.pictures.price_map import Panel, Words, prefix_map, state_map, world_map
from shipcalc.pictures.scene import Scene
from shipcalc.places.gazetteer.finding import written
from shipcalc.quote.network.territory import is_home
from shipcalc.records import replace

if TYPE_CHECKING:
    import pandas as pd
    import pyarrow as pa

PREFIX = 3
KINDS = ("zips", "states", "countries")
_CENSUS = "Outlines: US Census Bureau, 2017."
_NATURAL_EARTH = "Outlines: Natural Earth 4.1; borders as drawn there."
_WITHOUT = "Hatched in its shade: no duty and tax are known for it, so it looks cheaper than it is."
_NOT_PROMISED = "Only a quote promises a price."


def can_be_mapped(plan: Plan) -> bool:
    """Return whether a price map can be made of a plan: of one vehicle, to everywhere in a land."""
    return len(plan.vehicles) == 1 and plan.destinations.kind in KINDS


def check_map(plan: Plan, where: str) -> None:
    """Raise WrongInput for a plan that no price map can be made of."""
    if len(plan.vehicles) > 1:
        raise WrongInput(
            f"a price map is of one vehicle, and these are {len(plan.vehicles)}",
            where=where,
            remedy=f"name it with {asked('vehicle')}",
        )
    if plan.destinations.kind not in KINDS:
        raise WrongInput(
            f"there is no price map of {plan.destinations.kind}",
            where=where,
            remedy=f"say {asked('to')} {' or '.join(KINDS)}",
        )


def map_of(plan: Plan, tables: "Iterable[pa.Table]") -> Scene:
    """Return the map of a plan for which `check_map` raises nothing."""
    vehicle, kind = plan.vehicles[0], plan.destinations.kind
    start = written(plan.starts[0].name, plan.starts[0].country, plan.starts[0].subdivision)
    by = {"zips": "the first three figures of the ZIP", "states": "state", "countries": "country"}[kind]
    to = {
        "zips": "the price in the middle of those of its ZIPs",
        "states": "to the largest city of each state",
        "countries": "to the largest city of each country, or only to its port, with what the buyer pays there",
    }[kind]
    words = Words(
        title=f"Delivered price by {by}: {vehicle.name}",
        subtitle=f"{vehicle.stock_number} from {start}, {to}; {plan.as_of.isoformat()}.",
        foot=f"{_NOT_PROMISED} {_NATURAL_EARTH if kind == 'countries' else _CENSUS}",
        unit=plan.book.pricing.currency,
        lacking=NOT_IN_SUM[0],
        areas={"zips": "ZIPs from", "states": "state", "countries": "country"}[kind],
    )
    panels = [
        Panel(f"{trailer.capitalize()} trailer", amounts, lacking)
        for trailer, (amounts, lacking) in _by_trailer(plan, tables).items()
    ]
    if any(panel.lacking for panel in panels):
        words = replace(words, foot=f"{_WITHOUT} {words.foot}")
    if kind == "states":
        return state_map(panels, words)
    if kind == "zips":
        return prefix_map(panels, _spots(plan), words)
    places = zip(plan.destinations.names, plan.destinations.places, strict=True)
    return world_map(panels, {name: (place.longitude, place.latitude) for name, place in places}, words)


def _by_trailer(
    plan: Plan, tables: "Iterable[pa.Table]"
) -> Mapping[str, tuple[Mapping[str, float | None], frozenset[str]]]:
    """Return for each trailer the amounts by area, in the currency's major unit, and the areas whose amounts lack something.

    A picture needs no cents.
    """
    import pandas as pd

    frame = pd.concat([_frame(plan, table) for table in tables], ignore_index=True)
    area = frame["to"].str[:PREFIX] if plan.destinations.kind == "zips" else frame["to"]
    middle = frame.groupby([frame["trailer"], area], sort=True)["price"].median()
    lacking = frame[frame["price"].notna() & frame["lacks"]]
    without = {trailer: frozenset(rows["to"]) for trailer, rows in lacking.groupby(lacking["trailer"])}
    shown = set(_spots(plan).codes) if plan.destinations.kind == "zips" else set(plan.destinations.names)
    return {
        trailer: (
            {
                code: None if pd.isna(amount) else float(amount)
                for code, amount in middle[trailer].items()
                if code in shown
            },
            without.get(trailer, frozenset()),
        )
        for trailer in plan.trailers
    }


def _frame(plan: Plan, table: "pa.Table") -> "pd.DataFrame":
    import pandas as pd
    import pyarrow as pa

    amounts = table["price"].cast(pa.float64()).to_pandas()
    if plan.crosses_the_sea:
        amounts = amounts + table["buyer_pays_locally"].cast(pa.float64()).to_pandas()
    words = {name: table[name].cast(pa.string()).to_pandas() for name in ("to", "trailer")}
    lacks = table["not_in_sum"].is_valid().to_pandas() if plan.crosses_the_sea else False
    return pd.DataFrame({**words, "price": amounts, "lacks": lacks})


def _spots(plan: Plan) -> Spots:
    """Return the ZIPs that home roads may reach, as points with their first figures."""
    named = zip(plan.destinations.names, plan.destinations.places, strict=True)
    home = [(name, place) for name, place in named if is_home(place.country, place.subdivision)]
    return Spots(
        longitude=np.array([place.longitude for _, place in home]),
        latitude=np.array([place.latitude for _, place in home]),
        codes=tuple(name[:PREFIX] for name, _ in home),
    )

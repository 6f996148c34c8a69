"""How long prices in bulk take, and what a run of them begins with: `pytest tests/benchmarks --benchmark-enable`."""

from datetime import date
from pathlib import Path

import numpy as np
import pytest

from shipcalc.actions.lanes import LanesOrder, plan_of
from shipcalc.bulk.destinations import Destinations
from shipcalc.bulk.home import answers_at_home
from shipcalc.bulk.maps import map_of
from shipcalc.bulk.overseas import answers_overseas
from shipcalc.bulk.plan import Block, Plan, blocks_of
from shipcalc.bulk.running import rows_of_block
from shipcalc.bulk.table import table_of
from shipcalc.pictures.png import to_png
from shipcalc.pictures.svg import to_svg
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.many import cheapest, many_prices
from shipcalc.pricing.markups import selling_markup
from shipcalc.pricing.tariff import compile_tariffs
from shipcalc.ratebook import book as reading
from shipcalc.ratebook.book import read_rate_book
from shipcalc.records import fields, replace

DAY = date(2026, 12, 1)


def plan_for(sources, to: str = "zips", vehicles: tuple[str, ...] = ()) -> Plan:
    return plan_of(LanesOrder(to=to, out=Path("unused"), vehicles=vehicles), sources, as_of=DAY)[0]


@pytest.fixture(scope="module")
def plan(sources) -> Plan:
    return plan_for(sources)


def test_the_rate_book_as_it_was_kept(benchmark, sources) -> None:
    read_rate_book(sources.rates.path)
    assert benchmark(read_rate_book, sources.rates.path).carriers


def test_the_rate_book_read_and_checked_anew(benchmark, sources, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "find_kept", lambda key: None)
    monkeypatch.setattr(reading, "keep", lambda key, kept: None)
    assert benchmark.pedantic(read_rate_book, args=(sources.rates.path,), rounds=3).carriers


def test_every_kind_of_vehicle_over_every_kind_of_lane(benchmark, plan: Plan) -> None:
    """All services × all vehicles of the list × 4,096 lanes, the cheapest of them for each."""
    taken = [plan.destinations.places[n] for n in range(0, 40_960, 10)]
    miles = np.arange(len(taken), dtype=np.int64) % 3_000 + 1
    tariffs, vehicles = compile_tariffs(plan.book, DAY), vehicle_columns(plan.vehicles)
    ends = PlaceColumns.of(plan.starts[:1]), PlaceColumns.of(taken)
    lanes = lane_columns(*ends, miles, plan.book.areas, prices=tariffs.lanes)

    def every_price() -> int:
        markup = selling_markup(plan.book, "US")
        prices = many_prices(tariffs, tariffs.services, vehicles, lanes, Asked(pickup_day=DAY), markup)
        best = cheapest(prices, range(len(tariffs.services)), plan.book.pricing.rounding_step_minor)
        return int((prices.spread(best.service) >= 0).sum())

    assert benchmark(every_price) > 100_000


def test_one_block_of_the_whole_list(benchmark, plan: Plan) -> None:
    """Two million rows, when the lanes of both yards are known already."""
    block = blocks_of(plan)[0]
    answers_at_home(plan, block)
    answers = benchmark.pedantic(answers_at_home, args=(plan, block), rounds=3)
    assert (answers.price > 0).sum() > 1_000_000


def test_the_rows_of_one_block_as_a_table(benchmark, plan: Plan) -> None:
    block = blocks_of(plan)[0]
    answers = answers_at_home(plan, block)
    assert len(benchmark.pedantic(table_of, args=(plan, block, answers), rounds=3)) == block.rows(2)


def test_one_vehicle_to_a_few_countries(benchmark, sources) -> None:
    plan = plan_for(sources, "countries", ("HV-1042",))
    to = plan.destinations
    few = [to.names.index(code) for code in ("DE", "JP", "NZ", "CA")]
    some = Destinations(to.kind, *(tuple(column[n] for n in few) for column in (to.names, to.places, to.labels)))
    of_few = Plan(
        **{field.name: getattr(plan, field.name) for field in fields(Plan) if field.name != "destinations"},
        destinations=some,
    )
    block = Block(0, range(1), range(4))
    rows_of_block(of_few, block)  # sea miles are searched once
    assert len(benchmark.pedantic(rows_of_block, args=(of_few, block), rounds=3)) == 8


def test_the_whole_list_to_forty_countries(benchmark, sources) -> None:
    """Every vehicle to every sixth country, when ports and sea miles are known."""
    plan = plan_for(sources, "countries")
    to, some = plan.destinations, range(0, len(plan.destinations), 6)
    few = Destinations(to.kind, *(tuple(column[n] for n in some) for column in (to.names, to.places, to.labels)))
    block = Block(0, range(len(plan.vehicles)), range(len(few)))
    of_few = replace(plan, destinations=few)
    answers = benchmark.pedantic(answers_overseas, args=(of_few, block), rounds=3, warmup_rounds=1)
    assert (answers.price > 0).sum() > 8_000


def test_a_price_map_of_all_zips(benchmark, sources) -> None:
    plan = plan_for(sources, "zips", ("HV-1042",))
    tables = [rows_of_block(plan, block) for block in blocks_of(plan)]

    def drawn() -> int:
        scene = map_of(plan, tables)
        return len(to_svg(scene)) + len(to_png(scene))

    assert benchmark.pedantic(drawn, rounds=2) > 50_000

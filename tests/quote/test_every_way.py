"""What must hold for any way there is, asked of one way of every kind (`every_way.WAYS`).

Arithmetic and order need no source: a total is the sum of its lines, a journey's legs join, nothing is done before what it waits
for. Who pays which stage under which delivery term is held to its source in `tests/published/test_delivery_terms.py`.
"""

import json
import re
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from itertools import groupby, pairwise

import pytest

from shipcalc.bulk.destinations import Destinations
from shipcalc.bulk.plan import Block, Plan
from shipcalc.bulk.running import rows_of_block
from shipcalc.checklist.making import checklist
from shipcalc.cli.card import MOST_CARD_LINES, MOST_LINES, card_lines
from shipcalc.cli.look import Look
from shipcalc.errors import NoAnswer
from shipcalc.quote.as_data import quote_from_json, quote_to_json
from shipcalc.quote.buyer import UNNAMED_CARRIER, for_buyer, is_for_buyer
from shipcalc.quote.explain.stages import has_stages
from shipcalc.quote.model import Option, Quote
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.price.terms import find_term
from shipcalc.trade import AT_HOME, COST_STAGES, KEPT, MOMENTS, ROUNDING
from tests.quote.conftest import DAY
from tests.quote.every_way import WAYS

ORDER_OF_STAGES = (AT_HOME, KEPT, *COST_STAGES, ROUNDING)
BOOKS = ("trucking.xlsx › ", "overseas.xlsx › ", "paperwork.xlsx › ")
WIDTHS = (80, 91, 100)


def to_decimals_of(amount: Decimal, exact: Decimal) -> Decimal:
    return exact.quantize(amount, ROUND_HALF_UP)


@pytest.fixture(scope="session")
def ask(dealer_quote) -> Callable[..., Quote]:
    """Return what asks for one of the ways, with more wishes if there are any; the same question is asked once."""

    @cache
    def asked(name: str, **more: object) -> Quote:
        return asked_anew(name, **more)

    def asked_anew(name: str, **more: object) -> Quote:
        way = WAYS[name]
        return dealer_quote(*way.vehicles, to=way.to, **(dict(way.order) | more))

    asked.anew = asked_anew
    return asked


@pytest.fixture(params=WAYS)
def name(request: pytest.FixtureRequest) -> str:
    return request.param


@pytest.fixture
def quote(ask, name: str) -> Quote:
    return ask(name)


def collected(option: Option) -> bool:
    """Return whether the buyer fetches it: no leg at all."""
    return not option.legs


def test_the_way_is_of_its_kind_and_the_choices_are_few_by_price_and_one_of_them_recommended(name, quote) -> None:
    modes = [tuple(mode for mode, _ in groupby(leg.mode for leg in option.legs)) for option in quote.options]
    assert WAYS[name].modes in modes
    assert 1 <= len(quote.options) <= 6
    # What the buyer fetches, at the yard or a terminal, stands behind what is brought, whatever it costs.
    brought = [option for option in quote.options if option.arrives] or quote.options
    assert [option.arrives for option in quote.options] == sorted((o.arrives for o in quote.options), reverse=True)
    told = [option.total + option.buyer_pays_locally for option in brought]
    assert not brought[0].arrives or told == sorted(told)
    assert 0 <= quote.recommended < len(brought)
    assert quote.reason.endswith(".")
    assert all(option.good_for for option in brought)
    assert "lowest price" in brought[0].good_for[0]


def test_invented_prices_are_said_to_be_invented_and_cautions_are_given(quote) -> None:
    assert any("invented rate book" in sentence for sentence in quote.assumptions)
    assert quote.cautions


def test_no_two_choices_are_the_same(quote) -> None:
    shown = [(o.title, o.total, o.dates.delivery, tuple((leg.carrier, leg.from_, leg.to) for leg in o.legs)) for o in quote.options]  # fmt: skip
    assert len(set(shown)) == len(shown)
    if is_home(quote.to.country, quote.to.subdivision):
        services = [
            (option.legs[0].carrier, option.trailer, option.service_class, option.in_hand)
            for option in quote.options
            if option.arrives
        ]
        assert len(set(services)) == len(services), "at home each carrier's service stands there once in each class"


def test_lines_add_up_to_totals_and_the_payers_share_them(quote) -> None:
    for option in quote.options:
        by_payer = dict.fromkeys(("seller", "buyer"), Decimal(0))
        for charge in option.charges:
            by_payer[charge.payer] += charge.amount
        assert by_payer == {"seller": option.total, "buyer": option.buyer_pays_locally}
        assert option.total_cost == sum((c.cost.amount for c in option.charges if c.cost), Decimal(0))
        assert option.total_cost <= option.total
        assert collected(option) == (option.total == 0) or option.total > 0
        if option.landed is not None:
            value = sum(Decimal(vehicle.value_minor) / 100 for vehicle in quote.vehicles)
            assert option.landed == option.total + option.buyer_pays_locally + value


def test_every_line_has_its_number_payer_stage_cost_and_cell(quote) -> None:
    for option in quote.options:
        assert [charge.line for charge in option.charges] == [str(n + 1) for n in range(len(option.charges))]
        for charge in option.charges:
            assert charge.label.strip() == charge.label != ""
            assert charge.stage in ORDER_OF_STAGES
            if collected(option) and charge.code == "yard.handover":
                assert (charge.amount, charge.source) == (0, None), "the keys cost nothing, and that is said in a line"
                continue
            assert charge.amount != 0, "any other line that comes to nothing is left out"
            assert charge.source is not None
            assert charge.source.startswith("price in hand" if charge.code == "truck.spot" else BOOKS), charge.source
            assert charge.source[-1].isdigit()
            # What the buyer pays is at cost: the dealer earns nothing there.
            assert (charge.cost is None) == (charge.payer == "buyer")
            assert charge.vehicle in (None, *(vehicle.stock_number for vehicle in quote.vehicles))


def test_quantity_times_rate_is_the_amount_of_every_line_and_of_its_cost(quote) -> None:
    for option in quote.options:
        for charge in option.charges:
            for line in (charge, *([charge.cost] if charge.cost else [])):
                exact = line.quantity * line.rate / (100 if charge.unit == "%" else 1)
                assert to_decimals_of(line.amount, exact) == line.amount, (charge.label, line)


def test_a_percentage_is_of_the_lines_before_it_that_it_names(quote) -> None:
    for option in quote.options:
        amounts = {charge.line: charge.amount for charge in option.charges}
        vehicles = {charge.line: charge.vehicle for charge in option.charges}
        for charge in option.charges:
            if charge.of:
                assert charge.unit == "%"
                assert charge.quantity == sum(amounts[line] for line in charge.of), charge.label
                assert all(int(line) < int(charge.line) for line in charge.of), charge.label
                assert charge.vehicle is None or {vehicles[line] for line in charge.of} <= {charge.vehicle, None}


def test_stages_stand_in_the_order_of_the_journey_and_one_payer_pays_each_as_the_term_says(quote) -> None:
    for option in quote.options:
        places = [ORDER_OF_STAGES.index(charge.stage) for charge in option.charges]
        assert places == sorted(places), [charge.stage for charge in option.charges]
        if not has_stages(option):
            continue
        at_the_port = None if option.arrives else find_term(option.term, "arrival port")
        term = at_the_port or find_term(option.term)
        for charge in option.charges:
            if charge.stage != ROUNDING:
                assert charge.payer == term.payer(charge.stage), charge.label


def test_the_total_stands_on_the_managers_step_and_less_than_a_step_is_added(quote, shipped) -> None:
    step = Decimal(shipped.rates.pricing.rounding_step_minor) / 100
    assert step > Decimal("0.01")
    for option in quote.options:
        assert option.total % step == 0
        for charge in option.charges:
            if charge.stage == ROUNDING:
                assert 0 < charge.amount < step
                assert charge.cost.amount == 0


def test_deposit_and_balance_are_the_total(quote, shipped) -> None:
    share = Decimal(shipped.rates.pricing.deposit_ppm) / 1_000_000
    for option in quote.options:
        assert option.deposit == to_decimals_of(option.deposit, option.total * share)
        assert 0 <= option.deposit <= option.total
        assert option.balance_due


def test_what_is_told_in_the_buyers_currency_is_rounded_once_to_its_decimals(name, quote) -> None:
    asked = WAYS[name].order.get("currency")
    assert (quote.exchange.currency if quote.exchange else None) == asked
    for option in quote.options:
        assert (option.converted is not None) == (asked is not None)
        if option.converted and quote.exchange:
            exact = option.total * quote.exchange.rate * (1 + quote.exchange.buffer / 100)
            assert (
                abs(option.converted.total - exact) <= Decimal(1).scaleb(option.converted.total.as_tuple().exponent) / 2
            )


def journeys(option: Option, quote: Quote) -> Iterator[list]:
    """Yield each vehicle's legs."""
    for vehicle in quote.vehicles:
        yield [leg for leg in option.legs if vehicle.stock_number in leg.vehicles]


def test_legs_join_end_to_end_from_the_yard_to_the_buyer_or_it_is_said(quote) -> None:
    for option in quote.options:
        if collected(option):
            continue
        for legs in journeys(option, quote):
            assert legs, "every vehicle is on the way"
            for leg, following in pairwise(legs):
                assert (leg.to.name, leg.to.country) == (following.from_.name, following.from_.country)
            for leg in legs:
                assert leg.distance > 0 or leg.from_.name == leg.to.name, (
                    "none but the way from a port into its own town"
                )
                assert leg.unit == ("mi" if leg.mode in ("truck", "driven") else "nmi")
                assert leg.distance >= int(leg.great_circle * (1 if leg.unit == "mi" else 0.868)) - 1
                assert leg.carrier or leg.mode == "ferry"
            last = legs[-1].to
            ends_there = (last.name, last.country) == (quote.to.name, quote.to.country)
            said = " ".join((option.title, *option.before_price, *option.not_included, *option.warnings))
            assert ends_there or not option.arrives
            assert option.arrives or last.name in said


def test_every_vehicle_starts_where_it_stands(quote) -> None:
    for option in quote.options:
        starts = {legs[0].from_.name for legs in journeys(option, quote) if legs}
        assert not starts or quote.from_.name in starts


def test_windows_are_not_reversed_and_the_steps_stand_in_order(quote) -> None:
    for option in quote.options:
        (first, last), (early, late) = option.dates.pickup, option.dates.delivery
        assert quote.ready <= first <= last <= late
        assert first <= early <= late
        steps = option.dates.timeline
        assert steps
        for step in steps:
            assert step.earliest <= step.latest, step.what
        for step, following in pairwise(step for step in steps if step.stage != "cut-off"):
            assert step.earliest <= following.earliest, (step.what, following.what)
            assert step.latest <= following.latest, (step.what, following.what)
        by_stage = {step.stage: step for step in steps}
        if "cut-off" in by_stage:
            assert by_stage["port"].earliest <= by_stage["cut-off"].earliest <= by_stage["sailing"].earliest
        if not has_stages(option) and option.arrives:
            assert [step.what for step in steps] == ["Ready to leave", "Picked up", "Delivered"]
        moments = [MOMENTS.index(step.stage) for step in steps if step.stage]
        assert moments == sorted(moments)


def test_papers_and_tasks_are_there_once_for_each_vehicle_and_stand_in_order(quote) -> None:
    for option in quote.options:
        for papers in (option.documents, option.tasks):
            names = [(paper.code, paper.vehicle) for paper in papers]
            assert names
            assert len(set(names)) == len(names)
            assert all(paper.due >= quote.as_of for paper in papers)
        items = checklist(quote, option)
        place = {item.id: number for number, item in enumerate(items)}
        for item in items:
            for other in item.after:
                assert other not in place or place[other] < place[item.id], (item.id, other)
                assert other not in place or items[place[other]].due <= item.due, (item.id, other)


@pytest.mark.parametrize("for_office", [False, True])
def test_the_card_has_twelve_lines_at_most_and_the_whole_answer_no_more_than_a_screen(
    quote, *, for_office: bool
) -> None:
    told = quote if for_office else for_buyer(quote)
    for chosen, option in enumerate(quote.options):
        for width in WIDTHS:
            lines = card_lines(told, Look(width=width), chosen=chosen, for_office=for_office)
            assert len(lines) <= MOST_LINES[has_stages(option)]
            assert max(map(len, lines)) <= width
            assert lines.index("", 2) <= MOST_CARD_LINES


OFFICE_ONLY = {"cost", "total_cost", "source", "left_out", "office_note"}


def names_with_values(data: object) -> set[str]:
    """Return the names of everything that has a value, at any depth, but what a paper's or a task's own source is."""
    if isinstance(data, dict):
        return {name for name, value in data.items() if value not in (None, [], "")}.union(
            *(names_with_values(value) for name, value in data.items() if name not in ("documents", "tasks"))
        )
    return set().union(*map(names_with_values, data)) if isinstance(data, list) else set()


def test_the_buyers_data_has_no_cost_no_cell_and_no_private_name_and_the_same_prices(quote, shipped) -> None:
    mine = for_buyer(quote)
    written = quote_to_json(mine)
    assert is_for_buyer(mine)
    assert not is_for_buyer(quote)
    assert for_buyer(mine) == mine
    assert not names_with_values(json.loads(written)) & OFFICE_ONLY
    assert names_with_values(json.loads(quote_to_json(quote))) >= OFFICE_ONLY - {"left_out"}
    assert ".xlsx" not in written
    private = {row.carrier for row in (*shipped.rates.carriers, *shipped.rates.ocean) if row.private}
    assert private
    assert [carrier for carrier in private if carrier in written] == []
    assert any(leg.carrier == UNNAMED_CARRIER for o in mine.options for leg in o.legs) or not any(
        leg.carrier in private for o in quote.options for leg in o.legs
    )
    for theirs, option in zip(mine.options, quote.options, strict=True):
        assert (theirs.total, theirs.deposit, theirs.dates.delivery) == (
            option.total,
            option.deposit,
            option.dates.delivery,
        )
        assert [charge.amount for charge in theirs.charges] == [charge.amount for charge in option.charges]


def test_written_and_read_again_it_is_the_same_to_the_byte(quote) -> None:
    for copy in (quote, for_buyer(quote)):
        written = quote_to_json(copy)
        assert quote_from_json(written) == copy
        assert quote_to_json(quote_from_json(written.encode())) == written
        assert json.dumps(json.loads(written), ensure_ascii=False, indent=2) == written


def test_amounts_are_strings_with_the_decimals_of_the_currency(quote) -> None:
    for option in json.loads(quote_to_json(quote))["options"]:
        for amount in (
            option["total"],
            option["deposit"],
            option["total_cost"],
            *(c["amount"] for c in option["charges"]),
        ):
            assert isinstance(amount, str)
            assert len(amount.partition(".")[2]) == 2, amount


def test_the_same_question_has_the_same_answer_to_the_byte(ask, name, quote) -> None:
    assert quote_to_json(ask.anew(name)) == quote_to_json(quote)


def test_a_day_it_must_be_there_by_is_kept_and_the_latest_ready_day_is_in_time(ask, name, quote) -> None:
    """The day is one that some of the ways make and others do not."""
    lasts = sorted(option.dates.delivery[1] for option in quote.options if option.legs)
    by, until = lasts[len(lasts) // 2], WAYS[name].order.get("keep_until")
    in_time = ask(name, by=by)
    assert in_time.by == by
    asked_for = [option for option in in_time.options if option.arrives or not quote.options[0].arrives]
    assert asked_for
    for option in in_time.options:
        assert collected(option) or option.dates.delivery[1] <= by
    for option in asked_for:
        assert DAY <= option.latest_ready <= by
        kept = {"keep_until": None} if until and until < option.latest_ready else {}
        again = ask(name, by=by, ready=option.latest_ready, **kept)
        assert min(other.dates.delivery[1] for other in again.options if other.legs) <= by
    with pytest.raises(NoAnswer, match="cannot be promised there by"):
        ask(name, by=max(DAY, until or DAY) + timedelta(days=1))


def test_without_a_day_nothing_is_said_of_one(quote) -> None:
    assert quote.by is None
    assert {option.latest_ready for option in quote.options} == {None}
    assert not any("must be ready" in note for note in quote.assumptions)


ALONE = [name for name, way in WAYS.items() if len(way.vehicles) == 1 and not way.order]


@pytest.mark.parametrize("name", ALONE)
@pytest.mark.parametrize("trailer", ["open", "enclosed"])
def test_a_row_of_a_list_is_what_the_quote_says(ask, name: str, trailer: str, quote, shipped) -> None:
    """Rows of lists are held to quotes at large in `tests/bulk`; here each kind of way is one of them."""
    place = quote.to
    plan = Plan(
        vehicles=quote.vehicles,
        starts=(quote.from_,),
        destinations=Destinations("cities", (place.name,), (place,), (place.name,)),
        trailers=(trailer,),
        book=shipped.rates,
        as_of=DAY,
        ready=DAY,
        for_office=True,
        by_sea=True,
    )
    (row,) = rows_of_block(plan, Block(0, range(1), range(1))).to_pylist()
    try:
        said = ask(name, trailer=trailer).options[0]
    except NoAnswer:
        assert row["price"] is None
        assert row["why_not"]
        return
    days = tuple((day - DAY).days for day in said.dates.delivery)
    assert (row["price"], row["days_from"], row["days_to"]) == (said.total, *days)
    assert row["carrier"].split(", ")[0] == said.legs[0].carrier


def test_the_ways_are_of_every_kind(ask) -> None:
    quotes = [ask(name) for name in WAYS]
    options = [option for made in quotes for option in made.options]
    assert {option.ocean for option in options} == {None, "roro", "container"}
    assert {option.trailer for option in options} == {None, "open", "enclosed"}
    assert {leg.mode for option in options for leg in option.legs} == {"truck", "driven", "ferry", "roro", "container", "shared container"}  # fmt: skip
    assert {charge.stage for option in options for charge in option.charges} == set(ORDER_OF_STAGES)
    assert {charge.unit for option in options for charge in option.charges} >= {"mi", "%", "lump"}
    assert {is_home(made.to.country, made.to.subdivision) for made in quotes} == {True, False}
    assert {option.arrives for option in options} == {True, False}
    assert any(isinstance(option.landed, Decimal) for option in options)
    assert {len(made.vehicles) for made in quotes} == {1, 2, 3}
    assert {type(made.ready) for made in quotes} == {date}


def test_sentences_are_whole(quote: Quote) -> None:
    """Words are neither glued together nor torn apart where a sentence is put together from parts."""
    told = [quote.reason, *quote.assumptions, *quote.cautions]
    for option in quote.options:
        told += [
            *option.before_price,
            *option.warnings,
            *option.included,
            *option.not_included,
            *option.needed_from_buyer,
        ]
    torn = [text for text in told if re.search(r"  | [,.;:]|\.\.(?!\.)|,,", text) or not text.strip()]
    assert torn == []
    registering = [text for text in told if text.startswith("Registration, inspection: ")]
    assert all(re.search(r" your (country|state or territory) requires ", text) for text in registering)

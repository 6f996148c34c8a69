"""Holds, entry rules, currencies, countries without a row: what is said instead of a price, or beside it."""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.places.place import Place
from shipcalc.ratebook.rows.imports import EntryRule, Hold
from shipcalc.ratebook.rows.paperwork import DocumentRow, TaskRow
from shipcalc.records import replace

PRAGUE = Place(name="Prague", kind="city", country="CZ", latitude=50.09, longitude=14.42)
PYONGYANG = Place(name="Pyongyang", kind="city", country="KP", latitude=39.03, longitude=125.75)
HOLD = Hold(country="KP", hold="refused", reason="Embargoed destination.", source="invented for the test")


def test_a_refused_destination_gets_no_price(quoted, sea_book) -> None:
    with pytest.raises(NoAnswer, match="Pyongyang is not quoted: Embargoed destination"):
        quoted(to=PYONGYANG, book=sea_book(holds=(HOLD,)))


def test_a_destination_that_waits_is_quoted_once_somebody_released_it(quoted, sea_book) -> None:
    book = sea_book(holds=(replace(HOLD, country="DE", hold="to be released", reason="Ask first."),))
    with pytest.raises(NoAnswer, match="waits for release"):
        quoted(book=book)
    quote = quoted(book=book, released_by="Imogen Vale")
    assert all(option.warnings[0] == "Released for export by Imogen Vale: Ask first." for option in quote.options)


def test_a_hold_that_has_ended_holds_no_more(quoted, sea_book) -> None:
    assert quoted(book=sea_book(holds=(replace(HOLD, country="DE", valid_to=date(2026, 11, 1)),))).options


@pytest.mark.parametrize(("age_under", "barred"), [(60, False), (70, True)])
def test_a_rule_of_entry_bars_by_age(quoted, sea_book, age_under: int, barred: bool) -> None:
    rule = EntryRule(country="DE", answer="bars", rule="Too young", age_under=age_under, source="invented for the test")
    book = sea_book(entry_rules=(rule,))
    if barred:
        with pytest.raises(NoAnswer, match="HV-7 may not enter Germany: Too young"):
            quoted(book=book)
    else:
        assert quoted(book=book).options


@pytest.mark.parametrize("limit", [{"age_under": 30}, {"age_from": 10}])
def test_an_unknown_year_that_may_bar_a_vehicle_is_said_above_the_price(quoted, sea_book, minnow, limit) -> None:
    rule = EntryRule(country="DE", answer="bars", rule="By age", source="invented for the test", **limit)
    quote = quoted(replace(minnow, year=None), book=sea_book(entry_rules=(rule,)))
    told = "HV-7: the year is not known, and may bar it: By age (invented for the test)."
    assert all(told in option.before_price for option in quote.options)


def test_a_rule_of_entry_that_warns_is_said_first(quoted, sea_book) -> None:
    rule = EntryRule(country="DE", answer="warns", rule="Bring the age proof.", source="invented")
    for option in quoted(book=sea_book(entry_rules=(rule,))).options:
        assert option.warnings[0] == "Bring the age proof (invented)."


def test_a_country_without_a_row_is_priced_to_the_port_and_it_is_said(quoted) -> None:
    quote = quoted(to=PRAGUE)
    assert any(sentence.startswith("Priced to the port of arrival only (") for sentence in quote.assumptions)
    assert any("no carriage by road in Czechia" in sentence for sentence in quote.assumptions)
    for option in quote.options:
        assert option.term == "CIP"
        assert option.legs[-1].unit == "nmi"
        assert option.imports == ()
        assert option.term_place == option.legs[-1].to.name


def test_a_term_to_the_door_becomes_one_to_the_port_and_it_is_said(quoted) -> None:
    quote = quoted(to=PRAGUE, term="DAP")
    assert any(sentence.startswith("DAP would need the way on to Prague") for sentence in quote.assumptions)


def test_both_treatments_by_the_customs_stand_side_by_side(quoted) -> None:
    option = quoted().options[0]
    ordinary, collector = option.imports
    assert (ordinary.treatment, ordinary.counted, collector.treatment, collector.counted) == (
        "ordinary",
        True,
        "collector",
        False,
    )
    assert collector.amount < ordinary.amount
    assert collector.criteria == "original state"
    counted = sum((charge.amount for charge in option.charges if charge.stage == "duty and tax"), Decimal(0))
    assert counted == ordinary.amount == sum((line.amount for line in ordinary.lines), Decimal(0))
    assert all(charge.estimate for charge in option.charges if charge.payer == "buyer")


def test_what_may_be_a_collectors_piece_needs_its_proof_too(quoted, sea_book, minnow) -> None:
    """The sums count the vehicle as any other, and show what is saved if it is not: so the proof of it is to be got."""
    kinds = ("ordinary", "collector")
    given = {"stage": "arrival", "each_vehicle": True}
    book = sea_book(
        documents=tuple(DocumentRow(code=k, document=k, treatment=k, prepared_by="office", **given) for k in kinds),
        tasks=tuple(TaskRow(code=k, task=k, treatment=k, owner="office", **given) for k in kinds),
    )
    young = replace(minnow, stock_number="HV-8", year=2010)
    for vehicles, expected in (
        ((minnow,), {("ordinary", None), ("collector", None)}),
        ((young,), {("ordinary", None)}),
        ((minnow, young), {("ordinary", "HV-7"), ("collector", "HV-7"), ("ordinary", "HV-8")}),
    ):
        option = quoted(*vehicles, book=book).options[0]
        assert {(paper.code, paper.vehicle) for paper in option.documents} == expected
        assert {(task.code, task.vehicle) for task in option.tasks} == expected


def test_a_young_vehicle_is_no_collectors_piece(quoted, minnow) -> None:
    (only,) = quoted(replace(minnow, year=2010)).options[0].imports
    assert only.treatment == "ordinary"


def test_without_a_value_there_is_neither_cover_nor_duty_and_it_is_said(quoted, minnow) -> None:
    quote = quoted(replace(minnow, value_minor=None))
    for option in quote.options:
        assert option.landed is None
        assert option.imports == ()
        assert not any(charge.code.startswith("cover.") for charge in option.charges)
        assert any("no marine cover" in warning for warning in option.warnings)


# Minor units by ISO 4217: the yen has none, the Kuwaiti dinar three, the euro two.
@pytest.mark.parametrize(("currency", "places", "rate", "buffer"), [("JPY", 0, "151.27", "1"), ("KWD", 3, "0.3071", "1"), ("EUR", 2, "0.9215", "1.015")])  # fmt: skip
def test_sums_in_the_buyers_currency_are_rounded_once(
    quoted, currency: str, places: int, rate: str, buffer: str
) -> None:
    quote = quoted(currency=currency)
    assert quote.exchange is not None
    assert (quote.exchange.currency, str(quote.exchange.rate)) == (currency, rate)
    for option in quote.options:
        exact = option.total * Decimal(rate) * Decimal(buffer)
        assert option.converted.total == round(exact + Decimal("1e-12"), places)
        assert -option.converted.total.as_tuple().exponent == places
    assert any(sentence.startswith(f"{currency} at {rate}") for sentence in quote.assumptions)


def test_a_currency_without_a_rate_is_wrong_input(quoted) -> None:
    with pytest.raises(WrongInput, match="the rate book has no rate for CHF"):
        quoted(currency="CHF")


def test_at_home_in_the_sea_there_is_no_customs(quoted, sea_book) -> None:
    honolulu = Place(
        name="Honolulu",
        kind="city",
        country="US",
        subdivision="HI",
        postal_code="96813",
        latitude=21.31,
        longitude=-157.86,
    )
    book = sea_book()
    port = replace(book.ports[2], port="USHNL", name="Honolulu", country="US", latitude=21.31, longitude=-157.87)
    last = tuple(replace(row, country="US") for row in book.on_carriage)
    quote = quoted(to=honolulu, book=replace(book, ports=(*book.ports[:2], port), on_carriage=last))
    stages = {charge.stage for option in quote.options for charge in option.charges}
    assert not stages & {"duty and tax", "import clearance", "export clearance"}
    assert any("No customs duty" in sentence for sentence in quote.assumptions)


def test_puerto_rico_has_no_duty_but_an_export_filing(quoted, sea_book) -> None:
    # 15 CFR 30.2(a)(1): shipments from the United States to Puerto Rico are filed (read at second hand).
    san_juan = Place(name="San Juan", kind="city", country="PR", latitude=18.47, longitude=-66.11)
    book = sea_book()
    port = replace(book.ports[2], port="PRSJU", name="San Juan", country="PR", latitude=18.45, longitude=-66.1)
    last = tuple(replace(row, country="PR") for row in book.on_carriage)
    quote = quoted(to=san_juan, book=replace(book, ports=(*book.ports[:2], port), on_carriage=last))
    stages = {charge.stage for option in quote.options for charge in option.charges}
    assert "export clearance" in stages
    assert not stages & {"duty and tax", "import clearance"}


@pytest.mark.parametrize(("ocean", "ship"), [("roro", "RoRo ship"), ("container", "container ship")])
def test_where_nothing_sails_that_was_asked_for_other_ships_are_not_blamed(
    quoted, sea_book, ocean: str, ship: str
) -> None:
    book = sea_book()
    others = tuple(row for row in book.ocean if (row.mode == "roro") != (ocean == "roro"))
    assert others
    with pytest.raises(NoAnswer, match=f"no {ship} of the rate book runs to .* — leave ocean out$"):
        quoted(book=replace(book, ocean=others), ocean=ocean)

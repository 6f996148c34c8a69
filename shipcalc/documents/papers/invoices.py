"""Commercial and pro-forma invoice, and the packing list: what customs and forwarder read of goods and price.

What stands in them: the lists of the United States' trade administration for export documents (trade.gov, export.gov): seller,
buyer, consignee, number and date, term of sale with its place, currency, description, quantity, unit and total value, freight
and insurance apart, commodity code, country of origin, signature; in a pro-forma also until when it holds.
"""

from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.offer.acceptance import BANK_CAUTION
from shipcalc.documents.papers import layout_key
from shipcalc.documents.papers.facts import (
    Facts,
    commodity_code,
    cubic_metres,
    delivered,
    described,
    kilograms,
    measured,
    price_of,
    term_told,
)
from shipcalc.documents.papers.paper import Field, Paper, Table
from shipcalc.vehicles.vehicle import Vehicle

STOCK_LIST = 'the stock list, column "{column}" of {vehicle}'
TRUE = "We declare that what stands in this invoice is true and complete to the best of our knowledge."
USED = (
    "Used goods. No other goods, belongings or spare parts travel in or with the vehicle unless they are listed here."
)


def commercial_invoice(facts: Facts) -> Paper:
    """Return the commercial invoice for customs."""
    return Paper(
        code="commercial-invoice",
        title="Commercial invoice",
        boxes=layout_key.head_boxes(facts, numbered="Invoice number and date"),
        table=_goods(facts),
        sentences=(TRUE, USED, *([f"Payment goes to {', '.join(facts.bank)}."] if facts.bank else [])),
        cautions=(
            (
                "The price is what the buyer pays; customs of both countries may ask for proof of it. Only the customs "
                "broker names the commodity code."
            ),
            *([BANK_CAUTION] if facts.bank else []),
        ),
        signatures=(layout_key.place_and_day(facts),),
        after=layout_key.AFTER,
    )


def pro_forma_invoice(facts: Facts) -> Paper:
    """Return the invoice before there is a sale to declare: for an import permit, a bank, an offer."""
    day = wording.day(facts.quote.valid_until)
    until = f"This pro-forma invoice holds until {day}. It asks for no payment and is none to declare."
    apart = facts.option.not_included
    return Paper(
        code="pro-forma-invoice",
        title="Pro-forma invoice",
        boxes=layout_key.head_boxes(facts, numbered="Pro-forma number and date"),
        table=_goods(facts),
        sentences=(until, *([f"Not in these sums: {'; '.join(apart)}."] if apart else []), USED),
        signatures=(layout_key.place_and_day(facts),),
        after=layout_key.AFTER,
    )


def packing_list(facts: Facts) -> Paper:
    """Return what travels, with weights and sizes."""
    columns = (
        ("Goods", False),
        ("Pieces", True),
        ("Net kg", True),
        ("Gross kg", True),
        ("L × W × H, cm", True),
        ("m³", True),
    )
    return Paper(
        code="packing-list",
        title="Packing list",
        boxes=layout_key.head_boxes(facts, numbered="Packing list for, date"),
        table=Table(columns=columns, rows=tuple(_packed(vehicle) for vehicle in facts.quote.vehicles)),
        sentences=("Each vehicle is one piece, unpacked. Listed apart, if they travel with it:", "\n\n"),
        cautions=(
            (
                "Nothing may travel in the vehicle that is not on this list: lines refuse it, customs may seize it, and no "
                "cover holds for it."
            ),
            (
                "Weights and sizes marked as assumed come from a table of typical vehicles: weigh and measure before "
                "anybody relies on them."
            ),
        ),
        signatures=(layout_key.place_and_day(facts),),
        after=layout_key.AFTER,
    )


def _packed(vehicle: Vehicle) -> tuple[Field, ...]:
    weight = kilograms(vehicle)
    return (
        Field("Goods", described(vehicle)),
        Field("Pieces", "1"),
        Field("Net kg", weight, stock_column("Weight", vehicle)),
        Field("Gross kg", weight, stock_column("Weight", vehicle)),
        Field("Sizes", measured(vehicle), stock_column("Length, Width, Height", vehicle)),
        Field("m³", cubic_metres(vehicle), stock_column("Length, Width, Height", vehicle)),
    )


def stock_column(column: str, vehicle: Vehicle) -> str:
    """Return how something that is not known of a vehicle is filled in."""
    return STOCK_LIST.format(column=column, vehicle=vehicle.stock_number)


def _goods(facts: Facts) -> Table:
    quote = facts.quote
    commodity = facts.reference("commodity")
    rows = tuple(_sold(facts, vehicle, commodity) for vehicle in quote.vehicles)
    return Table(columns=_COLUMNS, rows=rows, sums=_sums(facts))


_COLUMNS = (
    ("Goods", False),
    ("Pieces", True),
    ("Commodity code", False),
    ("Origin", False),
    ("Gross kg", True),
    ("Price", True),
)


def _sold(facts: Facts, vehicle: Vehicle, commodity: str) -> tuple[Field, ...]:
    price = price_of(vehicle)
    return (
        Field(
            "Goods",
            described(vehicle) if vehicle.serial else "",
            stock_column("VIN", vehicle),
        ),
        Field("Pieces", "1"),
        Field("Commodity code", commodity, commodity_code(facts)),
        Field(
            "Origin", wording.country(vehicle.built_in) if vehicle.built_in else "", stock_column("Made in", vehicle)
        ),
        Field("Gross kg", kilograms(vehicle), stock_column("Weight", vehicle)),
        Field("Price", "" if price is None else f"{price:,} {vehicle.currency}", stock_column("Value", vehicle)),
    )


def _sums(facts: Facts) -> tuple[tuple[str, ...], ...]:
    """Return vehicles, carriage, freight, cover and all of it; no sum where a price is unknown or in another currency."""
    quote = facts.quote
    prices = [price_of(vehicle) for vehicle in quote.vehicles]
    known = [one for one in prices if one is not None]
    if len(known) != len(prices) or any(vehicle.currency != quote.currency for vehicle in quote.vehicles):
        return ()
    goods, apart = sum(known, Decimal(0)), delivered(facts.option)
    told = (
        ("The vehicle" if len(known) == 1 else "The vehicles", goods),
        ("Carriage, papers and ports, without the freight", apart.carriage),
        ("Freight", apart.freight),
        ("Insurance", apart.cover),
        (f"Total, {term_told(facts.option)}", goods + apart.total),
    )
    return tuple(
        (what, "", "", "", "", f"{amount:,} {quote.currency}")
        for what, amount in told
        if amount or what.startswith("Total")
    )

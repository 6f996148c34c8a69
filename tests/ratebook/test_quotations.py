"""The sheets Ocean quotations and Port charges: the slips that a manager makes in them, each told by its cell."""

from datetime import date

import pytest

from shipcalc.ratebook.checks import dates, lanes, quotations
from shipcalc.ratebook.checks.shelf_life import out_of_date, shelf_life_of
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.rows.quotations import OceanQuotation
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import RowRef, columns_of

CHECKS = (*quotations.CHECKS, *dates.CHECKS, lanes.prices_have_rates_of_exchange)
AT = {"latitude": 0.0, "longitude": 0.0}
PORTS = (
    Port(port="USBAL", name="Baltimore", region="Out", country="US", exports=True, roro=True, groups=("Bay",), **AT),
    Port(
        port="DEBRV", name="Bremerhaven", region="In", country="DE", roro=True, container=True, groups=("Weser",), **AT
    ),
    Port(port="NLRTM", name="Rotterdam", region="In", country="NL", roro=True, container=True, groups=("Weser",), **AT),
)
SAILS = {"sails_every_days": 7, "first_sailing": date(2026, 12, 4), "from_region": "Out", "to_region": "In"}
OCEAN = (OceanService(service="Tideway RoRo", carrier="Tideway", mode="roro", basis="per W/M", base_e4=1, **SAILS),)
EURO = (Currency(currency="EUR", as_of=date(2026, 11, 23), rate=0.8665),)


def at(row_type, sheet, number, **cells):
    letters = {field: field for field in columns_of(row_type)}
    return row_type(at=RowRef("overseas.xlsx", sheet, number, letters), **cells)


def freight(number=2, **cells):
    own = {"quotation": "HF-1", "forwarder": "Harrow Quay", "mode": "roro", "from_port": "USBAL", "to_port": "DEBRV"}
    return at(OceanQuotation, "Ocean quotations", number, **(own | {"basis": "per W/M", "amount_e4": 62_5000} | cells))


def surcharge(number=3, **cells):
    own = {"quotation": "HF-1", "forwarder": "Harrow Quay", "surcharge": "BAF"}
    return at(OceanQuotation, "Ocean quotations", number, **(own | cells))


def charge(number=2, **cells):
    return at(
        PortCharge,
        "Port charges",
        number,
        **({"port": "DEBRV", "label": "Gate", "per": "vehicle", "amount_e4": 68_0000} | cells),
    )


def told(rows=(), charges=(), carriage=()):
    tables = Tables(
        ports=PORTS,
        ocean=OCEAN,
        currencies=EURO,
        quotations=tuple(rows),
        port_charges=tuple(charges),
        on_carriage=tuple(carriage),
    )
    return [str(problem).removeprefix("overseas.xlsx › ") for check in CHECKS for problem in check(tables)]


def test_a_whole_quotation_has_nothing_wrong_in_it():
    rows = (
        freight(),
        surcharge(percent_ppm=120_000),
        surcharge(4, surcharge="THC", basis="per vehicle", amount_e4=1_0000),
    )
    assert told(rows, [charge(), charge(3, mode="roro")]) == []


@pytest.mark.parametrize(
    ("rows", "cell", "says"),
    [
        ([freight(mode=None)], "mode2", 'a row of freight has no "Mode"'),
        ([freight(from_port=None)], "from_port2", 'a row of freight has no "From"'),
        ([freight(basis=None)], "basis2", "write what the amount is for"),
        ([freight(amount_e4=0)], "amount_e42", 'a row of freight has no "Amount"'),
        ([freight(percent_ppm=1)], "percent_ppm2", "freight is an amount"),
        ([freight(), surcharge(amount_e4=5_0000)], "basis3", "the amount has no basis"),
        ([freight(), surcharge()], "amount_e43", "no amount and no percentage"),
        ([freight(), surcharge(amount_e4=1, basis="per vehicle", percent_ppm=1)], "amount_e43", "both an amount and a percentage"),
        ([freight(), surcharge(percent_ppm=1, stage="origin terminal")], "stage3", "arises with it, at the main carriage"),
        ([freight(), surcharge(percent_ppm=1, free_days=7)], "free_days3", "is read from the row of the freight alone"),
        ([freight(basis="per 40′HC")], "basis2", '"per 40′HC" does not suit freight by roro'),
        ([freight(), surcharge(mode="roro", basis="per container", amount_e4=1)], "basis3", "does not suit a surcharge by roro"),
        ([freight(from_port="USBLA")], "from_port2", 'write "USBAL"'),
        ([freight(to_port="Wesser")], "to_port2", 'write "Weser"'),
        ([freight(from_port="DEBRV")], "from_port2", 'no port of "DEBRV" ships and handles roro'),
        ([freight(to_port="USBAL")], "to_port2", 'no port of "USBAL" is one to arrive at and handles roro'),
        ([freight(line="Tideweg")], "line2", 'write "Tideway"'),
        ([freight(currency="CHF")], "currency2", 'there is no rate for "CHF"'),
        ([freight(amount_e4=2_500_0000)], "amount_e42", "2,500 is too large here"),
        ([surcharge(percent_ppm=1)], "quotation3", 'the quotation "HF-1" of Harrow Quay has no row of freight'),
        ([freight(), surcharge(percent_ppm=1, valid_to=date(2026, 12, 5))], "valid_to3", "from then on it is not charged"),
        ([freight(valid_from=date(2027, 1, 1), valid_to=date(2026, 12, 5))], "valid_to2", "before it begins"),
        ([freight(), freight(3, quotation="HF-2")], "from_port3", "the row at Ocean quotations!from_port2 holds for the same ports"),
        ([freight(from_port="Bay"), freight(3, from_port="Out")], "from_port3", "is as specific"),
        ([freight(from_port="Bay", to_port="Weser"), freight(3, from_port="out", to_port="In")], "from_port3", "is as specific"),
        ([freight(), surcharge(percent_ppm=1), surcharge(4, surcharge="baf", percent_ppm=2)], "surcharge4", "is as specific"),
    ],
)  # fmt: skip
def test_a_slip_in_a_quotation_is_told_by_its_cell(rows, cell, says):
    problems = told(rows)
    assert len(problems) == 1, problems
    assert problems[0].startswith(f"Ocean quotations!{cell}: ")
    assert says in problems[0]


@pytest.mark.parametrize(
    "rows",
    [
        [freight(), freight(3, from_port="Bay")],
        [freight(), freight(3, line="Tideway")],
        [freight(valid_to=date(2026, 12, 31)), freight(3, valid_from=date(2027, 1, 1))],
        [freight(), freight(3, to_port="NLRTM")],
        [freight(), surcharge(percent_ppm=1), surcharge(4, percent_ppm=2, to_port="DEBRV")],
        [freight(amount_e4=2_500_0000, basis="per vehicle")],
        [freight(amount_e4=1_100_0000, currency="EUR", basis="per vehicle")],
    ],
)
def test_rows_that_differ_in_what_they_name_or_when_they_hold_are_no_fault(rows):
    assert told(rows) == []


def test_a_quotation_that_no_ship_of_the_book_sails_for_is_warned_of():
    tables = Tables(ports=PORTS, ocean=(), quotations=(freight(),))
    (problem,) = quotations.quotations_have_a_ship(tables)
    assert "no service of the sheet Ocean goes there by roro" in str(problem)
    assert problem.severity == "warning"


@pytest.mark.parametrize(
    ("charges", "cell", "says"),
    [
        ([charge(from_day=3)], "from_day2", "begins on no day"),
        ([charge(per="vehicle a day", from_day=0)], "from_day2", "write 1"),
        ([charge(per="container", mode="roro")], "per2", "never charged"),
        ([charge(amount_e4=0)], "amount_e42", "nothing is charged"),
        ([charge(per="revenue ton", amount_e4=1_500_0000)], "amount_e42", "1,500 is too large here"),
        ([charge(), charge(3, label="gate")], "label3", '"gate" is already at Port charges!label2'),
        ([charge(currency="CHF")], "currency2", 'there is no rate for "CHF"'),
    ],
)
def test_a_slip_in_a_port_charge_is_told_by_its_cell(charges, cell, says):
    problems = told(charges=charges)
    assert len(problems) == 1, problems
    assert problems[0].startswith(f"Port charges!{cell}: ")
    assert says in problems[0]


def test_a_town_has_one_row_for_its_trailer_and_port():
    rows = [
        at(OnCarriage, "On-carriage", number, country="DE", trailer="open", rate_e4=1, towns=towns)
        for number, towns in ((2, ("Bremen", "Oldenburg")), (3, ("Celle", "bremen")))
    ]
    assert told(carriage=rows) == [
        'On-carriage!towns3: "bremen" is already at On-carriage!towns2 — leave it in one of the two rows'
    ]


def test_a_quotation_is_warned_of_while_no_quote_that_it_prices_holds_its_full_days_and_when_it_has_ended():
    life = shelf_life_of(Tables(quotations=(freight(valid_to=date(2026, 12, 12)),)))
    rules = PricingRules(days_valid=14)

    def warned(day):
        return [problem.message for problem in out_of_date(life, rules, day)]

    assert warned(date(2026, 11, 27)) == []
    (soon,) = warned(date(2026, 12, 1))
    assert soon.startswith("the quotation HF-1 of Harrow Quay ends on 2026-12-12, in 11 days")
    (ended,) = warned(date(2026, 12, 13))
    assert "is not used any more" in ended

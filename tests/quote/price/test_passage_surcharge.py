"""What a line asks for a passage (sheet *Passages*): a line of its own, with its cell, on the ways that take it and no other."""

from decimal import Decimal

import pytest

from shipcalc.ratebook.rows.ways import PassageState
from shipcalc.ratebook.workbook.columns import RowRef
from shipcalc.records import replace

AT = RowRef("overseas.xlsx", "Passages", 2, {"surcharge_minor": "H", "surcharge_ppm": "I"})
PANAMA = PassageState(passage="panama", state="caution", note="Few ships pass.", at=AT)


def surcharges(quote):
    """Return each choice with the charges of its passages."""
    return [(option, [c for c in option.charges if c.code.startswith("sea.passage")]) for option in quote.options]


def takes_panama(option):
    return any("Panama" in leg.method_note for leg in option.legs)


def test_it_is_charged_on_the_ways_that_pass_there_with_its_cell_and_cost(quoted, sea_book):
    """180 dollars and the 12 percent that the small book adds to ocean freight: 201.60, by hand."""
    quote = quoted(book=sea_book(passages=(replace(PANAMA, surcharge_minor=180_00),)))
    found = surcharges(quote)
    assert {takes_panama(option) for option, _ in found} == {True, False}
    for option, charges in found:
        assert bool(charges) == takes_panama(option)
        for charge in charges:
            assert (charge.amount, charge.cost.amount) == (Decimal("201.60"), Decimal("180.00"))
            assert charge.stage == "main carriage"
            assert charge.source.endswith("Passages!H2")
            assert charge.label == "War risk surcharge, the Panama Canal"


def test_a_share_of_the_value_is_not_marked_up(quoted, sea_book):
    """A quarter percent of 38,000 dollars is 95."""
    quote = quoted(book=sea_book(passages=(replace(PANAMA, surcharge_ppm=2_500),)))
    charged = [charge for _, charges in surcharges(quote) for charge in charges]
    assert charged
    assert {charge.amount for charge in charged} == {Decimal("95.00")}


def test_each_vehicle_pays_its_own(quoted, sea_book, minnow):
    cheaper = replace(minnow, stock_number="HV-8", value_minor=20_000_00)
    quote = quoted(minnow, cheaper, book=sea_book(passages=(replace(PANAMA, surcharge_ppm=2_500),)), ocean="roro")
    charged = {(c.vehicle, c.amount) for _, charges in surcharges(quote) for c in charges}
    assert charged == {("HV-7", Decimal("95.00")), ("HV-8", Decimal("50.00"))}


@pytest.mark.parametrize("row", [PANAMA, replace(PANAMA, state="closed", surcharge_minor=180_00)])
def test_without_a_sum_nothing_is_charged_and_the_caution_stays(quoted, sea_book, row):
    quote = quoted(book=sea_book(passages=(row,)))
    assert not any(charges for _, charges in surcharges(quote))
    cautioned = [any("Few ships pass" in told for told in option.before_price) for option in quote.options]
    assert any(cautioned) == (row.state == "caution")

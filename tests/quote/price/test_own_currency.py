"""A carrier's price in its own currency: told to the office with sum, rate and day, and to the buyer in no way."""

from decimal import ROUND_HALF_UP, Decimal

from shipcalc.quote.as_data import quote_to_json
from shipcalc.quote.buyer import for_buyer


def test_the_office_reads_what_was_typed_and_the_buyer_nothing_of_it(dealer_quote, shipped) -> None:
    quote = dealer_quote("HV-1042", to="Calgary, Alberta", trailer="open")
    option = next(one for one in quote.options if one.legs[0].carrier == "Two Loons Freight")
    (rate,) = (
        row for row in shipped.rates.currencies if row.currency == "CAD" and row.as_of.isoformat() == "2026-11-23"
    )
    (carrier,) = (row for row in shipped.rates.carriers if row.carrier == "Two Loons Freight" and row.trailer == "open")
    (base,) = (charge for charge in option.charges if charge.code == "truck.base")
    typed = Decimal(carrier.base_minor) / 100
    assert base.offer == f"{typed:,.2f} CAD at {rate.rate:g} of 2026-11-23"
    in_dollars = (typed / Decimal(repr(rate.rate))).quantize(Decimal("0.01"), ROUND_HALF_UP)
    assert base.cost is not None
    assert base.cost.amount == in_dollars
    miles = [charge.offer for charge in option.charges if charge.code == "truck.linehaul"]
    assert miles
    assert all(" CAD at " in offer for offer in miles)
    told = quote_to_json(for_buyer(quote))
    assert "CAD at" not in told
    assert f"{typed:,.2f} CAD" not in told

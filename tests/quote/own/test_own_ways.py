"""What buyers ask on every call: kept until later, fetched at the yard, to a terminal. Prices reckoned by hand from the shipped rows."""

from datetime import date, timedelta
from decimal import Decimal

import pytest

from shipcalc.errors import WrongInput
from shipcalc.pricing.storage import counted
from shipcalc.quote.as_data import quote_from_json, quote_to_json

DAY = date(2026, 12, 1)


@pytest.mark.parametrize(
    ("days", "free", "per", "charged"),
    [(10, 14, "day", 0), (14, 14, "day", 0), (15, 14, "day", 1), (121, 14, "day", 107),
     (10, 10, "month", 0), (11, 10, "month", 1), (40, 10, "month", 1), (41, 10, "month", 2)],
)  # fmt: skip
def test_days_beyond_the_free_ones_and_started_months_are_charged(days, free, per, charged) -> None:
    assert counted(days, free_days=free, per=per) == charged


@pytest.fixture(scope="module")
def kept_till_spring(dealer_quote):
    return dealer_quote("HV-1042", to="59715", keep_until=date(2027, 4, 1))


def test_what_is_kept_until_spring_has_storage_by_the_day_and_leaves_in_spring(kept_till_spring, shipped) -> None:
    row = next(row for row in shipped.rates.storage if row.yard == "Bellingham")
    days = (date(2027, 4, 1) - DAY).days
    assert days == 121  # 30 of December, 31, 28, 31 and the first of April
    for option in kept_till_spring.options:
        (stored,) = (charge for charge in option.charges if charge.code == "yard.storage")
        assert stored.amount == (days - row.free_days) * Decimal(row.amount_minor) / 100
        assert stored.source == row.at.cell("amount_minor")
        assert option.total == sum(charge.amount for charge in option.charges)
        assert option.total % 5 == 0
        assert option.dates.pickup[0] > date(2027, 4, 1)


def test_it_is_compared_with_shipping_now(kept_till_spring, dealer_quote) -> None:
    now = dealer_quote("HV-1042", to="59715")
    (told,) = (one for one in kept_till_spring.also if one.what == "now")
    best = kept_till_spring.options[kept_till_spring.recommended]
    assert told.total == now.options[now.recommended].total
    assert told.difference == told.total - best.total


def test_within_the_free_days_it_costs_nothing(dealer_quote) -> None:
    quote = dealer_quote("HV-1042", to="59715", keep_until=DAY + timedelta(days=14))
    assert not any(charge.code == "yard.storage" for option in quote.options for charge in option.charges)


def test_overseas_the_same_storage_is_sold_under_any_term(dealer_quote) -> None:
    for term in ("DAP", "FOB", "EXW"):
        quote = dealer_quote("HV-1042", to="Bremen, Germany", keep_until=date(2027, 4, 1), term=term)
        for option in quote.options:
            (stored,) = (charge for charge in option.charges if charge.code == "yard.storage")
            assert (stored.amount, stored.payer) == (Decimal("749.00"), "seller")  # 107 days at 7
            assert option.total == sum(charge.amount for charge in option.charges if charge.payer == "seller")


@pytest.mark.parametrize("to", ["59715", "Toronto, ON", "Bremen, Germany", "Honolulu, HI"])
def test_what_is_kept_is_carried_covered_and_taxed_as_if_it_were_ready_that_day(dealer_quote, to) -> None:
    """Storage is no part of the carriage: nothing else that a way has is dearer for it, and it is paid to the seller alone."""
    until = date(2027, 4, 1)
    kept, then = dealer_quote("HV-1042", to=to, keep_until=until), dealer_quote("HV-1042", to=to, ready=until)
    plain = {(option.title, option.dates.pickup): option for option in then.options}
    both = [(option, plain[key]) for option in kept.options if (key := (option.title, option.dates.pickup)) in plain]
    assert both
    for option, other in both:
        own, others = (
            [(c.code, c.label, c.amount, c.payer) for c in one.charges if c.code != "price.rounding"]
            for one in (option, other)
        )
        stored = [charge for charge in own if charge[0] == "yard.storage"]
        assert [charge for charge in own if charge not in stored] == others
        assert len(stored) == 1
        assert option.cover == other.cover
        assert [estimate.amount for estimate in option.imports] == [estimate.amount for estimate in other.imports]
        assert option.buyer_pays_locally == other.buyer_pays_locally


def test_nobody_is_driven_to_a_terminal_where_a_trailer_may_be_had(dealer_quote) -> None:
    """A hired driver goes to the door: whoever saves the miles does not fetch it from a driver."""
    for vehicle, to in (("HV-1152", "78761"), ("HV-1042", "59715"), ("HV-1042", "53703")):
        own = dealer_quote(vehicle, to=to, terminal=True).options[-1]
        assert own.trailer == "open"
        assert {leg.mode for leg in own.legs} == {"truck"}


def test_nothing_is_kept_until_a_day_before_it_is_ready(dealer_quote) -> None:
    with pytest.raises(WrongInput, match="cannot be kept until"):
        dealer_quote("HV-1042", to="59715", ready=date(2026, 12, 20), keep_until=date(2026, 12, 10))


@pytest.mark.parametrize("to", ["59715", "Bremen, Germany"])
def test_what_the_buyer_fetches_costs_no_carriage_and_is_never_recommended(dealer_quote, to) -> None:
    quote = dealer_quote("HV-1042", to=to, collect=True)
    own = quote.options[-1]
    assert (own.title, own.total, own.legs, own.trailer, own.ocean, own.term) == (
        "Collected at the yard", 0, (), None, None, "EXW",
    )  # fmt: skip
    assert quote.recommended != len(quote.options) - 1
    assert len(quote.options) <= 6
    assert own.dates.pickup[0] > DAY
    assert own.dates.pickup[0].weekday() < 6
    assert not own.arrives
    assert bool(own.before_price) == (to != "59715")  # abroad the export is the buyer's then
    assert any("temporary registration" in told for told in own.warnings)
    assert not {"transport-order", "condition-report-delivery"} & {task.code for task in own.tasks}
    assert quote_from_json(quote_to_json(quote)) == quote


def test_a_terminal_is_the_truck_to_its_zip_less_discount_with_its_fee(dealer_quote, shipped) -> None:
    quote = dealer_quote("HV-1042", to="59715", terminal=True)
    own = quote.options[-1]
    (row,) = (row for row in shipped.rates.terminals if row.terminal == "Billings terminal")
    carried = [charge for charge in own.charges if not charge.code.startswith(("terminal", "price"))]
    exact = sum(charge.amount for charge in carried) + (row.fee_minor - row.discount_minor) / Decimal(100)
    assert exact <= own.total < exact + 5
    assert own.legs[-1].to.postal_code == "59101"
    assert not own.arrives
    assert "road miles from you" in own.warnings[0]


def test_a_lane_price_to_the_terminal_has_no_discount_and_does_not_hold_for_the_door_beside_it(dealer_quote) -> None:
    """1,040 and its 14 % are 1,185.60, winter roads 7 % of them 82.99, the terminal takes 45: rounded up to five 1,315."""
    quote = dealer_quote("HV-1042", to="80202", terminal=True)
    own = quote.options[-1]
    assert {charge.code: charge.amount for charge in own.charges if charge.amount} == {
        "truck.lane": Decimal("1185.60"), "season": Decimal("82.99"), "terminal.fee": Decimal("45.00"), "price.rounding": Decimal("1.41"),
    }  # fmt: skip
    assert own.total == 1_315
    assert own.charges[0].note == "Fuel is included. To the terminal, without a stop at a door."
    to_door = dealer_quote("HV-1042", to="80239")
    assert not any(charge.code == "truck.lane" for option in to_door.options for charge in option.charges)


def test_what_starts_at_a_terminal_has_the_price_from_there_and_says_who_brings_it(dealer_quote) -> None:
    quote = dealer_quote("HV-1042", to="10801", start="denver terminal", trailer="open")
    (line,) = (charge for charge in quote.options[0].charges if charge.code == "truck.lane")
    assert line.rate == Decimal("0.6954")  # 0.61 and 14 %
    assert "It starts from the Denver terminal: bringing it there is not in the price." in quote.assumptions


def test_a_terminal_stands_beside_only_where_it_is_cheaper(dealer_quote) -> None:
    for to in ("59715", "53703", "59801", "46601"):
        quote = dealer_quote("HV-1042", to=to)
        for one in quote.also:
            assert one.total < quote.options[quote.recommended].total


def test_overseas_the_price_to_the_port_stands_beside_the_one_to_the_door(dealer_quote) -> None:
    quote = dealer_quote("HV-1042", to="Bremen, Germany")
    (port,) = (one for one in quote.also if one.what == "port")
    best = quote.options[quote.recommended]
    to_port = dealer_quote("HV-1042", to="Bremen, Germany", term="CIP")
    assert port.total < best.total
    assert port.difference == port.total - best.total
    assert to_port.options  # the port's own term can be asked for


@pytest.mark.parametrize("to", ["59715", "Bremen, Germany"])
@pytest.mark.parametrize("until", [None, date(2027, 4, 1)])
def test_everything_that_is_written_shows_a_choice_without_a_way(dealer_quote, tmp_path, to, until) -> None:
    from shipcalc.actions.files import write_files

    quote = dealer_quote("HV-1042", to=to, collect=True, keep_until=until, currency="EUR")
    for option in (0, len(quote.options) - 1):
        written = write_files(quote, tmp_path / str(option), paper="letter", option=option).files
        assert any(path.name == "quote.xlsx" for path in written)
        (message,) = (path.read_text() for path in written if path.name == "message.txt")
        assert "Collected at the yard" in message


def test_what_has_a_lien_is_not_fetched_without_its_release(dealer_quote) -> None:
    own = dealer_quote("HV-1167", to="33040", collect=True).options[-1]
    assert any("lienholder's release" in told for told in own.before_price)


@pytest.mark.parametrize(
    ("to", "left"),
    [("Honolulu, HI", "port charges and the last mile are yours"), ("Bremen", "port charges, customs and the last 40 miles are yours")],
)  # fmt: skip
def test_a_price_to_the_port_says_what_is_left_to_the_buyer_and_no_customs_at_home(dealer_quote, to, left) -> None:
    (port,) = (also for also in dealer_quote("HV-1042", to=to).also if also.what == "port")
    assert port.note == left


def test_a_terminal_asked_for_beyond_the_sea_is_the_port(dealer_quote) -> None:
    with pytest.raises(WrongInput, match="Bremen is reached by sea, where the vehicle is fetched from the port"):
        dealer_quote("HV-1042", to="Bremen", terminal=True)

"""What must be in hand before a vehicle leaves moves the day it leaves: approval, laboratory, lender, a number as an importer.

That Australia wants its approval before the vehicle is shipped: Road Vehicle Standards Act 2018. How many days each takes is an
estimate of the shipped rows (from memory, not checked); the sums below are by hand from those.
"""

from datetime import date, timedelta

import pytest

from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.model import Wishes
from shipcalc.quote.request import Request
from shipcalc.records import replace
from tests.quote.conftest import DAY

# Four days after the yes the truck is booked, the deposit being in; from a Tuesday that is a Saturday, so Friday.
BOOKED = 3


@pytest.fixture
def request_to(shipped, dealer_quote):
    def made(to: str, *, title: str = "clean", term: str | None = None, ready: date = DAY) -> Request:
        (vehicle,) = (one for one in shipped.stock.vehicles if one.stock_number == "HV-1042")
        quote = dealer_quote("HV-1042", to=to)
        return Request(
            vehicles=(replace(vehicle, title=title),),
            starts=(quote.from_,),
            to=quote.to,
            ready=ready,
            wishes=Wishes(term=term),
        )

    return made


@pytest.mark.parametrize(
    ("to", "title", "term", "days"),
    [
        ("Sydney, AU", "clean", None, 45 + 2),  # the approval, and two days before pickup
        ("Sydney, AU", "missing", None, 45 + 2),  # the duplicate title is there sooner
        ("Hamburg", "lien", None, 10 + 3),
        ("Hamburg", "missing", None, 21 + 3),
        ("Hamburg", "foreign", None, 10 + 3),
        ("Hamburg", "bill of sale only", None, 10 + 3),
        ("Toronto, Canada", "lien", None, 10 + 6),  # customs at the border see the papers 72 hours before
        ("Bozeman, MT", "lien", None, 10 + 2),
        ("Bozeman, MT", "missing", None, 21 + 2),
        ("Bozeman, MT", "foreign", None, 10 + 3),
        ("Bozeman, MT", "bill of sale only", None, 10 + 2),
        ("Bozeman, MT", "salvage", None, BOOKED),
        ("Bozeman, MT", "clean", None, BOOKED),
        ("Hamburg", "clean", None, BOOKED),
        ("Hamburg", "clean", "DDP", 21 + 4),
    ],
)
def test_it_leaves_when_the_longest_is_in_hand(request_to, shipped, to: str, title: str, term: str | None, days: int):
    lead = with_lead(request_to(to, title=title, term=term), shipped.rates, DAY)
    assert lead.request.ready == DAY + timedelta(days=days)
    assert bool(lead.said) == (days > BOOKED), "that a truck is booked first is no surprise"


def test_who_is_ready_later_anyway_waits_for_nothing(request_to, shipped):
    request = request_to("Sydney, AU", ready=DAY + timedelta(days=90))
    assert with_lead(request, shipped.rates, DAY).request == request


def test_the_first_possible_sailing_is_after_the_approval(dealer_quote):
    quote = dealer_quote("HV-1042", to="Sydney, AU")
    for option in quote.options:
        assert option.dates.pickup[0] >= DAY + timedelta(days=47)
        assert any("import approval" in said for said in option.before_price)


@pytest.mark.parametrize("to", ["Bozeman, MT", "Hamburg", "Toronto, Canada"])
def test_no_truck_comes_before_the_deposit_is_in_and_it_is_booked(dealer_quote, to: str):
    """The days are those of the rate book's tasks; an order to a carrier before the money is there is the dealer's risk (practice)."""
    quote = dealer_quote("HV-1042", to=to)
    for option in quote.options:
        due = {task.code: task.due for task in option.tasks}
        for code in ("deposit", "booking", "transport-order"):
            assert due.get(code, DAY) <= option.dates.pickup[0], f"{code} of {option.title}"
        assert due["deposit"] == DAY + timedelta(days=3)
    assert any("once your deposit is in" in told for told in quote.assumptions)


@pytest.mark.parametrize("to", ["Bozeman, MT", "Hamburg", "Toronto, Canada", "Sydney, AU"])
@pytest.mark.parametrize("vehicle", ["HV-1042", "HV-1080", "HV-1167"])
def test_the_days_of_a_quote_stand_in_the_order_in_which_things_wait(dealer_quote, vehicle: str, to: str):
    for option in dealer_quote(vehicle, to=to).options:
        due = {task.code: task.due for task in option.tasks}
        for task in option.tasks:
            for code in task.after:
                assert due.get(code, date.min) <= task.due, f"{task.code} is due before {code}"

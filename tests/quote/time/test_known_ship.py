"""A ship known by its day (`--sailing`): the windows are that ship's alone, and a ship that is missed is said to be."""

from datetime import date

import pytest

from shipcalc.checklist.making import gates
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.records import replace

READY = date(2026, 12, 9)
SHIP = date(2026, 12, 18)


@pytest.fixture
def one_ship(sea_book):
    whole = sea_book()
    ports = tuple(port for port in whole.ports if port.port in ("USTIW", "DEBRV"))
    return sea_book(carriers=whole.carriers[:1], ocean=whole.ocean[:1], ports=ports)


def test_a_known_ship_narrows_every_later_window(quoted, one_ship):
    """The shipment of cases/too_late_for_the_ship.toml, meant for the first of its two ships: by hand."""
    (option,) = quoted(book=one_ship, ready=READY, sailing=SHIP).options
    days = gates(quoted(book=one_ship, ready=READY, sailing=SHIP), option)
    # In the terminal by the cut-off of the 14th, three days sooner than the truck may take: picked up by the 12th and not the 15th.
    assert days["pickup"] == (date(2026, 12, 10), date(2026, 12, 12))
    assert days["port"] == (date(2026, 12, 10), date(2026, 12, 14))
    assert days["cut-off"] == (date(2026, 12, 14), date(2026, 12, 14))
    assert days["sailing"] == (SHIP, SHIP)
    assert days["arrival"] == (date(2027, 1, 18), date(2027, 1, 23))
    assert days["delivery"] == (date(2027, 1, 22), date(2027, 2, 1))
    (missed,) = [warning for warning in option.warnings if "misses the sailing" in warning]
    assert "14 Dec 2026" in missed
    assert "185 USD of storage" in missed


def test_nothing_changes_where_the_truck_is_in_time_anyway(quoted, one_ship):
    ready = date(2026, 12, 3)
    without, known = (quoted(book=one_ship, ready=ready, sailing=ship).options[0] for ship in (None, SHIP))
    assert replace(known, latest_ready=None) == replace(without, latest_ready=None)


def test_a_ship_that_can_no_longer_be_reached_is_said(quoted, one_ship):
    with pytest.raises(
        NoAnswer, match="ship of 4 Dec 2026 can no longer be reached: the vehicle is in Tacoma on 10 Dec 2026"
    ):
        quoted(book=one_ship, ready=READY, sailing=date(2026, 12, 4))


def test_a_day_on_which_no_ship_leaves_names_those_that_do(quoted, one_ship):
    with pytest.raises(
        NoAnswer, match="leaves on 2026-12-19; about that day ships leave on 2026-12-04, 2026-12-18, 2027-01-01"
    ):
        quoted(book=one_ship, ready=READY, sailing=date(2026, 12, 19))


def test_no_truck_over_a_border_waits_for_a_ship(dealer_quote):
    with pytest.raises(NoAnswer, match="only a truck"):
        dealer_quote("HV-1042", to="Toronto, Canada", sailing=SHIP)


def test_at_home_there_is_no_ship(dealer_quote):
    with pytest.raises(WrongInput, match="no ship"):
        dealer_quote("HV-1042", to="59715", sailing=SHIP)

"""The mail that books a truck, and the letter with news: what they say, and to whom they say nothing."""

import re
from datetime import date

import pytest

from shipcalc.actions.booking import draft_booking
from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.quoting import Made
from shipcalc.actions.ship_news import tell_news
from shipcalc.actions.sources import invented_sources
from shipcalc.documents import wording
from shipcalc.documents.letter import as_text
from shipcalc.documents.papers.booking_mail import CONFIRM
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.register.contacts import Contact, add_contact
from shipcalc.register.deciding import accept
from shipcalc.register.doing import do, named
from shipcalc.register.opening import Register
from shipcalc.register.quotes import keep_quote
from shipcalc.register.shipments import find_shipment
from shipcalc.settings import Settings

AT = "2026-12-01T16:20:05Z"
DAY = date(2026, 12, 1)
NUMBER = "Q-2026-0001"


@pytest.fixture
def desk(url: str, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setenv("SHIPCALC_REGISTER", url)
    return Desk(Settings(), DAY, AT, "Nadia")


def begin(register: Register, made: Made) -> None:
    keep_quote(register, made.quote, made.request, made.rates, at=AT)
    accept(register, NUMBER, choice=None, on=DAY, by="", at=AT)


@pytest.mark.parametrize("kind", ["home", "overseas"])
def test_the_mail_says_what_a_carrier_asks_and_nothing_of_the_buyers_price(
    kind: str, register: Register, made: dict[str, Made], desk: Desk
) -> None:
    begin(register, made[kind])
    told = as_text(draft_booking(NUMBER, desk).letter)
    with register.reading() as connection:
        shipment = find_shipment(connection, NUMBER)
    quote, option = shipment.quote, shipment.option
    assert NUMBER in told
    assert wording.window(shipment.moments["pickup"]) in draft_booking(NUMBER, desk).letter.subject
    assert wording.within(shipment.moments["pickup"]) in told
    for vehicle in quote.vehicles:
        assert vehicle.name in told
        assert not vehicle.serial or vehicle.serial in told
    assert all(point in told for point in CONFIRM)
    for amount in (option.total, option.deposit, option.total_cost):
        assert amount is None or f"{amount:,}" not in told
    assert not re.search(r"\.xlsx|\bmargin\b|\bcost\b", told)


def test_at_a_port_the_carrier_learns_nothing_of_the_buyer(
    register: Register, made: dict[str, Made], desk: Desk
) -> None:
    begin(register, made["overseas"])
    with register.writing() as connection:
        buyer = made["overseas"].quote.buyer or "Ada Quist"
        add_contact(connection, Contact(role="buyer", name=buyer, address="4 Lee Road", telephone="+49 421 555 0101"))
    told = as_text(draft_booking(NUMBER, desk).letter)
    assert "4 Lee Road" not in told
    assert "555 0101" not in told
    assert buyer not in told


def test_what_is_missing_is_said_with_where_to_fill_it_in_until_it_is_there(
    register: Register, made: dict[str, Made], desk: Desk
) -> None:
    begin(register, made["overseas"])
    first = draft_booking(NUMBER, desk)
    assert {one.where for one in first.missing} >= {
        f"shipcalc shipments set {NUMBER} carrier=…",
        f"shipcalc shipments set {NUMBER} booking=…",
    }
    assert "booking number for the gate follows" in as_text(first.letter)
    with register.writing() as connection:
        add_contact(connection, Contact(role="carrier", name="Tern Haulage", mail="book@tern.example"))
    do(register, NUMBER, lambda it: named(it, {"carrier": "Tern Haulage", "booking": "TH-4471"}), what="named", at=AT)
    now = draft_booking(NUMBER, desk)
    assert now.to == "book@tern.example"
    assert now.letter.greeting == "Dear Tern Haulage,"
    assert "The booking number at the gate is TH-4471." in as_text(now.letter)
    assert not [one for one in now.missing if "shipments set" in one.where]


def test_no_truck_is_booked_for_what_was_picked_up(register: Register, made: dict[str, Made], desk: Desk) -> None:
    begin(register, made["home"])
    tell_news(NUMBER, {"pickup": DAY}, [], desk, invented_sources())
    with pytest.raises(NoAnswer, match="was picked up on 2026-12-01"):
        draft_booking(NUMBER, desk)


def test_a_yard_elsewhere_is_not_given_the_dealers_address(
    register: Register, made: dict[str, Made], desk: Desk
) -> None:
    home = made["home"]
    begin(register, home)
    known, address = draft_booking(NUMBER, desk), home.quote.dealer.address
    assert address
    yard = home.quote.from_.name
    assert (address in as_text(known.letter)) == (yard in address)
    assert any("street address of the yard" in one.what for one in known.missing) == (yard not in address)


def test_what_nobody_accepted_books_no_truck(register: Register, made: dict[str, Made], desk: Desk) -> None:
    kept = made["home"]
    keep_quote(register, kept.quote, kept.request, kept.rates, at=AT)
    with pytest.raises(WrongInput, match="is no shipment"):
        draft_booking(NUMBER, desk)


def test_news_are_whole_sentences_as_text_and_as_page(register: Register, made: dict[str, Made], desk: Desk) -> None:
    begin(register, made["overseas"])
    told = tell_news(NUMBER, {"pickup": DAY}, ["vessel=<b>Aurelia</b>"], desk, invented_sources())
    assert "We have news of your " in told.letter
    assert f"It was picked up on {wording.day(DAY)}." in told.letter
    assert f"to be with you {wording.within(told.shipment.moments['delivery'])}." in told.letter
    assert "  - Vessel: <b>Aurelia</b>" in told.letter
    assert "Vessel: &lt;b&gt;Aurelia&lt;/b&gt;" in told.page
    for line in told.letter.split("\n\n")[1:-1]:
        assert line[0].isupper()
        assert line.endswith(".") or line.startswith("The numbers to ask by:")


@pytest.mark.parametrize(
    ("days", "told"),
    [
        ((date(2026, 12, 8), date(2026, 12, 14)), "between 8 and 14 Dec 2026"),
        ((date(2026, 11, 28), date(2026, 12, 3)), "between 28 Nov and 3 Dec 2026"),
        ((date(2026, 12, 28), date(2027, 1, 3)), "between 28 Dec 2026 and 3 Jan 2027"),
        ((date(2027, 2, 1), date(2027, 2, 1)), "on 1 Feb 2027"),
    ],
)
def test_a_window_stands_in_a_sentence(days: tuple[date, date], told: str) -> None:
    assert wording.within(days) == told

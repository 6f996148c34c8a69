"""An invented year of a dealer, through the actions of the commands and the desk's interface; at the end the books agree.

`YEAR=1 pytest -s tests/register/test_year.py` is the whole: 5,000 quotes, 600 shipments, 52 rate books, two bills for each shipment.
`YEAR=0.2` is a fifth of it, with all rate books; without a number a small sample, as `.ci/run` has it (`-m soak`). Beside the
register stand plain lists of what was promised and billed (`Tally`), and nothing is asked of it that the register could answer.
"""

import csv
import json
import os
import random
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from decimal import Decimal
from itertools import count
from math import ceil
from pathlib import Path

import openpyxl
import pytest
from fastapi.testclient import TestClient
from sqlalchemy import text

from shipcalc.actions import bills, kept_quotes, ship_news, shipments
from shipcalc.actions.editions import adopt_rates, copy_rates, history_of
from shipcalc.actions.kept_quotes import Changes, Desk
from shipcalc.actions.quoting import Order, made_quote, open_books
from shipcalc.actions.sources import find_sources, invented_folder
from shipcalc.actions.today import today_of
from shipcalc.cli.main import run
from shipcalc.desk.app import make_desk
from shipcalc.errors import NoAnswer
from shipcalc.quote.model import Quote
from shipcalc.records import dataclass, field
from shipcalc.register.finding import Asked
from shipcalc.register.shipments import Shipment

pytestmark = pytest.mark.soak

FIRST_DAY = date(2026, 12, 1)
DAYS, QUOTES, SHIPMENTS, RATE_BOOKS = 365, 5000, 600, 52
SHARE = float(os.environ.get("YEAR", "0.002"))
IS_LONG = SHARE >= 0.2
SEED = 20261201
HOME = ("59715", "53703", "33602", "02139", "78702", "30309", "80205", "04101", "97209", "85004", "63103", "70115")
ABROAD = ("Bremen, Germany", "Calgary, Canada", "Rotterdam, Netherlands", "Bristol, United Kingdom")
BUYERS = ("Åsa Lindqvist", "Konrad Brandt", "Ottilie Marsh", "Ferran Quill", "Ines Tollemache")
CENTS = (-0.01, 0.01)
ON_THE_WAY = ("pickup", "port", "sailing", "arrival", "release", "delivery")
LOOKED_AT_EVERY = 5  # days
MOST_GROWTH_MB = 60


@dataclass
class Promise:
    """What a plain list says of one quote."""

    quote: Quote
    revisions: int = 1
    state: str = "open"
    choice: int | None = None

    @property
    def total(self) -> Decimal:
        return self.quote.options[self.quote.recommended if self.choice is None else self.choice].total


@dataclass
class Tally:
    """What was promised, ticked and billed, and how often the answer was no."""

    promises: dict[str, Promise] = field(default_factory=dict)
    ticks: Counter[str] = field(default_factory=Counter)
    billed: list[tuple[str, int]] = field(default_factory=list)
    refused: Counter[str] = field(default_factory=Counter)
    by_desk: int = 0
    moved: int = 0
    news: int = 0


class Dealer:
    """The dealer's folder, people and year."""

    def __init__(self, place: Path) -> None:
        self.place, self.today, self.clock = place, FIRST_DAY, count(1)
        self.chance, self.tally = random.Random(SEED), Tally()
        self.under_way: dict[str, int] = {}  # and on which day of five somebody looks after it
        self._write_folder()
        copy_rates(invented_folder("rates"), place / "rates", today=self.today)
        self.sources = find_sources(folder=place, as_of=self.today)
        self.books = open_books(self.sources)
        self.interface = make_desk(
            lambda day: find_sources(folder=place, as_of=day), today=lambda: self.today, now=lambda: self.desk.at
        )

    def _write_folder(self) -> None:
        settings = (invented_folder("demo") / "shipcalc.toml").read_text("utf-8")
        (self.place / "shipcalc.toml").write_text(f'stock = "stock.csv"\nrates = "rates"\n{settings}', "utf-8")
        head = ("Stock No.", "Year", "Make", "Model", "Yard", "Value ($)", "Title", "Runs", "Rolls", "Steers", "Brakes")
        sizes = ("Length (in)", "Width (in)", "Height (in)", "Weight (lb)", "Engine (cc)", "Fuel", "Built in")
        with (self.place / "stock.csv").open("w", newline="", encoding="utf-8") as file:
            rows = csv.writer(file)
            rows.writerow((*head, *sizes))
            for number in range(1, max(round(2 * SHIPMENTS * SHARE), 20) + 1):
                yard, length = ("Bellingham", "Savannah")[number % 2], 140 + number % 60
                car = (f"YR-{number:04}", 1950 + number % 40, "Thornbeck", "Fellside", yard, 15000 + number % 90 * 500)
                built = ("GB", "US", "DE")[number % 3]
                size = (length, 62 + number % 9, 50 + number % 20, 1900 + 20 * (number % 80), 1595, "gasoline", built)
                rows.writerow((*car, "clean", *4 * ("yes",), *size))

    @property
    def desk(self) -> Desk:
        second = next(self.clock)
        at = f"{self.today}T{second // 3600 % 24:02}:{second // 60 % 60:02}:{second % 60:02}Z"
        return Desk(self.sources.settings, self.today, at, "Nadia")

    # -- the manager --

    def adopt_a_book(self, week: int) -> None:
        """Prices of two rows of *Per mile* go up or down by a cent, diesel by a few."""
        copy = self.place / f"week-{week}"
        copy_rates(self.place / "rates", copy, today=self.today)
        workbook = openpyxl.load_workbook(copy / "trucking.xlsx")
        sheet = workbook["Per mile"]
        priced = [row[4] for row in sheet.iter_rows(min_row=2, max_col=5) if isinstance(row[4].value, float)]
        for cell in self.chance.sample(priced, 2):
            cell.value = round(cell.value + self.chance.choice(CENTS), 2)
        sheet = workbook["Diesel"]
        last = max(row for row in range(2, sheet.max_row + 1) if sheet.cell(row, 3).value)
        price = 3.6 + self.chance.randrange(400) / 1000
        for column, value in enumerate((None, self.today - timedelta(self.today.weekday()), price), 1):
            sheet.cell(last + 1, column).value = value
        workbook.save(copy / "trucking.xlsx")
        workbook.close()
        assert adopt_rates(str(copy), self.place / "rates", today=self.today).is_new
        self.sources = find_sources(folder=self.place, as_of=self.today)
        self.books = open_books(self.sources)

    # -- the salesperson --

    def quote(self, client: TestClient) -> None:
        sold = {key for one in self.tally.promises.values() if one.state == "accepted" for key in stock_of(one.quote)}
        vehicle = self.chance.choice([one for one in self.books.stock.vehicles if one.stock_number not in sold])
        to = self.chance.choice(ABROAD if self.chance.random() < 0.15 else HOME)
        buyer = self.chance.choice(BUYERS)
        try:
            if self.chance.random() < 0.25:
                number = self._by_desk(client, {"vehicles": [vehicle.stock_number], "to": to, "buyer": buyer})
            else:
                order = Order(vehicles=(vehicle.stock_number or "",), to=to, buyer=buyer)
                made = made_quote(order, self.sources, as_of=self.today, books=self.books)
                number = kept_quotes.keep(made, self.desk).number or ""
        except NoAnswer as no:
            self.tally.refused[f"quote: {no}"] += 1
            return
        assert number not in self.tally.promises
        self.tally.promises[number] = Promise(kept_quotes.show(number, self.desk).kept.quote)

    def _by_desk(self, client: TestClient, asked: dict[str, object]) -> str:
        """Keep a quote at the desk, asked twice with one key, as a browser does that heard no answer: it is kept once."""
        key = {"Idempotency-Key": f"key-{next(self.clock)}"}
        answers = [client.post("/api/quotes", json=asked, headers=key) for _ in range(2)]
        if answers[0].status_code == 409:
            raise NoAnswer(answers[0].json()["detail"])
        assert [answer.status_code for answer in answers] == [201, 201], answers[0].text
        first, second = (str(answer.json()["number"]) for answer in answers)
        assert first == second
        self.tally.by_desk += 1
        return first

    def hear(self, number: str, wanted: int) -> None:
        """Hear from the buyer of an open quote, `wanted` of 1,000 say yes."""
        promise, heard = self.tally.promises[number], self.chance.randrange(1000)
        if heard < wanted:
            self._yes(number, promise)
        elif heard < wanted + 100:
            kept_quotes.decline(number, self.desk, on=None, by="buyer", why="too dear")
            promise.state = "declined"
        elif heard < wanted + 200:
            self._again(
                promise, lambda: kept_quotes.revise(number, Changes(trailer="enclosed"), self.sources, self.desk)[0]
            )
        elif heard < wanted + 300:
            until = promise.quote.valid_until + timedelta(7)
            self._again(promise, lambda: kept_quotes.extend(number, until, self.desk))

    def _again(self, promise: Promise, doing: Callable[[], Quote]) -> None:
        try:
            promise.quote = doing()
        except NoAnswer as no:
            self.tally.refused[f"again: {no}"] += 1
            return
        promise.revisions += 1

    def _yes(self, number: str, promise: Promise) -> None:
        taken = promise.quote.recommended
        try:
            kept_quotes.accept(number, self.desk, choice=None, on=None, by="buyer")
        except NoAnswer as no:
            self.tally.refused[f"yes: {no}"] += 1
            return
        promise.state, promise.choice = "accepted", taken
        self.under_way[number] = self.chance.randrange(LOOKED_AT_EVERY)

    # -- the office --

    def look_after(self, number: str) -> None:
        """Tell what has happened, tick what is due, and close what is delivered."""
        shipment = self._told(number, shipments.show(number, self.desk).shipment)
        if self.chance.random() < 0.02 and not shipment.recorded:
            shipment = shipments.move(number, "pickup", self.desk, to=None, days=3).shipment
            self.tally.moved += 1
        for line in shipment.lines:
            if line.item.state == "open" and line.item.due <= self.today:
                shipments.tick(number, str(line.place), self.desk, state="done", on=None, by="Nadia")
                self.tally.ticks[number] += 1
        shipment = shipments.show(number, self.desk).shipment
        if all(line.item.state != "open" for line in shipment.lines) and "delivery" in shipment.recorded:
            assert self.tally.ticks[number] == len(shipment.lines)
            del self.under_way[number]
            self._bill(number)

    def _told(self, number: str, shipment: Shipment) -> Shipment:
        for moment in ON_THE_WAY:
            if moment in shipment.moments and moment not in shipment.recorded:
                happened = max(shipment.moments[moment][0], *shipment.recorded.values(), shipment.accepted_on)
                if happened > self.today:
                    break
                shipment = ship_news.tell_news(number, {moment: happened}, [], self.desk, self.sources).shipment
                self.tally.news += 1
        return shipment

    def _bill(self, number: str) -> None:
        for kind in ("linehaul", "fuel"):
            cents = self.chance.randrange(5_000, 300_000)
            amount = f"{cents // 100}.{cents % 100:02}"
            bills.add_bill(
                number,
                "Tern",
                kind,
                amount,
                currency="USD",
                day=self.today,
                reference=f"{number}/{kind}",
                desk=self.desk,
            )
            self.tally.billed.append((number, cents))


def stock_of(quote: Quote) -> Iterator[str | None]:
    return (vehicle.stock_number for vehicle in quote.vehicles)


def memory_mb() -> int:
    """Return what this process holds in memory now; 0 where the system does not say it so (`man proc_pid_status`)."""
    status = Path("/proc/self/status")
    lines = status.read_text().splitlines() if status.exists() else []
    return next((int(line.split()[1]) // 1024 for line in lines if line.startswith("VmRSS")), 0)


def live(dealer: Dealer, client: TestClient) -> tuple[int, int]:
    """Have a year pass, and as many days more as the last shipments need; return memory at a quarter and at the end."""
    quotes, books = round(QUOTES * SHARE), RATE_BOOKS if IS_LONG else 2
    wanted, quarter, day = round(SHIPMENTS * SHARE), 0, 0
    while day < DAYS or dealer.under_way:
        assert day < 2 * DAYS, f"{len(dealer.under_way)} shipments never end"
        dealer.today = FIRST_DAY + timedelta(day)
        if day < DAYS:
            if day * books // DAYS > (day - 1) * books // DAYS:
                dealer.adopt_a_book(day * books // DAYS)
            for _ in range((day + 1) * quotes // DAYS - day * quotes // DAYS):
                dealer.quote(client)
            if dealer.chance.random() < 100 * SHARE:
                sell(dealer, day * wanted // DAYS + 1)
        for number, turn in tuple(dealer.under_way.items()):
            if day % LOOKED_AT_EVERY == turn:
                dealer.look_after(number)
        day += 1
        if day == DAYS // 4:
            quarter = memory_mb()
    return quarter, memory_mb()


def sell(dealer: Dealer, wanted: int) -> None:
    """Hear from some buyers of this fortnight, until so many have said yes since the year began."""
    promises = dealer.tally.promises
    still = [one for one in list(promises)[-300:] if promises[one].state == "open"]
    hearing = [one for one in still if promises[one].quote.valid_until >= dealer.today]
    dealer.chance.shuffle(hearing)
    for number in hearing[: ceil(4 * SHARE)]:
        missing = wanted - sum(one.state == "accepted" for one in promises.values())
        dealer.hear(number, 700 if missing > 0 else 0)


def check_quotes(dealer: Dealer) -> None:
    """Every number once and without gaps, each as the list beside it has it, and their sums."""
    promises = dealer.tally.promises
    given = Counter(number.rpartition("-")[0] for number in promises)
    assert set(promises) == {f"{year}-{one:04}" for year, last in given.items() for one in range(1, last + 1)}
    listed = kept_quotes.find(Asked(most=2 * len(promises)), dealer.desk)
    assert {one.number: (one.revision, one.total, one.buyer) for one in listed} == {
        number: (one.revisions, one.total, one.quote.buyer) for number, one in promises.items()
    }
    assert len(listed) == len(promises)
    ended = {number for number, one in promises.items() if one.state == "open" and one.quote.valid_until < dealer.today}
    assert {one.number: one.state for one in listed} == {
        number: "ended" if number in ended else one.state for number, one in promises.items()
    }
    sold = sum((one.total for one in promises.values() if one.state == "accepted"), Decimal(0))
    assert sum((one.total for one in listed if one.state == "accepted"), Decimal(0)) == sold
    vehicles = [key for one in promises.values() if one.state == "accepted" for key in stock_of(one.quote)]
    assert len(vehicles) == len(set(vehicles)), "a vehicle was promised to two"


def check_office(dealer: Dealer) -> None:
    """Every checklist is closed, nothing is left for today, every bill is kept to the cent."""
    accepted = {number for number, one in dealer.tally.promises.items() if one.state == "accepted"}
    standing = shipments.find("", dealer.desk, most=2 * len(accepted) + 1)
    assert {one.number for one in standing} == accepted
    assert not [one.number for one in standing if one.open]
    assert not today_of(dealer.desk).day.shipments
    kept = bills.list_bills("", dealer.desk, most=4 * len(accepted) + 1)
    assert sorted((one.number, one.amount_minor) for one in kept) == sorted(dealer.tally.billed)
    assert len(kept) == 2 * len(accepted)


def check_promises(dealer: Dealer, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> int:
    """Have `quotes verify` work every promise out again, each revision from the rate book of its day; return how many."""
    monkeypatch.chdir(dealer.place)
    capsys.readouterr()
    assert run(["quotes", "verify", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    found = told if isinstance(told, list) else next(iter(told.values()))
    assert len(found) == sum(one.revisions for one in dealer.tally.promises.values())
    assert all(one["same"] for one in found)
    return len(found)


def test_a_year(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setenv(kept_quotes.VARIABLE, str(tmp_path / "register.sqlite"))
    begun = time.monotonic()
    dealer = Dealer(tmp_path)
    with TestClient(dealer.interface, base_url="http://127.0.0.1") as client:
        quarter, end = live(dealer, client)
    lived = time.monotonic() - begun
    check_quotes(dealer)
    check_office(dealer)
    verified = check_promises(dealer, capsys, monkeypatch)
    with dealer.desk.register() as register, register.reading() as connection:
        assert connection.execute(text("pragma integrity_check")).scalar() == "ok"
        assert connection.execute(text("pragma foreign_key_check")).all() == []
    books = len(history_of(tmp_path / "rates", today=dealer.today))
    states = Counter(one.state for one in dealer.tally.promises.values())
    tally = dealer.tally
    figures = (
        f"{len(tally.promises)} quotes ({tally.by_desk} at the desk) {dict(states)}, {verified} revisions verified, "
        f"{tally.news} news, {tally.moved} moved, {tally.ticks.total()} ticks, {len(tally.billed)} bills, {books} rate books; "
        f"memory {quarter} MB at a quarter, {end} MB at the end; {lived:.0f} s lived, {time.monotonic() - begun:.0f} s in all"
    )
    refused = (f"  {times} × {why}" for why, times in tally.refused.most_common(12))
    with capsys.disabled():
        sys.stdout.write("\n".join(("", figures, *refused, "")))
    assert sum(tally.refused.values()) <= 0.05 * len(tally.promises) + 2
    assert states["accepted"] >= 0.9 * round(SHIPMENTS * SHARE)
    if IS_LONG:
        assert end <= quarter + MOST_GROWTH_MB

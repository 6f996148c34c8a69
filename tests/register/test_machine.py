"""Every verb in any order, against a register in plain Python: what is kept is what should be, after each step.

`RUNS=500 STEPS=50 pytest tests/register/test_machine.py` has so many runs of so many steps, on both databases; without numbers a
few runs, always the same, as `.ci/run` has them (`-m soak`). `WORKBOOKS=1` hands out real workbooks, which takes ten times as long.
"""

import hashlib
import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from functools import cache
from itertools import count
from pathlib import Path

import hypothesis.strategies as st
import msgspec
import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)
from sqlalchemy import select, text

import shipcalc.checklist.returned
import shipcalc.quote.assemble
import shipcalc.ratebook.book
import shipcalc.register.verifying  # before prices are kept: it works quotes out anew
from shipcalc.actions import bills, contacts, kept_quotes, kept_register, ship_news, shipments
from shipcalc.actions.kept_quotes import Changes, Desk
from shipcalc.actions.quoting import Made, Order, made_quote, open_books
from shipcalc.actions.sources import Sources, invented_sources
from shipcalc.actions.today import today_of
from shipcalc.checklist.accepting import accepted_on
from shipcalc.checklist.making import checklist, gates, shipment_key
from shipcalc.errors import NoAnswer, ShipcalcError, WrongInput
from shipcalc.quote.model import Quote
from shipcalc.records import replace
from shipcalc.register.doing import came_true, shifted
from shipcalc.register.finding import Asked, find_quotes
from shipcalc.register.opening import Register, open_register, url_of_file
from shipcalc.register.packing import unpacked
from shipcalc.register.shipments import Shipment
from shipcalc.register.tables import counts, events, promises, quotes, revisions, tasks
from shipcalc.settings import Settings
from shipcalc.trade import MOMENTS
from tests.register.handed_out import hand_out, read_back
from tests.register.plain_register import (
    Kept,
    PlainRegister,
    Tick,
    Way,
    both_notes,
    forget_way,
    lines_of,
    read_copy,
    said_of,
)

pytestmark = pytest.mark.soak

FIRST_DAY = date(2026, 12, 1)
BUYERS = ("Åsa Lindqvist", "Konrad Brandt", "Ottilie Marsh")
PEOPLE = ("Nadia", "Per")
NEWS = ("pickup", "port", "sailing", "arrival", "release", "delivery")
MOST_BACKUPS = 3
STATES = ("open", "done", "not needed")
ORDERS = (
    (("HV-1042",), "59715", 0),
    (("HV-1042",), "53703", 1),
    (("HV-1030",), "59715", 2),
    (("HV-1042", "HV-1030"), "53703", 2),
    (("HV-1027",), "Bremen, Germany", 1),
)

some = st.integers(0, 10_000)
places = st.integers(0, 6)
notes = st.sampled_from(("calls back", "calls", "at the gate", "Konrad is away"))
ticks = st.tuples(st.sampled_from(STATES), st.one_of(st.none(), st.integers(0, 5)), st.sampled_from(("", *PEOPLE)))
typed = st.dictionaries(
    places,
    st.one_of(
        st.builds(
            lambda state, day, by: {"state": state, "done_on": FIRST_DAY + timedelta(day), "done_by": by},
            st.sampled_from(STATES[1:]),
            st.integers(0, 9),
            st.sampled_from(("", *PEOPLE)),
        ),
        st.builds(lambda note: {"remark": note}, notes),
        st.builds(lambda day: {"due": FIRST_DAY + timedelta(day)}, st.integers(0, 40)),
        st.sampled_from(({"title": "as the yard says"}, {"title": "as the office says"})),
        st.sampled_from(({"owner": "yard: Per"}, {"owner": "office"})),
    ),
    max_size=3,
)


@pytest.fixture(scope="module")
def sources() -> Sources:
    return invented_sources()


@pytest.fixture(scope="module")
def ready_made(sources: Sources) -> tuple[Made, ...]:
    books = open_books(sources)
    return tuple(
        made_quote(Order(vehicles=vehicles, to=to, buyer=BUYERS[buyer]), sources, as_of=FIRST_DAY, books=books)
        for vehicles, to, buyer in ORDERS
    )


@pytest.fixture
def priced_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have the same request on the same day priced once, and copies read that are no workbooks."""
    price, read = shipcalc.quote.assemble.make_quote, shipcalc.ratebook.book.read_rate_book
    known: dict[tuple[bytes, date], Quote] = {}
    most = 100

    def make_quote(request, rates, *, as_of, dealer):  # type: ignore[no-untyped-def]
        key = (msgspec.json.encode(request), as_of)
        if key not in known:
            if len(known) == most:
                known.clear()
            known[key] = price(request, rates, as_of=as_of, dealer=dealer)
        return known[key]

    monkeypatch.setattr(shipcalc.quote.assemble, "make_quote", make_quote)
    monkeypatch.setattr(shipcalc.ratebook.book, "read_rate_book", cache(read))
    if not os.environ.get("WORKBOOKS"):
        monkeypatch.setattr(shipcalc.checklist.returned, "read_returned", read_back)


class Desks(RuleBasedStateMachine):
    """One register, the plain one beside it, and what a person could say to it."""

    new_url: Callable[[], str]
    folder: Path
    sources: Sources
    ready_made: tuple[Made, ...]
    as_workbooks = False

    def __init__(self) -> None:
        super().__init__()
        url = type(self).new_url()
        os.environ[kept_quotes.VARIABLE] = url
        self.register: Register = open_register(url)
        self.plain = PlainRegister()
        self.today = FIRST_DAY
        self.clock = count(1)
        self.place = Path(type(self).folder) / f"run-{os.urandom(6).hex()}"
        self.place.mkdir()
        self.copies: list = []  # type: ignore[type-arg]
        self.pictures: list[tuple[Path, PlainRegister]] = []

    # -- how it is asked --

    @property
    def desk(self) -> Desk:
        at = next(self.clock)
        return Desk(
            Settings(files=self.place / "files"),
            self.today,
            f"{self.today}T{at // 3600:02}:{at // 60 % 60:02}:{at % 60:02}Z",
            "Nadia",
        )

    def any_number(self, pick: int) -> str:
        return list(self.plain.quotes)[pick % len(self.plain.quotes)]

    def any_way(self, pick: int) -> str:
        """Return a number, mostly one of a shipment under way."""
        under_way = [number for number in self.plain.quotes if self.plain.under_way(number)]
        return under_way[pick % len(under_way)] if under_way and pick % 8 else self.any_number(pick)

    def told(self, expected: type[ShipcalcError] | None, doing: Callable[[], object]) -> object:
        """Do something that is to end so; what is refused leaves all as it was, which the invariants see."""
        if expected is None:
            return doing()
        with pytest.raises(expected):
            doing()
        return None

    def looked(self, doing: Callable[[], object]) -> object:
        """Look only: nothing is written."""
        before = self.written()
        found = doing()
        assert self.written() == before, "looking writes nothing"
        return found

    def written(self) -> object:
        """Return what another connection that writes makes another."""
        with self.register.reading() as connection:
            if connection.dialect.name == "sqlite":
                return connection.exec_driver_sql("pragma data_version").scalar()
            return connection.exec_driver_sql("select pg_snapshot_xmax(pg_current_snapshot())::text").scalar()

    # -- quotes --

    @initialize(one=some, two=some)
    def two_quotes_and_a_yes(self, one: int, two: int) -> None:
        self.save(one)
        self.save(two)
        self.accept(0, None, 0)

    @rule(which=some)
    def save(self, which: int) -> None:
        made = self.ready_made[which % len(self.ready_made)]
        kept = kept_quotes.keep(made, self.desk)
        self.plain.given += 1
        assert kept.number == f"Q-2026-{self.plain.given:04d}"
        assert kept == replace(made.quote, number=kept.number, revision=1)
        self.plain.quotes[kept.number] = Kept([kept])

    @rule(pick=some, enclosed=st.booleans(), buyer=st.sampled_from(("", "", *BUYERS)))
    def revise(self, pick: int, enclosed: bool, buyer: str) -> None:
        number = self.any_number(pick)
        kept = self.plain.quotes[number]
        changes = Changes(trailer="enclosed" if enclosed else "", buyer=buyer)
        expected = NoAnswer if kept.state == "accepted" else None
        try:
            done = self.told(expected, lambda: kept_quotes.revise(number, changes, self.sources, self.desk))
        except NoAnswer:  # the rate book has nothing for that day any more
            assert self.today > FIRST_DAY
            return
        if done is not None:
            self._revised(kept, done[0])  # type: ignore[index]
            assert kept.quote.as_of == self.today
            assert not buyer or kept.quote.buyer == buyer

    @rule(pick=some, days=st.integers(-1, 20))
    def extend(self, pick: int, days: int) -> None:
        number = self.any_number(pick)
        kept = self.plain.quotes[number]
        until = kept.quote.valid_until + timedelta(days)
        wrong = until <= kept.quote.valid_until or until < self.today
        expected = NoAnswer if kept.state == "accepted" else WrongInput if wrong else None
        done = self.told(expected, lambda: kept_quotes.extend(number, until, self.desk))
        if done is not None:
            was = kept.quote
            self._revised(kept, done)  # type: ignore[arg-type]
            assert kept.quote == replace(was, valid_until=until, revision=was.revision + 1)  # type: ignore[operator]

    def _revised(self, kept: Kept, quote: Quote) -> None:
        assert (quote.number, quote.revision) == (kept.quote.number, len(kept.revisions) + 1)
        kept.revisions.append(quote)
        kept.state, kept.choice, kept.decided = "open", None, (None, "")
        kept.history.append("revised")

    @rule(pick=some, choice=st.one_of(st.none(), st.integers(0, 7)), ago=st.integers(-1, 4))
    def accept(self, pick: int, choice: int | None, ago: int) -> None:
        number, on = self.any_number(pick), self.today - timedelta(ago)
        kept = self.plain.quotes[number]
        quote = kept.quote
        chosen = quote.recommended if choice is None else choice - 1
        expected = self._yes_refused(kept, chosen, on)
        self.told(expected, lambda: kept_quotes.accept(number, self.desk, choice=choice, on=on, by="Marsh"))
        if expected is not None:
            return
        taken = accepted_on(quote, chosen, on).quote
        option = taken.options[chosen]
        kept.state, kept.choice, kept.decided = "accepted", chosen, (on, "Marsh")
        kept.history.append("accepted")
        before = self.plain.ways.get(number)
        self.plain.ways[number] = way = Way(
            choice=chosen,
            accepted_on=on,
            key=shipment_key(taken, option),
            moments=gates(taken, option),
            lines=lines_of(checklist(taken, option)),
        )
        if before is not None:
            # An earlier yes was taken back: what was named and handed in then stays, and versions go on.
            way.version, way.references, way.read, way.files = (
                before.version + 1,
                before.references,
                before.read,
                before.files,
            )

    def _yes_refused(self, kept: Kept, chosen: int, on: date) -> type[ShipcalcError] | None:
        """Return how a yes is refused; None where it is kept."""
        if on > self.today or not 0 <= chosen < len(kept.quote.options):
            return WrongInput
        promised = self.plain.promised()
        taken = any(
            promised.get(one.stock_number, kept.quote.number) != kept.quote.number for one in kept.quote.vehicles
        )
        if kept.state != "open" or on > kept.quote.valid_until or taken:
            return NoAnswer
        try:
            accepted_on(kept.quote, chosen, on)
        except ShipcalcError as no:
            return type(no)
        return None

    @rule(pick=some)
    def decline(self, pick: int) -> None:
        number = self.any_number(pick)
        kept = self.plain.quotes[number]
        expected = NoAnswer if kept.state == "declined" else None
        self.told(expected, lambda: kept_quotes.decline(number, self.desk, on=None, by="Marsh", why="too dear"))
        if expected is None:
            kept.state, kept.choice, kept.decided = "declined", None, (self.today, "Marsh")
            kept.history.append("declined")

    @rule(pick=some, other=some, although=st.booleans(), by_name=st.booleans())
    def forget(self, pick: int, other: int, although: bool, by_name: bool) -> None:
        numbers = [self.any_number(pick), self.any_number(other)]
        buyer = self.plain.quotes[numbers[0]].quote.buyer if by_name else ""
        meant = dict.fromkeys(numbers if not buyer else [
            number for number, kept in self.plain.quotes.items() if kept.quote.buyer == buyer
        ])  # fmt: skip
        accepted = any(self.plain.quotes[number].state == "accepted" for number in meant)
        expected = NoAnswer if accepted and not although else None
        asked = () if buyer else tuple(meant)
        self.told(expected, lambda: kept_quotes.forget(asked, buyer, self.desk, although_accepted=although))
        if expected is not None:
            return
        for number in meant:
            self._forgotten(number)

    def _forgotten(self, number: str) -> None:
        kept = self.plain.quotes[number]
        names = {quote.buyer for quote in kept.revisions if quote.buyer}
        self.plain.contacts.pop(("buyer", kept.quote.buyer), None)
        kept.revisions = [replace(quote, buyer="") for quote in kept.revisions]
        kept.decided = (kept.decided[0], "")
        kept.history.append("forgotten")
        if number in self.plain.ways:
            way = self.plain.ways[number]
            quote = kept.quote
            forget_way(way, shipment_key(quote, quote.options[way.choice]) if kept.state == "accepted" else "")
        self._check_nothing_tells(number, names)

    def _check_nothing_tells(self, number: str, names: set[str]) -> None:
        """A buyer's name is in nothing that is kept of a number."""
        with self.register.reading() as connection:
            told = [
                part
                for row in connection.execute(select(revisions).where(revisions.c.number == number))
                for part in (unpacked(row.quote), unpacked(row.request), row.why)
            ]
            for table in (quotes, events, tasks):
                told += [str(row) for row in connection.execute(select(table).where(table.c.number == number))]
        assert not [name for name in names if any(name in part for part in told)]

    # -- shipments --

    def changed(self, number: str, change: Callable[[Way], None], what: str, doing: Callable[[], object]) -> None:
        """Change a shipment here and there: each line that is another has one version more, and so has the shipment."""
        way = self.plain.under_way(number)
        self.told(None if way else WrongInput, doing)
        if way is None:
            return
        before = {key: (said_of(line), line.by_hand) for key, line in way.lines.items()}
        references, moments, recorded = dict(way.references), dict(way.moments), dict(way.recorded)
        change(way)
        other = [
            key for key, line in way.lines.items() if key in before and (said_of(line), line.by_hand) != before[key]
        ]
        for key in other:
            way.lines[key].version += 1
        same = (references, moments, recorded) == (dict(way.references), dict(way.moments), dict(way.recorded))
        if other or len(before) < len(way.lines) or not same:
            way.version += 1
            self.plain.quotes[number].history.append(what)

    def _line(self, number: str, place: int) -> tuple[str, str]:
        """Return the number of a line as it is typed, and its id."""
        way = self.plain.ways.get(number)
        keys = list(way.lines) if way else ["?"]
        return str(place % len(keys) + 1), keys[place % len(keys)]

    @rule(pick=some, place=places, tick=ticks, seen=st.sampled_from((None, None, 0, -1)))
    def tick(self, pick: int, place: int, tick: tuple[str, int | None, str], seen: int | None) -> None:
        number = self.any_way(pick)
        line, key = self._line(number, place)
        state, ago, by = tick
        on = None if ago is None else self.today - timedelta(ago)
        ticked: Tick = (state, on, by) if state != "open" else ("open", None, "")
        way = self.plain.under_way(number)
        version = None if seen is None or way is None else way.lines[key].version + seen

        def doing() -> object:
            return shipments.tick(number, line, self.desk, state=state, on=on, by=by, seen=version)  # type: ignore[arg-type]

        if way is not None and seen == -1:
            self.told(WrongInput, doing)
        else:
            self.changed(number, lambda way: put(way.lines[key], tick=ticked), "ticked", doing)

    @rule(pick=some, place=places, to=st.sampled_from(("", *PEOPLE)))
    def assign(self, pick: int, place: int, to: str) -> None:
        number = self.any_way(pick)
        line, key = self._line(number, place)
        self.changed(
            number,
            lambda way: put(way.lines[key], assigned=to),
            "assigned",
            lambda: shipments.assign(number, line, self.desk, to=to),
        )

    @rule(pick=some, place=places, note=st.one_of(st.just(""), notes))
    def note(self, pick: int, place: int, note: str) -> None:
        number = self.any_way(pick)
        line, key = self._line(number, place)
        self.changed(
            number,
            lambda way: put(way.lines[key], remark=both_notes(way.lines[key].remark, note) if note else ""),
            "noted",
            lambda: shipments.note(number, line, self.desk, text=note),
        )

    @rule(pick=some, place=places, days=st.integers(0, 30))
    def set_due(self, pick: int, place: int, days: int) -> None:
        number, due = self.any_way(pick), FIRST_DAY + timedelta(days)
        line, key = self._line(number, place)
        self.changed(
            number,
            lambda way: put(way.lines[key], due=due, by_hand=True),
            "due day set",
            lambda: shipments.set_due(number, line, self.desk, due=due),
        )

    @rule(
        pick=some,
        name=st.sampled_from(("booking", "vessel", "driver", "carrier")),
        value=st.sampled_from(("", "HB1", "Tern")),
    )
    def name(self, pick: int, name: str, value: str) -> None:
        number = self.any_way(pick)
        told = (
            "Tern Haulage"
            if name == "carrier" and value == "Tern" and ("carrier", "Tern Haulage") in self.plain.contacts
            else value
        )
        self.changed(
            number,
            lambda way: put(
                way, references={key: text for key, text in {**way.references, name: told}.items() if text}
            ),
            "references set",
            lambda: shipments.name(number, [f"{name}={value}"], self.desk),
        )

    @rule(pick=some, stage=st.sampled_from(NEWS), ago=st.integers(-3, 4), look=st.booleans())
    def news(self, pick: int, stage: str, ago: int, look: bool) -> None:
        number, day = self.any_way(pick), self.today - timedelta(ago)
        way = self.plain.under_way(number)
        if way is None:
            return
        desk = self.desk
        before = shipments.show(number, desk).shipment
        after = self._dated_anew(before, stage, day)

        def doing() -> object:
            return ship_news.tell_news(number, {stage: day}, [], desk, self.sources, look=look)

        if isinstance(after, type):
            self.told(after, doing)
        elif look:
            self.looked(doing)
        else:
            self.changed(number, lambda way: redated(way, after), "news", doing)

    @rule(pick=some, stage=st.sampled_from(MOMENTS), days=st.integers(-9, 9))
    def move(self, pick: int, stage: str, days: int) -> None:
        number = self.any_way(pick)
        if self.plain.under_way(number) is None:
            return
        desk = self.desk
        before = shipments.show(number, desk).shipment
        try:
            after = shifted(before, stage, days=days).shipment
        except ShipcalcError as no:
            self.told(type(no), lambda: shipments.move(number, stage, desk, to=None, days=days))
            return
        self.changed(
            number,
            lambda way: redated(way, after),
            "moved",
            lambda: shipments.move(number, stage, desk, to=None, days=days),
        )

    def _dated_anew(self, before: Shipment, stage: str, day: date) -> "Shipment | type[ShipcalcError]":
        if day > self.today and stage not in ("sailing", "arrival"):
            return WrongInput
        try:
            if day <= self.today:
                return came_true(before, stage, day).shipment
            first = before.moments[stage][0] if stage in before.moments else day
            return shifted(before, stage, days=(day - first).days, known=day).shipment
        except ShipcalcError as no:
            return type(no)

    # -- copies, files --

    @rule(pick=some, typed=typed, own=st.sampled_from(("", "", "Buy a cover", "buy a COVER", "Ring the yard")))
    def hand_out(self, pick: int, typed: dict[int, dict[str, object]], own: str) -> None:
        number = self.any_way(pick)
        if self.plain.under_way(number) is None:
            return
        folder = self.place / f"copy-{len(self.copies)}"
        desk = self.desk
        copied = self.looked(lambda: hand_out(desk, number, folder, typed, own, as_workbook=self.as_workbooks))
        self.copies.append(copied)

    @precondition(lambda self: self.copies)
    @rule(picks=st.lists(some, min_size=1, max_size=2), twice=st.booleans(), look=st.booleans(), elsewhere=some)
    def read(self, picks: list[int], twice: bool, look: bool, elsewhere: int) -> None:
        chosen = [self.copies[pick % len(self.copies)] for pick in picks]
        number = chosen[0][1].number if elsewhere % 10 else self.any_way(elsewhere)
        files = [file for file, _ in chosen]
        if twice:
            files.append(shutil.copy(files[0], self.place / f"again-{next(self.clock)}{files[0].suffix}"))
        desk = self.desk
        way = self.plain.under_way(number)
        digests = {hashlib.sha256(file.read_bytes()).hexdigest(): copied for file, copied in chosen}
        new = {digest: copied for digest, copied in digests.items() if way and digest not in way.read}

        def doing() -> object:
            return shipments.read_copies(number, [Path(file) for file in files], desk, look=look)

        if way is None or any(copied.key != way.key for copied in new.values()):
            self.told(WrongInput, doing)
        elif look:
            self.looked(doing)
        else:
            self.changed(number, lambda way: read_all(way, new), "checklist read", doing)

    @rule(pick=some, text=st.sampled_from(("title", "photograph")), copied=st.booleans())
    def add_file(self, pick: int, text: str, copied: bool) -> None:
        number = self.any_way(pick)
        way = self.plain.under_way(number)
        file = self.place / f"{text}.pdf"
        file.write_text(text)
        twice = way is not None and (text, copied) in way.files
        expected = WrongInput if way is None or twice else None
        desk = self.desk
        self.told(expected, lambda: shipments.add_files(number, [file], desk, what="", line="", copy=copied))
        if expected is None and way is not None:
            way.files.append((text, copied))
            self.plain.quotes[number].history.append("file added")

    # -- contacts, bills --

    @rule(
        who=st.sampled_from((("carrier", "Tern Haulage"), *(("buyer", name) for name in BUYERS))),
        mail=st.sampled_from(("a@x.example", "")),
    )
    def add_contact(self, who: tuple[str, str], mail: str) -> None:
        expected = NoAnswer if who in self.plain.contacts else None
        self.told(expected, lambda: contacts.add(*who, {"mail": mail}, self.desk))
        self.plain.contacts.setdefault(who, mail)

    @precondition(lambda self: self.plain.contacts)
    @rule(pick=some, mail=st.sampled_from(("b@x.example", "c@x.example")))
    def change_contact(self, pick: int, mail: str) -> None:
        who = list(self.plain.contacts)[pick % len(self.plain.contacts)]
        contacts.change(who[1], {"mail": mail}, self.desk, role=who[0])
        self.plain.contacts[who] = mail

    @rule(
        pick=some,
        amount=st.sampled_from(("812.50", "1000", "-20")),
        kind=st.sampled_from(("linehaul", "fuel", "all-in")),
    )
    def bill(self, pick: int, amount: str, kind: str) -> None:
        number = self.any_number(pick)
        row = (number, "Tern", kind, int(float(amount) * 100), "USD", FIRST_DAY, "")
        expected = NoAnswer if row in self.plain.bills else None
        self.told(
            expected,
            lambda: bills.add_bill(
                number, "Tern", kind, amount, currency="usd", day=FIRST_DAY, reference="", desk=self.desk
            ),
        )
        if expected is None:
            self.plain.bills.append(row)
            self.plain.quotes[number].history.append("bill kept")

    @precondition(lambda self: self.plain.bills)
    @rule(pick=some)
    def remove_bill(self, pick: int) -> None:
        kept = bills.list_bills("", self.desk, most=1000)
        gone = bills.remove(kept[pick % len(kept)].id, self.desk)
        self.plain.bills.remove(as_row(gone))
        self.plain.quotes[gone.number].history.append("bill removed")

    # -- the whole --

    @rule(days=st.sampled_from((1, 1, 2, 6)))
    def days_pass(self, days: int) -> None:
        self.today += timedelta(days)

    @precondition(lambda self: len(self.pictures) < MOST_BACKUPS)
    @rule()
    def back_up(self) -> None:
        file = self.place / f"backup-{len(self.pictures)}.zip"
        desk = self.desk
        self.looked(lambda: kept_register.back_up(file, desk))
        self.pictures.append((file, self.plain.as_it_is()))

    @precondition(lambda self: self.pictures)
    @rule(pick=some, over=st.booleans())
    def restore(self, pick: int, over: bool) -> None:
        file, picture = self.pictures[pick % len(self.pictures)]
        self.told(None if over else NoAnswer, lambda: kept_register.restore(file, self.desk, over=over))
        if over:
            given = self.plain.given
            self.plain = picture.as_it_is()
            self.plain.given = given

    @rule(
        kind=st.sampled_from((".csv", ".json")), state=st.sampled_from((None, "open", "ended", "accepted", "declined"))
    )
    def export(self, kind: str, state: str | None) -> None:
        file, desk = self.place / f"table{kind}", self.desk
        rows = self.looked(lambda: kept_register.export(Asked(state=state, most=1000), file, desk))  # type: ignore[arg-type]
        expected = [number for number, kept in self.plain.quotes.items() if state in (None, kept.state_on(self.today))]
        assert rows == len(expected)
        assert all(number in file.read_text("utf-8-sig") for number in expected)

    @rule(pick=some)
    def look_at_everything(self, pick: int) -> None:
        desk = self.desk
        day = self.looked(lambda: today_of(desk))
        still = {
            number
            for number, way in self.plain.ways.items()
            if self.plain.under_way(number) and any(line.tick[0] == "open" for line in way.lines.values())
        }
        assert {one.shipment for one in day.day.shipments} == still  # type: ignore[attr-defined]
        name = BUYERS[pick % len(BUYERS)]
        found = self.looked(lambda: kept_quotes.find(Asked(buyer=name.split()[1], most=1000), desk))
        assert {one.number for one in found} == {  # type: ignore[attr-defined]
            number for number, kept in self.plain.quotes.items() if kept.quote.buyer == name
        }
        listed = self.looked(lambda: shipments.find("", desk, most=1000))
        assert {one.number: one.open for one in listed} == {  # type: ignore[attr-defined]
            number: sum(line.tick[0] == "open" for line in way.lines.values())
            for number, way in self.plain.ways.items()
            if self.plain.under_way(number)
        }

    # -- what always holds --

    @invariant()
    def quotes_stand_as_they_should(self) -> None:
        with self.register.reading() as connection:
            listed = find_quotes(connection, Asked(most=1000), today=self.today)
            promised = {row.vehicle: row.number for row in connection.execute(select(promises))}
            last = connection.execute(select(counts.c.last)).scalar() or 0
            rows = {row.number: row for row in connection.execute(select(quotes))}
        assert {
            one.number: (one.revision, one.state, one.as_of, one.valid_until, one.buyer, one.total) for one in listed
        } == {
            number: (
                len(kept.revisions),
                kept.state_on(self.today),
                kept.quote.as_of,
                kept.quote.valid_until,
                kept.quote.buyer,
                kept.total,
            )
            for number, kept in self.plain.quotes.items()
        }
        assert promised == {key.casefold().replace("-", ""): number for key, number in self.plain.promised().items()}
        assert last == self.plain.given
        for number, kept in self.plain.quotes.items():
            row = rows[number]
            assert (row.choice, (row.decided_on, row.decided_by)) == (kept.choice, kept.decided)

    @invariant()
    def shipments_stand_as_they_should(self) -> None:
        with self.register.reading() as connection:
            lines: dict[str, dict[str, object]] = {}
            for row in connection.execute(select(tasks).order_by(tasks.c.number, tasks.c.place)):
                lines.setdefault(row.number, {})[row.id] = (
                    ((row.state, row.done_on, row.done_by), row.remark, row.title, row.owner, row.assigned, row.due),
                    bool(row.due_by_hand),
                    row.version,
                )
        for number, way in self.plain.ways.items():
            assert lines[number] == {
                key: (
                    (line.tick, line.remark, line.title, line.owner, line.assigned, line.due),
                    line.by_hand,
                    line.version,
                )
                for key, line in way.lines.items()
            }

    def teardown(self) -> None:
        try:
            desk = self.desk
            for number, kept in self.plain.quotes.items():
                self._check_shown(number, kept, desk)
            rows = sorted(as_row(one) for one in bills.list_bills("", desk, most=1000))
            assert rows == sorted(self.plain.bills)  # type: ignore[type-var]
            book = {(one.role, one.name): one.mail for one in contacts.find("", desk)}
            assert book == self.plain.contacts
            for number in list(self.plain.quotes)[:1]:
                assert all(one.same for one in kept_quotes.verify([number], desk))
            with self.register.reading() as connection:
                if connection.dialect.name == "sqlite":
                    assert connection.execute(text("pragma integrity_check")).scalar() == "ok"
                    assert connection.execute(text("pragma foreign_key_check")).all() == []
        finally:
            self.register.close()
            shutil.rmtree(self.place)

    def _check_shown(self, number: str, kept: Kept, desk: Desk) -> None:
        for revision, quote in enumerate(kept.revisions, 1):
            shown = kept_quotes.show(number, desk, revision=revision)
            assert shown.kept.quote == quote
        assert [what for _, what, *_ in shown.history] == kept.history
        way = self.plain.under_way(number)
        if way is None:
            with pytest.raises(WrongInput):
                shipments.show(number, desk)
            return
        seen = shipments.show(number, desk)
        one = seen.shipment
        assert (one.choice, one.accepted_on, one.version) == (way.choice, way.accepted_on, way.version)
        assert (dict(one.moments), dict(one.recorded), dict(one.references)) == (
            dict(way.moments),
            way.recorded,
            way.references,
        )
        assert sorted((paper.what, paper.copied) for paper in seen.papers) == sorted(way.files)


def put(record: object, **values: object) -> None:
    for name, value in values.items():
        setattr(record, name, value)


def redated(way: Way, after: Shipment) -> None:
    """Take over the days that the program's dating gives."""
    way.moments, way.recorded = after.moments, dict(after.recorded)
    for line in after.lines:
        way.lines[line.item.id].due = line.item.due


def read_all(way: Way, new: dict[str, object]) -> None:
    for digest, copied in sorted(new.items(), key=lambda one: one[1].version):  # type: ignore[attr-defined]
        read_copy(way, copied)  # type: ignore[arg-type]
        way.read.add(digest)


def as_row(one: object) -> tuple[object, ...]:
    return tuple(
        getattr(one, name) for name in ("number", "carrier", "kind", "amount_minor", "currency", "day", "reference")
    )


def _run(new_url: Callable[[], str], folder: Path, sources: Sources, ready_made: tuple[Made, ...], share: int) -> None:
    runs, steps = os.environ.get("RUNS"), int(os.environ.get("STEPS", "30"))
    wished = settings(
        max_examples=max(int(runs or "4") // share, 2),
        stateful_step_count=steps,
        deadline=None,
        derandomize=runs is None,
        phases=(Phase.generate,),  # fifty steps are read sooner than they are made fewer
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    body = {"new_url": staticmethod(new_url), "folder": folder, "sources": sources, "ready_made": ready_made}
    machine = type("Desks", (Desks,), {**body, "as_workbooks": bool(os.environ.get("WORKBOOKS"))})
    run_state_machine_as_test(machine, settings=wished)


@pytest.fixture
def in_memory(tmp_path: Path) -> Iterator[Path]:
    """A folder in memory, where the system has one: nobody waits for a disk."""
    memory = Path("/dev/shm")
    with tempfile.TemporaryDirectory(dir=memory if memory.is_dir() else tmp_path) as folder:
        yield Path(folder)


def test_any_order_of_verbs_in_a_file(
    in_memory: Path, sources: Sources, ready_made: tuple[Made, ...], priced_once: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = in_memory / "made.sqlite"
    open_register(url_of_file(made)).close()

    def new_url() -> str:
        file = in_memory / f"{os.urandom(6).hex()}.sqlite"
        shutil.copy(made, file)
        return url_of_file(file)

    monkeypatch.setenv(kept_quotes.VARIABLE, "")
    _run(new_url, in_memory, sources, ready_made, 1)


def test_any_order_of_verbs_on_a_server(
    server: str,
    in_memory: Path,
    sources: Sources,
    ready_made: tuple[Made, ...],
    priced_once: None,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A tenth of the runs."""
    psycopg = pytest.importorskip("psycopg")

    def made(name: str, like: str) -> str:
        with psycopg.connect(f"{server}postgres", autocommit=True) as connection:
            connection.execute(f'create database "{name}" template "{like}"')
        return f"{server}{name}"

    open_register(made("empty", "template1")).close()
    monkeypatch.setenv(kept_quotes.VARIABLE, "")
    _run(lambda: made(f"m{os.urandom(6).hex()}", "empty"), in_memory, sources, ready_made, 10)

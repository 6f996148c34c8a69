"""Shipments as they are kept, in both databases: begun with the yes, changed at two desks, read back from ticked copies."""

from concurrent.futures import ThreadPoolExecutor
from datetime import date, timedelta
from pathlib import Path

import openpyxl
import pytest
from sqlalchemy import delete, select, text

from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.quoting import Made
from shipcalc.actions.ship_news import tell_news
from shipcalc.actions.shipments import add_files, misses_of, name, read_copies, show, tick, write_checklist
from shipcalc.actions.sources import invented_sources
from shipcalc.checklist.accepting import accepted_on
from shipcalc.checklist.columns import HEADERS
from shipcalc.checklist.making import checklist, gates
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.register.contacts import Contact, add_contact, change_contact, list_contacts, offered
from shipcalc.register.deciding import accept, decline
from shipcalc.register.doing import assigned, came_true, do, named, noted, ticked
from shipcalc.register.forgetting import forget
from shipcalc.register.opening import Register
from shipcalc.register.quotes import keep_quote
from shipcalc.register.shipments import Shipment, begin_missing, find_shipment, keep_changed, list_shipments
from shipcalc.register.tables import shipments, tasks
from shipcalc.settings import Settings
from tests.register.handed_out import copy_of

AT = "2026-12-01T16:20:05Z"
DAY = date(2026, 12, 1)
NUMBER = "Q-2026-0001"


@pytest.fixture
def desk(url: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Desk:
    monkeypatch.setenv("SHIPCALC_REGISTER", url)
    return Desk(Settings(files=tmp_path / "files"), DAY, AT, "Nadia")


@pytest.fixture
def way(register: Register, made: dict[str, Made]) -> Shipment:
    """A shipment overseas under way."""
    quote = made["overseas"]
    keep_quote(register, quote.quote, quote.request, quote.rates, at=AT)
    accept(register, NUMBER, choice=None, on=DAY, by="", at=AT)
    return found(register)


def found(register: Register) -> Shipment:
    with register.reading() as connection:
        return find_shipment(connection, NUMBER)


def test_the_yes_begins_the_checklist_of_the_choice(way: Shipment, made: dict[str, Made]) -> None:
    """The register says what the checklist in a workbook says."""
    quote = made["overseas"].quote
    taken = accepted_on(way.quote, quote.recommended, DAY).quote
    option = taken.options[quote.recommended]
    assert way.items == checklist(taken, option)
    assert dict(way.moments) == gates(taken, option)
    assert (way.version, [line.place for line in way.lines]) == (1, list(range(1, len(way.items) + 1)))


def test_what_nobody_accepted_is_no_shipment(register: Register, way: Shipment) -> None:
    decline(register, NUMBER, on=DAY, by="", why="", at=AT)
    with pytest.raises(WrongInput, match="is no shipment"):
        found(register)
    with register.reading() as connection:
        assert list_shipments(connection, today=DAY) == ()


def test_quotes_accepted_before_there_were_shipments_get_theirs(register: Register, way: Shipment) -> None:
    with register.writing() as connection:
        connection.execute(delete(tasks))
        connection.execute(delete(shipments))
        begin_missing(connection)
    assert found(register) == way


def test_a_line_is_ticked_given_and_noted(register: Register, way: Shipment) -> None:
    do(register, NUMBER, lambda one: ticked(one, "1", state="done", on=DAY, by="Nadia"), what="ticked", at=AT)
    do(register, NUMBER, lambda one: assigned(one, "2", to="Per"), what="assigned", at=AT)
    done = do(register, NUMBER, lambda one: noted(one, "2", remark="calls back"), what="noted", at=AT)
    first, second = done.shipment.lines[:2]
    assert (first.item.state, first.item.done_on, first.item.done_by, first.version) == ("done", DAY, "Nadia", 2)
    assert (second.who, second.item.remark, second.version) == (f"{second.item.owner}: Per", "calls back", 3)
    assert done.shipment.version == 4
    assert done.shipment.lines[2:] == way.lines[2:]


def test_of_two_desks_that_saw_the_same_line_one_is_told(register: Register, way: Shipment) -> None:
    """No change is lost unseen: the second desk looked at a version that is no longer there."""
    line = way.lines[0].item.id

    def change(state: str) -> bool:
        try:
            do(
                register,
                NUMBER,
                lambda one: ticked(one, "1", state=state, on=DAY, by=state),  # type: ignore[arg-type]
                what="ticked",
                at=AT,
                seen={line: 1},
            )
        except WrongInput as wrong:
            return "at another desk meanwhile" not in str(wrong)
        return True

    with ThreadPoolExecutor(2) as desks:
        assert sorted(desks.map(change, ("done", "not needed"))) == [False, True]
    assert found(register).lines[0].version == 2


def test_eight_desks_tick_eight_lines_and_none_is_lost(register: Register, way: Shipment) -> None:
    def change(place: int) -> None:
        do(register, NUMBER, lambda one: ticked(one, str(place), state="done", on=DAY, by=""), what="ticked", at=AT)

    with ThreadPoolExecutor(8) as desks:
        list(desks.map(change, range(1, 9)))
    now = found(register)
    assert [line.item.state for line in now.lines[:9]] == ["done"] * 8 + ["open"]
    assert now.version == 9


def test_old_copies_read_after_newer_ones_neither_win_nor_lose(
    register: Register, way: Shipment, desk: Desk, tmp_path: Path
) -> None:
    one, two, three, four = (line.item.id for line in way.lines[:4])
    old = copy_of(
        desk,
        NUMBER,
        tmp_path / "old",
        {
            (one, "state"): "done",
            (one, "done_on"): date(2026, 12, 2),
            (two, "remark"): "from the yard",
            (three, "title"): "what the yard calls it",
            (four, "owner"): "yard",
        },
    )
    tick(NUMBER, one, desk, state="not needed", on=date(2026, 12, 4), by="Nadia")
    do(register, NUMBER, lambda it: noted(it, two, remark="from the office"), what="noted", at=AT)
    new = copy_of(desk, NUMBER, tmp_path / "new", {(three, "title"): "what the office calls it"})
    read_copies(NUMBER, [new], desk, look=False)
    before = found(register)
    looked = read_copies(NUMBER, [old], desk, look=True)
    assert found(register) == before, "looking writes nothing"
    done = read_copies(NUMBER, [old], desk, look=False)
    assert looked.changed == done.changed
    lines = {line.item.id: line.item for line in done.shipment.lines}
    assert (lines[one].state, lines[one].done_on) == ("not needed", date(2026, 12, 4)), "the later tick counts"
    assert lines[two].remark == "from the office / from the yard"
    assert lines[three].title == "what the office calls it"
    assert lines[four].owner == "yard", "what only the old copy changed is taken"
    told = " ".join(done.said)
    for part in ("was written from version 1; the register is at", "the later counts", "both stay", "calls it"):
        assert part in told, part
    again = read_copies(NUMBER, [old], desk, look=False)
    assert again.changed == ()
    assert any("was read already" in sentence for sentence in again.said)


def test_a_line_that_somebody_added_stays_and_is_added_once(
    register: Register, way: Shipment, desk: Desk, tmp_path: Path
) -> None:
    added = {("", "title"): "Buy a cover", ("", "owner"): "yard: Per", ("", "due"): date(2026, 12, 9)}
    file = copy_of(desk, NUMBER, tmp_path, added)  # type: ignore[arg-type]
    read_copies(NUMBER, [file], desk, look=False)
    book = openpyxl.load_workbook(file)
    book["Checklist"]["K6"].value = "seen"  # another note: the file is no longer the same
    book.save(file)
    read_copies(NUMBER, [file], desk, look=False)
    own = [line for line in found(register).lines if line.item.title == "Buy a cover"]
    assert [(line.item.due, line.who, line.place) for line in own] == [
        (date(2026, 12, 9), "yard: Per", len(way.lines) + 1)
    ]
    _, again, _ = write_checklist(NUMBER, desk, out=tmp_path / "again", paper="letter")
    assert read_copies(NUMBER, [again], desk, look=False).changed == ()


def with_column(file: Path, header: str, cells: dict[str, object]) -> Path:
    """Add a column behind the others, as somebody does in Excel, or fill the one of that name: id → value."""
    book = openpyxl.load_workbook(file)
    sheet = book["Checklist"]
    headers = {cell.value: cell.column for cell in sheet[5] if cell.value}
    at = headers.get(header, max(headers.values()) + 1)
    sheet.cell(5, at).value = header
    for row in range(6, sheet.max_row + 1):
        key = sheet.cell(row, headers[HEADERS["id"]]).value
        if key in cells:
            sheet.cell(row, at).value = cells[key]
    book.save(file)
    return file


def column_in(file: Path, header: str) -> dict[str, object]:
    sheet = openpyxl.load_workbook(file)["Checklist"]
    headers = {cell.value: cell.column for cell in sheet[5] if cell.value}
    rows = range(6, sheet.max_row + 1)
    found = {sheet.cell(row, headers[HEADERS["id"]]).value: sheet.cell(row, headers[header]).value for row in rows}
    return {str(key): value for key, value in found.items() if value is not None}


def test_columns_that_people_add_come_along_with_their_lines(
    register: Register, way: Shipment, desk: Desk, tmp_path: Path
) -> None:
    """Kept with the line, written into the next copy as they were, joined as notes are."""
    one, two, three = (line.item.id for line in way.lines[:3])
    first = with_column(
        copy_of(desk, NUMBER, tmp_path / "1", {}), "Cost center", {one: 4711, two: "yard", three: "007"}
    )
    done = read_copies(NUMBER, [first], desk, look=False)
    assert [told for told in done.changed if "Cost center" in told] == ["your column “Cost center”: 3 lines"]
    second = copy_of(desk, NUMBER, tmp_path / "2", {})
    assert column_in(second, "Cost center") == {one: 4711, two: "yard", three: "007"}
    old = copy_of(desk, NUMBER, tmp_path / "3", {})
    with_column(second, "Cost center", {one: 4712, three: None})
    read_copies(NUMBER, [second], desk, look=False)
    assert column_in(copy_of(desk, NUMBER, tmp_path / "4", {}), "Cost center") == {one: 4712, two: "yard"}
    told = read_copies(NUMBER, [with_column(old, "Cost center", {one: 4713, two: "office"})], desk, look=False)
    assert column_in(copy_of(desk, NUMBER, tmp_path / "5", {}), "Cost center") == {one: "4712 / 4713", two: "office"}
    assert any("“Cost center” was changed on both sides" in sentence for sentence in told.said)
    forget(register, (NUMBER,), at=AT, although_accepted=True)
    assert all(not line.added for line in found(register).lines)


def test_a_copy_of_another_shipment_is_told(
    register: Register, way: Shipment, made: dict[str, Made], desk: Desk, tmp_path: Path
) -> None:
    home = made["home"]
    keep_quote(register, home.quote, home.request, home.rates, at=AT)
    accept(register, "Q-2026-0002", choice=None, on=DAY, by="", at=AT)
    _, file, _ = write_checklist("2", desk, out=tmp_path, paper="letter")
    with pytest.raises(WrongInput, match=r"is not the checklist of Q-2026-0001"):
        read_copies(NUMBER, [file], desk, look=False)


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        # ISO 6346, its own example of the check digit
        ("container=csqu3054383", "CSQU 305438 3"),
        # the form of an ITN as in the answer of the U.S. Census Bureau, FAQ 849
        ("itn=AES X20060914000001", "X20060914000001"),
        ("tracking=https://track.example/TH-88", "https://track.example/TH-88"),
        ("seal=ml-0192283", "ML-0192283"),
    ],
)
def test_references_are_read_as_they_are_written(way: Shipment, desk: Desk, typed: str, kept: str) -> None:
    key = typed.partition("=")[0]
    assert name(NUMBER, [typed], desk).shipment.references == {key: kept}
    assert name(NUMBER, [f"{key}="], desk).shipment.references == {}


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("container=CSQU3054384", "its check digit would be 3"),
        ("itn=X2006091400000", "is not an ITN"),
        ("itn=X20061314000001", "its first eight digits are no day"),
        ("tracking=track.example", "is not a link"),
        ("seal=?", "is not the number of a seal"),
        ("bookng=1", "the names are carrier"),
        ("booking", "write name=value"),
    ],
)
def test_mistyped_references_are_told_in_a_sentence(way: Shipment, desk: Desk, typed: str, told: str) -> None:
    with pytest.raises(WrongInput, match=told):
        name(NUMBER, [typed], desk)


def test_references_stand_in_lists_calendar_and_workbook(
    register: Register, way: Shipment, desk: Desk, tmp_path: Path
) -> None:
    with register.writing() as connection:
        add_contact(connection, Contact(role="carrier", name="Tern Haulage", telephone="+1 555 0142"))
    done = name(NUMBER, ["booking=HB-7781", "carrier=tern"], desk)
    assert dict(done.shipment.references) == {"booking": "HB-7781", "carrier": "Tern Haulage"}
    _, file, calendar = write_checklist(NUMBER, desk, out=tmp_path, paper="letter")
    book = openpyxl.load_workbook(file)
    cells = {cell.value for name in ("Shipment", "Contacts") for row in book[name] for cell in row}
    assert {"Booking", "HB-7781", "Tern Haulage", "+1 555 0142"} <= cells
    assert "Booking: HB-7781" in calendar.read_text().replace("\r\n ", "")
    with register.reading() as connection:
        assert [one.number for one in list_shipments(connection, today=DAY, text="hb-7781")] == [NUMBER]


def test_a_list_counts_what_is_open_and_late(register: Register, way: Shipment) -> None:
    later = way.lines[0].item.due + timedelta(days=1)
    tickable = way.lines[0].item
    with register.reading() as connection:
        one = list_shipments(connection, today=later)[0]
    late = sum(line.item.due < later for line in way.lines)
    assert (one.open, one.late, one.next_due) == (len(way.lines), late, min(line.item.due for line in way.lines))
    do(register, NUMBER, lambda it: ticked(it, tickable.id, state="done", on=DAY, by=""), what="ticked", at=AT)
    with register.reading() as connection:
        now = list_shipments(connection, today=later)[0]
    assert (now.open, now.late) == (one.open - 1, one.late - 1)


def test_a_day_that_came_true_replaces_its_window(way: Shipment) -> None:
    gate = way.moments["port"][0] - timedelta(days=3)
    now = came_true(way, "port", gate).shipment
    assert now.moments["port"] == (gate, gate)
    assert now.moments["pickup"][1] <= gate, "what comes before has come too"
    assert now.moments["sailing"] == way.moments["sailing"], "a truck does not move a ship"
    first, last = way.moments["arrival"]
    landed = came_true(way, "arrival", first + timedelta(days=2)).shipment
    assert landed.moments["arrival"] == (first + timedelta(days=2),) * 2
    ahead = [day - then for day, then in zip(landed.moments["delivery"], way.moments["delivery"], strict=True)]
    assert sorted(ahead) == sorted([timedelta(days=2), first + timedelta(days=2) - last])


def test_a_missed_cutoff_is_told_and_the_next_ship_is_asked_of_the_rates(
    register: Register, way: Shipment, desk: Desk, url: str
) -> None:
    late = way.moments["cut-off"][1] + timedelta(days=1)
    after = Desk(Settings(), late, AT)
    news = tell_news(NUMBER, {"port": late}, [], after, invented_sources())
    assert any(f"after the cut-off of {way.moments['cut-off'][1]}" in sentence for sentence in news.said)
    assert any("may have missed the ship" in sentence for sentence in news.said)
    assert news.next_ships
    assert all("the next ship from" in sentence or "knows no next ship" in sentence for sentence in news.next_ships)
    assert f"handed in at the terminal on {late.day} {late:%b} {late.year}" in news.letter


def test_news_only_looked_at_is_not_kept(register: Register, way: Shipment, desk: Desk) -> None:
    tell_news(NUMBER, {"sailing": date(2026, 12, 22)}, ["vessel=Aurelia Tide"], desk, invented_sources(), look=True)
    assert found(register) == way
    told = tell_news(NUMBER, {"sailing": date(2026, 12, 22)}, ["vessel=Aurelia Tide"], desk, invented_sources())
    assert told.shipment.moments["sailing"] == (date(2026, 12, 22),) * 2
    assert told.shipment.recorded == {}, "a ship that is to leave has not left"
    assert "left on its ship" not in told.letter
    assert "Vessel: Aurelia Tide" in told.letter
    with pytest.raises(WrongInput, match="is still to come"):
        tell_news(NUMBER, {"delivery": date(2027, 1, 22)}, [], desk, invented_sources())


def test_the_letter_says_nothing_of_the_office(register: Register, way: Shipment, desk: Desk) -> None:
    told = tell_news(NUMBER, {}, ["carrier=Tern", "itn=X20261205000017", "bill=HB1"], desk, invented_sources())
    assert "Tern" not in told.letter
    assert "X20261205000017" not in told.letter
    assert "Bill of lading: HB1" in told.letter


def test_files_stay_where_they_are_or_are_copied(way: Shipment, desk: Desk, tmp_path: Path) -> None:
    title, photo = tmp_path / "title.pdf", tmp_path / "photo.jpg"
    title.write_bytes(b"title")
    photo.write_bytes(b"photo")
    add_files(NUMBER, [title], desk, what="title scan", line="", copy=False)
    kept = add_files(NUMBER, [photo], desk, what="", line="1", copy=True)
    assert [(one.what, one.how, one.copied, one.task) for one in kept] == [
        ("title scan", "as it was", False, ""),
        ("photo", "as it was", True, way.lines[0].item.id),
    ]
    photo.unlink()
    title.write_bytes(b"another")
    assert [one.how for one in show(NUMBER, desk).papers] == ["changed", "as it was"]
    kept[1].path.unlink()
    assert [one.how for one in show(NUMBER, desk).papers] == ["changed", "missing"]
    with pytest.raises(WrongInput, match="cannot be read"):
        add_files(NUMBER, [photo], desk, what="", line="", copy=True)


def test_the_address_book_holds_each_once(register: Register) -> None:
    with register.writing() as connection:
        add_contact(connection, Contact(role="carrier", name="Tern Haulage"))
        add_contact(connection, Contact(role="forwarder", name="Tern Haulage"))
        with pytest.raises(NoAnswer, match="in the address book already"):
            add_contact(connection, Contact(role="carrier", name="TERN haulage"))
        assert [one.role for one in list_contacts(connection, text="haul")] == ["carrier", "forwarder"]
        seen = offered(connection, "carrier", "tern")[0]
        assert change_contact(connection, seen, {"mail": "a@tern.example"}).mail == "a@tern.example"
        with pytest.raises(WrongInput, match="changed at another desk meanwhile"):
            change_contact(connection, seen, {"mail": "b@tern.example"})


def test_a_forgotten_buyer_is_in_no_note_or_file(register: Register, way: Shipment, desk: Desk, tmp_path: Path) -> None:
    scan = tmp_path / "passport of brandt.pdf"
    scan.write_bytes(b"K. Brandt")
    copy = add_files(NUMBER, [scan], desk, what="", line="", copy=True)[0].path
    do(register, NUMBER, lambda it: noted(it, "1", remark="K. Brandt is away"), what="noted", at=AT)
    with register.writing() as connection:
        add_contact(connection, Contact(role="buyer", name="K. Brandt"))
    forget(register, (NUMBER,), at=AT, although_accepted=True)
    assert not copy.exists()
    with register.reading() as connection:
        for table in ("tasks", "files", "contacts", "events", "copies", "shipments", "quotes"):
            rows = connection.execute(text(f"select * from {table}")).all()
            assert "brandt" not in str(rows).casefold(), table


def test_nothing_is_kept_of_a_change_that_fails(register: Register, way: Shipment) -> None:
    now = named(way, {"booking": "X"}).shipment
    with pytest.raises(ZeroDivisionError), register.writing() as connection:  # noqa: PT012 - the failure is the test
        keep_changed(connection, way, now)
        raise ZeroDivisionError
    assert found(register) == way
    with register.reading() as connection:
        assert connection.execute(select(shipments.c.version)).scalar_one() == 1
    assert misses_of(way, DAY) == misses_of(found(register), DAY)

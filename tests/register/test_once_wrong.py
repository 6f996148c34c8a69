"""What was wrong once, by the day it was found: most of it by steps in an order that nobody had thought of (`test_machine.py`)."""

import shutil
from datetime import date
from pathlib import Path

import pytest
from sqlalchemy import delete, select, text

from shipcalc.actions import kept_quotes, kept_register, shipments
from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.quoting import Made
from shipcalc.actions.today import today_of
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.learning.bill import Bill
from shipcalc.register import tables
from shipcalc.register.bills import billed_quotes, keep_bills
from shipcalc.register.opening import Register
from shipcalc.register.quotes import keep_quote, keep_revision
from shipcalc.settings import Settings
from tests.register.handed_out import copy_of

DAY, AT = date(2026, 12, 1), "2026-12-01T16:20:05Z"
NUMBER = "Q-2026-0001"


@pytest.fixture
def desk(url: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Desk:
    monkeypatch.setenv(kept_quotes.VARIABLE, url)
    return Desk(Settings(files=tmp_path / "files"), DAY, AT, "Nadia")


def accepted(made: Made, desk: Desk, choice: int | None = None) -> str:
    number = kept_quotes.keep(made, desk).number or ""
    kept_quotes.accept(number, desk, choice=choice, on=DAY, by="Marsh")
    return number


def revised(number: str, made: Made, register: Register, desk: Desk) -> None:
    kept = kept_quotes.show(number, desk).kept.quote
    keep_revision(register, made.quote, made.request, of=kept, why="again", at=AT)


def test_a_yes_is_not_lost_to_a_revision_that_was_begun_before_it(
    register: Register, made: dict[str, Made], desk: Desk
) -> None:
    """28 November 2026: who had looked at the quote before the yes put it back to open, and left its shipment standing."""
    home = made["home"]
    seen = keep_quote(register, home.quote, home.request, home.rates, at=AT)
    kept_quotes.accept(NUMBER, desk, choice=None, on=DAY, by="Marsh")
    with pytest.raises(NoAnswer, match="was accepted"):
        keep_revision(register, home.quote, home.request, of=seen, why="cheaper", at=AT)
    assert kept_quotes.show(NUMBER, desk).listed.state == "accepted"


def test_a_choice_is_not_kept_longer_than_the_yes(register: Register, made: dict[str, Made], desk: Desk) -> None:
    """28 November 2026: after a no, and in a revision, the choice of an earlier yes still counted for sums and bills."""
    quote = made["home"].quote
    other = next(place for place in range(len(quote.options)) if place != quote.recommended)
    accepted(made["home"], desk, choice=other + 1)
    assert kept_quotes.show(NUMBER, desk).listed.total == quote.options[other].total
    bill = Bill(number=NUMBER, carrier="Tern", kind="fuel", amount_minor=100, currency="USD", day=DAY)
    keep_bills(register, (bill,), at=AT)
    kept_quotes.decline(NUMBER, desk, on=None, by="", why="")
    assert kept_quotes.show(NUMBER, desk).listed.total == quote.options[quote.recommended].total
    revised(NUMBER, made["home"], register, desk)
    with register.reading() as connection:
        assert [one.choice for one in billed_quotes(connection)] == [quote.recommended]
        row = connection.execute(select(tables.quotes)).one()
    assert (row.choice, row.decided_on, row.decided_by) == (None, None, "")


def test_a_checklist_of_an_earlier_yes_is_known_for_older(
    register: Register, made: dict[str, Made], desk: Desk, tmp_path: Path
) -> None:
    """28 November 2026: a second yes began its versions at 1 again, so that a copy of the first one passed for the newest."""
    accepted(made["home"], desk)
    shipments.note(NUMBER, "1", desk, text="calls back")
    old = copy_of(desk, NUMBER, tmp_path / "old", {})
    kept_quotes.decline(NUMBER, desk, on=None, by="", why="")
    revised(NUMBER, made["home"], register, desk)
    kept_quotes.accept(NUMBER, desk, choice=None, on=DAY, by="Marsh")
    assert shipments.show(NUMBER, desk).shipment.version == 3
    told = shipments.read_copies(NUMBER, [old], desk, look=True).said
    assert any("was written from version 2; the register is at 3" in sentence for sentence in told)


def test_the_same_file_under_two_names_is_read_once(made: dict[str, Made], desk: Desk, tmp_path: Path) -> None:
    """28 November 2026: a copy that was saved twice and read in one go ended in a fault of the database."""
    accepted(made["home"], desk)
    file = copy_of(desk, NUMBER, tmp_path / "out", {("", "title"): "Buy a cover"})
    again = Path(shutil.copy(file, tmp_path / "checklist (1).xlsx"))
    done = shipments.read_copies(NUMBER, [file, again], desk, look=False)
    assert done.changed == ("new line: Buy a cover",)
    assert any("checklist (1).xlsx holds the same as" in sentence for sentence in done.said)


def test_who_may_not_be_forgotten_keeps_everybody_s_files(made: dict[str, Made], desk: Desk, tmp_path: Path) -> None:
    """28 November 2026: of two numbers of which the second was refused, the first had lost its files already."""
    first, second = accepted(made["home"], desk), accepted(made["overseas"], desk)
    scan = tmp_path / "title.pdf"
    scan.write_bytes(b"title")
    kept = shipments.add_files(first, [scan], desk, what="", line="", copy=True)[0].path
    kept_quotes.decline(first, desk, on=None, by="", why="")
    with pytest.raises(NoAnswer, match=second):
        kept_quotes.forget([first, second], "", desk)
    assert kept.exists()
    kept_quotes.forget([first], "", desk)
    assert not kept.exists()


def test_only_looking_begins_no_shipment(register: Register, made: dict[str, Made], desk: Desk, tmp_path: Path) -> None:
    """28 November 2026: what an older program had accepted became a shipment as soon as somebody looked at the day."""
    accepted(made["home"], desk)
    with register.writing() as connection:
        connection.execute(delete(tables.tasks))
        connection.execute(delete(tables.shipments))
    before = everything(register)
    assert today_of(desk).day.shipments == ()
    assert shipments.find("", desk, most=9) == ()
    with pytest.raises(WrongInput, match="had no shipments"):
        shipments.show(NUMBER, desk)
    assert everything(register) == before
    kept_register.upgrade(desk, tmp_path)
    assert [one.shipment for one in today_of(desk).day.shipments] == [NUMBER]


def everything(register: Register) -> dict[str, list[object]]:
    with register.reading() as connection:
        return {
            table.name: list(connection.execute(text(f"select * from {table.name}")))
            for table in tables.metadata.sorted_tables
        }


def test_copies_go_into_a_folder_that_every_desk_sees(
    register: Register, made: dict[str, Made], url: str, desk: Desk, tmp_path: Path
) -> None:
    """28 November 2026: with the register on a server, copies went into the folder of the one who made them."""
    number = accepted(made["home"], desk)
    scan = tmp_path / "title.pdf"
    scan.write_bytes(b"title")
    unset = Desk(Settings(), DAY, AT)
    if url.startswith("sqlite"):
        beside = shipments.add_files(number, [scan], unset, what="", line="", copy=True)[-1].path
        assert beside.parent.parent == (tmp_path / "kept" / "files").resolve()
    else:
        with pytest.raises(WrongInput, match="no folder for copies"):
            shipments.add_files(number, [scan], unset, what="", line="", copy=True)
    kept = shipments.add_files(number, [scan], desk, what="", line="", copy=True)[-1].path
    assert kept.parent.parent == (tmp_path / "files").resolve()

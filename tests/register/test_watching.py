"""A register that is watched, in either database: what happened after the last event that was told, once and in its order."""

import pytest

from shipcalc.actions import bills, kept_quotes, shipments
from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.quoting import Made
from shipcalc.actions.watching import MOST_AT_ONCE, Watch
from shipcalc.settings import Settings
from tests.register.conftest import AT, DAY


@pytest.fixture
def desk(url: str, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setenv("SHIPCALC_REGISTER", url)
    return Desk(Settings(), DAY, AT, "Nell")


def test_each_change_is_told_once_in_its_order(desk: Desk, made: dict[str, Made], tmp_path) -> None:
    watch = Watch()
    last = watch.since(None, desk).last
    assert last == 0
    number = kept_quotes.keep(made["home"], desk).number or ""
    kept_quotes.accept(number, desk, choice=None, on=DAY, by="the buyer")
    shipments.tick(number, "1", desk, state="done", on=DAY, by="Nell")
    scan = tmp_path / "scan.pdf"
    scan.write_bytes(b"%PDF-1.7")
    shipments.add_files(number, (scan,), desk, what="", line="", copy=False)
    bill = bills.add_bill(number, "Tern Haulage", "fuel", "12.50", currency="USD", day=DAY, reference="", desk=desk)
    found = watch.since(last, desk)
    assert [(one.what, one.who) for one in found.events] == [
        ("kept", "Nell"),
        ("accepted", "the buyer"),
        ("ticked", "Nell"),
        ("file added", "Nell"),
        ("bill kept", "Nell"),
    ]
    assert {one.number for one in found.events} == {number}
    assert watch.since(found.last, desk).events == ()
    shipments.tick(number, "1", desk, state="done", on=DAY, by="Nell")
    assert watch.since(found.last, desk).events == (), "what changes nothing did not happen"
    (kept,) = bills.list_bills(number, desk, most=5)
    assert kept.kind == bill.kind
    bills.remove(kept.id, desk)
    assert [one.what for one in watch.since(found.last, desk).events] == ["bill removed"]
    watch.close()


def test_what_is_too_much_to_tell_is_lost_and_said_to_be(desk: Desk, made: dict[str, Made]) -> None:
    from shipcalc.register.events import note_of_number

    watch = Watch()
    number = kept_quotes.keep(made["home"], desk).number or ""
    first = watch.since(None, desk).last
    with desk.register() as register, register.writing() as connection:
        for _ in range(MOST_AT_ONCE + 1):
            note_of_number(connection, number, "noted", at=AT, who="", told="")
    found = watch.since(first, desk)
    assert (found.lost, found.events) == (True, ())
    assert watch.since(found.last, desk) == type(found)(found.last, ())
    assert watch.since(found.last + 5, desk).lost, "a register that was put back has fewer"
    watch.close()

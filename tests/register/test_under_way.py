"""The office's day from the register, in either database."""

from datetime import date
from pathlib import Path

import pytest

from shipcalc.actions.quoting import Made
from shipcalc.checklist.items import item_id
from shipcalc.register.deciding import accept
from shipcalc.register.opening import Register
from shipcalc.register.quotes import keep_quote
from shipcalc.register.under_way import open_lines, shipments_under_way
from tests.register.many import begin

AT = "2026-12-01T16:20:05Z"
DAY = date(2026, 12, 1)


@pytest.fixture
def numbers(register: Register, made: dict[str, Made]) -> tuple[str, ...]:
    """Three quotes: two accepted, the first with its first five lines done; the third only open, though it has lines."""
    found = []
    for name in ("home", "overseas", "home"):
        quote = keep_quote(register, made[name].quote, made[name].request, made[name].rates, at=AT)
        if len(found) < 2:
            accept(register, quote.number or "", choice=None, on=DAY, by="x", at=AT)
        begin(register, quote, accepted_on=DAY, done=5 if not found else 0)
        found.append(quote.number or "")
    return tuple(found)


def test_open_lines_are_those_of_accepted_quotes_the_first_due_first(
    register: Register, numbers: tuple[str, ...], made: dict[str, Made]
) -> None:
    with register.reading() as connection:
        found = open_lines(connection, until=date.max)
        soon = open_lines(connection, until=date(2026, 12, 5))
        under_way = shipments_under_way(connection)
    assert {line.shipment for line in found} == set(numbers[:2])
    assert [line.due for line in found] == sorted(line.due for line in found)
    assert soon == tuple(line for line in found if line.due <= date(2026, 12, 5))
    assert {one.shipment for one in under_way} == set(numbers[:2])
    home = next(one for one in under_way if one.shipment == numbers[0])
    dates = made["home"].quote.options[made["home"].quote.recommended].dates
    assert home.moments["delivery"] == dates.delivery
    assert home.buyer == "Åsa Lindqvist"


def test_a_paper_is_missing_until_it_is_done_or_lies_in_the_folder(
    monkeypatch: pytest.MonkeyPatch, url: str, made: dict[str, Made], tmp_path: Path
) -> None:
    """What the day misses are the papers of the choice, by the quote, but for the one whose scan was added."""
    from shipcalc.actions.kept_quotes import Desk, keep
    from shipcalc.actions.kept_quotes import accept as say_yes
    from shipcalc.actions.shipments import add_files
    from shipcalc.actions.today import today_of
    from shipcalc.settings import Settings

    monkeypatch.setenv("SHIPCALC_REGISTER", url)
    desk = Desk(Settings(), DAY, AT)
    number = keep(made["overseas"], desk).number or ""
    quote, choice, _ = say_yes(number, desk, choice=None, on=DAY, by="x")
    later = Desk(Settings(), date(2027, 1, 31), AT)
    papers = {item_id(paper.code, paper.vehicle) for paper in quote.options[choice].documents}
    missing = {entry.id for entry in today_of(later).day.papers}
    assert "commercial-invoice" in missing
    assert missing <= papers
    scan = tmp_path / "invoice.pdf"
    scan.write_bytes(b"invoice")
    add_files(number, [scan], desk, what="", line="commercial-invoice", copy=False)
    found = today_of(later).day
    assert {entry.id for entry in found.papers} == missing - {"commercial-invoice"}
    assert "commercial-invoice" in {entry.id for entry in found.late}, "it is still to be ticked"
    assert found.shipments[0].papers == len(missing) - 1


def test_a_shipment_of_which_all_is_done_is_no_longer_under_way(
    register: Register, numbers: tuple[str, ...], made: dict[str, Made]
) -> None:
    quote = made["home"].quote
    from shipcalc.records import replace

    begin(register, replace(quote, number=numbers[0]), accepted_on=DAY, done=1000)
    with register.reading() as connection:
        assert {one.shipment for one in shipments_under_way(connection)} == {numbers[1]}


def test_a_quote_that_is_accepted_is_in_the_day(
    monkeypatch: pytest.MonkeyPatch, url: str, made: dict[str, Made]
) -> None:
    """From the yes to the day: what keeps and accepts quotes, and nothing laid into tables by the test."""
    from shipcalc.actions.kept_quotes import Desk, keep
    from shipcalc.actions.kept_quotes import accept as say_yes
    from shipcalc.actions.today import today_of
    from shipcalc.settings import Settings

    monkeypatch.setenv("SHIPCALC_REGISTER", url)
    desk = Desk(Settings(), DAY, AT)
    number = keep(made["home"], desk).number or ""
    say_yes(number, desk, choice=None, on=DAY, by="x")
    found = today_of(Desk(Settings(), date(2026, 12, 4), AT)).day
    assert {entry.shipment for entry in found.late} == {number}
    assert found.late[0].buyer == "Åsa Lindqvist"
    assert [one.shipment for one in found.shipments] == [number]

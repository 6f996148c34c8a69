"""What a register promises, whichever database it is kept in: one suite for both."""

import threading
from concurrent.futures import ThreadPoolExecutor
from datetime import date, timedelta
from pathlib import Path

import pytest
from sqlalchemy import inspect, select

from shipcalc.actions.quoting import Made
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.quote.as_data import quote_to_json
from shipcalc.quote.model import Quote
from shipcalc.records import replace
from shipcalc.register.deciding import accept, decline
from shipcalc.register.events import events_of
from shipcalc.register.finding import Asked, find_one, find_quotes
from shipcalc.register.forgetting import forget
from shipcalc.register.numbers import next_number, number_meant
from shipcalc.register.opening import Register, open_register, url_of_file
from shipcalc.register.quotes import find_kept, keep_quote, keep_revision
from shipcalc.register.tables import counts, metadata, rate_books, revisions
from shipcalc.register.verifying import verify

AT = "2026-12-01T16:20:05Z"
DAY = date(2026, 12, 1)


def kept(register: Register, made: Made, **changes: object) -> Quote:
    """Keep a quote, changed so that many can be told apart."""
    return keep_quote(register, replace(made.quote, **changes), made.request, made.rates, at=AT)  # type: ignore[arg-type]


def test_the_tables_are_those_of_the_code(register: Register) -> None:
    """The steps lead to the tables that the code names, column by column."""
    with register.reading() as connection:
        seen = inspect(connection)
        there = {
            name: {column["name"]: bool(column["nullable"]) for column in seen.get_columns(name)}
            for name in seen.get_table_names()
            if name != "alembic_version"
        }
    assert there == {
        table.name: {column.name: bool(column.nullable) for column in table.columns}
        for table in metadata.tables.values()
    }


def test_a_slip_in_the_first_letter_is_found(register: Register, made: dict[str, Made]) -> None:
    """Of words without figures; the index of those is used, or every chassis number is looked at."""
    kept(register, made["home"], buyer="Okonkwo")
    with register.reading() as connection:
        for typed in ("okonkvo", "akonkwo", "ookonkwo"):
            assert [one.buyer for one in find_quotes(connection, Asked(text=typed), today=DAY)] == ["Okonkwo"], typed
        assert find_quotes(connection, Asked(text="zylophon"), today=DAY) == ()
        names = {index["name"] for index in inspect(connection).get_indexes("words")}
    assert names == {index.name for index in metadata.tables["words"].indexes}


def test_numbers_go_on_by_year(register: Register, made: dict[str, Made]) -> None:
    numbers = [kept(register, made["home"]).number for _ in range(3)]
    next_year = kept(register, made["home"], as_of=date(2027, 1, 2)).number
    again = kept(register, made["home"]).number
    assert [*numbers, next_year, again] == ["Q-2026-0001", "Q-2026-0002", "Q-2026-0003", "Q-2027-0001", "Q-2026-0004"]


def take_and_fail(register: Register) -> None:
    """Take a number in a transaction that does not come to its end."""
    with register.writing() as connection:
        assert next_number(connection, 2026) == "Q-2026-0002"
        raise ZeroDivisionError


def test_what_fails_takes_no_number(register: Register, made: dict[str, Made]) -> None:
    kept(register, made["home"])
    with pytest.raises(ZeroDivisionError):
        take_and_fail(register)
    assert kept(register, made["home"]).number == "Q-2026-0002"


def test_many_at_once_get_a_number_each(url: str, made: dict[str, Made]) -> None:
    """Four desks, each with a connection of its own, begin together on a register that is not there yet."""
    together = threading.Barrier(4)

    def desk(_: int) -> list[str | None]:
        together.wait()
        register = open_register(url)
        numbers = [kept(register, made["home"]).number for _ in range(10)]
        register.close()
        return numbers

    with ThreadPoolExecutor(4) as desks:
        numbers = sorted(number or "" for part in desks.map(desk, range(4)) for number in part)
    assert numbers == [f"Q-2026-{count:04d}" for count in range(1, 41)]


def test_desks_that_open_a_register_first_wait_for_each_other(tmp_path: Path) -> None:
    """SQLite refuses at once, and does not wait, where two turn to the log at the same time; so it is tried again."""
    together = threading.Barrier(6)

    def desk(url: str) -> None:
        together.wait()
        register = open_register(url)
        with register.writing():
            pass
        register.close()

    with ThreadPoolExecutor(6) as desks:
        for turn in range(10):
            url = url_of_file(tmp_path / str(turn) / "register.sqlite")
            assert list(desks.map(desk, [url] * 6)) == [None] * 6


@pytest.mark.parametrize("kind", ["home", "overseas"])
def test_a_quote_comes_back_to_the_byte(register: Register, made: dict[str, Made], kind: str) -> None:
    quote = kept(register, made[kind])
    with register.reading() as connection:
        found = find_kept(connection, quote.number or "")
    assert quote_to_json(found.quote) == quote_to_json(quote)
    assert found.request == made[kind].request


def test_an_old_quote_is_worked_out_again_to_the_byte(register: Register, made: dict[str, Made]) -> None:
    for kind in ("home", "overseas"):
        kept(register, made[kind])
    assert [(one.number, one.same, one.told) for one in verify(register)] == [
        ("Q-2026-0001", True, ""),
        ("Q-2026-0002", True, ""),
    ]


def test_a_quote_that_comes_out_otherwise_is_told(register: Register, made: dict[str, Made]) -> None:
    cheaper = replace(made["home"].quote.options[0], total=made["home"].quote.options[0].total - 1)
    quote = kept(register, made["home"], options=(cheaper, *made["home"].quote.options[1:]), program="shipcalc 0.0.9")
    found = next(iter(verify(register)))
    assert (found.number, found.same) == (quote.number, False)
    assert f"choice 1 cost {cheaper.total} USD then, and {cheaper.total + 1} USD now" in found.told
    assert "made by shipcalc 0.0.9" in found.told


def test_a_revision_stands_beside_the_one_before(register: Register, made: dict[str, Made]) -> None:
    first = kept(register, made["home"])
    second = keep_revision(
        register, replace(first, buyer="Åsa L."), made["home"].request, of=first, why="the name", at=AT
    )
    assert (second.number, second.revision) == (first.number, 2)
    with register.reading() as connection:
        assert find_kept(connection, first.number or "", 1).quote == first
        assert find_kept(connection, first.number or "").quote == second
        assert [event[1] for event in events_of(connection, first.number or "")] == ["kept", "revised"]


def test_of_two_revisions_at_once_one_is_told(register: Register, made: dict[str, Made]) -> None:
    first = kept(register, made["home"])
    keep_revision(register, first, made["home"].request, of=first, why="", at=AT)
    with pytest.raises(WrongInput, match="was revised meanwhile"):
        keep_revision(register, first, made["home"].request, of=first, why="", at=AT)


def test_a_vehicle_is_promised_once(register: Register, made: dict[str, Made]) -> None:
    one, other = (kept(register, made["home"]).number or "" for _ in range(2))
    accept(register, one, choice=None, on=DAY, by="Åsa", at=AT)
    with pytest.raises(NoAnswer, match=rf"HV-1042 is promised to the buyer of {one}"):
        accept(register, other, choice=None, on=DAY, by="somebody else", at=AT)
    with register.reading() as connection:
        assert find_one(connection, other, today=DAY).state == "open"
    decline(register, one, on=DAY, by="", why="", at=AT)
    accept(register, other, choice=1, on=DAY, by="", at=AT)
    with register.reading() as connection:
        accepted = find_one(connection, other, today=DAY)
    assert (accepted.state, accepted.total) == ("accepted", made["home"].quote.options[1].total)


def test_of_two_who_accept_one_vehicle_at_once_one_gets_it(register: Register, made: dict[str, Made]) -> None:
    numbers = [kept(register, made["home"]).number or "" for _ in range(4)]

    def try_it(number: str) -> bool:
        try:
            accept(register, number, choice=None, on=DAY, by="", at=AT)
        except NoAnswer:
            return False
        return True

    with ThreadPoolExecutor(4) as desks:
        assert sum(desks.map(try_it, numbers)) == 1


def test_an_ended_quote_is_not_accepted(register: Register, made: dict[str, Made]) -> None:
    quote = kept(register, made["home"])
    with pytest.raises(NoAnswer, match="ended on 2026-12-15"):
        accept(register, quote.number or "", choice=None, on=quote.valid_until + timedelta(days=1), by="", at=AT)


def test_lists_go_by_state_day_and_words(register: Register, made: dict[str, Made]) -> None:
    home, overseas = kept(register, made["home"]), kept(register, made["overseas"])
    later = home.valid_until + timedelta(days=1)

    def found(asked: Asked, today: date = DAY) -> list[str]:
        with register.reading() as connection:
            return [one.number for one in find_quotes(connection, asked, today=today)]

    assert found(Asked()) == ["Q-2026-0002", "Q-2026-0001"]
    assert found(Asked(most=1)) == ["Q-2026-0002"]
    for text in ("lindqvist", "Lindqist", "asa", "HV-1042", "hv 1042", "hv1042", "bozeman", "59715", "lark min"):
        assert found(Asked(text=text)) == [home.number], text
    assert found(Asked(text="brandt bremen")) == [overseas.number]
    assert found(Asked(text="brandt bozeman")) == found(Asked(buyer="bremen")) == found(Asked(text="zzzz")) == []
    assert found(Asked(state="open")) == found(Asked(ending_by=home.valid_until))[::-1]
    assert found(Asked(state="ended"), later) == found(Asked())
    assert found(Asked(since=later)) == found(Asked(state="accepted")) == []


def test_a_forgotten_buyer_is_nowhere(register: Register, made: dict[str, Made], url: str, tmp_path: Path) -> None:
    quote = kept(register, made["home"])
    forget(register, (quote.number or "",), at=AT)
    assert [one.same for one in verify(register)] == [True]
    with register.reading() as connection:
        found = find_kept(connection, quote.number or "")
        assert find_quotes(connection, Asked(text="lindqvist"), today=DAY) == ()
        assert "Lindqvist" not in quote_to_json(found.quote) + str(found.request)
        assert find_one(connection, quote.number or "", today=DAY).total == quote.options[quote.recommended].total
    register.close()
    for file in tmp_path.rglob("register.sqlite*"):
        assert b"Lindqvist" not in file.read_bytes(), "not in free pages of the file either"


def test_an_accepted_buyer_is_forgotten_only_on_second_thoughts(register: Register, made: dict[str, Made]) -> None:
    quote = kept(register, made["home"])
    accept(register, quote.number or "", choice=None, on=DAY, by="Åsa", at=AT)
    with pytest.raises(NoAnswer, match="was accepted"):
        forget(register, (quote.number or "",), at=AT)
    forget(register, (quote.number or "",), at=AT, although_accepted=True)


def test_one_rate_book_is_kept_once(register: Register, made: dict[str, Made]) -> None:
    for _ in range(3):
        kept(register, made["home"])
    with register.reading() as connection:
        assert len(connection.execute(select(revisions.c.number)).all()) == 3
        assert len(connection.execute(select(rate_books.c.fingerprint)).all()) == 1
        assert connection.execute(select(counts.c.last)).scalar_one() == 3


@pytest.mark.parametrize(
    ("text", "number"),
    [("17", "Q-2026-0017"), ("Q-2025-0003", "Q-2025-0003"), ("q2026-3", "Q-2026-0003"), ("2026-12345", "Q-2026-12345")],
)
def test_numbers_are_read_as_people_write_them(text: str, number: str) -> None:
    if text == "q2026-3":
        with pytest.raises(WrongInput, match="is not the number of a quote"):
            number_meant(text, year=2026)
    else:
        assert number_meant(text, year=2026) == number


@pytest.mark.parametrize("text", ["", "../17", "Q-2026", "17; drop table", "Q-2026-0001/../x"])
def test_what_is_no_number_is_told(text: str) -> None:
    with pytest.raises(WrongInput, match="is not the number of a quote"):
        number_meant(text, year=2026)

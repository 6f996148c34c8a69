"""Bills in the register, in either database; and the verbs that keep them."""

from datetime import date
from pathlib import Path

import pytest

from shipcalc.actions.quoting import Made
from shipcalc.errors import WrongInput
from shipcalc.learning.bill import Bill
from shipcalc.records import replace
from shipcalc.register.bills import billed_quotes, find_bills, keep_bills, quotes_in_hand, remove_bill
from shipcalc.register.deciding import accept
from shipcalc.register.opening import Register
from shipcalc.register.quotes import keep_quote

AT = "2026-12-01T16:20:05Z"


def bill(number: str, amount: int = 95000, **changes: object) -> Bill:
    first = Bill(
        number=number,
        carrier="Wren and Thistle",
        kind="linehaul",
        amount_minor=amount,
        currency="USD",
        day=date(2026, 12, 15),
    )
    return replace(first, **changes)  # type: ignore[arg-type]


@pytest.fixture
def number(register: Register, made: dict[str, Made]) -> str:
    quote = keep_quote(register, made["home"].quote, made["home"].request, made["home"].rates, at=AT)
    return quote.number or ""


def test_the_same_line_twice_is_one_bill(register: Register, number: str) -> None:
    assert keep_bills(register, (bill(number), bill(number, kind="fuel")), at=AT) == 2
    assert keep_bills(register, (bill(number), bill(number, reference="4711")), at=AT) == 1
    with register.reading() as connection:
        found = find_bills(connection, number)
    assert [(one.kind, one.reference) for one in found] == [("linehaul", "4711"), ("fuel", ""), ("linehaul", "")]


def test_a_bill_for_no_quote_keeps_none_of_them(register: Register, number: str) -> None:
    with pytest.raises(WrongInput, match="there is no quote Q-2026-0099"):
        keep_bills(register, (bill(number), bill("Q-2026-0099")), at=AT)
    with register.reading() as connection:
        assert find_bills(connection) == ()


def test_a_bill_is_removed_once(register: Register, number: str) -> None:
    keep_bills(register, (bill(number),), at=AT)
    with register.reading() as connection:
        (kept,) = find_bills(connection)
    assert remove_bill(register, kept.id, at=AT) == kept
    with pytest.raises(WrongInput, match="there is no bill"):
        remove_bill(register, kept.id, at=AT)


def test_a_quote_comes_with_the_choice_that_was_accepted_and_all_its_bills(register: Register, number: str) -> None:
    accept(register, number, choice=1, on=date(2026, 12, 2), by="Å. Lindqvist", at=AT)
    keep_bills(register, (bill(number), bill(number, day=date(2027, 1, 5))), at=AT)
    with register.reading() as connection:
        (found,) = billed_quotes(connection, since=date(2027, 1, 1))
        none = list(billed_quotes(connection, since=date(2027, 2, 1)))
    assert (found.quote.number, found.choice, len(found.bills)) == (number, 1, 2)
    assert none == []


def test_quotes_with_a_price_in_hand_are_found(register: Register, number: str, in_hand: Made) -> None:
    kept = keep_quote(register, in_hand.quote, in_hand.request, in_hand.rates, at=AT)
    with register.reading() as connection:
        assert [one.number for one in quotes_in_hand(connection)] == [kept.number]
        assert list(quotes_in_hand(connection, since=date(2026, 12, 2))) == []


@pytest.fixture
def in_hand() -> Made:
    from shipcalc.actions.quoting import Order, made_quote, open_books
    from shipcalc.actions.sources import invented_sources

    sources = invented_sources()
    order = Order(vehicles=("HV-1042",), to="59715", spot=("Tern Haulage, 1,250, until 2026-12-10",))
    return made_quote(order, sources, as_of=date(2026, 12, 1), books=open_books(sources))


def test_a_table_with_faults_names_their_cells_and_keeps_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, made: dict[str, Made]
) -> None:
    from shipcalc.actions.bills import list_bills, take_bills
    from shipcalc.actions.kept_quotes import Desk, keep
    from shipcalc.errors import FaultyWorkbook
    from shipcalc.settings import Settings

    monkeypatch.setenv("SHIPCALC_REGISTER", str(tmp_path / "r.sqlite"))
    desk = Desk(Settings(), date(2026, 12, 1), AT)
    keep(made["home"], desk)
    table = tmp_path / "bills.csv"
    table.write_text(
        "Number,Carrier,Kind,Amount,Currency,Date\n"
        "1,Wren and Thistle,linehaul,950,USD,2026-12-15\n"
        "7,Wren and Thistle,fuel,90,USD,2026-12-15\n"
        "1,Wren and Thistle,petrol,90,USD,2026-12-15\n"
        "1,Wren and Thistle,fuel,90.50,JPY,2026-12-15\n"
    )
    with pytest.raises(FaultyWorkbook) as refused:
        take_bills(table, desk)
    assert [problem.cell.rpartition(" ")[2] for problem in refused.value.problems] == ["C4", "A3", "A5"]
    assert list_bills("", desk, most=5) == ()
    table.write_text(
        "Number,Quote,Carrier,Kind,Amount,Currency,Date\n"
        "WT-88,1,Wren and Thistle,linehaul,950,USD,2026-12-15\n"
        "WT-89,7,Wren and Thistle,fuel,90,USD,2026-12-15\n"
    )
    with pytest.raises(FaultyWorkbook) as refused:
        take_bills(table, desk)
    assert [problem.cell.rpartition(" ")[2] for problem in refused.value.problems] == ["B3"]
    table.write_text(table.read_text().replace("WT-89,7", "WT-89,1"))
    take_bills(table, desk)
    assert [(one.number, one.reference) for one in list_bills("", desk, most=5)] == [
        ("Q-2026-0001", "WT-89"),
        ("Q-2026-0001", "WT-88"),
    ], "where a table says Quote, Number is the bill's own"

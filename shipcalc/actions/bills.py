"""Bills: keep what was really paid, and say how far quotes were from it."""

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import NoAnswer, WrongInput, asked
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.learning.bill import Bill
    from shipcalc.learning.proposals import Learnt, Proposal
    from shipcalc.learning.report import Report
    from shipcalc.ratebook.book import RateBook


LEAST_SHARE, MOST_SHARE = 0.5, 0.99


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """How many bills a table held, and how many of them were new."""

    found: int
    new: int


def add_bill(
    number: str, carrier: str, kind: str, amount: str, *, currency: str, day: date, reference: str, desk: "Desk"
) -> "Bill":
    """Keep one bill, and return it. Raises NoAnswer where it is kept already, WrongInput where it cannot be."""
    from shipcalc.learning.bill import WORDS, Bill
    from shipcalc.learning.bill_rows import minor_of
    from shipcalc.register.bills import keep_bills

    meant = kind.strip().casefold()
    if meant not in WORDS:
        raise WrongInput(f'"{kind}" is nothing that is billed', where=asked("for"), remedy=f"say {', '.join(WORDS)}")
    if not carrier.strip():
        raise WrongInput("says nobody", where=asked("carrier"), remedy="name who billed it")
    code = currency.strip().upper()
    bill = Bill(
        number=_meant(number, desk),
        carrier=carrier.strip(),
        kind=meant,
        amount_minor=minor_of(_amount(amount), code),
        currency=code,
        day=day,
        reference=reference.strip(),
    )
    with desk.register() as register:
        if not keep_bills(register, (bill,), at=desk.at, who=desk.who):
            remedy = f"if it is another one, give its number with {asked('reference')}"
            raise NoAnswer("this bill is kept already, to the cent and the day", remedy=remedy)
    return bill


def take_bills(file: Path, desk: "Desk") -> Taken:
    """Keep the bills of a table, all or none; what is kept already stays once. Raises FaultyWorkbook with every faulty cell."""
    from shipcalc.actions.order_tables import each_row
    from shipcalc.learning.bill_rows import HEADERS, QUOTE, BillRow, QuotedBillRow, bill_of
    from shipcalc.register.bills import keep_bills, unknown_numbers

    with desk.register() as register:

        def made(row: BillRow) -> "Bill":
            bill = bill_of(row, _meant(row.number, desk))
            with register.reading() as connection:
                for number in unknown_numbers(connection, (bill,)):
                    raise WrongInput(f"there is no quote {number}", remedy="shipcalc quotes list shows which there are")
            return bill

        remedy = f"write {HEADERS} into row 1, bills below"
        by_header = {QUOTE: QuotedBillRow}
        found = each_row(file, "table of bills", BillRow, made, by_header=by_header, field="number", remedy=remedy)
        return Taken(found=len(found), new=keep_bills(register, found, at=desk.at, who=desk.who))


def list_bills(number: str, desk: "Desk", *, most: int) -> "tuple[Bill, ...]":
    """Return the bills for a quote, or the latest of all."""
    from shipcalc.register.bills import find_bills

    with desk.register() as register, register.reading() as connection:
        return find_bills(connection, _meant(number, desk) if number else None, most=most)


def remove(one: int, desk: "Desk") -> "Bill":
    """Take a bill out again."""
    from shipcalc.register.bills import remove_bill

    with desk.register() as register:
        return remove_bill(register, one, at=desk.at, who=desk.who)


def report(desk: "Desk", *, since: date | None, share: float, out: Path | None = None) -> "Report":
    """Return how far quotes were from what was paid, and the buffer for which a share of them is not under cost; `out` is the
    workbook of it.

    Raises NoAnswer where no bill can be compared.
    """
    from shipcalc.learning.report import report_of
    from shipcalc.register.bills import billed_quotes, quotes_in_hand

    if not LEAST_SHARE <= share <= MOST_SHARE:
        remedy = f"say {LEAST_SHARE:.0%} to {MOST_SHARE:.0%}, as 90"
        raise WrongInput(f"{share:.0%} of quotes is no share to plan with", where=asked("share"), remedy=remedy)
    with desk.register() as register, register.reading() as connection:
        found = tuple((one.quote, one.choice, one.bills) for one in billed_quotes(connection, since=since))
        in_hand = tuple(quotes_in_hand(connection, since=since))
    made = report_of(found, in_hand, as_of=desk.today, since=since, share=share)
    if out is not None:
        from shipcalc.documents.office.bills_workbook import write_bills_report

        write_bills_report(made, out, creator=desk.settings.dealer.name, paper=desk.settings.paper)
    return made


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposed:
    """What bills propose for the rate book in `book`, and the copy that it was written into, if it was."""

    book: Path
    learnt: "Learnt"
    written: Path | None = None


def learn(desk: "Desk", book: Path, *, since: date | None, into: Path | None = None) -> Proposed:
    """Return what bills propose for a rate book; with `into`, written into a copy of it, each changed cell marked.

    Raises NoAnswer where there is nothing to write, WrongInput where the copy cannot be made. The book itself is never changed.
    """
    import tempfile

    from shipcalc.learning.fuel import FuelBilled, fuel_billed, fuel_learnt
    from shipcalc.learning.proposals import Learnt, Observed, cells_of_today, learnt, observed
    from shipcalc.ratebook.book import read_rate_book
    from shipcalc.ratebook.changes.at_cell import find_cell
    from shipcalc.register.bills import billed_quotes
    from shipcalc.register.books import read_kept

    rates = read_rate_book(book)
    found: list[Observed] = []
    fuel: list[FuelBilled | None] = []
    with desk.register() as register, register.reading() as connection, tempfile.TemporaryDirectory() as place:
        leading: dict[str, tuple[Callable[[str], str | None], Callable[[str], int | None]]] = {}
        for one in billed_quotes(connection, since=since):
            stamp = one.quote.rate_book.fingerprint
            if stamp not in leading:
                folder = Path(place) / stamp
                folder.mkdir()
                then = read_kept(connection, stamp, folder)
                leading[stamp] = (cells_of_today(then, rates), _diesel_in(then))
            if one.quote.currency == rates.pricing.currency:
                option = one.quote.options[one.choice]
                found += observed(one.quote.number or "", option, one.quote.currency, one.bills, leading[stamp][0])
                fuel.append(
                    fuel_billed(one.quote.number or "", option, one.quote.currency, one.bills, leading[stamp][1])
                )
    made = learnt(found, lambda cell: find_cell(rates, cell))
    of_fuel = fuel_learnt([one for one in fuel if one is not None], rates, desk.today)
    made = Learnt(
        proposals=(*made.proposals, *of_fuel.proposals),
        said=(*made.said, *of_fuel.said),
        wild=(*made.wild, *of_fuel.wild),
    )
    if into is not None:
        _write_proposals(made, book, into, today=desk.today)
    return Proposed(book=book, learnt=made, written=into)


def _diesel_in(book: "RateBook") -> "Callable[[str], int | None]":
    """Return what leads from a cell of a book to the price of diesel there, in ten-thousandths."""
    from functools import cache

    from shipcalc.ratebook.changes.at_cell import find_cell

    @cache
    def price(cell: str) -> int | None:
        at = find_cell(book, cell)
        return int(at.number * 10_000) if at is not None and at.number is not None else None

    return price


def _write_proposals(made: "Learnt", book: Path, into: Path, *, today: date) -> None:
    from shipcalc.actions.editions import copy_rates
    from shipcalc.ratebook.rows.sheet_kind import OVERVIEW
    from shipcalc.ratebook.workbook.addresses import address_in
    from shipcalc.sheets.editing import open_draft
    from shipcalc.sheets.reading import read_workbook
    from shipcalc.sheets.saving import save

    differing = [one for one in made.proposals if one.differs]
    if not differing:
        raise NoAnswer("bills propose nothing that the rate book does not say", remedy="; ".join(made.said) or "")
    copy_rates(book, into, today=today)
    by_workbook: dict[str, list[tuple[str, str, Proposal]]] = {}
    for one in differing:
        address = address_in(one.cell)
        assert address is not None, "proposals name cells"
        by_workbook.setdefault(address.workbook, []).append((address.sheet, f"{address.letters}{address.row}", one))
    for workbook, cells in by_workbook.items():
        path = into / workbook
        draft, file = open_draft(path), read_workbook(path)
        for sheet, cell, one in cells:
            draft.put(sheet, cell, one.rate / 100 if one.percent else one.rate)
            draft.mark(
                sheet,
                cell,
                f"learnt from {one.bills} bills, {today.isoformat()}: {one.rate} in place of {one.now}; "
                f"nine times in ten it lies between {one.low} and {one.high}",
            )
        draft.keep_results(file, {sheet for sheet, *_ in cells}, aside=(OVERVIEW,))
        save(path, draft.to_bytes())


def _amount(text: str) -> Decimal:
    from shipcalc.sheets.numbers import NotANumber, number_from_text

    try:
        return number_from_text(text, decimals=2)
    except NotANumber as wrong:
        raise WrongInput(f'"{text}" {wrong}', where=asked("amount"), remedy="write it as 1234.50") from None


def _meant(number: str, desk: "Desk") -> str:
    from shipcalc.register.numbers import number_meant

    return number_meant(number, year=desk.today.year)

"""What it really cost: costs add, take, list, learn, review, remove."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.at_register import Number, Today, desk_of, tell
from shipcalc.cli.look import (
    Column,
    Look,
    heading,
    note,
    paragraph,
    section,
    show_found,
    table,
)
from shipcalc.cli.options import AsJson, RatesFolder, argument, day_of, option
from shipcalc.errors import WrongInput, how_many

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shipcalc.actions.bills import Proposed
    from shipcalc.learning.accuracy import Accuracy
    from shipcalc.learning.bill import Bill
    from shipcalc.learning.report import Report

LISTED = (
    Column("", "right"),
    Column("Number"),
    Column("Date"),
    Column("Carrier", wraps=True),
    Column("For"),
    Column("Amount", "right"),
    Column("Reference", wraps=True),
)
FIGURES = (
    Column("", wraps=True),
    Column("Quotes", "right"),
    Column("Reckoned", "right"),
    Column("Paid", "right"),
    Column("Bias", "right"),
    Column("Spread", "right"),
    Column("Under cost", "right"),
)
PROPOSED = (
    Column("What", wraps=True),
    Column("Now", "right"),
    Column("Bills say", "right"),
    Column("9 times in 10", "right"),
    Column("Bills", "right"),
    Column(""),
    Column("Cell", wraps=True),
)
MOST_SAID = 5

Since = Annotated[str, option("--since", "DATE", "Only what was billed on this day or later.")]
Share = Annotated[float, option("--share", "PERCENT", "The share of quotes that is not to be under cost. Default: 90.")]


def add(
    number: Number,
    carrier: Annotated[str, option("--carrier", "NAME", "Who billed it: carrier, forwarder, agent.")] = "",
    amount: Annotated[str, option("--amount", "SUM", "What was billed; below 0 for what was given back.")] = "",
    day: Annotated[str, option("--date", "DATE", "The day of the bill. Default: today.")] = "",
    kind: Annotated[
        str,
        option("--for", "KIND", "linehaul, fuel, extras, ocean, port, forwarding, cover, storage …. Default: all-in."),
    ] = "all-in",
    currency: Annotated[str, option("--currency", "CODE", "Its currency. Default: USD.")] = "USD",
    reference: Annotated[str, option("--reference", "TEXT", "The bill's own number.")] = "",
    as_json: AsJson = False,
) -> None:
    """Keep one bill for a quote's shipment. all-in is one sum for a truck: linehaul, fuel and extras."""
    from shipcalc.actions.bills import add_bill

    desk = desk_of("")
    if not amount:
        raise WrongInput("says no sum", where="--amount", remedy="give what was billed")
    when = day_of(day, "--date", today=desk.today) if day else desk.today
    kept = add_bill(number, carrier, kind, amount, currency=currency, day=when, reference=reference, desk=desk)
    tell(_bill_json(kept), f"kept: {_told(kept)}", as_json=as_json)


def take(
    file: Annotated[Path, argument("FILE", "Excel or CSV: Number, Carrier, Kind, Amount, Currency, Date, Reference.")],
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Keep the bills of a table, all or none; what is kept already stays once, so the same file can be taken again.

    In a table with a column Quote, that is the quote's number, and Number is the bill's own.
    """
    from shipcalc.actions.bills import take_bills

    done = take_bills(file, desk_of(as_of))
    old = f", {done.found - done.new} were kept already" if done.found > done.new else ""
    tell({"bills": done.found, "new": done.new}, f"{how_many(done.new, 'bill')} kept{old}", as_json=as_json)


def list_bills(
    number: Annotated[str, argument("[NUMBER]", "Only those for this quote.")] = "",
    most: Annotated[int, option("--most", "N", "At most so many. Default: 50.")] = 50,
    as_json: AsJson = False,
) -> None:
    """List bills, the latest first, each with the number that remove takes."""
    from shipcalc.actions.bills import list_bills as find

    show_found(find(number, desk_of(""), most=max(most, 1)), _list_json, _list_lines, as_json=as_json)


def remove(
    bill: Annotated[int, argument("BILL", "Its number in the list of bills.")],
    as_json: AsJson = False,
) -> None:
    """Take a bill out again that was kept by mistake."""
    from shipcalc.actions.bills import remove as take_out

    gone = take_out(bill, desk_of(""))
    tell(_bill_json(gone), f"removed: {_told(gone)}", as_json=as_json)


def review(
    out: Annotated[Path | None, option("--out", "FILE", "The workbook, with charts: .xlsx.")] = None,
    since: Since = "",
    share: Share = 90,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Say how far quotes were from what was paid, by distance, carrier, lane; and the buffer that covers most of them."""
    from shipcalc.actions.bills import report as make

    desk = desk_of(as_of)
    day = day_of(since, "--since", today=desk.today) if since else None
    if out is not None and out.suffix.lower() != ".xlsx":
        raise WrongInput(f'"{out.suffix}" is no workbook', where="--out", remedy="end it in .xlsx")
    made = make(desk, since=day, share=share / 100, out=out)
    show_found(made, _report_json, _report_lines, as_json=as_json)
    if out is not None:
        note(f"written: {out}")


def learn(
    into: Annotated[Path | None, argument("[NEW]", "Write a copy of the rate book with them into this folder.")] = None,
    rates: RatesFolder = None,
    since: Since = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Propose rates a mile, base fees and extra charges from bills, with intervals. The rate book itself is never changed."""
    from shipcalc.actions.bills import learn as propose
    from shipcalc.actions.sources import find_sources

    desk = desk_of(as_of)
    day = day_of(since, "--since", today=desk.today) if since else None
    book = find_sources(folder=Path.cwd(), rates=rates, as_of=desk.today).rates.path
    made = propose(desk, book, since=day, into=into)
    show_found(made, _learnt_json, _learnt_lines, as_json=as_json)
    if into is not None:
        note(f"written: {into}; then: shipcalc rates check {into}, compare {book} {into}, adopt {into}")


def _learnt_json(made: "Proposed") -> str:
    from shipcalc.cli.listing import to_json
    from shipcalc.records import asdict

    proposals = [
        {
            **asdict(one),
            **{name: str(getattr(one, name)) for name in ("now", "rate", "low", "high")},
            "differs": one.differs,
        }
        for one in made.learnt.proposals
    ]
    wild = [{"number": number, "what": what} for number, what in made.learnt.wild]
    return to_json({"proposals": proposals, "said": list(made.learnt.said), "wild": wild})


def _learnt_lines(made: "Proposed", look: Look) -> list[str]:
    learnt = made.learnt
    rows = [
        (
            one.what,
            str(one.now),
            str(one.rate),
            f"{one.low} to {one.high}",
            str(one.bills),
            "" if one.differs else "stays",
            one.cell,
        )
        for one in learnt.proposals
    ]
    lines = table(look, PROPOSED, rows) if rows else paragraph(look, "Nothing is proposed.")
    wrong = [f"{number}, {what}" for number, what in learnt.wild]
    return [*lines, *section(look, "Not proposed", learnt.said), *section(look, "Bills that look wrong", wrong)]


def _told(bill: "Bill") -> str:
    return f"{bill.number}, {bill.carrier}, {bill.kind}, {_sum(bill.amount_minor, bill.currency)}, {bill.day}"


def _sum(minor: int, currency: str) -> str:
    from shipcalc.money import to_decimal

    return f"{to_decimal(minor, currency):,} {currency}"


def _bill_json(bill: "Bill") -> dict[str, object]:
    from shipcalc.money import to_decimal
    from shipcalc.records import asdict

    told = asdict(bill) | {"amount": str(to_decimal(bill.amount_minor, bill.currency)), "day": bill.day.isoformat()}
    del told["amount_minor"]
    return told


def _list_json(found: "Sequence[Bill]") -> str:
    from shipcalc.cli.listing import to_json

    return to_json({"bills": [_bill_json(one) for one in found]})


def _list_lines(found: "Sequence[Bill]", look: Look) -> list[str]:
    if not found and look.width is not None:
        return paragraph(look, "No bill is kept. shipcalc costs add and shipcalc costs take keep them.")
    rows = [
        (
            str(one.id),
            one.number,
            one.day.isoformat(),
            one.carrier,
            one.kind,
            _sum(one.amount_minor, one.currency),
            one.reference,
        )
        for one in found
    ]
    return table(look, LISTED, rows)


def _report_json(made: "Report") -> str:
    """Return `{"as_of", "since", "currency", "quotes", "bills", "groups": [{…}], "in_hand": [{…}], "buffer": {…}, "said"}`."""
    from shipcalc.cli.listing import to_json
    from shipcalc.records import asdict

    return to_json(
        {
            "as_of": made.as_of.isoformat(),
            "since": made.since.isoformat() if made.since else None,
            "currency": made.currency,
            "quotes": made.quotes,
            "bills": made.bills,
            "groups": [_accuracy_json(one, made.currency) for one in made.groups],
            "in_hand": [_accuracy_json(one, made.currency) for one in made.in_hand],
            "buffer": asdict(made.buffer),
            "said": list(made.said),
        }
    )


def _accuracy_json(one: "Accuracy", currency: str) -> dict[str, object]:
    from shipcalc.money import to_decimal

    return {
        "by": one.by,
        "name": one.name,
        "count": one.count,
        "bias": round(one.bias, 6),
        "spread": round(one.spread, 6) if one.spread is not None else None,
        "under_cost": round(one.under_cost, 6),
        "reckoned": str(to_decimal(one.reckoned_minor, currency)),
        "sold": str(to_decimal(one.sold_minor, currency)),
        "paid": str(to_decimal(one.paid_minor, currency)),
    }


def _report_lines(made: "Report", look: Look) -> list[str]:
    from shipcalc.documents.office.bills_workbook import buffer_told, headline

    lines = [look.strong(line) for line in paragraph(look, headline(made))]
    lines += [line for told in buffer_told(made) for line in paragraph(look, told)]
    lines += ["", *table(look, FIGURES, list(_rows(made.groups, made.currency, look)))]
    if made.in_hand:
        lines += [*heading(look, "Prices in hand, beside the rate book")]
        lines += table(look, FIGURES, list(_rows(made.in_hand, made.currency, look)))
    said = made.said[:MOST_SAID]
    more = (f"{len(made.said) - len(said)} more are in the JSON",) if len(made.said) > len(said) else ()
    return [*lines, *section(look, "Not compared", (*said, *more))]


def _rows(groups: "Sequence[Accuracy]", currency: str, look: Look) -> "list[Sequence[str] | str]":
    """Return the rows of the report; a screen has no room for cents beside the names."""
    from shipcalc.money import decimals, half_up, to_decimal

    rows: list[Sequence[str] | str] = []
    by = groups[0].by if groups else ""
    for one in groups:
        if one.by != by:
            rows.append(f"By {one.by}" if one.by != "billed for" else "By what was billed")
            by = one.by
        sums = (one.reckoned_minor, one.paid_minor)
        if look.width:
            reckoned, paid = (f"{half_up(minor, 10 ** decimals(currency)):,}" for minor in sums)
        else:
            reckoned, paid = (f"{to_decimal(minor, currency):,}" for minor in sums)
        shares = (f"{one.bias:+.1%}", f"{one.spread:.1%}" if one.spread is not None else "–", f"{one.under_cost:.0%}")
        rows.append((one.name, str(one.count), reckoned, paid, *shares))
    return rows


COMMANDS = (
    (
        "add",
        add,
        "Keep one bill.",
        'shipcalc costs add 1 --carrier "Wren and Thistle" --amount 950 --for linehaul --date 2026-12-15',
    ),
    ("take", take, "Keep the bills of a table.", "shipcalc costs take bills.csv"),
    ("list", list_bills, "Which there are.", "shipcalc costs list"),
    ("review", review, "How far quotes were from them.", "shipcalc costs review --out review.xlsx"),
    ("learn", learn, "Rates that they propose.", "shipcalc costs learn"),
    ("remove", remove, "Take one out again.", "shipcalc costs remove 1"),
)

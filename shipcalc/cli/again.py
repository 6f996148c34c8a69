"""The verb `quotes again`: what kept quotes would cost by the rates of today."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.at_register import Today, desk_of
from shipcalc.cli.look import Column, Look, paragraph, show_found, table
from shipcalc.cli.options import AsJson, RatesFolder, argument, day_of, option
from shipcalc.errors import how_many

if TYPE_CHECKING:
    from decimal import Decimal

    from shipcalc.actions.asked_again import Again, AllAgain

ALL = 1_000_000
COLUMNS = (
    Column("Number"),
    Column("Made"),
    Column("Transport", wraps=True),
    Column("Was", "right"),
    Column("Is", "right"),
    Column("Change", "right"),
    Column("By", wraps=True),
)


def again(
    text: Annotated[list[str] | None, argument("[TEXT...]", "Words of the buyer, the vehicle or the place.")] = None,
    since: Annotated[
        str, option("--since", "DATE", "Those made on this day or later. Default: the first of last month.")
    ] = "",
    until: Annotated[
        str,
        option(
            "--until", "DATE", "Those made on this day or sooner. Default: the last of last month; with --since, today."
        ),
    ] = "",
    rates: RatesFolder = None,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Say what kept quotes would cost by the rates of today, or by another rate book: last month's, unless days are named."""
    from shipcalc.actions.asked_again import ask_again, last_month
    from shipcalc.actions.sources import find_sources
    from shipcalc.register.finding import Asked

    desk = desk_of(as_of)
    first, last = last_month(desk.today)
    if since:
        first, last = day_of(since, "--since", today=desk.today), desk.today
    if until:
        last = day_of(until, "--until", today=desk.today)
    wanted = Asked(text=" ".join(text or ()), since=first, until=last, most=ALL)
    sources = find_sources(folder=Path.cwd(), rates=rates, as_of=desk.today)
    found = ask_again(wanted, sources, desk)
    span = f"{first.isoformat()} to {last.isoformat()}"
    show_found(found, _json, lambda all_of_them, look: _lines(all_of_them, look, span), as_json=as_json)


def _json(found: "AllAgain") -> str:
    from shipcalc.cli.listing import to_json

    return to_json(
        {
            "rate_book": {"folder": found.book, "fingerprint": found.fingerprint},
            "as_of": found.as_of.isoformat(),
            "currency": found.currency,
            "quotes": [_one(one) for one in found.quotes],
            "priced": len(found.priced),
            "then": str(found.then),
            "now": str(found.now),
            "change": str(found.now - found.then),
        }
    )


def _one(one: "Again") -> dict[str, object]:
    return {
        "number": one.number,
        "as_of": one.as_of.isoformat(),
        "transport": one.what,
        "then": str(one.then),
        "now": None if one.now is None else str(one.now),
        "change": None if one.change is None else str(one.change),
        "carrier_then": one.by_then,
        "carrier_now": one.by_now or None,
        "no_answer": one.why or None,
        "left_out": list(one.left_out),
    }


def _lines(found: "AllAgain", look: Look, span: str) -> list[str]:
    if not found.quotes:
        return paragraph(look, f"No kept quote was made from {span}. --since and --until name other days.")
    title = f"Quotes made from {span}, asked again on {found.as_of.isoformat()} by {found.book}, in {found.currency}"
    rows = [_row(one) for one in found.quotes]
    if found.priced:
        rows.append(("", "", f"{len(found.priced)} priced", _sum(found.then), _sum(found.now), _moved(found), ""))
    lines = [*[look.strong(line) for line in paragraph(look, title)], ""]
    lines += table(look, COLUMNS, rows, total=bool(found.priced))
    return [*lines, *(line for told in _said(found) for line in paragraph(look, told))]


def _row(one: "Again") -> tuple[str, ...]:
    same = one.by_now in (one.by_then, "")
    by = one.why or (one.by_now if same else f"{one.by_now}, not {one.by_then}")
    now, moved = ("—", "") if one.now is None else (_sum(one.now), _change(one.now - one.then))
    return one.number, one.as_of.isoformat(), one.what, _sum(one.then), now, moved, by


def _said(found: "AllAgain") -> Iterator[str]:
    """Yield what the sums do not hold, and what was asked then and not today."""
    moves = [one.change for one in found.priced if one.change]
    if found.priced:
        dearer, cheaper = sum(move > 0 for move in moves), sum(move < 0 for move in moves)
        yield f"{dearer} dearer, {cheaper} cheaper, {len(found.priced) - len(moves)} as before."
    unpriced = len(found.quotes) - len(found.priced)
    if unpriced:
        yield f"{how_many(unpriced, 'quote')} without a price today, not in the sums."
    for one in found.quotes:
        if one.left_out:
            yield f"{one.number}: {' and '.join(one.left_out)} could not be asked again."


def _sum(amount: "Decimal") -> str:
    return f"{amount:,}"


def _moved(found: "AllAgain") -> str:
    return _change(found.now - found.then)


def _change(amount: "Decimal") -> str:
    return f"{amount:+,}".replace("-", "−") if amount else "—"

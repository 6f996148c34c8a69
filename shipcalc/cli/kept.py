"""What was promised, to look at: quotes list, show, compare, export, verify; what becomes of it is in `decided`, `again`."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeVar

import typer

from shipcalc.cli import decided
from shipcalc.cli.again import again
from shipcalc.cli.at_register import Number, Today, desk_of
from shipcalc.cli.look import (
    Column,
    Look,
    heading,
    look_of_stdout,
    note,
    paragraph,
    section,
    show,
    show_found,
    show_json,
    table,
)
from shipcalc.cli.options import (
    AsJson,
    Language,
    OutFolder,
    argument,
    day_of,
    flag,
    option,
)
from shipcalc.errors import WrongInput, how_many

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shipcalc.actions.kept_quotes import Shown
    from shipcalc.register.finding import Listed
    from shipcalc.register.verifying import Verified

T = TypeVar("T")

COLUMNS = (
    Column("Number"),
    Column("State"),
    Column("Made"),
    Column("Holds until"),
    Column("Buyer", wraps=True),
    Column("Vehicles", wraps=True),
    Column("To", wraps=True),
    Column("Total", "right"),
)
MADE = 2  # its place among the columns
HISTORY = (Column("When"), Column("What"), Column("Who", wraps=True), Column("", wraps=True))
SOON_DAYS = 7
ALL = 1_000_000


def list_quotes(
    text: Annotated[
        list[str] | None,
        argument("[TEXT...]", "Words of the buyer, the vehicle or the place; spelt nearly so will do."),
    ] = None,
    state: Annotated[str, option("--state", "STATE", "Only those that are open, ended, accepted or declined.")] = "",
    ending: Annotated[bool, flag("--ending", "Only open ones that end within a week, the first to end first.")] = False,
    buyer: Annotated[str, option("--buyer", "NAME", "Only this buyer's.")] = "",
    vehicle: Annotated[str, option("--vehicle", "TEXT", "Only with this vehicle.")] = "",
    to: Annotated[str, option("--to", "PLACE", "Only to this place.")] = "",
    since: Annotated[str, option("--since", "DATE", "Only those made on this day or later.")] = "",
    until: Annotated[str, option("--until", "DATE", "Only those made on this day or sooner.")] = "",
    most: Annotated[int, option("--most", "N", "At most so many. Default: 50.")] = 50,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """List kept quotes, the latest first. The word list may be left out."""
    from datetime import timedelta

    from shipcalc.actions.kept_quotes import find
    from shipcalc.register.finding import Asked
    from shipcalc.register.states import STATES

    desk = desk_of(as_of)
    meant = next((one for one in STATES if one == state.strip().casefold()), None)
    if state and meant is None:
        raise WrongInput(f'"{state}" is not how a quote can stand', where="--state", remedy=f"say {', '.join(STATES)}")
    asked = Asked(
        state=meant,
        ending_by=desk.today + timedelta(days=SOON_DAYS) if ending else None,
        text=" ".join(text or ()),
        buyer=buyer,
        vehicle=vehicle,
        place=to,
        since=day_of(since, "--since", today=desk.today) if since else None,
        until=day_of(until, "--until", today=desk.today) if until else None,
        most=max(most, 1),
    )
    show_found(find(asked, desk), list_json, _list_lines, as_json=as_json)


def export(
    text: Annotated[list[str] | None, argument("[TEXT...]", "Words of the buyer, the vehicle or the place.")] = None,
    out: Annotated[Path | None, option("--out", "FILE", "The table: .csv, .xlsx, .parquet or .json.")] = None,
    since: Annotated[str, option("--since", "DATE", "Only those made on this day or later.")] = "",
    until: Annotated[str, option("--until", "DATE", "Only those made on this day or sooner.")] = "",
    as_of: Today = "",
) -> None:
    """Write kept quotes as a table, one row each."""
    from shipcalc.actions.kept_register import export as write
    from shipcalc.register.finding import Asked

    desk = desk_of(as_of)
    if out is None:
        raise WrongInput(
            "no file is named", where="--out", remedy="name one that ends in .csv, .xlsx, .parquet or .json"
        )
    asked = Asked(
        text=" ".join(text or ()),
        since=day_of(since, "--since", today=desk.today) if since else None,
        until=day_of(until, "--until", today=desk.today) if until else None,
        most=ALL,
    )
    count = write(asked, out, desk)
    show([f"{out}: {how_many(count, 'quote')}"])


def compare(one: Number, other: Number, as_of: Today = "", as_json: AsJson = False) -> None:
    """Put two quotes side by side, as a buyer who was quoted twice asks about them."""
    from shipcalc.actions.kept_quotes import show as show_kept
    from shipcalc.cli.listing import to_json
    from shipcalc.documents.offer.beside import beside, difference

    desk = desk_of(as_of)
    first, second = (show_kept(number, desk).kept.quote for number in (one, other))
    rows = tuple(beside(first, second))
    if as_json:
        told = {what or "number": [then, now] for what, then, now in rows}
        show_json(to_json({"rows": told, "difference": difference(first, second)}))
        return
    look = look_of_stdout()
    heads, *others = rows
    columns = (Column(heads[0]), Column(heads[1], wraps=True), Column(heads[2], wraps=True))
    show([*table(look, columns, others), "", *paragraph(look, difference(first, second))])


def show_quote(
    number: Number,
    revision: Annotated[int | None, option("--revision", "N", "An earlier revision. Default: the latest.")] = None,
    full: Annotated[bool, flag("--full", "Everything that the quote says.")] = False,
    out: OutFolder = None,
    language: Language = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Show a kept quote as it was made, how it stands, and what happened to it. --out writes its files once more."""
    from shipcalc.actions.files import Written, spoken_language, write_files
    from shipcalc.actions.kept_quotes import show as show_kept
    from shipcalc.cli.answer import quote_lines
    from shipcalc.cli.card import card_lines
    from shipcalc.languages.known import language_meant
    from shipcalc.quote.as_data import quote_to_json

    language_meant(language)
    desk = desk_of(as_of)
    found = show_kept(number, desk, revision=revision)
    quote = found.kept.quote
    stock = desk.settings.stock
    photos = stock.parent if stock is not None else None
    set_by, written = desk.settings, Written()
    if out is not None:
        spoken = spoken_language(language, quote, set_by)
        written = write_files(quote, out, paper=set_by.paper, photos=photos, logo=set_by.dealer.logo, language=spoken)
    if as_json:
        show_json(quote_to_json(quote))
    else:
        look = look_of_stdout()
        lines = quote_lines if full else card_lines
        show([*lines(quote, look, chosen=quote.recommended, for_office=True), *_standing(found, look)])
    for remark in written.remarks:
        note(remark)
    for file in written.files:
        note(f"written: {file}")


def verify(
    numbers: Annotated[list[str] | None, argument("[NUMBER...]", "Which quotes. Default: all.")] = None,
    as_json: AsJson = False,
) -> None:
    """Work kept quotes out again from the rates of their day, and say which come out otherwise."""
    from shipcalc.actions.kept_quotes import verify as work_out

    found = tuple(work_out(numbers or (), desk_of("")))
    show_found(found, _verified_json, _verified_lines, as_json=as_json)
    if not all(one.same for one in found):
        raise typer.Exit(1)


def list_json(found: "Sequence[Listed]") -> str:
    """Return `{"quotes": […]}`, each with number, revision, state, as_of, valid_until, buyer, vehicles, to, total, currency."""
    from shipcalc.cli.listing import to_json
    from shipcalc.records import asdict

    quotes = [
        asdict(one)
        | {"as_of": one.as_of.isoformat(), "valid_until": one.valid_until.isoformat(), "total": str(one.total)}
        for one in found
    ]
    return to_json({"quotes": quotes})


def _list_lines(found: "Sequence[Listed]", look: Look) -> list[str]:
    if not found and look.width is not None:
        return paragraph(look, "No quote is kept that meets this. shipcalc quote … --save keeps one.")
    rows = [
        (
            one.number if one.revision == 1 else f"{one.number} r{one.revision}",
            one.state,
            one.as_of.isoformat(),
            one.valid_until.isoformat(),
            one.buyer,
            one.vehicles,
            one.to,
            f"{one.total:,} {one.currency}",
        )
        for one in found
    ]
    if look.width is None:
        return table(look, COLUMNS, rows)
    # A terminal needs the room for names; the latest stand first, and show tells the day.
    return table(look, _but(COLUMNS, MADE), [_but(row, MADE) for row in rows])


def _but(cells: "tuple[T, ...]", place: int) -> "tuple[T, ...]":
    return (*cells[:place], *cells[place + 1 :])


def _standing(found: "Shown", look: Look) -> list[str]:
    listed, kept = found.listed, found.kept
    lines = [f"{listed.number} is {listed.state}; this is revision {kept.quote.revision} of {kept.latest}."]
    lines += [f"{stock} is promised to the buyer of {number}." for stock, number in found.promised]
    rows = [(at.replace("T", " ").rstrip("Z"), what, who, said) for at, what, who, said, _ in found.history]
    return [*section(look, "How it stands", lines), *heading(look, "What happened (UTC)"), *table(look, HISTORY, rows)]


def _verified_json(found: "Sequence[Verified]") -> str:
    from shipcalc.cli.listing import to_json
    from shipcalc.records import asdict

    return to_json({"verified": [asdict(one) for one in found]})


def _verified_lines(found: "Sequence[Verified]", look: Look) -> list[str]:
    lines = [
        line
        for one in found
        if not one.same
        for line in paragraph(look, f"{one.number}, revision {one.revision}: {one.told}")
    ]
    same = sum(one.same for one in found)
    return [*lines, f"{same} of {len(found)} kept quotes come out as they were made."]


COMMANDS = (
    ("list", list_quotes, "Kept quotes, the latest first.", "shipcalc quotes list --ending"),
    ("show", show_quote, "A quote as it was made, and how it stands.", "shipcalc quotes show 1"),
    *decided.COMMANDS,
    ("compare", compare, "Two quotes side by side.", "shipcalc quotes compare 1 2"),
    ("again", again, "What they would cost by the rates of today.", "shipcalc quotes again --since 2026-11-01"),
    ("export", export, "A table of them.", "shipcalc quotes export --out quotes.csv"),
    ("verify", verify, "Work old quotes out again.", "shipcalc quotes verify"),
)

"""What was promised: quotes list, show, revise, extend, accept, decline, forget, verify."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

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
    Online,
    OutFolder,
    RatesFolder,
    argument,
    day_of,
    day_of_quote,
    flag,
    now,
    option,
)
from shipcalc.cli.prompt import ask, ask_number, offer, somebody_is_there
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from shipcalc.actions.kept_quotes import Desk, Shown
    from shipcalc.register.finding import Listed
    from shipcalc.register.verifying import Verified

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
HISTORY = (Column("When"), Column("What"), Column("Who", wraps=True), Column("", wraps=True))
SOON_DAYS = 7
ALL = 1_000_000

Number = Annotated[str, argument("NUMBER", "The quote's number: Q-2026-0017, or 17 for one of this year.")]
Today = Annotated[str, option("--as-of", "DATE", "The day to count from. Default: today.")]
Who = Annotated[str, option("--who", "NAME", "Who does it, for the record.")]


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
    show([f"{out}: {count} quotes"])


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
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Show a kept quote as it was made, how it stands, and what happened to it. --out writes its files once more."""
    from shipcalc.actions.files import write_files
    from shipcalc.actions.kept_quotes import show as show_kept
    from shipcalc.cli.answer import quote_lines
    from shipcalc.cli.card import card_lines
    from shipcalc.quote.as_data import quote_to_json

    desk = desk_of(as_of)
    found = show_kept(number, desk, revision=revision)
    quote = found.kept.quote
    written = write_files(quote, out, paper=desk.settings.paper) if out is not None else ()
    if as_json:
        show_json(quote_to_json(quote))
    else:
        look = look_of_stdout()
        lines = quote_lines if full else card_lines
        show([*lines(quote, look, chosen=quote.recommended, for_office=True), *_standing(found, look)])
    for file in written:
        note(f"written: {file}")


def revise(
    number: Number,
    to: Annotated[str, option("--to", "PLACE", "Another place.")] = "",
    online: Online = False,
    ready: Annotated[str, option("--ready", "DATE", "Another first day for the pick-up.")] = "",
    by: Annotated[str, option("--by", "DATE", "Another day it must be there by.")] = "",
    trailer: Annotated[str, option("--trailer", "KIND", "Only open, or only enclosed, trailers.")] = "",
    ocean: Annotated[str, option("--ocean", "KIND", "Over the sea only roro, or only container.")] = "",
    term: Annotated[str, option("--term", "CODE", "Another delivery term.")] = "",
    cover: Annotated[str, option("--cover", "A|B|C", "Other conditions of the marine cover.")] = "",
    currency: Annotated[str, option("--currency", "CODE", "Another currency of the buyer's.")] = "",
    lift_gate: Annotated[bool, flag("--lift-gate", "Load and unload with a lift gate.")] = False,
    limited_access: Annotated[bool, flag("--limited-access", "A long truck cannot reach the buyer's door.")] = False,
    express: Annotated[bool, flag("--express", "Pickup sooner than usual.")] = False,
    collect: Annotated[bool, flag("--collect", "Add a choice: the buyer comes to the yard.")] = False,
    terminal: Annotated[bool, flag("--terminal", "Add a choice: to the terminal nearest the buyer.")] = False,
    buyer: Annotated[str, option("--buyer", "NAME", "Another name.")] = "",
    rates: RatesFolder = None,
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Price a kept quote anew, with today's rates and what is to be different; the earlier revision stays as it was."""
    from shipcalc.actions.kept_quotes import Changes
    from shipcalc.actions.kept_quotes import revise as make
    from shipcalc.actions.sources import find_sources

    desk = desk_of(as_of, who)
    changes = Changes(
        to=to,
        online=online,
        ready=day_of(ready, "--ready", today=desk.today) if ready else None,
        by=day_of(by, "--by", today=desk.today) if by else None,
        trailer=trailer,
        ocean=ocean,
        term=term,
        cover=cover,
        currency=currency,
        lift_gate=lift_gate,
        limited_access=limited_access,
        express=express,
        collect=collect,
        terminal=terminal,
        buyer=buyer,
    )
    sources = find_sources(folder=Path.cwd(), rates=rates, as_of=desk.today)
    revised, why = make(number, changes, sources, desk)
    if as_json:
        from shipcalc.quote.as_data import quote_to_json

        show_json(quote_to_json(revised))
    else:
        from shipcalc.cli.card import card_lines

        look = look_of_stdout()
        show(card_lines(revised, look, chosen=revised.recommended, for_office=False))
    note(f"kept: {revised.number}, revision {revised.revision}: {why}")


def extend(
    number: Number,
    until: Annotated[str, option("--until", "DATE", "The day until which the price is to hold.")] = "",
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Keep a quote's price for longer. Nothing is priced anew: see that the carriers hold theirs as long."""
    from shipcalc.actions.kept_quotes import extend as keep_longer

    desk = desk_of(as_of, who)
    if not until:
        raise WrongInput("says no day", where="--until", remedy="give the day until which the price is to hold")
    quote = keep_longer(number, day_of(until, "--until", today=desk.today), desk)
    told = {"number": quote.number, "revision": quote.revision, "valid_until": quote.valid_until.isoformat()}
    tell(told, f"{quote.number}, revision {quote.revision}: holds until {quote.valid_until}", as_json=as_json)


def accept(
    number: Number,
    choice: Annotated[int | None, option("--choice", "N", "Which choice. Default: the recommended one.")] = None,
    on: Annotated[str, option("--on", "DATE", "The day the buyer said yes. Default: today.")] = "",
    who: Annotated[str, option("--who", "NAME", "Who said yes.")] = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """The buyer says yes: the choice is fixed, and its vehicles are promised to nobody else."""
    from shipcalc.actions.kept_quotes import accept as keep_yes

    desk = desk_of(as_of)
    if not as_json and somebody_is_there():
        choice, on, who = _asked_of_the_yes(number, desk, choice, on, who)
    day = day_of(on, "--on", today=desk.today) if on else desk.today
    quote, chosen = keep_yes(number, desk, choice=choice, on=day, by=who)
    title = quote.options[chosen].title
    told = {"number": quote.number, "choice": chosen + 1, "title": title, "accepted": day.isoformat(), "who": who}
    tell(told, f"{quote.number} is accepted: choice {chosen + 1}, {title}, on {day}", as_json=as_json)


def _asked_of_the_yes(number: str, desk: "Desk", choice: int | None, on: str, who: str) -> tuple[int | None, str, str]:
    """Ask, in a terminal, what was not said of the buyer's yes: which choice, on which day, who said it."""
    from shipcalc.actions.kept_quotes import show as show_kept

    quote = show_kept(number, desk).kept.quote
    if choice is None and len(quote.options) > 1:
        order = sorted(range(len(quote.options)), key=lambda place: place != quote.recommended)
        offer(
            "Which choice?",
            [f"{quote.options[place].title}, {quote.options[place].total:,} {quote.currency}" for place in order],
        )
        choice = order[ask_number("Number of the choice", len(order)) - 1] + 1
    on = on or ask("The day the buyer said yes (Enter: today)", may_be_empty=True)
    return choice, on, who or ask("Who said yes", may_be_empty=True)


def decline(
    number: Number,
    why: Annotated[str, option("--why", "TEXT", "What the buyer said.")] = "",
    on: Annotated[str, option("--on", "DATE", "The day. Default: today.")] = "",
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """The buyer says no, or takes the yes back: its vehicles are free again."""
    from shipcalc.actions.kept_quotes import decline as keep_no

    desk = desk_of(as_of, who)
    day = day_of(on, "--on", today=desk.today) if on else None
    quote = keep_no(number, desk, on=day, by=who, why=why)
    tell(
        {"number": quote.number, "declined": (day or desk.today).isoformat()},
        f"{quote.number} is declined",
        as_json=as_json,
    )


def forget(
    numbers: Annotated[list[str] | None, argument("[NUMBER...]", "The quotes whose buyer is to be forgotten.")] = None,
    buyer: Annotated[str, option("--buyer", "NAME", "All quotes of the buyer of this name, as written on them.")] = "",
    although_accepted: Annotated[bool, flag("--although-accepted", "Also of accepted ones.")] = False,
    as_json: AsJson = False,
) -> None:
    """Erase who a buyer was from all that is kept; sums, days and vehicles stay. It cannot be taken back."""
    from shipcalc.actions.kept_quotes import forget as erase

    erased = erase(numbers or (), buyer, desk_of(""), although_accepted=although_accepted)
    tell({"forgotten": list(erased)}, f"forgotten: {', '.join(erased)}", as_json=as_json)


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


def desk_of(as_of: str, who: str = "") -> "Desk":
    """Return who sits at which register, and when."""
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.settings import find_settings

    return Desk(find_settings(Path.cwd()), day_of_quote(as_of), now(), who)


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


def tell(data: "Mapping[str, object]", sentence: str, *, as_json: bool) -> None:
    """Print what was done, as data or in a sentence."""
    from shipcalc.cli.listing import to_json

    if as_json:
        show_json(to_json(dict(data)))
    else:
        show(paragraph(look_of_stdout(), sentence))


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
    return table(look, COLUMNS, rows)


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
    ("revise", revise, "Price it anew, with changes.", "shipcalc quotes revise 1 --trailer enclosed"),
    ("extend", extend, "Keep its price for longer.", "shipcalc quotes extend 1 --until 2027-01-15"),
    ("compare", compare, "Two quotes side by side.", "shipcalc quotes compare 1 2"),
    ("accept", accept, "The buyer says yes.", 'shipcalc quotes accept 1 --choice 2 --who "M. Lindqvist"'),
    ("decline", decline, "The buyer says no.", 'shipcalc quotes decline 1 --why "bought another"'),
    ("forget", forget, "Erase who a buyer was.", "shipcalc quotes forget 1 --although-accepted"),
    ("export", export, "A table of them.", "shipcalc quotes export --out quotes.csv"),
    ("verify", verify, "Work old quotes out again.", "shipcalc quotes verify"),
)

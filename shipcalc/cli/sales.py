"""The salesperson's commands, one hand on the phone: quote, stock, place, miles."""

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from shipcalc.cli.look import look_of_stdout, note, show, show_found, show_json
from shipcalc.cli.options import (
    AsJson,
    AsOf,
    Choice,
    Language,
    Online,
    OutFolder,
    RatesFolder,
    StockFile,
    argument,
    day_of,
    day_of_quote,
    flag,
    now,
    option,
)
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shipcalc.actions.sources import Sources
    from shipcalc.quote.model import Quote

AUDIENCES = ("buyer", "office")


def quote(
    vehicle: Annotated[
        list[str] | None,
        option(
            "--vehicle",
            "TEXT",
            'Stock number, or a description: "1961 roadster, 153 in x 60 in x 49 in, 2030 lb, $38,000". May be repeated.',
        ),
    ] = None,
    to: Annotated[str, option("--to", "PLACE", 'ZIP, "City, ST", "City, Country" or "lat, lon".')] = "",
    online: Online = False,
    start: Annotated[str, option("--from", "PLACE", "Where it starts. Default: the yard the vehicle stands in.")] = "",
    ready: Annotated[
        str, option("--ready", "DATE", "First day it can be picked up. Default: the day of the quote.")
    ] = "",
    by: Annotated[
        str, option("--by", "DATE", "Must arrive by this day: only what is in time, and when it must be ready.")
    ] = "",
    as_of: AsOf = "",
    trailer: Annotated[str, option("--trailer", "KIND", "Only open, or only enclosed, trailers.")] = "",
    lift_gate: Annotated[bool, flag("--lift-gate", "Load and unload with a lift gate.")] = False,
    limited_access: Annotated[bool, flag("--limited-access", "A long truck cannot reach the buyer's door.")] = False,
    express: Annotated[bool, flag("--express", "Pickup sooner than usual.")] = False,
    ocean: Annotated[
        str, option("--ocean", "KIND", "Over the sea only roro (on a vehicle ship), or only container.")
    ] = "",
    term: Annotated[
        str,
        option("--term", "CODE", "Delivery term (Incoterms 2020), e.g. CIF. Default: the rate book's; at home DAP."),
    ] = "",
    cover: Annotated[str, option("--cover", "A|B|C", "Conditions of the marine cover. Default: the rate book's.")] = "",
    insure_for: Annotated[
        str, option("--insure-for", "SUM", "At home: have each vehicle covered up to this sum, for an extra charge.")
    ] = "",
    currency: Annotated[
        str, option("--currency", "CODE", "The buyer's currency, e.g. EUR: sums are shown in it too.")
    ] = "",
    sailing: Annotated[
        str, option("--sailing", "DATE", "Only ships that leave on this day; it says what can no longer reach them.")
    ] = "",
    spot: Annotated[
        list[str] | None,
        option(
            "--spot",
            "TEXT",
            'A carrier\'s price in hand for this one shipment: "carrier, 1,250, until 2026-12-10, ref". May be repeated.',
        ),
    ] = None,
    released_by: Annotated[
        str, option("--released-by", "NAME", "Who released a destination that is held for export compliance.")
    ] = "",
    keep_until: Annotated[
        str, option("--keep-until", "DATE", "Keep it at the yard until this day, then ship it: with storage.")
    ] = "",
    collect: Annotated[bool, flag("--collect", "Add a choice: the buyer comes to the yard, or sends a truck.")] = False,
    terminal: Annotated[bool, flag("--terminal", "Add a choice: to the terminal nearest the buyer.")] = False,
    buyer_is: Annotated[
        str, option("--buyer-is", "KIND", "A kind of buyer that the rate book has markups for, e.g. dealer.")
    ] = "",
    buyer: Annotated[str, option("--buyer", "NAME", "The buyer's name, for the papers.")] = "",
    audience: Annotated[
        str,
        option(
            "--for",
            "WHOM",
            "buyer: what may be read out or sent. office: with cost, margin and cells. Default: buyer; for --json office.",
        ),
    ] = "",
    choice: Choice = None,
    all_choices: Annotated[
        bool, flag("--all-choices", "In the buyer's workbook, every choice line by line on a sheet of its own.")
    ] = False,
    stock: StockFile = None,
    rates: RatesFolder = None,
    full: Annotated[bool, flag("--full", "Everything: every line, dates, papers, what was assumed.")] = False,
    parts: Annotated[
        list[str] | None,
        option(
            "--show",
            "PART",
            "One part of it: lines, dates, papers, duty, included, warnings, assumed, cautions, book, or script: what to say "
            "on the telephone. May be repeated.",
        ),
    ] = None,
    save: Annotated[
        bool, flag("--save", "Keep the quote: it gets a number, and shipcalc quotes finds it again.")
    ] = False,
    out: OutFolder = None,
    language: Language = "",
    as_json: AsJson = False,
) -> None:
    """Price the transport of one vehicle or several to a place, with choices and every line explained.

    In a terminal it asks for what is missing; in a pipe it never asks.
    """
    from shipcalc.actions.quoting import Order, made_quote
    from shipcalc.languages.known import language_meant

    language_meant(language)  # what is none is told before anything is priced
    today = day_of_quote(as_of)
    for_office = _is_for_office(audience, as_json=as_json)
    wanted = _parts_wanted(parts or (), full=full)
    sources = _sources(stock, rates, as_of=today)
    order = Order(
        vehicles=tuple(vehicle or ()),
        to=to,
        online=online,
        start=start,
        ready=day_of(ready, "--ready", today=today) if ready else None,
        by=day_of(by, "--by", today=today) if by else None,
        trailer=trailer,
        lift_gate=lift_gate,
        limited_access=limited_access,
        express=express,
        ocean=ocean,
        cover=cover,
        insure_for=insure_for,
        term=term,
        currency=currency,
        released_by=released_by,
        keep_until=day_of(keep_until, "--keep-until") if keep_until else None,
        collect=collect,
        terminal=terminal,
        sailing=day_of(sailing, "--sailing", today=today) if sailing else None,
        spot=tuple(spot or ()),
        buyer_is=buyer_is,
        buyer=buyer,
    )
    if not order.vehicles or not order.to.strip():
        from shipcalc.cli.asking import complete

        order = complete(order, sources, as_of=today)
    if sys.stdin.isatty():
        from shipcalc.cli.asking import settled

        order = settled(order)
    made = made_quote(order, sources, as_of=today)
    quoted = made.quote
    if save:
        from shipcalc.actions.kept_quotes import Desk, keep

        quoted = keep(made, Desk(sources.settings, today, now()))
        note(f"kept: {quoted.number}")
    _answer(
        quoted,
        sources,
        choice=choice,
        all_choices=all_choices,
        for_office=for_office,
        parts=wanted,
        out=out,
        language=language,
        as_json=as_json,
    )


def _answer(
    made: "Quote",
    sources: "Sources",
    *,
    choice: int | None,
    all_choices: bool,
    for_office: bool,
    parts: tuple[str, ...] | None,
    out: Path | None,
    language: str,
    as_json: bool,
) -> None:
    """Write the files first and then print: an answer that says "written" is true when it is read."""
    from shipcalc.actions.files import Written, folder_name, option_index, spoken_language, write_files
    from shipcalc.quote.buyer import for_buyer

    chosen = option_index(made, choice)
    kept_in = sources.settings.out
    folder = out if out is not None or kept_in is None else kept_in / folder_name(made)
    written = Written()
    if folder is not None:
        set_by = sources.settings
        written = write_files(
            made,
            folder,
            paper=set_by.paper,
            option=chosen,
            all_choices=all_choices,
            photos=sources.photos,
            logo=set_by.dealer.logo,
            language=spoken_language(language, made, set_by),
        )
    told = made if for_office else for_buyer(made)
    if as_json:
        from shipcalc.quote.as_data import quote_to_json

        show_json(quote_to_json(told))
    else:
        show(_told(told, parts, chosen=chosen, for_office=for_office))
    for held in (one.in_hand for one in made.options if one.in_hand):
        for remark in held.to_check:
            note(f"price in hand from {held.carrier}: {remark}")
    for remark in sources.notes:
        note(remark)
    for remark in written.remarks:
        note(remark)
    for file in written.files:
        note(f"written: {file}")
    if written.files:
        from shipcalc.documents.photographs import without_photograph

        for missing in filter(None, (without_photograph(vehicle, sources.photos) for vehicle in made.vehicles)):
            note(missing)


def _told(made: "Quote", parts: tuple[str, ...] | None, *, chosen: int, for_office: bool) -> list[str]:
    """Return the card and the choices; the named parts instead, where there are any; everything where `parts` is None."""
    look = look_of_stdout()
    if parts == ():
        from shipcalc.cli.card import card_lines

        return card_lines(made, look, chosen=chosen, for_office=for_office)
    from shipcalc.cli import answer  # late: the card, which is asked for most, does without

    if parts is None:
        return answer.quote_lines(made, look, chosen=chosen, for_office=for_office)
    return answer.sections(made, look, parts, chosen=chosen, for_office=for_office)


def _parts_wanted(parts: "Sequence[str]", *, full: bool) -> tuple[str, ...] | None:
    """Return the parts that `--show` names, several in one with commas; None for all."""
    if full:
        return None
    names = tuple(dict.fromkeys(name.strip().casefold() for text in parts for name in text.split(",") if name.strip()))
    if names:
        from shipcalc.cli.answer import SECTIONS

        for name in names:
            if name not in SECTIONS:
                raise WrongInput(
                    f'"{name}" is not a part of a quote', where="--show", remedy=f"one of {', '.join(SECTIONS)}"
                )
    return names


def stock(
    text: Annotated[str, argument("[TEXT]", "Words to look for.")] = "",
    stock_file: StockFile = None,
    as_json: AsJson = False,
) -> None:
    """List what is in stock; rows of the list that need a look are named by cell."""
    from shipcalc.actions.stock import look_through_stock
    from shipcalc.cli.listing import stock_json, stock_lines

    sources = _sources(stock_file, None)
    answer = look_through_stock(sources.get_stock(), text)
    if as_json:
        show_json(stock_json(answer))
        return
    show(stock_lines(answer, look_of_stdout()))
    if answer.nearly and answer.vehicles:
        note(f'nothing has "{text.strip()}" exactly: these are spelled almost like it')
    if text and answer.problems:
        note(f"{len(answer.problems)} cells of the list need a look; shipcalc stock names them")
    for problem in answer.problems if not text else ():
        note(str(problem))
    _note_stock(sources)


def place(
    text: Annotated[str, argument("TEXT", 'ZIP, "City, ST", "City, Country" or "lat, lon".')],
    online: Online = False,
    as_json: AsJson = False,
) -> None:
    """Say what the program understands by a place, and which other places have that name."""
    from shipcalc.actions.place import understand_place
    from shipcalc.cli.listing import place_json, place_lines, unknown_place

    finding = understand_place(text, settings=_sources(None, None).settings if online else None)
    if as_json:
        show_json(place_json(finding))
    elif finding.place is not None:
        show(place_lines(finding, look_of_stdout()))
    if finding.place is None:
        note(f"shipcalc: {unknown_place(finding)}")
        raise typer.Exit(1)


def miles(
    start: Annotated[str, argument("FROM", 'ZIP, "City, ST", "City, Country" or "lat, lon".')],
    to: Annotated[str, argument("TO", "The same.")],
    without: Annotated[
        list[str] | None, option("--without", "PASSAGE", "Not by this canal or strait, as suez. Several may be named.")
    ] = None,
    rates: RatesFolder = None,
    as_json: AsJson = False,
) -> None:
    """Say how far it is: the straight line, the road with its factor and where that comes from; between ports the sea."""
    from shipcalc.actions.miles import measure_distance
    from shipcalc.cli.listing import miles_json, miles_lines

    distance = measure_distance(start, to, _sources(None, rates).rates.path, without=tuple(without or ()))
    show_found(distance, miles_json, miles_lines, as_json=as_json)


def _sources(stock: Path | None, rates: Path | None, as_of: date | None = None) -> "Sources":
    from shipcalc.actions.sources import find_sources

    return find_sources(folder=Path.cwd(), stock=stock, rates=rates, as_of=as_of)


def _note_stock(sources: "Sources") -> None:
    for remark in sources.notes:
        if remark.startswith("stock list"):
            note(remark)


def _is_for_office(audience: str, *, as_json: bool) -> bool:
    wanted = audience.strip().casefold()
    if wanted and wanted not in AUDIENCES:
        raise WrongInput(f'"{audience}" is neither buyer nor office', where="--for", remedy="say buyer or office")
    return wanted == "office" or (as_json and not wanted)


COMMANDS = (
    (
        "quote",
        quote,
        "What it costs to bring a vehicle to a place.",
        "shipcalc quote --vehicle HV-1153 --to 53703 --out lindqvist",
    ),
    ("stock", stock, "What is in stock.", "shipcalc stock camper"),
    ("place", place, "How a place is understood.", 'shipcalc place "Portland, ME"'),
    ("miles", miles, "How far it is, by every method.", 'shipcalc miles 98225 "Savannah, GA"'),
)

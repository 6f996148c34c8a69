"""Demo: an invented dealer's day, start to end, into one folder."""

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.actions.demo_office import (
    REGISTER_FILE,
    SALESPERSON,
    fill_office,
    new_register,
    point,
    write_settings,
)
from shipcalc.actions.files import (
    BUYER_FILE,
    CHECKLIST_FILE,
    MESSAGE_FILE,
    OFFICE_FILE,
    PDF_FILE,
    plain_name,
    write_files,
)
from shipcalc.actions.order_tables import order_of, read_buyers
from shipcalc.actions.quoting import Books, made_quote, open_books
from shipcalc.actions.sources import Sources, invented_folder, invented_sources
from shipcalc.errors import ShipcalcError, named
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.actions.today import Today
    from shipcalc.quote.model import Quote
    from shipcalc.ratebook.rows.baskets import BuyerRow
    from shipcalc.register.opening import Register

# The invented dealer's own day: the demo gives the same files whenever it is run.
DEMO_DAY = date(2026, 12, 1)
BUYERS_FILE = "buyers.csv"
TOLD = ("price", "when", "else", "altogether")  # of what a buyer asks first, what the day's summary says
FIRST_FILE = "OPEN THIS FIRST.txt"


@dataclass(frozen=True, slots=True)
class Asking:
    """One buyer's question and what came of it: a quote with its folder, or the reason why there is none."""

    buyer: "BuyerRow"
    quote: "Quote | None" = None
    folder: str = ""
    refusal: str = ""


@dataclass(frozen=True, slots=True)
class Day:
    """What the demo made."""

    dealer: str
    as_of: date
    folder: Path
    askings: tuple[Asking, ...]
    files: tuple[Path, ...]
    open_first: Path
    office: "Today"
    register: Path


def run_demo(out: Path, *, as_of: date | None = None) -> Day:
    """Quote for every invented buyer, write the files into `out`, and return what was made.

    All quotes are kept in a register of the demo's own, beside those of the last weeks with what became of them.
    A buyer who cannot be served is told why in the day's summary; only a folder that cannot be written stops the day.
    """
    from shipcalc.actions.today import day_in
    from shipcalc.sheets.saving import save

    today = as_of or DEMO_DAY
    sources = invented_sources()
    books = open_books(sources)
    buyers = read_buyers(invented_folder("demo") / BUYERS_FILE)
    settings = write_settings(out)
    register = new_register(out)
    try:
        fill_office(register, sources, books, today)
        askings = tuple(
            _asked(number, buyer, sources, books, today, register) for number, buyer in enumerate(buyers, start=1)
        )
        office = day_in(register, today)
    finally:
        register.close()
    files = [file for asking in askings for file in _files_of(asking, out, sources)]
    first = out / FIRST_FILE
    day = Day(
        dealer=sources.settings.dealer.name,
        as_of=today,
        folder=out,
        askings=askings,
        files=(first, settings, *files),
        open_first=first,
        office=office,
        register=out / REGISTER_FILE,
    )
    save(first, "\n".join(summary(day)).encode() + b"\n")
    return day


def _asked(number: int, buyer: "BuyerRow", sources: Sources, books: Books, today: date, register: "Register") -> Asking:
    from shipcalc.register.quotes import keep_quote

    try:
        made = made_quote(order_of(buyer, today), sources, as_of=today, books=books)
    except ShipcalcError as error:
        return Asking(buyer, refusal=named(error.what))
    kept = keep_quote(register, made.quote, made.request, made.rates, at=point(today), who=SALESPERSON)
    return Asking(buyer, kept, folder=f"{number:02} {plain_name(buyer.name)}")


def _files_of(asking: Asking, out: Path, sources: Sources) -> Iterator[Path]:
    if asking.quote is not None:
        set_by = sources.settings
        written = write_files(
            asking.quote,
            out / asking.folder,
            paper=set_by.paper,
            photos=sources.photos,
            logo=set_by.dealer.logo,
        )
        yield from written.files


def summary(day: Day) -> list[str]:
    """Return the text to open first, line by line."""
    served = [asking for asking in day.askings if asking.quote is not None]
    refused = [asking for asking in day.askings if asking.quote is None]
    return [
        f"A day at {day.dealer}, {day.as_of.isoformat()}",
        "",
        "Everything here is invented: the dealer, the vehicles, the buyers, the carriers and their prices.",
        "",
        *_where_to_begin(served),
        *_office_told(day),
        f"{len(served)} buyers have a quote",
        "",
        *(line for asking in served for line in _told(asking)),
        *([f"{len(refused)} could not be given one", ""] if refused else []),
        *(
            line
            for asking in refused
            for line in (f"  {asking.buyer.name}, to {asking.buyer.to}", f"    {asking.refusal}", "")
        ),
    ]


def _where_to_begin(served: Sequence[Asking]) -> list[str]:
    if not served:
        return []
    folder = served[0].folder
    return [
        "Begin here",
        "",
        f"  {folder}/{PDF_FILE}",
        "    what the buyer gets, to read, print and sign: how much, when, what else, the choices side by side",
        f"  {folder}/{BUYER_FILE}",
        "    the same as a workbook, with every line of the recommended choice and all sums by formula",
        f"  {folder}/{MESSAGE_FILE}",
        "    the mail that goes with it",
        f"  {folder}/{OFFICE_FILE}",
        "    for the office: cost, margin, carrier, and the cell of the rate book that each figure is from",
        f"  {folder}/{CHECKLIST_FILE}",
        "    what is to be done until the vehicle is delivered, by whom and by when",
        *_over_the_sea(served),
        "",
    ]


def further(day: Day) -> tuple[str, ...]:
    """Return the commands that look further into the office's day, to be typed in the demo's folder."""
    first = day.office.day.shipments[0].shipment if day.office.day.shipments else ""
    said = f"--as-of {day.as_of.isoformat()}"
    return (
        f"shipcalc today --full {said}",
        f"shipcalc today --person yard {said}",
        *((f"shipcalc shipments show {first} {said}",) if first else ()),
        f"shipcalc quotes list {said}",
    )


def _office_told(day: Day) -> list[str]:
    counted = len(day.office.day.shipments)
    if not counted:
        return []
    return [
        f"The office has {counted} shipments under way, sold in the weeks before. In this folder:",
        "",
        *(f"  {command}" for command in further(day)),
        "",
    ]


def _over_the_sea(served: Sequence[Asking]) -> list[str]:
    first = next((asking for asking in served if asking.quote is not None and asking.quote.options[0].ocean), None)
    if first is None:
        return []
    return [
        f"  {first.folder}/{PDF_FILE}",
        "    the same over the sea: who pays what stage by stage, duty and tax, what it comes to altogether",
    ]


def _told(asking: Asking) -> list[str]:
    from shipcalc.documents.offer.first_answer import answers
    from shipcalc.documents.wording import money_told, place

    made = asking.quote
    assert made is not None, "only those that were served"
    names = ", ".join(f"{vehicle.name} ({vehicle.stock_number})" for vehicle in made.vehicles)
    asked = [f"    asked for: {asking.buyer.note}"] if asking.buyer.note else []
    first = [answer for answer in answers(made, made.recommended, money_told) if answer.what in TOLD]
    return [
        f"  {asking.folder}",
        f"    {names}, to {place(made.to)}",
        *asked,
        *(f"    {answer.label}: {answer.text}" for answer in first),
        f"    {made.reason}",
        "",
    ]

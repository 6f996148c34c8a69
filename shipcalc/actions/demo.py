"""Demo: an invented dealer's day, start to end, into one folder."""

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

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
from shipcalc.actions.quoting import Books, open_books, quote
from shipcalc.actions.sources import Sources, invented_folder, invented_sources
from shipcalc.errors import ShipcalcError, named
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.quote.model import Quote
    from shipcalc.ratebook.rows.baskets import BuyerRow

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


def run_demo(out: Path, *, as_of: date | None = None) -> Day:
    """Quote for every invented buyer, write the files into `out`, and return what was made.

    A buyer who cannot be served is told why in the day's summary; only a folder that cannot be written stops the day.
    """
    from shipcalc.sheets.saving import save

    today = as_of or DEMO_DAY
    sources = invented_sources()
    books = open_books(sources)
    buyers = read_buyers(invented_folder("demo") / BUYERS_FILE)
    askings = tuple(_asked(number, buyer, sources, books, today) for number, buyer in enumerate(buyers, start=1))
    files = [file for asking in askings for file in _files_of(asking, out, sources)]
    first = out / FIRST_FILE
    day = Day(sources.settings.dealer.name, today, out, askings, (first, *files), first)
    save(first, "\n".join(summary(day)).encode() + b"\n")
    return day


def _asked(number: int, buyer: "BuyerRow", sources: Sources, books: Books, today: date) -> Asking:
    try:
        made = quote(order_of(buyer, today), sources, as_of=today, books=books)
    except ShipcalcError as error:
        return Asking(buyer, refusal=named(error.what))
    return Asking(buyer, made, folder=f"{number:02} {plain_name(buyer.name)}")


def _files_of(asking: Asking, out: Path, sources: Sources) -> Iterator[Path]:
    if asking.quote is not None:
        yield from write_files(asking.quote, out / asking.folder, paper=sources.settings.paper)


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
        "    the same with every line of every choice, and all sums by formula",
        f"  {folder}/{MESSAGE_FILE}",
        "    the mail that goes with it",
        f"  {folder}/{OFFICE_FILE}",
        "    for the office: cost, margin, carrier, and the cell of the rate book that each figure is from",
        f"  {folder}/{CHECKLIST_FILE}",
        "    what is to be done until the vehicle is delivered, by whom and by when",
        *_over_the_sea(served),
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

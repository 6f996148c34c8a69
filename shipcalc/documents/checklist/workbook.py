"""The workbook the office works a shipment off from: what is to be done, papers, contacts, sheets for the yard."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from shipcalc.checklist.items import Item
from shipcalc.checklist.making import checklist, free_days, gates, shipment_key
from shipcalc.documents import wording
from shipcalc.documents.checklist.contacts_sheet import Details, put_contacts
from shipcalc.documents.checklist.front import put_front
from shipcalc.documents.checklist.handover_sheet import put_handover
from shipcalc.documents.checklist.last_version_sheet import Added, put_last_version
from shipcalc.documents.checklist.securing_sheet import put_securing
from shipcalc.documents.checklist.sheet import put_checklist, put_papers
from shipcalc.documents.checklist.to_print import checklist_pdf, to_print_beside
from shipcalc.documents.logo import Logo
from shipcalc.documents.securing import is_tied_down
from shipcalc.quote.model import Quote, Window
from shipcalc.records import dataclass
from shipcalc.sheets.saving import save
from shipcalc.sheets.writing import Book, Paper


@dataclass(frozen=True, slots=True, kw_only=True)
class Present:
    """A shipment as it stands, where that is not as it was accepted: lines, days, version; references by label, whom to call.

    `known` are the details of people in the address book, by their row on the sheet Contacts; `added` is what people wrote into
    columns of their own, by the line's id.
    """

    items: tuple[Item, ...]
    moments: Mapping[str, Window]
    version: int
    written_on: date
    references: tuple[tuple[str, str], ...] = ()
    known: Mapping[str, Details] | None = None
    added: Mapping[str, Added] = {}


def checklist_title(quote: Quote) -> str:
    """Return what a checklist is about: vehicles, place, buyer."""
    names = ", ".join(vehicle.name for vehicle in quote.vehicles)
    return f"{names} to {wording.place(quote.to)}" + (f" for {quote.buyer}" if quote.buyer else "")


def write_checklist_workbook(
    quote: Quote,
    option: int,
    path: Path,
    *,
    paper: Paper = "letter",
    present: Present | None = None,
    logo: Logo | None = None,
) -> None:
    """Write the checklist of one option of a quote (counted from 0), and beside it the PDF to tick with a pen (`to_print.py`).

    Sheets: Shipment, Checklist, Papers, Contacts, for each vehicle Handover and (where a truck carries it) Securing, and Last
    version. No price is in it: copies go to the yard, the driver and the buyer. Raises WrongInput where the file cannot be
    written.
    """
    chosen = quote.options[option]
    now = present or Present(
        items=checklist(quote, chosen), moments=gates(quote, chosen), version=1, written_on=quote.as_of
    )
    items, moments = now.items, now.moments
    book = Book(
        title=f"Checklist: {', '.join(vehicle.name for vehicle in quote.vehicles)}",
        creator=quote.dealer.name,
        accent=quote.dealer.accent,
        made=now.written_on,
        paper=paper,
        subject=wording.reference(quote),
    )
    put_front(book, quote, chosen, items, moments, now.written_on, now.references)
    put_checklist(book, quote, items, title=checklist_title(quote), today=now.written_on, added=now.added)
    put_papers(book, quote, chosen, items, title=checklist_title(quote))
    put_contacts(book, quote, chosen, now.known or {})
    for vehicle in quote.vehicles:
        put_handover(book, quote, chosen, vehicle)
    for vehicle in quote.vehicles if is_tied_down(chosen) else ():
        put_securing(book, quote, vehicle)
    key = shipment_key(quote, chosen)
    title = checklist_title(quote)
    put_last_version(
        book,
        items,
        moments,
        free_days(chosen),
        key=key,
        title=title,
        version=now.version,
        written_on=now.written_on,
        added=now.added,
    )
    book.save(path)
    pdf = checklist_pdf(
        quote, items, title=title, written_on=now.written_on, version=now.version, paper=paper, logo=logo
    )
    save(to_print_beside(path), pdf)

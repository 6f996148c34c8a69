"""The workbook the office works a shipment off from: what is to be done, papers, contacts, sheets for the yard."""

from pathlib import Path

from shipcalc.checklist.making import checklist, shipment_key
from shipcalc.documents import wording
from shipcalc.documents.checklist_front import put_front
from shipcalc.documents.checklist_sheet import put_checklist, put_papers
from shipcalc.documents.contacts_sheet import put_contacts
from shipcalc.documents.handover_sheet import put_handover
from shipcalc.documents.securing_sheet import put_securing
from shipcalc.quote.model import Quote
from shipcalc.sheets.writing import Book, Paper


def write_checklist_workbook(quote: Quote, option: int, path: Path, *, paper: Paper = "letter") -> None:
    """Write the checklist of one option of a quote (counted from 0).

    Sheets: Shipment, Checklist, Papers, Contacts, and for each vehicle Handover and Securing. No price is in it: copies go to the
    yard, the driver and the buyer. Raises WrongInput where the file cannot be written.
    """
    chosen = quote.options[option]
    items = checklist(quote, chosen)
    book = Book(
        title=f"Checklist: {', '.join(vehicle.name for vehicle in quote.vehicles)}",
        creator=quote.dealer.name,
        made=quote.as_of,
        paper=paper,
        subject=wording.reference(quote),
    )
    put_front(book, quote, chosen, items)
    put_checklist(book, quote, items, key=shipment_key(quote, chosen))
    put_papers(book, quote, chosen, items)
    put_contacts(book, quote, chosen)
    for vehicle in quote.vehicles:
        put_handover(book, quote, chosen, vehicle)
    for vehicle in quote.vehicles:
        put_securing(book, quote, vehicle)
    book.save(path)

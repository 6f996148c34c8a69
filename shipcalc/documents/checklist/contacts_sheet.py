"""Who can be called, by day and in the evening: filled in as far as the quote knows, the rest by hand."""

from collections.abc import Mapping
from types import MappingProxyType

from shipcalc.documents import wording
from shipcalc.documents.offer.first_answer import ship
from shipcalc.documents.pages.letterhead import put_letterhead
from shipcalc.documents.securing import is_tied_down
from shipcalc.quote.model import Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.writing import Book, Page

_HEADERS = ("Role", "Name", "Telephone", "In the evening", "Mail", "Address, hours, remarks")
_ROLE = look.Style("Role", size=10, bold=True, upright="center", below="hair")
_ENTRY = look.Style("Contact", size=10, wrap=True, upright="center", below="hair", ground=look.ENTRY_WASH)


Contact = tuple[str, str, str, str, str, str]
Details = tuple[str, str, str, str, str]


def put_contacts(book: Book, quote: Quote, option: Option, known: Mapping[str, Details] = MappingProxyType({})) -> Page:
    """Write the contacts sheet; `known` has what the address book says, by role as it stands here."""
    page = book.page("Contacts", widths=(21, 24, 18, 18, 28, 40), landscape=True)
    put_letterhead(page, quote, "F", title="Contacts")
    page.put_row(5, _HEADERS, look.HEADER)
    for row, contact in enumerate(_contacts(quote, option), 6):
        page.put(f"A{row}", contact[0], _ROLE)
        page.put_row(row, _with_known(contact, known.get(contact[0])), _ENTRY, first="B")
        page.height(row, 26)
    page.footer(
        "Send it to the carrier before pickup. Personal data: give it to those only who need it for this shipment."
    )
    return page


_AT_THE_GATE = {True: "where the truck can stand", False: "who hands it over"}
_DRIVER = {True: "Truck and trailer number", False: "Licence or identity document; plate number"}


def _with_known(contact: Contact, details: Details | None) -> Details:
    """Return what stands beside a role: what the address book says, and where it says nothing what the sheet asks for."""
    asked = contact[1:]
    if details is None:
        return asked
    name, telephone, evening, mail, remarks = (told or was for told, was in zip(details, asked, strict=True))
    return name, telephone, evening, mail, remarks


def _contacts(quote: Quote, option: Option) -> tuple[Contact, ...]:
    dealer, carrier = quote.dealer, option.legs[0].carrier if option.legs else ""
    by_truck = is_tied_down(option)
    lien = any(vehicle.title == "lien" for vehicle in quote.vehicles)
    return (
        ("Office", dealer.name, dealer.phone, "", dealer.email, dealer.address),
        ("Sales", "", "", "", "", ""),
        ("Yard, at pickup", "", "", "", "", f"{quote.from_.name}: hours, gate, {_AT_THE_GATE[by_truck]}"),
        *((("Carrier's office", carrier, "", "", "", "USDOT number, MC number"),) if option.legs else ()),
        ("Driver" if option.legs else "Who collects it", "", "", "", "", _DRIVER[by_truck]),
        *((("Carrier's insurer", "", "", "", "", "Policy number, valid until"),) if option.legs else ()),
        *_at_sea(option),
        ("Buyer", quote.buyer, "", "", "", wording.place(quote.to)),
        ("Takes delivery", "", "", "", "", "If not the buyer: name, and a line from the buyer that allows it"),
        *((("Lender", "", "", "", "", "Who sends the release letter"),) if lien else ()),
    )


def _at_sea(option: Option) -> tuple[Contact, ...]:
    """Return whom a shipment by ship needs beside the truck."""
    sea = ship(option)
    if sea is None:
        return ()
    called = wording.called_on(option)
    return (
        ("Forwarder", "", "", "", "", "Who files the export; their number there"),
        (
            "Line",
            sea.carrier,
            "",
            "",
            "",
            f"{wording.sentence_case(called.carrier)} and voyage, booking number, {called.document} number",
        ),
        ("Terminal, loading", "", "", "", "", f"{wording.place(sea.from_)}: gate, hours, days off"),
        ("Marine insurer", "", "", "", "", "Policy number, agreed value, surveyor to call"),
        ("Terminal, arrival", "", "", "", "", f"{wording.place(sea.to)}: free days, storage"),
        ("Customs broker there", "", "", "", "", "Chosen and authorized by the buyer"),
        ("Notify party", "", "", "", "", "Whom the line notifies of the arrival"),
    )

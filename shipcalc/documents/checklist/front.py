"""The front sheet of a shipment: who, what, from where to where, when, and how it stands."""

from collections.abc import Mapping, Sequence
from datetime import date

from shipcalc.checklist.columns import MOMENTS_IN_WORDS
from shipcalc.checklist.items import Item
from shipcalc.documents import wording
from shipcalc.documents.checklist.last_version_sheet import moment_cell
from shipcalc.documents.checklist.sheet import column
from shipcalc.documents.pages.letterhead import put_letterhead
from shipcalc.documents.securing import is_tied_down
from shipcalc.quote.explain.stages import covered_in_words
from shipcalc.quote.model import Leg, Option, Quote, Window
from shipcalc.sheets import look
from shipcalc.sheets.writing import Book, Page, serial_day
from shipcalc.vehicles.vehicle import Vehicle

_DAY = look.STRONG.shown_as("ddd d mmm yyyy")
_COUNT = look.Style("Count", size=16, ink=look.ACCENT, align="left", number_format="0")

PRINTED = "Handover and Securing are for printing: one copy goes with the driver, one stays."
PRINTED_ALONE = "Handover is for printing: one copy goes with whoever takes the vehicle over, one stays."
SECURING = "Loading and securing are the carrier's responsibility, and local rules hold."
HOW_TO = (
    "Set the state of a line on the sheet Checklist to done or not needed; the figures here and on Papers follow.",
    "You may sort, move columns, add lines at the foot and write notes. Leave the ids and the sheet Last version as they are.",
    "shipcalc checklist read tells what is late and what comes next, joins several people's copies and writes the next version.",
    "A line is due no later than what waits for it. May slip says how many days are in hand.",
)
CAUTIONS = (
    "Pickup and delivery are windows, not appointments: weather, other stops and hours of service move them.",
    "Title and tax rules differ by state and change: ask the authority of the place.",
)


def put_front(
    book: Book,
    quote: Quote,
    option: Option,
    items: Sequence[Item],
    moments: Mapping[str, Window],
    today: date,
    references: Sequence[tuple[str, str]] = (),
) -> Page:
    """Write the front sheet; `moments` are the windows of the shipment's stages, `references` its numbers, by label."""
    page = book.page("Shipment", widths=(18, 19, 19, 19, 19))
    row = put_letterhead(page, quote, "E")
    title = f"{', '.join(vehicle.name for vehicle in quote.vehicles)} to {wording.place(quote.to)}"
    page.paragraph(row, "A:E", title, look.TITLE_WRAPPED)
    row = _put_windows(page, row + 2, option, moments)
    row = _put_standing(page, row + 1, items, today)
    row = _put_facts(page, row + 1, quote, option, references)
    carried = is_tied_down(option)
    mind = (*option.before_price, *option.warnings, *CAUTIONS, *([SECURING] if carried else []))
    row = _put_list(page, row + 1, "Mind", mind, look.CAUTION)
    how = (*HOW_TO, PRINTED if carried else PRINTED_ALONE)
    _put_list(page, row + 1, "How to use this workbook", how, look.TEXT)
    page.print_on(book.paper, pages_high=1)
    page.footer(f"{quote.dealer.name}  ·  {wording.reference(quote)}")
    return page


def _put_windows(page: Page, row: int, option: Option, moments: Mapping[str, Window]) -> int:
    """Write from when until when each moment may come; the days stand on the sheet Last version, where new ones are written."""
    page.put_row(row, ("", "", "from", "until"), look.HEADER)
    page.fill_style(f"E{row}:E{row}", look.HEADER)
    told = {step.stage: step.what for step in option.dates.timeline}
    for at, (stage, days) in enumerate(moments.items(), row + 1):
        page.put(f"A{at}", told.get(stage, MOMENTS_IN_WORDS[stage]), look.LABEL)
        for letter, day, last in zip("CD", days, (False, True), strict=True):
            page.put_formula(f"{letter}{at}", moment_cell(moments, stage, last=last), _DAY, shows=serial_day(day))
        page.height(at, 18)
    return row + len(moments) + 1


def _put_standing(page: Page, row: int, items: Sequence[Item], today: date) -> int:
    """Write how many lines are open, overdue, due today and done, and what comes next."""
    page.band(row, "A:E", "How it stands", look.HEADING)
    state, due = column("state", items), column("due", items)
    still = f'({state}="open")*({due}<>"")'
    open_items = [item for item in items if item.is_open]
    figures = (
        ("to do", f'COUNTIF({state},"open")', len(open_items)),
        ("overdue", f"SUMPRODUCT({still}*({due}<TODAY()))", sum(item.due < today for item in open_items)),
        ("due today", f"SUMPRODUCT({still}*({due}=TODAY()))", sum(item.due == today for item in open_items)),
        ("done", f'COUNTIF({state},"done")', sum(item.state == "done" for item in items)),
        ("not needed", f'COUNTIF({state},"not needed")', sum(item.state == "not needed" for item in items)),
    )
    for letter, (what, formula, shows) in zip("ABCDE", figures, strict=True):
        page.put_formula(f"{letter}{row + 1}", formula, _COUNT, shows=shows)
        page.put(f"{letter}{row + 2}", what, look.LABEL)
    page.highlight(f"B{row + 1}:B{row + 2}", f"$B${row + 1}>0", ink=look.CAUTION_INK, bold=True)
    page.height(row + 1, 26)
    return row + 3


def _put_facts(page: Page, row: int, quote: Quote, option: Option, references: Sequence[tuple[str, str]]) -> int:
    page.band(row, "A:E", "The shipment", look.HEADING)
    facts = [
        ("Reference", wording.reference(quote)),
        ("Buyer", quote.buyer or "see Contacts"),
        ("To", wording.place(quote.to)),
        ("Choice", f"{option.title}; {wording.term(option)}"),
        *((f"Way {number}", _way_line(leg, option)) for number, leg in enumerate(option.legs, 1)),
        ("Cover", f"{covered_in_words(option, quote.currency)}; as the rate book says, see the certificate"),
    ]
    facts += [(_label(quote, vehicle), _vehicle_line(vehicle)) for vehicle in quote.vehicles]
    facts += references
    for at, (label, text) in enumerate(facts, row + 1):
        page.put(f"A{at}", label, look.LABEL)
        page.paragraph(at, "B:E", text, look.TEXT, least_height=15)
    return row + len(facts) + 1


def _way_line(leg: Leg, option: Option) -> str:
    """Return one movement: from where to where, how far, how, and with whom."""
    return f"{wording.way(leg, option)} ({leg.carrier})"


def _label(quote: Quote, vehicle: Vehicle) -> str:
    return "Vehicle" if len(quote.vehicles) == 1 else f"Vehicle {vehicle.stock_number}"


def _vehicle_line(vehicle: Vehicle) -> str:
    works = ", ".join(
        f"does not {word}"
        for word, holds in (("run", vehicle.runs), ("roll", vehicle.rolls), ("steer", vehicle.steers))
        if not holds
    )
    parts = (
        vehicle.name,
        f"stock number {vehicle.stock_number}",
        f"serial number {vehicle.serial}" if vehicle.serial else "",
        f"title: {vehicle.title}",
        works or "runs, rolls and steers",
        "" if vehicle.brakes else "no brakes",
    )
    return ", ".join(part for part in parts if part)


def _put_list(page: Page, row: int, heading: str, lines: Sequence[str], style: look.Style) -> int:
    page.band(row, "A:E", heading, look.HEADING)
    for at, line in enumerate(lines, row + 1):
        page.paragraph(at, "A:E", line, style)
    return row + len(lines) + 1

"""A sheet to look over how a vehicle is tied down: the count and the strength of the tie-downs, by formula.

49 CFR 393.128 (cars, light trucks and vans of up to 10,000 lb): at least two tie-downs in front and two behind. 49 CFR
393.106(d): the working load limits together are at least half the weight; a tie-down from the trailer to the vehicle counts
half its limit, one that goes over or around and back to the other side counts whole.
"""

from shipcalc.documents.pages.letterhead import put_letterhead
from shipcalc.documents.securing import CAUTIONS, HEAVIEST_LB, SOURCE
from shipcalc.measures import grams_to_pounds
from shipcalc.quote.model import Quote
from shipcalc.sheets import look
from shipcalc.sheets.writing import Book, Page
from shipcalc.vehicles.vehicle import Vehicle

ENDS = ("front", "rear")
WAYS = ("direct", "over")
_TIE_DOWNS = 8
_STARTS = ("front", "front", "rear", "rear")

_ENTRY = look.Style("Entry", size=10, below="hair", ground=look.ENTRY_WASH)
_ENTRY_FIGURE = look.Style(
    "Entry, figure", size=10, align="right", below="hair", ground=look.ENTRY_WASH, number_format="#,##0"
)
_FIGURE = look.Style("Counted", size=10, align="right", below="hair", number_format="#,##0")
_LINE = look.Style("Tie-down", size=10, ink=look.GREY, below="hair")
_VERDICT = look.Style("Verdict", size=11, bold=True, ink=look.ACCENT, indent=1)
_REMARK = look.Style("Remark", size=9, ink=look.GREY, indent=1)


def put_securing(book: Book, quote: Quote, vehicle: Vehicle) -> Page:
    """Write the securing sheet of one vehicle."""
    several = len(quote.vehicles) > 1
    name = f"Securing {vehicle.stock_number}" if several else "Securing"
    page = book.page(name, widths=(16, 16, 16, 22, 22))
    put_letterhead(page, quote, "E", title=f"Securing: {vehicle.name}")
    first = _put_weight(page, vehicle)
    last = _put_tie_downs(page, first)
    _put_verdict(page, first, last, vehicle)
    row = last + 9
    page.put(f"A{row}", "Checked by, day, time", look.LABEL)
    page.fill_style(f"C{row}:E{row}", look.ENTRY)
    page.height(row, 24)
    for at, text in enumerate(CAUTIONS, row + 2):
        page.paragraph(at, "A:E", text, look.CAUTION)
    page.paragraph(row + 2 + len(CAUTIONS), "A:E", SOURCE, look.SMALL)
    return page


def _put_weight(page: Page, vehicle: Vehicle) -> int:
    pounds = None if vehicle.mass_grams is None else grams_to_pounds(vehicle.mass_grams)
    page.put("A6", "Weight of the vehicle (lb)", look.BODY)
    page.put("C6", pounds, _ENTRY_FIGURE)
    if pounds is None:
        told = "not known: read it off the papers or weigh it"
    else:
        told = "typical for the body, not weighed" if "mass_grams" in vehicle.assumed else "from the stock list"
    page.put("D6", told, _REMARK)
    page.put_row(8, ("Tie-down", "At which end", "Limit (lb)", "How", "Counts (lb)"), look.HEADER)
    return 9


def _put_tie_downs(page: Page, first: int) -> int:
    last = first + _TIE_DOWNS - 1
    for number, row in enumerate(range(first, last + 1)):
        end = _STARTS[number] if number < len(_STARTS) else ""
        page.put(f"A{row}", number + 1, _LINE)
        page.put(f"B{row}", end, _ENTRY)
        page.put(f"C{row}", None, _ENTRY_FIGURE)
        page.put(f"D{row}", "direct" if end else "", _ENTRY)
        page.put_formula(
            f"E{row}", f'IF(D{row}="over",1,IF(D{row}="direct",0.5,0))*IF(ISNUMBER(C{row}),C{row},0)', _FIGURE, shows=0
        )
        page.height(row, 18)
    page.drop_down(f"B{first}:B{last}", ENDS, message="Choose front or rear.")
    page.drop_down(f"D{first}:D{last}", WAYS, message="Choose direct (counts half) or over (counts whole).")
    page.note(
        "D8", "direct: from the trailer to the vehicle, counts half. over: over or around and back, counts whole."
    )
    return last


def _put_verdict(page: Page, first: int, last: int, vehicle: Vehicle) -> None:
    row = last + 2
    ends, limits, counts = f"$B${first}:$B${last}", f"$C${first}:$C${last}", f"$E${first}:$E${last}"
    half_lb = "" if vehicle.mass_grams is None else grams_to_pounds(vehicle.mass_grams) / 2
    lines = (
        (
            "Tie-downs in front",
            f'SUMPRODUCT(({ends}="front")*ISNUMBER({limits})*({limits}>0))',
            0,
            f'IF(C{row}>=2,"enough","at least 2")',
        ),
        (
            "Tie-downs behind",
            f'SUMPRODUCT(({ends}="rear")*ISNUMBER({limits})*({limits}>0))',
            0,
            f'IF(C{row + 1}>=2,"enough","at least 2")',
        ),
        (
            "Limits that count (lb)",
            f"SUM({counts})",
            0,
            f'IF(N(C6)<=0,"weight?",IF(C{row + 2}>=C{row + 3},"enough","too weak"))',
        ),
        ("Half the weight (lb)", 'IF(N(C6)>0,C6/2,"")', half_lb, f'IF(N(C6)>{HEAVIEST_LB},"other rules: 393.130","")'),
    )
    shown = ("at least 2", "at least 2", "weight?" if half_lb == "" else "too weak", "")
    for at, ((label, formula, shows, verdict), told) in enumerate(zip(lines, shown, strict=True), row):
        page.put(f"A{at}", label, look.BODY)
        page.put_formula(f"C{at}", formula, _FIGURE, shows=shows)
        page.put_formula(f"D{at}", verdict, _VERDICT, shows=told)
        page.height(at, 18)
    page.highlight(f"D{row}:D{row + 3}", f'AND(D{row}<>"enough",D{row}<>"")', ink=look.CAUTION_INK, bold=True)
    page.put(f"A{row + 4}", "All of it together", look.STRONG)
    page.put_formula(
        f"C{row + 4}",
        f'IF(AND(D{row}="enough",D{row + 1}="enough",D{row + 2}="enough",D{row + 3}=""),"enough by this sheet","not enough yet")',
        _VERDICT,
        shows="not enough yet",
    )

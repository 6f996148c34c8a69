"""Made-up mails built cell by cell, and what is understood of them, told in short."""

from openpyxl import Workbook
from openpyxl.styles import Font

from shipcalc.ratebook.taking.answers import Answers
from shipcalc.ratebook.taking.around import Known
from shipcalc.ratebook.taking.page import read_mail
from shipcalc.ratebook.taking.understanding import understand


def workbook(path, rows, *, merged=(), formats=None, struck=(), more=None):
    """Write an Excel file whose first sheet has these rows; `more` are further sheets by name."""
    book = Workbook()
    page = book.active
    page.title = "Rates"
    for row in rows:
        page.append(list(row))
    for area in merged:
        page.merge_cells(area)
    for cell, code in (formats or {}).items():
        page[cell].number_format = code
    for cell in struck:
        page[cell].font = Font(strike=True)
    for name, own in (more or {}).items():
        sheet = book.create_sheet(name)
        for row in own:
            sheet.append(list(row))
    book.save(path)
    return path


def understood(path, *, carrier="", answers=None, known=None):
    """Return what is understood of a file."""
    return understand(read_mail(path), Answers(answers or {}), known or Known(), carrier=carrier)


def told(rate):
    """Return a lane's price as: cell, trailer, from, to, price."""
    price = rate.flat if rate.flat is not None else f"{rate.per_mile.normalize():f}/mi"
    start, end = (one.text if one else "" for one in (rate.start, rate.end))
    return (rate.where.removeprefix("Rates!"), rate.trailer, start, end, str(price).removesuffix(".0"))


def lanes(path, **given):
    """Return the prices of a file, told in short, and its open questions by key."""
    found = understood(path, **given)
    return [told(rate) for rate in found.rates], [question.key for question in found.questions]

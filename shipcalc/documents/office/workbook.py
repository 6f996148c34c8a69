"""`quote-office.xlsx`: what the buyer pays beside what it costs, who carries it, where every rate stands, who was left out."""

from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.documents import wording
from shipcalc.documents.notes import Notes, notes
from shipcalc.documents.offer.landing import exchange_told
from shipcalc.documents.offer.sentences import phone_script
from shipcalc.documents.office.legs import put_legs
from shipcalc.documents.office.lines import PERCENT, OfficeCells, cost_of, put_office_lines
from shipcalc.documents.pages.letterhead import put_opening
from shipcalc.money import decimals
from shipcalc.quote.model import Option, Quote
from shipcalc.sheets import look
from shipcalc.sheets.paging import between, flow
from shipcalc.sheets.writing import Book, Page, Paper

if TYPE_CHECKING:
    from shipcalc.documents.buyer.language import Translated

_WIDTHS = (52, 18, 18, 18, 12, 20, 14, 25)
_LAST = "H"
_CHOICE_COLUMNS = ("Buyer pays", "Cost", "Margin", "of price", "Buyer's file says", "Differs by", "Carrier")


def write_office_workbook(
    quote: Quote, path: Path, *, paper: Paper = "letter", translation: "Translated | None" = None
) -> None:
    """Write the office's workbook of a whole quote, with how the buyer's offer was translated.

    Raises WrongInput where the file cannot be written.
    """
    book = Book(
        title=f"For the office: {wording.headline(quote)}",
        subject=wording.reference(quote),
        creator=quote.dealer.name,
        accent=quote.dealer.accent,
        made=quote.as_of,
        paper=paper,
    )
    page = book.page("Overview", widths=_WIDTHS, landscape=True)
    _fill_overview(page, quote, put_office_lines(book, quote), translation)
    book.save(path)


def _fill_overview(page: Page, quote: Quote, cells: Sequence[OfficeCells], translation: "Translated | None") -> None:
    buyer = f"For {quote.buyer}.  " if quote.buyer else ""
    terms = ", ".join(dict.fromkeys(wording.term(option) for option in quote.options if option.term))
    told = (
        f"{buyer}Good until {wording.long_day(quote.valid_until)}.  Amounts in {wording.currency_name(quote.currency)}.  "
        f"Delivery term: {terms} (Incoterms 2020)."
    )
    foot, starts = "For the office only", [1]
    row = put_opening(page, quote, _LAST, wording.headline(quote), told, foot=foot, office=True)
    if translation is not None:
        row = _sentences(page, row, Notes("Before the offer is sent", (translation.told,)), look.CAUTION)
    row = _choices(page, quote, cells, row)
    starts.append(row)
    row = _sentences(page, row, Notes("To say on the telephone", phone_script(quote, quote.recommended)), look.TEXT)
    if any(option.legs for option in quote.options):
        starts.append(row)
        row = put_legs(page, quote, _heading(page, row, "How they travel", ("", "", "How far", "", "Carried by")))
    starts.append(row)
    row = _in_hand(page, quote, row)
    starts.append(row)
    row = _when_it_happens(page, quote, row)
    starts.append(row)
    row = _to_check(page, quote, row)
    starts.append(row)
    row = _heading(page, row, "Where the prices come from")
    for label, text in _rate_book(quote):
        page.put(f"A{row}", label, look.TEXT)
        row = page.paragraph(row, f"B:{_LAST}", text, look.TEXT)
    starts.append(row)
    row = _left_out(page, quote, row)
    for subject, style in (("assumed", look.TEXT), ("noted", look.CAUTION)):
        starts.append(row)
        row = _sentences(page, row, notes(subject, quote), style)
    if translation is not None:
        starts.append(row)
        row = _sentences(page, row, Notes("What stayed English in the buyer's offer", translation.english), look.TEXT)
    flow(page, f"A:{_LAST}", [[block] for block in between(starts, row)], percent=PERCENT, landscape=True)


def _choices(page: Page, quote: Quote, cells: Sequence[OfficeCells], row: int) -> int:
    """Write price, cost and margin of the choices, and whether the lines add up to what the buyer was told."""
    row = _heading(page, row, "The choices", _CHOICE_COLUMNS)
    amounts = look.money_format(decimals(quote.currency))
    for index, (option, at) in enumerate(zip(quote.options, cells, strict=True)):
        mark = "  (recommended)" if index == quote.recommended else ""
        name = f"{wording.choice_name(index)}  ·  {option.title}{mark}"
        page.paragraph(row, "A", name, _NAME, least_height=17)
        cost = total_cost(option, quote)
        margin = option.total - cost
        for column, formula, shows in (("B", at.total, option.total), ("C", at.cost, cost), ("D", at.margin, margin)):
            page.put_formula(f"{column}{row}", formula, _FIGURE, amounts, shows=shows)
        share = margin / option.total if option.total else ""
        page.put_formula(f"E{row}", at.share, _FIGURE, look.PERCENT, shows=share)
        page.put(f"F{row}", option.total, _FIGURE, amounts)
        page.put_formula(f"G{row}", f"B{row}-F{row}", _FIGURE, amounts, shows=Decimal(0))
        carriers = wording.listed(list(dict.fromkeys(leg.carrier for leg in option.legs)))
        carriers = f"{carriers} ({wording.in_hand(option)})" if option.in_hand else carriers
        row = page.paragraph(row, "H", carriers, _CARRIER)
    page.highlight(f"G{row - len(cells)}:G{row - 1}", f"G{row - len(cells)}<>0", ink=look.CAUTION_INK,
                   ground=look.CAUTION_WASH, bold=True)  # fmt: skip
    told = "The buyer's file holds the same lines with the same formulas; a difference above means that a cell was changed."
    page.paragraph(row, f"A:{_LAST}", told, look.SMALL)
    return row + 1


def total_cost(option: Option, quote: Quote) -> Decimal:
    """Return what the lines that the total covers cost the dealer."""
    covered = (charge for charge in option.charges if charge.payer == "seller")
    return sum((cost_of(charge, quote).amount for charge in covered), Decimal(0))


def _when_it_happens(page: Page, quote: Quote, row: int) -> int:
    """Write what the carriers ask for what may happen, which no price holds: once, with the choices that it is asked with."""
    each = [
        [wording.when_it_happens(one, quote.currency) for one in option.when_it_happens] for option in quote.options
    ]
    told = tuple(wording.by_choice(each))
    return _sentences(page, row, Notes("What the carriers ask when it happens", told), look.TEXT)


def _to_check(page: Page, quote: Quote, row: int) -> int:
    """Write which facts of the sums to look up before they are promised, once, with the choices that rest on them."""
    told = tuple(wording.by_choice([list(option.to_check) for option in quote.options]))
    return _sentences(page, row, Notes("To look up before it is promised", told), look.CAUTION)


def _in_hand(page: Page, quote: Quote, row: int) -> int:
    """Write the prices in hand: whose, what they cost, until when they hold, and what is to be settled before one is promised."""
    held = [(index, option) for index, option in enumerate(quote.options) if option.in_hand]
    if not held:
        return row
    row = _heading(page, row, "Prices in hand")
    for index, option in held:
        assert option.in_hand is not None, "only those are listed"
        amount = option.in_hand.amount
        cost = f", {wording.money(amount, quote.currency)}" if amount is not None else ""
        page.put(f"A{row}", wording.choice_name(index), look.TEXT)
        row = page.paragraph(
            row, f"B:{_LAST}", f"{wording.sentence_case(wording.in_hand_from(option))}{cost}", look.TEXT
        )
        for sentence in option.in_hand.to_check:
            row = page.paragraph(row, f"B:{_LAST}", sentence, look.CAUTION)
    return row


def _rate_book(quote: Quote) -> list[tuple[str, str]]:
    stamp = quote.rate_book
    ends = [wording.day(when) if when else "open" for when in (stamp.valid_from, stamp.valid_to)]
    return [
        ("Rate book, fingerprint", stamp.fingerprint),
        ("Rate book, valid", f"{ends[0]} to {ends[1]}"),
        ("Quote made on", f"{wording.long_day(quote.as_of)} with {quote.program}"),
        ("Recommended because", quote.reason),
        *_exchange(quote),
    ]


def _exchange(quote: Quote) -> list[tuple[str, str]]:
    if quote.exchange is None:
        return []
    source = f" ({quote.exchange.source})" if quote.exchange.source else ""
    return [("Buyer's currency", f"{exchange_told(quote)}{source}")]


def _left_out(page: Page, quote: Quote, row: int) -> int:
    """Write the carriers, containers and ports that could not be offered, and why."""
    if not quote.left_out:
        return row
    row = _heading(page, row, "Left out, and why")
    for entry in quote.left_out:
        name = wording.left_out(entry)
        page.put(f"A{row}", name, look.TEXT)
        page.paragraph(row, f"B:{_LAST}", wording.sentence_case(entry.reason), look.TEXT)
        page.fit_height(row, "A", name, look.TEXT)
        row += 1
    return row


def _sentences(page: Page, row: int, told: Notes, style: look.Style) -> int:
    if not told.sentences:
        return row
    row = _heading(page, row, told.title)
    for sentence in told.sentences:
        row = page.paragraph(row, f"A:{_LAST}", sentence, style)
    return row


def _heading(page: Page, row: int, title: str, columns: Sequence[str] = ()) -> int:
    """Write a heading across the page, perhaps with the names of columns; return the first row under it."""
    under = page.heading(row, f"A:{_LAST}", title, above=10)
    for column, word in zip("BCDEFGH", columns, strict=False):
        page.put(f"{column}{row + 1}", word, _COLUMN_WORDS if word.startswith("Carrie") else _COLUMN)
    return under


_NAME = look.Style("Choice, name", wrap=True, upright="top")
_FIGURE = look.Style("Overview, figure", align="right", upright="top")
_CARRIER = look.Style("Overview, carrier", wrap=True, upright="top", indent=1)
_COLUMN = look.Style("Overview, column", size=9, ink=look.GREY, align="right", upright="bottom", below="thin",
                     rule_ink=look.ACCENT)  # fmt: skip
_COLUMN_WORDS = look.Style("Overview, column of words", size=9, ink=look.GREY, upright="bottom", below="thin",
                           rule_ink=look.ACCENT, indent=1)  # fmt: skip

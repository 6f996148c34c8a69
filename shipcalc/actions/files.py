"""Files of a quote: the buyer's PDF, workbook and message, the office's workbook, the checklist, and the data of them all."""

from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput, asked, why
from shipcalc.files import read_file
from shipcalc.languages.known import ENGLISH
from shipcalc.quote.model import Quote
from shipcalc.records import dataclass
from shipcalc.settings import Paper, Settings

if TYPE_CHECKING:
    from shipcalc.checklist.items import Item
    from shipcalc.documents.buyer.language import Translated
    from shipcalc.documents.letter import Letter
    from shipcalc.documents.logo import Logo
    from shipcalc.languages.reader import Reader
    from shipcalc.quote.model import Option

# What may be sent as it is stands in a folder of its own, so that nothing of the office's is ever sent with it.
BUYER_FOLDER, OFFICE_FOLDER = "buyer", "office"
PDF_FILE = f"{BUYER_FOLDER}/quote.pdf"
BUYER_FILE = f"{BUYER_FOLDER}/quote.xlsx"
MESSAGE_FILE = f"{BUYER_FOLDER}/message.txt"
HTML_FILE = f"{BUYER_FOLDER}/message.html"
MAIL_FILE = f"{BUYER_FOLDER}/message.eml"
CHECKLIST_NAME = "checklist.xlsx"
CALENDAR_NAME = "checklist.ics"
TO_PRINT_NAME = "checklist-to-print.pdf"
DATA_NAME = "quote.json"
OFFICE_FILE = f"{OFFICE_FOLDER}/quote-office.xlsx"
CHECKLIST_FILE = f"{OFFICE_FOLDER}/{CHECKLIST_NAME}"
CALENDAR_FILE = f"{OFFICE_FOLDER}/{CALENDAR_NAME}"
TO_PRINT_FILE = f"{OFFICE_FOLDER}/{TO_PRINT_NAME}"
DATA_FILE = f"{OFFICE_FOLDER}/{DATA_NAME}"
_WRITTEN = (
    PDF_FILE,
    BUYER_FILE,
    MESSAGE_FILE,
    HTML_FILE,
    MAIL_FILE,
    OFFICE_FILE,
    CHECKLIST_FILE,
    TO_PRINT_FILE,
    CALENDAR_FILE,
    DATA_FILE,
)
LONGEST_NAME = 80


@dataclass(frozen=True, slots=True)
class Written:
    """The files that were written, and what is to be known before one is sent."""

    files: tuple[Path, ...] = ()
    remarks: tuple[str, ...] = ()


def write_files(
    quote: Quote,
    folder: Path,
    *,
    paper: Paper,
    option: int | None = None,
    all_choices: bool = False,
    photos: Path | None = None,
    logo: Path | None = None,
    language: str = ENGLISH,
) -> Written:
    """Write all files of a quote into `folder`, the buyer's and the office's apart.

    Checklist and calendar are for `option`, else the recommended one. The buyer's workbook has the recommended one line by
    line, and `option` or, with `all_choices`, each of them on a sheet of its own. `photos` is the folder of the stock list,
    where its pictures are; `logo` is the file of the dealer's; `language` is that of `quote.pdf` and the message; the
    office's workbook says where it is not English. All files of a former quote in the folder give way in one move, or none
    does; what else stands in it stays. Raises WrongInput where the folder cannot be written, and where somebody has worked in
    the checklist that stands in it.
    """
    from shipcalc.sheets.whole_set import whole_set

    check_not_worked_in(folder / CHECKLIST_FILE)
    with whole_set(folder, _WRITTEN) as beside:
        remarks = _write_all(
            quote,
            beside,
            paper=paper,
            chosen=quote.recommended if option is None else option,
            all_choices=all_choices,
            photos=photos,
            logo=logo,
            language=language,
        )
        check_not_worked_in(folder / CHECKLIST_FILE)
    return Written(tuple(folder / name for name in _WRITTEN), remarks)


def _write_all(
    quote: Quote,
    folder: Path,
    *,
    paper: Paper,
    chosen: int,
    all_choices: bool,
    photos: Path | None,
    logo: Path | None,
    language: str,
) -> tuple[str, ...]:
    """Write all files into a folder, and return what is to be known before one is sent."""
    from shipcalc.checklist.making import checklist
    from shipcalc.documents.buyer.mail import mail_bytes
    from shipcalc.documents.buyer.workbook import write_buyer_workbook
    from shipcalc.documents.checklist.workbook import write_checklist_workbook
    from shipcalc.documents.letter import as_html, as_text
    from shipcalc.documents.logo import as_png, read_logo
    from shipcalc.documents.office.workbook import write_office_workbook
    from shipcalc.quote.as_data import quote_to_json
    from shipcalc.quote.buyer import for_buyer
    from shipcalc.sheets.saving import save

    shown = read_logo(logo)
    # The data go first: a folder that cannot be written is told before the slower workbooks are made.
    save(folder / DATA_FILE, quote_to_json(quote).encode() + b"\n")
    pdf, letter, translation = _offer(quote, photos, shown, language)
    save(folder / MESSAGE_FILE, as_text(letter).encode())
    small = None if shown is None else as_png(shown)
    save(folder / HTML_FILE, as_html(letter, logo=small).encode())
    save(folder / MAIL_FILE, mail_bytes(letter, quote.dealer, quote.as_of, pdf=pdf, logo=small))
    save(folder / PDF_FILE, pdf)
    itemised = range(len(quote.options)) if all_choices else (chosen,)
    write_buyer_workbook(
        for_buyer(quote), folder / BUYER_FILE, choices=itemised, paper=paper, photos=photos, logo=small
    )
    write_office_workbook(quote, folder / OFFICE_FILE, paper=paper, translation=translation)
    write_checklist_workbook(quote, chosen, folder / CHECKLIST_FILE, paper=paper, logo=shown)
    option_taken = quote.options[chosen]
    write_first_calendar(quote, option_taken, checklist(quote, option_taken), folder / CALENDAR_FILE)
    return () if translation is None else (translation.told,)


def _offer(
    quote: Quote, photos: Path | None, logo: "Logo | None", language: str
) -> "tuple[bytes, Letter, Translated | None]":
    """Return the buyer's offer and the message in a language, and what there is to say of the translation."""
    from shipcalc.documents.buyer.pdf import quote_pdf

    reader = reader_for(quote, language)
    letter = offer_letter(quote, reader)
    pdf = quote_pdf(quote, photos=photos, logo=logo, reader=reader)
    if reader is None:
        return pdf, letter, None
    from shipcalc.documents.buyer.language import translated

    return pdf, letter, translated(reader)


def reader_for(quote: Quote, language: str) -> "Reader | None":
    """Return the buyer as a reader of a language; None for English, which takes no catalogue."""
    if language == ENGLISH:
        return None
    from shipcalc.documents.buyer.language import reader_of  # late: only another language takes babel

    return reader_of(quote, language)


def offer_letter(quote: Quote, reader: "Reader | None") -> "Letter":
    """Return the message that goes with the offer, in the reader's language."""
    from shipcalc.documents.buyer.message import message_letter

    letter = message_letter(quote)
    if reader is None:
        return letter
    from shipcalc.documents.letter_said import letter_said

    return letter_said(letter, reader)


def spoken_language(language: str, quote: Quote, settings: Settings) -> str:
    """Return the language of a quote's offer: the one that was asked for, else that of the buyer's country by the settings.

    Raises WrongInput where there is no catalogue of it.
    """
    from shipcalc.languages.known import language_meant

    if language.strip() or not settings.languages:
        return language_meant(language)
    from shipcalc.languages.countries import language_of

    return language_of(quote.to.country, settings.languages)


def write_first_calendar(quote: Quote, option: "Option", items: "tuple[Item, ...]", calendar: Path) -> None:
    """Write the calendar of a checklist as it is first dated; what is written after a yes has the same entries."""
    from shipcalc.checklist.making import gates, shipment_key
    from shipcalc.documents.checklist.calendar import calendar_bytes
    from shipcalc.documents.checklist.workbook import checklist_title
    from shipcalc.sheets.saving import save

    key, title, moments = shipment_key(quote, option), checklist_title(quote), gates(quote, option)
    save(calendar, calendar_bytes(items, moments, key=key, title=title, version=1, written_on=quote.as_of))


def check_not_worked_in(checklist: Path) -> None:
    """Raise WrongInput where somebody has saved the checklist that is to be written over: its ticks would be lost."""
    from shipcalc.sheets.packing import was_saved_by_others

    if was_saved_by_others(checklist):
        raise WrongInput(
            "somebody has worked in this checklist, and it would be written over",
            where=str(checklist),
            remedy=f"name another folder with {asked('out')}",
        )


def read_quote(file: Path) -> Quote:
    """Return the quote that `quote --out` or `quote --json` saved. Raises WrongInput where the file is none."""
    from shipcalc.quote.as_data import quote_from_json

    try:
        content = read_file(file)
    except OSError as error:
        raise WrongInput(
            f"cannot be read ({why(error)})", where=str(file), remedy=f"name the {DATA_NAME} of a quote"
        ) from None
    return quote_from_json(content, where=str(file))


def option_index(quote: Quote, choice: int | None) -> int:
    """Return the index of a choice as people count them, from 1 on; None is the recommended one."""
    if choice is None:
        return quote.recommended
    if not 1 <= choice <= len(quote.options):
        raise WrongInput(
            f"there is no choice {choice}",
            where=asked("choice"),
            remedy=f"the quote has choices 1 to {len(quote.options)}",
        )
    return choice - 1


def folder_name(quote: Quote) -> str:
    """Return a folder name for a quote's files that every system allows: `2026-12-01 B-104 to Madison WI 53703`.

    A kept quote has its number in place of the day, and a revision of it a folder of its own.
    """
    stock_numbers = " and ".join(vehicle.stock_number for vehicle in quote.vehicles[:3])
    place = f"{quote.to.name} {quote.to.subdivision} {quote.to.postal_code}"
    known_by = f"{quote.number} r{quote.revision}" if (quote.revision or 1) > 1 else quote.number or quote.as_of
    return plain_name(f"{known_by} {stock_numbers} to {place}")


def plain_name(text: str) -> str:
    """Return a name for a file or a folder that every system allows: letters, digits, blanks and dashes."""
    kept = "".join(letter if letter.isalnum() or letter in " -_" else " " for letter in text)
    return " ".join(kept.split())[:LONGEST_NAME].strip() or "unnamed"

"""Take rates from a carrier's or forwarder's mail into a copy of the rate book, beside what is there."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path

from shipcalc.actions.editions import copy_rates
from shipcalc.errors import WrongInput, asked
from shipcalc.ratebook.drafting import Draft as RatesDraft
from shipcalc.ratebook.drafting import draft_of
from shipcalc.ratebook.editions import has_workbooks
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.ratebook.taking.answers import Answers
from shipcalc.ratebook.taking.around import Known
from shipcalc.ratebook.taking.page import Mail, read_mail
from shipcalc.ratebook.taking.placing import Placed, beside_without_day, ended_rows, letters_of, next_row, placed_rows
from shipcalc.ratebook.taking.rate import LeftOut, Question
from shipcalc.ratebook.taking.remembered import keep_answers, kept_answers, shape_of
from shipcalc.ratebook.taking.targets import TARGETS, Prepared, prepared
from shipcalc.ratebook.taking.understanding import Understood, understand
from shipcalc.ratebook.workbook.columns import columns_of
from shipcalc.records import dataclass
from shipcalc.sheets.editing import Draft, open_draft
from shipcalc.sheets.reading import letter, read_workbook
from shipcalc.sheets.saving import save


@dataclass(frozen=True, slots=True, kw_only=True)
class Taking:
    """What would be written: the mail as it was understood, each row beside the rate book's, the questions still open.

    `book` is the rate book that it was compared with, `answers` are all that were used, those of last time too.
    """

    mail: Mail
    book: Path
    currency: str
    understood: Understood
    placed: tuple[Placed, ...]
    left_out: tuple[LeftOut, ...]
    unknown_carriers: tuple[str, ...]
    answers: Answers
    shape: str
    remembered: Answers

    @property
    def questions(self) -> tuple[Question, ...]:
        """Return what must be answered before anything is written."""
        return self.understood.questions


@dataclass(frozen=True, slots=True)
class Written:
    """What was written: the copy, its workbooks, how many rows were new, changed and the same; where answers are kept."""

    folder: Path
    files: tuple[Path, ...]
    new: int
    changed: int
    same: int
    ended: int
    answers: Path | None


def take_rates(mail: Mail, book: Path, *, answers: Answers, carrier: str = "", sheet: str = "") -> Taking:
    """Return what a mail says, beside the rate book in the folder `book`. Raises WrongInput where that is none."""
    if not has_workbooks(book):
        raise WrongInput("there is no trucking.xlsx in it", where=str(book), remedy="name the folder of a rate book")
    if sheet and sheet not in TARGETS:
        raise WrongInput(
            f"no prices are taken into a sheet {sheet}", where=asked("as"), remedy=f"it can be {' or '.join(TARGETS)}"
        )
    draft = draft_of(book)
    known = _known(draft)
    currency = known.currency
    first = understand(mail, answers, known, carrier=carrier)
    shape = shape_of(first.head, first.headers, carrier)
    remembered = kept_answers(shape)
    told = answers.over(remembered)
    understood = understand(mail, told, known, carrier=carrier) if told != answers else first
    rows: list[Prepared] = []
    left = list(understood.left_out)
    for rate in understood.rates:
        row = prepared(rate, mail.name, currency)
        if isinstance(row, LeftOut):
            left.append(row)
        elif not sheet or row.target.sheet == sheet:
            rows.append(row)
    rows, other = _in_carriers_currency(rows, known)
    left += other
    placed = tuple(_beside(book, rows, currency))
    left += _staying_beside(book, placed, currency)
    return Taking(
        mail=mail,
        book=book,
        currency=currency,
        understood=understood,
        placed=placed,
        left_out=tuple(left),
        unknown_carriers=tuple(_not_on_carriers(rows, draft.tables.carriers)),
        answers=told,
        shape=shape,
        remembered=remembered,
    )


def write_taken(taking: Taking, into: Path, *, today: date) -> Written:
    """Write the rows of a mail into the rate book in the folder `into`, a copy that is made where it is not there yet."""
    assert not taking.questions, "what is open is asked first"
    if not into.exists():
        copy_rates(taking.book, into, today=today)
    files = []
    for workbook, kinds in WORKBOOKS.items():
        for kind in kinds:
            mine = [one for one in taking.placed if one.prepared.target.sheet == kind.name and one.status != "same"]
            if mine:
                _write(into / workbook, kind, mine, taking.currency)
                files.append(into / workbook)
    counts = {status: sum(one.status == status for one in taking.placed) for status in ("new", "changed", "same")}
    about = f"answers to the rates of {taking.understood.sender or taking.mail.name}"
    kept = keep_answers(taking.shape, taking.answers, about=about)
    ended = sum(1 for _ in ended_rows(taking.placed))
    return Written(into, tuple(dict.fromkeys(files)), counts["new"], counts["changed"], counts["same"], ended, kept)


def read_mail_of(path: Path) -> Mail:
    """Read a mail's file. Raises WrongInput where nothing can be read of it."""
    return read_mail(path)


def _known(draft: RatesDraft) -> Known:
    tables = draft.tables
    names = frozenset(area.area.casefold() for area in tables.areas)
    carriers = dict.fromkeys(row.carrier for row in tables.carriers)
    own = draft.rules.currency
    currencies = {row.carrier.casefold(): row.currency or own for row in tables.carriers}
    return Known(currency=own, carriers=tuple(carriers), names=names, currencies=currencies)


def _in_carriers_currency(rows: Sequence[Prepared], known: Known) -> tuple[list[Prepared], list[LeftOut]]:
    """Return the rows that stand on their sheet in their own currency, and why others cannot: bands are in their carrier's."""
    kept: list[Prepared] = []
    left: list[LeftOut] = []
    for row in rows:
        carrier, currency = row.rate.carrier, row.rate.currency
        own = known.currencies.get(carrier.casefold(), "")
        if row.target.sheet != "Per mile" or currency == (own or known.currency):
            kept.append(row)
        elif own:
            why = f"is in {currency}, and the prices a mile of {carrier} are in {own}, as the sheet Carriers says"
            left.append(LeftOut(row.rate.where, "", why))
        else:
            kept.append(row)
            why = f"is in {currency}: the new row of {carrier} on the sheet Carriers must say so"
            left.append(LeftOut(row.rate.where, "", why, is_taken=True))
    return kept, left


def _staying_beside(book: Path, placed: Sequence[Placed], currency: str) -> Iterator[LeftOut]:
    """Yield the earlier rows of a tariff whose new rows say no day from which they hold."""
    for workbook, kinds in WORKBOOKS.items():
        for kind in kinds:
            mine = [one for one in placed if one.prepared.target.sheet == kind.name]
            file = book / workbook
            if mine and mine[0].prepared.target.together and file.is_file():
                cells = beside_without_day(mine, read_workbook(file).find_sheet(kind.name), currency)
                if cells:
                    why = f"{len(cells)} earlier rows of the tariff stay: the mail says no first day; end them by hand"
                    yield LeftOut(cells[0], "", why, is_taken=True)


def _not_on_carriers(rows: Sequence[Prepared], carriers: Sequence[Carrier]) -> Iterator[str]:
    """Yield the carriers of lanes, with their trailers, that have no row on the sheet Carriers."""
    known = {(row.carrier.casefold(), row.trailer) for row in carriers}
    known |= {(row.carrier.casefold(), "") for row in carriers}
    lanes = dict.fromkeys(
        (row.rate.carrier, row.rate.trailer) for row in rows if row.target.sheet in ("Lanes", "Per mile")
    )
    missing: dict[str, list[str]] = {}
    for carrier, trailer in lanes:
        if (carrier.casefold(), trailer) not in known:
            missing.setdefault(carrier, []).append(trailer)
    for carrier, trailers in missing.items():
        yield f"{carrier} ({', '.join(trailer for trailer in trailers if trailer) or 'any trailer'})"


def _beside(book: Path, rows: Sequence[Prepared], currency: str) -> Iterator[Placed]:
    for workbook, kinds in WORKBOOKS.items():
        for kind in kinds:
            mine = [row for row in rows if row.target.sheet == kind.name]
            if mine:
                file = book / workbook
                sheet = read_workbook(file).find_sheet(kind.name) if file.is_file() else None
                yield from placed_rows(mine, sheet, kind, currency)


def _write(path: Path, kind: SheetKind, placed: Sequence[Placed], currency: str) -> None:
    sheet = read_workbook(path).find_sheet(kind.name)
    draft = open_draft(path)
    letters = letters_of(sheet, kind, currency)
    name = sheet.name if sheet is not None else _new_sheet(draft, kind)
    if sheet is not None:
        letters = _with_missing_columns(draft, name, kind, letters, len(sheet.rows[0]) if sheet.rows else 0)
    for row, day in ended_rows(placed):
        draft.put(name, f"{letters['valid_to']}{row}", day)
    below = next_row(sheet)
    has_rows = sheet is not None and below > 2
    for one in placed:
        row = one.over if one.over is not None else below
        if one.over is None:
            if has_rows:
                draft.look_like(name, below, as_row=below - 1)
            below += 1
        for field, at in letters.items():
            draft.put(name, f"{at}{row}", one.prepared.cells.get(field))
    save(path, draft.to_bytes())


def _new_sheet(draft: Draft, kind: SheetKind) -> str:
    name = draft.add_sheet(kind.name)
    for field, at in letters_of(None, kind, "").items():
        draft.put(name, f"{at}1", columns_of(kind.row_type)[field].header)
    return name


def _with_missing_columns(
    draft: Draft, name: str, kind: SheetKind, letters: Mapping[str, str], width: int
) -> dict[str, str]:
    """Return the letters with those of columns that the sheet lacks, whose headers are written behind the others."""
    found = dict(letters)
    for field, column in columns_of(kind.row_type).items():
        if field not in found:
            found[field] = letter(width)
            draft.put(name, f"{found[field]}1", column.header)
            width += 1
    return found

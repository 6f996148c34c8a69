"""The week's figures written into a rate book: diesel and rates of exchange, from publishers' files."""

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from shipcalc.errors import FaultyWorkbook, WrongInput, asked
from shipcalc.files import read_file
from shipcalc.ratebook.rows.sheet_kind import OVERVIEW
from shipcalc.ratebook.weekly.figures import Publication
from shipcalc.ratebook.weekly.moves import Move, Plan, moves_of
from shipcalc.records import dataclass
from shipcalc.sheets.editing import Draft, open_draft
from shipcalc.sheets.reading import read_workbook
from shipcalc.sheets.saving import save
from shipcalc.sheets.writing import Value

if TYPE_CHECKING:
    from shipcalc.ratebook.book import RateBook

TRUSTED = "read"


@dataclass(frozen=True, slots=True)
class Weekly:
    """What publications were read, what they moved in the book in `folder`, and into which cells it went, move by move."""

    folder: Path
    publications: tuple[Publication, ...]
    plan: Plan
    cells: tuple[str, ...]
    written: tuple[Path, ...]


def write_weekly(
    folder: Path, files: Sequence[Path], *, online: bool, today: date, older: bool = False, jump: bool = False
) -> Weekly:
    """Write the newest figures of publishers' files into the rate book in `folder`; with `online`, fetch those not named.

    Raises WrongInput where a file is of no known publisher, older than the book or unlikely (see moves_of), NoAnswer where the
    network does not answer; then nothing is written.
    """
    from shipcalc.ratebook.book import read_rate_book

    if not files and not online:
        raise WrongInput("no file of figures was named", remedy=f"name one with {asked('file')}: {_addresses()}")
    publications = tuple(_publications(files, online=online))
    book = read_rate_book(folder)
    plan = moves_of(book, book.pricing.currency, publications, today=today, older=older, jump=jump)
    if not plan.moves:
        return Weekly(folder, publications, plan, (), ())
    _keep_former(folder, today)
    cells, changed = _changed(folder, plan.moves)
    _hold_sound(book, changed, today)
    for path, content in changed.items():
        save(path, content)
    return Weekly(folder, publications, plan, cells, tuple(changed))


def _addresses() -> str:
    from shipcalc.ratebook.weekly.publishers import PUBLISHERS

    return " and ".join(publisher.address for publisher in PUBLISHERS) + f", or fetch them with {asked('online')}"


def _publications(files: Sequence[Path], *, online: bool) -> Iterator[Publication]:
    """Yield what was published, one file a subject."""
    from shipcalc.ratebook.weekly.online import fetched
    from shipcalc.ratebook.weekly.publishers import PUBLISHERS, get_publication
    from shipcalc.sheets.reading import content_of

    found: dict[str, Publication] = {}
    for file in files:
        publication = get_publication(file.name, content_of(file))
        other = found.setdefault(publication.source, publication)
        if other is not publication:
            what = f"has the same figures as {other.file}: {publication.source}"
            raise WrongInput(what, where=publication.file, remedy="name one of the two")
    for publisher in PUBLISHERS:
        if online and publisher.source not in found:
            found[publisher.source] = get_publication(publisher.file_name, fetched(publisher.address))
    yield from found.values()


def _keep_former(folder: Path, today: date) -> None:
    """Keep the book as it was where the folder has a history, so that it can be gone back to."""
    from shipcalc.actions.editions import history_of
    from shipcalc.ratebook.editions import read_history

    if read_history(folder).editions:
        history_of(folder, today=today)


def _changed(folder: Path, moves: Sequence[Move]) -> tuple[tuple[str, ...], dict[Path, bytes]]:
    """Return the cell that each figure went into, and the workbooks with their new content."""
    cells: dict[int, str] = {}
    changed: dict[Path, bytes] = {}
    for workbook in dict.fromkeys(move.series.row.at.workbook for move in moves):
        path = folder / workbook
        draft, file = open_draft(path), read_workbook(path)
        if draft.left_out:
            what = f"holds {' and '.join(draft.left_out)}, which would be lost"
            raise WrongInput(what, where=workbook, remedy="take them out, or type the figures into it in Excel")
        for move in moves:
            if move.series.row.at.workbook == workbook:
                cells[id(move)] = _put(draft, move)
        draft.keep_results(file, {move.series.row.at.sheet for move in moves}, aside=(OVERVIEW,))
        changed[path] = draft.to_bytes()
    return tuple(cells[id(move)] for move in moves), changed


def _put(draft: Draft, move: Move) -> str:
    """Write one figure with its day and source, and return its cell."""
    at, series = move.series.row.at, move.series
    row = draft.add_row(at.sheet, as_row=at.row) if move.adds else at.row
    values: dict[str, Value] = {series.value_field: move.value, series.day_field: move.day, "trust": TRUSTED}
    for field, value in values.items():
        if field in at.letters:
            cell = f"{at.letters[field]}{row}"
            if not move.adds and draft.is_formula(at.sheet, cell):
                where = f"{at.workbook} › {at.sheet}!{cell}"
                raise WrongInput("holds a formula, which is not written over", where=where, remedy="type a value there")
            draft.put(at.sheet, cell, value)
    if "source" in at.letters:
        draft.put_label(
            at.sheet, f"{at.letters['source']}{row}", move.source, as_cell=f"{at.letters.get('trust', 'A')}{row}"
        )
    return f"{at.workbook} › {at.sheet}!{at.letters[series.value_field]}{row}"


def _hold_sound(book: "RateBook", changed: dict[Path, bytes], today: date) -> None:
    """Raise FaultyWorkbook where the book, with its changed workbooks, could no longer be quoted from."""
    from shipcalc.ratebook.book import checked
    from shipcalc.ratebook.rows.tables import WORKBOOKS

    with TemporaryDirectory() as beside:
        for name in WORKBOOKS:
            path = book.folder / name
            if path.exists():
                (Path(beside) / name).write_bytes(changed.get(path) or read_file(path))
        problems, fingerprint = checked(Path(beside), as_of=today)
    if not fingerprint:
        faults = tuple(problem for problem in problems if problem.severity == "fault")
        what = "could not be quoted from with these figures in it, and nothing was written"
        raise FaultyWorkbook(what, faults, where=str(book.folder), remedy="correct the cells named")

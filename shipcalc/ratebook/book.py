"""The rate book: all workbooks of a folder, read and checked."""

from collections.abc import Callable, Mapping
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import FaultyWorkbook, Problem, WrongInput
from shipcalc.ratebook.kept import Kept, Verdict, find_kept, find_verdict, keep, key_of
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import dataclass, fields, put


@dataclass(frozen=True, kw_only=True, eq=False)
class RateBook(Tables):
    """A rate book without faults.

    `fingerprint` stands for its content: the values of its cells, not the bytes of its files, so that saving it again
    without a change keeps it. `warnings` leave rows in use.

    `changes` are the days on which other rows hold than on the day before (`of_day.py`), None where nobody has looked.

    The rows of the overseas sheets of a kept book are made when the first of them is asked for: a quote at home never does. Those
    of Lanes, by `priced_lanes`, are made when a price is asked for.
    A book equals itself alone, so what is worked out from one is remembered by `lru_cache` for the book itself.
    """

    folder: Path
    fingerprint: str
    pricing: PricingRules
    warnings: tuple[Problem, ...] = ()
    overseas: Callable[[], Mapping[str, tuple[Row, ...]]] | None = None
    changes: tuple[date, ...] | None = None
    priced_lanes: Callable[[], Mapping[str, tuple[Row, ...]]] | None = None

    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> object:
            """Return the rows of an overseas sheet or of Lanes, whose fields `not_yet` left empty."""
            later = {"lanes": self.priced_lanes} if name == "lanes" else dict.fromkeys(_OVERSEAS_FIELDS, self.overseas)
            made = later.get(name)
            if made is None:
                raise AttributeError(name)
            for sheet, rows in made().items():
                put(self, sheet, rows)
            return object.__getattribute__(self, name)

        def __repr__(self) -> str:
            """Return what tells the book from others, and none of its thousands of rows."""
            return f"RateBook({str(self.folder)!r}, {self.fingerprint!r})"

        def __reduce__(self) -> tuple[Callable[[], object], tuple[()]]:
            """Return how another process makes the book, with all its rows."""
            return partial(RateBook, **{field.name: getattr(self, field.name) for field in fields(self)}), ()


_TRIES = 3
_OVERSEAS_FIELDS = tuple(kind.rows for kind in SHEETS if kind.is_overseas)


def not_yet(book: RateBook) -> RateBook:
    """Return the book with the fields of its overseas sheets and of Lanes empty, so that asking for one makes them."""
    overseas = _OVERSEAS_FIELDS if book.overseas is not None else ()
    for name in (*overseas, *(("lanes",) if book.priced_lanes is not None else ())):
        getattr(RateBook, name).__delete__(book)
    return book


def read_rate_book(folder: Path) -> RateBook:
    """Read and check the rate book in `folder`; a sound one that was read before comes from the cache, by its content.

    Raises WrongInput where `trucking.xlsx` is missing or no workbook, FaultyWorkbook with all faults where cells are wrong.
    """
    kept = _kept_or_read(folder)
    return not_yet(
        RateBook(
            folder=folder,
            fingerprint=kept.fingerprint,
            pricing=kept.rules,
            warnings=kept.warnings,
            overseas=kept.overseas,
            changes=kept.changes,
            priced_lanes=kept.priced_lanes,
            **kept.rows_by_field(),
        )
    )


def _kept_or_read(folder: Path) -> Kept:
    """Return what a book comes to. Workbooks that somebody saves meanwhile are read again: no two editions are ever mixed."""
    for _ in range(_TRIES):
        key = key_of(folder)
        kept = find_kept(key)
        if kept is not None:
            return kept
        kept = _read(folder)
        if key_of(folder) == key:
            keep(key, kept)
            return kept
    raise WrongInput("is being changed while it is read", where=str(folder), remedy="ask again once all is saved")


def check_rate_book(folder: Path, *, as_of: date | None = None) -> tuple[Problem, ...]:
    """Return everything that is wrong with the rate book, faults and warnings, in the order of the sheets.

    With `as_of`, rows that are out of date on that day and a stale price of fuel are warned of as well.
    """
    return checked(folder, as_of=as_of)[0]


def checked(folder: Path, *, as_of: date | None = None) -> tuple[tuple[Problem, ...], str]:
    """Return what `check_rate_book` does, and the fingerprint of a sound book, which is empty where there are faults.

    What was said of a sound book that was read before comes from the cache, by its content, and is kept there when it is read
    now; what is out of date is asked anew each time.
    """
    from shipcalc.ratebook.checks.other_files import other_files
    from shipcalc.ratebook.checks.remarks import in_order
    from shipcalc.ratebook.checks.shelf_life import out_of_date, shelf_life_of

    key = key_of(folder)
    verdict = find_verdict(key)
    if verdict is None:
        from shipcalc.ratebook.drafting import draft_of

        try:
            draft = draft_of(folder)
        except WrongInput as wrong:
            return (Problem(wrong.where, wrong.what, wrong.remedy),), ""
        read = Kept(draft.tables, draft.rules, draft.fingerprint, draft.problems)
        is_sound = not _faults(read)
        if is_sound and key_of(folder) == key:
            keep(key, read)
        fingerprint = draft.fingerprint if is_sound else ""
        verdict = Verdict(fingerprint, draft.rules, draft.problems, shelf_life_of(draft.tables))
    late = out_of_date(verdict.life, verdict.rules, as_of) if as_of is not None else ()
    return in_order((*other_files(folder), *verdict.warnings, *late)), verdict.fingerprint


def _faults(found: Kept) -> tuple[Problem, ...]:
    return tuple(problem for problem in found.warnings if problem.severity == "fault")


def _read(folder: Path) -> Kept:
    # Late: with the checks, this is a third of what a quote at a cold start would import, and mostly not needed.
    from shipcalc.ratebook.days import changes_in
    from shipcalc.ratebook.drafting import draft_of

    draft = draft_of(folder)
    changes = changes_in(draft.tables)
    found = Kept(draft.tables, draft.rules, draft.fingerprint, draft.problems, changes=changes)
    faults = _faults(found)
    if faults:
        what = "has 1 fault" if len(faults) == 1 else f"has {len(faults)} faults"
        raise FaultyWorkbook(f"the rate book {what}", faults, where=str(folder), remedy="correct the cells named")
    return found

"""The rate book: all workbooks of a folder, read and checked."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import FaultyWorkbook, Problem, WrongInput
from shipcalc.ratebook.columns import Row
from shipcalc.ratebook.kept import Kept, find_kept, keep, key_of
from shipcalc.ratebook.rules import PricingRules
from shipcalc.ratebook.tables import SHEETS, Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class RateBook(Tables):
    """A rate book without faults.

    `fingerprint` stands for its content: the values of its cells, not the bytes of its files, so that saving it again
    without a change keeps it. `warnings` leave rows in use.

    The rows of the overseas sheets of a kept book are made when the first of them is asked for: a quote at home never does.
    """

    folder: Path
    fingerprint: str
    pricing: PricingRules
    warnings: tuple[Problem, ...] = ()
    overseas: Callable[[], Mapping[str, tuple[Row, ...]]] | None = field(default=None, repr=False, compare=False)

    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> object:
            """Return the rows of an overseas sheet, whose fields `_not_yet` left empty."""
            if name in _OVERSEAS_FIELDS and self.overseas is not None:
                for sheet, rows in self.overseas().items():
                    object.__setattr__(self, sheet, rows)
                return object.__getattribute__(self, name)
            raise AttributeError(name)


_OVERSEAS_FIELDS = tuple(kind.rows for kind in SHEETS if kind.is_overseas)


def _not_yet(book: RateBook) -> RateBook:
    """Return the book with the fields of its overseas sheets empty, so that asking for one makes them all."""
    for name in _OVERSEAS_FIELDS if book.overseas is not None else ():
        object.__delattr__(book, name)
    return book


def read_rate_book(folder: Path) -> RateBook:
    """Read and check the rate book in `folder`; a sound one that was read before comes from the cache, by its content.

    Raises WrongInput where `trucking.xlsx` is missing or no workbook, FaultyWorkbook with all faults where cells are wrong.
    """
    key = key_of(folder)
    kept = find_kept(key)
    if kept is None:
        kept = _read(folder)
        keep(key, kept)
    return _not_yet(
        RateBook(
            folder=folder,
            fingerprint=kept.fingerprint,
            pricing=kept.rules,
            warnings=kept.warnings,
            overseas=kept.overseas,
            **kept.rows_by_field(),
        )
    )


def check_rate_book(folder: Path, *, as_of: date | None = None) -> tuple[Problem, ...]:
    """Return everything that is wrong with the rate book, faults and warnings, in the order of the sheets.

    With `as_of`, rows that are out of date on that day and a stale price of fuel are warned of as well.
    """
    return checked(folder, as_of=as_of)[0]


def checked(folder: Path, *, as_of: date | None = None) -> tuple[tuple[Problem, ...], str]:
    """Return what `check_rate_book` does, and the fingerprint of a sound book, which is empty where there are faults.

    A sound book that was read before comes from the cache, by its content, and one that is read now is kept there.
    """
    from shipcalc.ratebook.date_checks import rows_out_of_date
    from shipcalc.ratebook.remarks import in_order

    key = key_of(folder)
    found = find_kept(key)
    if found is None:
        from shipcalc.ratebook.drafting import draft_of

        try:
            draft = draft_of(folder)
        except WrongInput as wrong:
            return (Problem(wrong.where, wrong.what, wrong.remedy),), ""
        found = Kept(draft.tables, draft.rules, draft.fingerprint, draft.problems)
        if _faults(found):
            found = replace(found, fingerprint="")
        else:
            keep(key, found)
    if as_of is None:
        return in_order(found.warnings), found.fingerprint
    tables = found.tables if found.overseas is None else replace(found.tables, **found.overseas())  # type: ignore[arg-type]
    late = tuple(rows_out_of_date(tables, found.rules, as_of))
    return in_order((*found.warnings, *late)), found.fingerprint


def _faults(found: Kept) -> tuple[Problem, ...]:
    return tuple(problem for problem in found.warnings if problem.severity == "fault")


def warnings_on(book: RateBook, as_of: date) -> tuple[Problem, ...]:
    """Return what is out of date in a rate book on a day: the book itself, rows of it, the price of fuel."""
    from shipcalc.ratebook.date_checks import rows_out_of_date
    from shipcalc.ratebook.remarks import in_order

    return in_order(tuple(rows_out_of_date(book, book.pricing, as_of)))


def _read(folder: Path) -> Kept:
    # Late: with the checks, this is a third of what a quote at a cold start would import, and mostly not needed.
    from shipcalc.ratebook.drafting import draft_of

    draft = draft_of(folder)
    found = Kept(draft.tables, draft.rules, draft.fingerprint, draft.problems)
    faults = _faults(found)
    if faults:
        what = "has 1 fault" if len(faults) == 1 else f"has {len(faults)} faults"
        raise FaultyWorkbook(f"the rate book {what}", faults, where=str(folder), remedy="mend the cells that are named")
    return found

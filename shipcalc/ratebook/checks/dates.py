"""What must be true of dates: of each row by itself, and against the book's own validity."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, warning
from shipcalc.ratebook.days import FACTS
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.rows.imports import Hold
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.ratebook.rows.quotations import OceanQuotation
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.rows.yards import Storage
from shipcalc.ratebook.workbook.columns import columns_of


def rows_end_after_they_begin(tables: Tables) -> Iterator[Problem]:
    """A row's last day is not before its first."""
    for row in dated_rows(tables, without=()):
        if row.valid_from is not None and row.valid_to is not None and row.valid_to < row.valid_from:
            message = f"the row ends on {row.valid_to}, before it begins on {row.valid_from}"
            yield fault(row, "valid_to", message, "swap the two dates or correct the year")


def rows_meet_the_book(tables: Tables, rules: PricingRules) -> Iterator[Problem]:
    """A row is valid on some day of the rate book, or it never counts."""
    for row in dated_rows(tables):
        if row.valid_to is not None and rules.valid_from is not None and row.valid_to < rules.valid_from:
            message = f"the row ended on {row.valid_to}, before the rate book begins on {rules.valid_from}"
            yield warning(row, "valid_to", message, "remove the row, or give it a later date")
        elif row.valid_from is not None and rules.valid_to is not None and row.valid_from > rules.valid_to:
            message = f"the row begins on {row.valid_from}, after the rate book ends on {rules.valid_to}"
            yield warning(
                row, "valid_from", message, "correct the date, or let the rate book end later (sheet Pricing)"
            )
    for season in tables.seasons:
        if not season.every_year and rules.valid_from is not None and season.last_day < rules.valid_from:
            message = f"the season ended on {season.last_day}, before the rate book begins on {rules.valid_from}"
            yield warning(season, "last_day", message, "correct the year, or write yes under Every year")
        elif not season.every_year and rules.valid_to is not None and season.first_day > rules.valid_to:
            message = f"the season begins on {season.first_day}, after the rate book ends on {rules.valid_to}"
            yield warning(season, "first_day", message, "correct the year, or write yes under Every year")


DatedRow = Carrier | LaneRow | ExtraCharge | Storage | OceanService | OceanQuotation | PortCharge | Hold

# What a country's law sets from one day to another may outlast the book.
_OF_THE_LAW = tuple(field for field in FACTS if field != "holds")


def dated_rows(tables: Tables, *, without: tuple[str, ...] = _OF_THE_LAW) -> tuple[DatedRow, ...]:
    """Return the rows of every sheet whose rows have a first and a last day: `valid_from` and `valid_to`."""
    kinds = (kind for kind in SHEETS if kind.rows not in without)
    dated = (kind for kind in kinds if {"valid_from", "valid_to"} <= columns_of(kind.row_type).keys())
    return tuple(row for kind in dated for row in getattr(tables, kind.rows))


CHECKS = (rows_end_after_they_begin,)

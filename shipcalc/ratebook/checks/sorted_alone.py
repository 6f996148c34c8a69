"""Rates that stand beside other miles or carriers than before: the column was sorted by itself."""

from collections.abc import Iterator
from itertools import groupby, pairwise

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import short_cell, warning
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import columns_of
from shipcalc.ratebook.workbook.written import as_shown

REMEDY = "if the column was sorted by itself, take it from an earlier copy, and sort whole rows"
_FEWEST_RATES, _FEWEST_TARIFFS = 8, 3
# A rate that leaves its neighbours by more is a slipped point, and told as one where there are enough of them.
_SLIPPED, _FEWEST_NEIGHBOURS = 3, 4


def rates_fall_with_distance(tables: Tables) -> Iterator[Problem]:
    """A mile of a longer trip costs no more than one of a shorter trip."""
    tariffs: dict[tuple[str, str], list[MileBand]] = {}
    for band in tables.bands:
        tariffs.setdefault((band.carrier.casefold(), band.trailer), []).append(band)
    for bands in tariffs.values():
        in_order = sorted(bands, key=lambda band: band.from_mi)
        rise = next(((one, later) for one, later in pairwise(in_order) if _rises(one, later, len(bands))), None)
        if rise is not None:
            one, later = rise
            message = (
                f"the rate rises with distance, from {_rate(one)} ({short_cell(one, 'rate_e4')}) to {_rate(later)} "
                f"over {later.from_mi:,} miles"
            )
            yield warning(later, "rate_e4", message, REMEDY)


def rates_fall_within_a_carrier_only(tables: Tables) -> Iterator[Problem]:
    """Rates that fall through all carriers, whose other cells are in no such order, were sorted without them."""
    rates = [band.rate_e4 for band in tables.bands]
    tariffs = sum(1 for _ in groupby(tables.bands, key=lambda band: (band.carrier.casefold(), band.trailer)))
    known = {(band.carrier.casefold(), band.trailer) for band in tables.bands}
    if len(set(rates)) < _FEWEST_RATES or not _FEWEST_TARIFFS <= tariffs == len(known):
        return
    if all(one >= later for one, later in pairwise(rates)):
        message = (
            f"the rates fall from the first row to the last, through all {tariffs} tariffs, as a sorted column does"
        )
        yield warning(tables.bands[0], "rate_e4", message, REMEDY)


def _rises(one: MileBand, later: MileBand, bands: int) -> bool:
    slipped = bands >= _FEWEST_NEIGHBOURS and later.rate_e4 >= _SLIPPED * one.rate_e4
    return later.rate_e4 > one.rate_e4 and later.from_mi > one.from_mi and not slipped


def _rate(band: MileBand) -> str:
    return as_shown(band.rate_e4, columns_of(MileBand)["rate_e4"], "USD")


CHECKS = (rates_fall_with_distance, rates_fall_within_a_carrier_only)

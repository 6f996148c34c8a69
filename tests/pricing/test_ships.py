"""Which rows of the sheet Ocean are one ship: any of its sailings may be named, so rows that name different ones still are."""

from datetime import date, timedelta

import pytest

from shipcalc.pricing.ocean import sea_services
from shipcalc.ratebook.rows.ocean import OceanService

FIRST = date(2026, 12, 8)


def a_row(size: str, first: date, **more: object) -> OceanService:
    given = {"sails_every_days": 10, "base_e4": 1}
    return OceanService(
        service=f"Long Reach {size}", carrier="Long Reach", mode="container", from_region="Gulf", to_region="Japan",
        basis=f"per {size}", first_sailing=first, **(given | more),
    )  # fmt: skip


@pytest.mark.parametrize(("later_days", "ships"), [(0, 1), (10, 1), (30, 1), (-20, 1), (3, 2), (29, 2)])
def test_rows_that_name_sailings_of_one_rhythm_are_one_ship(later_days, ships):
    rows = a_row("20′", FIRST), a_row("40′", FIRST + timedelta(days=later_days))

    assert len(sea_services(rows)) == ships


def test_another_rhythm_or_other_listed_days_are_another_ship():
    rows = (
        a_row("20′", FIRST),
        a_row("40′", FIRST, sails_every_days=20),
        a_row("40′HC", FIRST, sailings=("2026-12-09",)),
    )

    assert len(sea_services(rows)) == 3

"""The crossing of a truck over a land border and its hours (sheet *Border ports*)."""

import pytest

from shipcalc.places.place import Place
from shipcalc.quote.time.border_hours import crossing_on_the_way, hours_told
from shipcalc.ratebook.checks.ways import border_hours_can_be_read
from shipcalc.ratebook.making.build_overseas import invented_rows
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.rows.ways import BorderPort, hours_in
from shipcalc.ratebook.workbook.columns import RowRef

ROWS = invented_rows()["Border ports"]
BELLINGHAM = Place(name="Bellingham", kind="city", country="US", latitude=48.76, longitude=-122.49)
AT = RowRef("overseas.xlsx", "Border ports", 2, {})


def place(country, latitude, longitude):
    return Place(name="There", kind="city", country=country, latitude=latitude, longitude=longitude)


@pytest.mark.parametrize(
    ("to", "crossing"),  # what a map shows: the main roads of home as far as they go
    [
        (place("CA", 49.26, -123.11), "Blaine, Pacific Highway"),  # Vancouver
        (place("CA", 51.05, -114.07), "Sumas, Abbotsford"),  # Calgary, by the Trans-Canada Highway
        (place("CA", 49.90, -97.14), "Pembina, Emerson"),  # Winnipeg
        (place("CA", 43.65, -79.38), "Port Huron, Blue Water Bridge"),  # Toronto
        (place("MX", 32.51, -117.04), "Otay Mesa"),  # Tijuana
        (place("MX", 25.67, -100.31), "Laredo, World Trade Bridge"),  # Monterrey
    ],
)
def test_the_crossing_is_one_that_lies_on_the_way(to, crossing):
    found = crossing_on_the_way(ROWS, BELLINGHAM, to)
    assert found is not None
    assert found.crossing == crossing


def test_a_country_without_rows_has_none():
    assert crossing_on_the_way(ROWS, BELLINGHAM, place("DE", 53.1, 8.8)) is None


def test_the_hours_of_the_customs_agency_are_told_day_by_day():
    """CBP Laredo Field Office, 28 July 2017: exports 7 to midnight, Saturday 8 to 16, Sunday 10 to 14."""
    (laredo,) = (row for row in ROWS if row.crossing == "Laredo, World Trade Bridge")
    told = hours_told(laredo)
    assert "Monday to Friday 7:00 to 24:00, Saturday 8:00 to 16:00, Sunday 10:00 to 14:00" in told
    assert "none on" not in told


def test_days_without_trucks_are_told():
    """Canada Border Services Agency, 18 November 2024: Coulter, commercial, 8 am to 4 pm, Monday to Friday (except holidays)."""
    (coulter,) = (row for row in ROWS if row.crossing == "Coulter")
    told = hours_told(coulter)
    assert "Monday to Friday 8:00 to 16:00; none on Saturdays, Sundays, holidays" in told


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("7 to 24", (7, 24)),
        ("8-16", (8, 16)),
        (" 0 – 24 ", (0, 24)),
        ("16 to 8", None),
        ("8 to 25", None),
        ("day", None),
    ],
)
def test_hours_as_a_manager_writes_them(text, hours):
    assert hours_in(text) == hours


def test_hours_that_cannot_be_read_are_named():
    row = BorderPort(
        crossing="Nowhere", country="CA", latitude=49, longitude=-100, weekdays="open", trust="memory", at=AT
    )
    (problem,) = border_hours_can_be_read(Tables(border_ports=(row,)))
    assert '"open" says no hours' in problem.message
    assert not list(border_hours_can_be_read(Tables(border_ports=ROWS)))


def test_a_quote_over_the_border_names_crossing_and_hours(dealer_quote):
    quote = dealer_quote("HV-1042", to="Vancouver, Canada")
    notes = {step.note for option in quote.options for step in option.dates.timeline if step.stage == "arrival"}
    assert notes == {"Likely by Blaine, Pacific Highway, where customs clear trucks at all hours."}

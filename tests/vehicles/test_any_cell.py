from datetime import date, datetime, time

from hypothesis import given
from hypothesis import strategies as st

from shipcalc.sheets.reading import Sheet
from shipcalc.vehicles.sizes import body_keys
from shipcalc.vehicles.stock_columns import COLUMNS, find_layout
from shipcalc.vehicles.stock_rows import rows_of
from shipcalc.vehicles.vehicle import Vehicle

HEADERS = tuple(dict.fromkeys(column.header for column in COLUMNS))
CELLS = st.one_of(
    st.none(),
    st.booleans(),
    st.text(max_size=12),
    st.floats(allow_nan=False, allow_infinity=False),
    st.sampled_from(("yes", "no", "x", "lien", "roadster", "1961", "153", "16'4\"", "$38,000", "1,5", "-3", "HV-1")),
    st.just(date(2026, 11, 23)),
    st.just(datetime.fromisoformat("2026-11-23T10:00")),
    st.just(time(10, 30)),
)


@given(st.lists(st.lists(CELLS, min_size=len(HEADERS), max_size=len(HEADERS)), min_size=1, max_size=4))
def test_whatever_stands_in_the_cells_a_row_is_a_vehicle_or_says_why_not(rows: list[list[object]]) -> None:
    sheet = Sheet("stock.xlsx", "Stock", (HEADERS, *map(tuple, rows)))  # type: ignore[arg-type]
    layout = find_layout(sheet, "USD")
    assert layout is not None
    for row in rows_of(sheet, layout, "USD", body_keys(())):
        if row.is_usable:
            vehicle = Vehicle(**row.values)
            assert vehicle.stock_number
            assert vehicle.length_mm is None or 1_000 <= vehicle.length_mm <= 20_000
        else:
            assert all(problem.remedy and problem.cell.startswith("stock.xlsx › Stock!") for problem in row.problems)
            assert row.problems or row.without_unit

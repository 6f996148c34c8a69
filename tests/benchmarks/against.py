"""Prices in bulk against three other ways, in one run: `python tests/benchmarks/against.py`.

    spreadsheet   LibreOffice computes 100,000 rows anew: straight line × factor, rate from a table of bands × size, fuel a mile
    pandas        the same rows by `DataFrame.apply`
    bare arrays   the same rows by numpy alone: the floor
    the program   every service × 160 vehicles × all ZIPs of the home roads: one by one, and by kind as `shipcalc lanes` does it

The three do one rule for each row; the program does all of a quote's: bands with later break, minimum, fuel scheme, some thirty
extra charges, areas, seasons, eligibility. The spreadsheet's time is told without loading and saving: a book of the same size
that has values in place of formulas is converted as well, and taken off.
"""

import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path

import numpy as np
import pandas as pd

from shipcalc.actions.quoting import open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.actions.starting import start_of
from shipcalc.bulk.destinations import find_destinations
from shipcalc.places.road.lanes import lane_table
from shipcalc.places.road.miles import PlaceColumns, road_miles_columns, whole_miles
from shipcalc.pricing.alike import lanes_at
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.many import cheapest, many_prices
from shipcalc.pricing.markups import selling_markup
from shipcalc.pricing.tariff import compile_tariffs
from shipcalc.pricing.truck import trip_of, truck_price
from shipcalc.quote.network.distances import factor_rules
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.vehicles.sizes import fill_sizes

ROWS = 100_000
VEHICLES = 160
DAY = date(2026, 12, 1)
FROM_MI = np.array([0, 200, 500, 1_000, 2_000])
RATES = np.array([3.10, 1.90, 1.25, 0.95, 0.82])
FUEL = 0.41
TIMES = 5


def rows() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return straight miles, road factors and size factors of ROWS lanes, the same in every run."""
    number = np.arange(ROWS)
    return 5 + number * 7919 % 2_600 + 0.25, 1.12 + number * 104_729 % 30 / 100, 1 + number * 31 % 5 / 20


def quickest(work: Callable[[], object], times: int = TIMES) -> float:
    """Return the seconds of the quickest of some runs: noise only ever adds."""
    took = []
    for _ in range(times):
        began = time.perf_counter()
        work()
        took.append(time.perf_counter() - began)
    return min(took)


def by_arrays(straight: np.ndarray, factor: np.ndarray, size: np.ndarray) -> np.ndarray:
    miles = np.floor(straight * factor + 0.5)
    rate = RATES[np.searchsorted(FROM_MI, miles, side="right") - 1]
    return np.floor((miles * rate * size + miles * FUEL) * 100 + 0.5)


def by_apply(frame: pd.DataFrame) -> pd.Series:
    bands = list(zip(FROM_MI.tolist(), RATES.tolist(), strict=True))

    def price(row: pd.Series) -> float:
        miles = round(row["straight"] * row["factor"])
        rate = next(rate for start, rate in reversed(bands) if miles >= start)
        return round(miles * rate * row["size"] + miles * FUEL, 2)

    return frame.apply(price, axis=1)


def by_spreadsheet(folder: Path) -> float | None:
    """Return the seconds that LibreOffice takes to compute the rows, None where it is not installed."""
    command = shutil.which("soffice")
    if command is None:
        return None
    took = {}
    for formulas in (False, True):
        path = write_book(folder / f"{'formulas' if formulas else 'values'}.xlsx", formulas=formulas)
        profile = (folder / "profile").as_uri()
        words = [
            command,
            f"-env:UserInstallation={profile}",
            "--headless",
            "--convert-to",
            "csv",
            "--outdir",
            str(folder),
            str(path),
        ]
        run = lambda words=words: subprocess.run(words, check=True, capture_output=True)  # noqa: E731
        if not formulas:
            run()  # the first start writes the profile
        took[formulas] = quickest(run, 2)
    return took[True] - took[False]


def write_book(path: Path, *, formulas: bool) -> Path:
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    sheet = book.create_sheet("Rows")
    bands = book.create_sheet("Bands")
    for start, rate in zip(FROM_MI.tolist(), RATES.tolist(), strict=True):
        bands.append([start, rate])
    columns = rows()
    prices = by_arrays(*columns) / 100
    for n, (straight, factor, size, price) in enumerate(zip(*(c.tolist() for c in (*columns, prices)), strict=True), 1):
        miles = f"ROUND(A{n}*B{n},0)"
        formula = f"=ROUND({miles}*VLOOKUP({miles},Bands.$A$1:$B$5,2,TRUE)*C{n}+{miles}*{FUEL},2)".replace(
            "Bands.", "Bands!"
        )
        sheet.append([straight, factor, size, formula if formulas else price])
    book.save(path)
    return path


def by_program() -> tuple[float, float, int]:
    """Return the seconds for a million prices, one by one and by kind, and how many prices there are in all."""
    sources = invented_sources()
    books = open_books(sources)
    stock = [fill_sizes(car, books.rates.sizes) for car in books.stock.vehicles]
    vehicles = vehicle_columns([stock[n % len(stock)] for n in range(VEHICLES)])
    to = [p for p in find_destinations("zips", None, books.rates).places if is_home(p.country, p.subdivision)]
    start = start_of(stock[0], "", sources.settings).place
    ends = PlaceColumns.of(to)
    miles = whole_miles(road_miles_columns(start, ends, factor_rules(books.rates), lanes=lane_table()))
    tariffs = compile_tariffs(books.rates, DAY)
    lanes = lane_columns(PlaceColumns.of([start]), ends, miles, books.rates.areas, prices=tariffs.lanes)
    asked, markup = (
        Asked(pickup_day=DAY),
        selling_markup(books.rates, "US"),
    )
    few = lanes_at(lanes, np.arange(0, len(lanes), 10))

    def one_by_one() -> None:
        trip = trip_of(tariffs, vehicles, few, asked)
        for service in tariffs.services:
            truck_price(service, trip, markup)

    def by_kind() -> None:
        prices = many_prices(tariffs, tariffs.services, vehicles, lanes, asked, markup)
        for trailer in ("open", "enclosed"):
            fitting = [n for n, service in enumerate(tariffs.services) if trailer_of(service) == trailer]
            best = cheapest(prices, fitting, books.rates.pricing.rounding_step_minor)
            prices.spread(best.total)

    each = VEHICLES * len(tariffs.services)
    return (
        quickest(one_by_one) / (each * len(few)) * 1e6,
        quickest(by_kind) / (each * len(lanes)) * 1e6,
        each * len(lanes),
    )


def main() -> None:
    columns = rows()
    frame = pd.DataFrame(dict(zip(("straight", "factor", "size"), columns, strict=True)))
    arrays = quickest(lambda: by_arrays(*columns), 50) / ROWS * 1e6
    assert np.abs(by_apply(frame[:500]).to_numpy() - by_arrays(*(c[:500] for c in columns)) / 100).max() < 0.011
    with tempfile.TemporaryDirectory() as folder:
        spreadsheet = by_spreadsheet(Path(folder))
    apply = quickest(lambda: by_apply(frame), 2) / ROWS * 1e6
    alone, by_kind, count = by_program()
    lines = [f"seconds for a million prices ({count:,} prices in the program's last line)"]
    measured = {
        "spreadsheet (LibreOffice)": spreadsheet / ROWS * 1e6 if spreadsheet is not None else None,
        "pandas apply": apply,
        "bare arrays (numpy)": arrays,
        "the program, one by one": alone,
        "the program, by kind": by_kind,
    }
    for name, seconds in measured.items():
        if seconds is None:
            lines.append(f"{name:28} not installed")
            continue
        ratio = f"{seconds / by_kind:9.1f} × the program by kind, {seconds / alone:8.1f} × one by one"
        lines.append(f"{name:28} {seconds:10.4f} s {1 / seconds:9.1f} million a second {ratio}")
    sys.stdout.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()

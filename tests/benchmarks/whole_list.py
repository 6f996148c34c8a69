"""The whole list to every ZIP, end to end: `python tests/benchmarks/whole_list.py [vehicles …]`, else 1, 10, 100 and 160.

Each is a process of its own that reads the stock list and the rate book, prices, and writes Parquet; told are rows and seconds,
processor seconds, and the most memory. `--equal 10000` holds as many random rows to single quotes, to the cent and the day.
`--abroad [vehicles …]` takes the list to every country and every port, and tells beside it, from the same run, what one search for
the ways of one vehicle to one place takes. Rows abroad are held to quotes by `tests/bulk/test_overseas_equals_single_quote.py`.
"""

import csv
import os
import subprocess
import sys
import tempfile
import time
from contextlib import suppress
from datetime import date
from pathlib import Path

DAY = "2026-12-01"
COUNTS = (1, 10, 100, 160)
ABROAD = ("countries", "ports")
SEARCHES = 200


def stock_of(folder: Path, count: int) -> Path:
    """Write a stock list of the invented dealer's vehicles, again and again under numbers of their own."""
    from shipcalc.actions.sources import invented_sources
    from shipcalc.sheets.reading import read_workbook

    sheet = read_workbook(invented_sources().get_stock()).sheets[0]
    rows = [row for _, row in sheet.filled_rows()]
    header = next(n for n, row in enumerate(rows) if "Stock No." in row)
    number = rows[header].index("Stock No.")
    usable = [row for row in rows[header + 1 :] if row[number] not in (None, "HV-1013")]
    path = folder / f"stock-{count}.csv"
    with path.open("w", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(rows[header])
        for n in range(count):
            cells = list(usable[n % len(usable)])
            cells[number] = f"N-{n + 1:05d}"
            writer.writerow([_text_of(cell) for cell in cells])
    (folder / "shipcalc.toml").write_text('[yards]\nBellingham = "Bellingham, WA"\nSavannah = "Savannah, GA"\n')
    return path


def _text_of(cell: object) -> str:
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    return "" if cell is None else str(cell)


def run(folder: Path, count: int, to: str = "zips") -> str:
    import pyarrow.parquet as pq

    out = folder / f"prices-{count}.parquet"
    program = str(Path(sys.executable).with_name("shipcalc"))
    words = [
        program,
        "lanes",
        "--stock",
        str(stock_of(folder, count)),
        "--to",
        to,
        "--out",
        str(out),
        "--as-of",
        DAY,
    ]
    began = time.perf_counter()
    process = subprocess.Popen(words, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    _, status, used = os.wait4(process.pid, 0)
    took = time.perf_counter() - began
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0, process.stderr.read()
    rows, cpu = pq.read_metadata(out).num_rows, used.ru_utime + used.ru_stime
    size = out.stat().st_size / 1e6
    out.unlink()
    if to in ABROAD:
        return (
            f"{count:6} vehicles to all {to}: {rows:9,} rows {took:6.1f} s; processor {cpu:6.1f} s, {cpu / rows * 1e6:5.1f} µs a row;"
            f" {used.ru_maxrss / 1024:5.0f} MB at the most"
        )
    return (
        f"{count:6} vehicles {rows:12,} rows {took:7.1f} s {rows / took / 1e6:6.2f} million a second; processor {cpu:6.1f} s,"
        f" {rows / cpu / 1e6:5.2f} million a second; {used.ru_maxrss / 1024:6.0f} MB at the most; file {size:6.1f} MB"
    )


def one_by_one(to: str) -> str:
    """Return what a search takes for the ways of one vehicle to one place, a sample of those of the list, once ports are known."""
    import numpy as np

    from shipcalc.actions.lanes import LanesOrder, plan_of
    from shipcalc.actions.sources import invented_sources
    from shipcalc.errors import NoAnswer
    from shipcalc.quote.choose.ways import find_ways
    from shipcalc.quote.model import Wishes
    from shipcalc.quote.network.territory import is_home
    from shipcalc.quote.request import Request

    plan, _ = plan_of(LanesOrder(to=to, out=Path("unused.parquet")), invented_sources(), as_of=date.fromisoformat(DAY))
    chance, took = np.random.default_rng(1), 0.0
    places = [place for place in plan.destinations.places if not is_home(place.country, place.subdivision)]
    for number in range(-20, SEARCHES):
        vehicle, place = int(chance.integers(len(plan.vehicles))), places[int(chance.integers(len(places)))]
        request = Request(
            vehicles=(plan.vehicles[vehicle],),
            starts=(plan.starts[vehicle],),
            to=place,
            ready=plan.ready,
            wishes=Wishes(),
        )
        began = time.process_time()
        with suppress(NoAnswer):
            find_ways(request, plan.book, plan.as_of)
        took += time.process_time() - began if number >= 0 else 0
    return f"one search for all ways of one vehicle to one of the {to}: {took / SEARCHES * 1e3:.1f} ms of processor"


def hold_to_quotes(count: int) -> str:
    """Compare random rows with single quotes; raises where one differs."""
    import numpy as np

    from shipcalc.actions.lanes import LanesOrder, plan_of
    from shipcalc.actions.sources import invented_sources
    from shipcalc.bulk.plan import blocks_of
    from shipcalc.bulk.running import rows_of_block
    from shipcalc.errors import NoAnswer
    from shipcalc.quote.assemble import make_quote
    from shipcalc.quote.model import Dealer, Wishes
    from shipcalc.quote.request import Request

    order = LanesOrder(to="zips", out=Path("unused.parquet"))
    plan, _ = plan_of(order, invented_sources(), as_of=date.fromisoformat(DAY))
    blocks = blocks_of(plan)
    shares = np.diff(np.linspace(0, count, len(blocks) + 1).astype(int))
    chance, priced = np.random.default_rng(1), 0
    for block, share in zip(blocks, shares.tolist(), strict=True):
        table = rows_of_block(plan, block)
        for at in chance.choice(len(table), share, replace=False).tolist():
            row = table.slice(at, 1).to_pylist()[0]
            each = len(block.places) * len(plan.trailers)
            vehicle = block.vehicles[at // each]
            place = plan.destinations.places[block.places[at % each // len(plan.trailers)]]
            if row["why_not"] == "beyond the home roads":
                continue
            request = Request(
                vehicles=(plan.vehicles[vehicle],),
                starts=(plan.starts[vehicle],),
                to=place,
                ready=plan.ready,
                wishes=Wishes(trailer=row["trailer"]),
            )
            try:
                option = make_quote(request, plan.book, as_of=plan.as_of, dealer=Dealer(name="-")).options[0]
            except NoAnswer:
                assert row["price"] is None, row
                continue
            days = tuple((day - plan.ready).days for day in option.dates.delivery)
            miles = sum(leg.distance for leg in option.legs if leg.unit == "mi")
            said = (option.total, option.legs[0].carrier, miles, *days)
            assert (row["price"], row["carrier"], row["miles"], row["days_from"], row["days_to"]) == said, row
            priced += 1
    return f"{count:,} random rows are what single quotes say, {priced:,} of them with a price"


def main() -> None:
    words = sys.argv[1:]
    if words[:1] == ["--equal"]:
        sys.stdout.write(hold_to_quotes(int(words[1])) + "\n")
        return
    with tempfile.TemporaryDirectory() as folder:
        if words[:1] == ["--abroad"]:
            for to in ABROAD:
                for count in [int(word) for word in words[1:]] or COUNTS:
                    sys.stdout.write(run(Path(folder), count, to) + "\n")
                    sys.stdout.flush()
                sys.stdout.write(one_by_one(to) + "\n")
            return
        for count in [int(word) for word in words] or COUNTS:
            sys.stdout.write(run(Path(folder), count) + "\n")
            sys.stdout.flush()


if __name__ == "__main__":
    main()

"""Where the time of a warm quote goes: run by hand, `python tests/benchmarks/warm_stages.py [times]`.

Processor time, because machines are shared; each stage is timed around its function, and may hold another that stands below it.
"""

import importlib
import os
import subprocess
import sys
import time
from collections.abc import Callable
from datetime import date
from typing import Any

from shipcalc.actions.quoting import Order, open_books, quote
from shipcalc.actions.sources import invented_sources
from shipcalc.quote.as_data import quote_to_json

DAY = date(2026, 12, 1)
HOME = (
    ("the words understood", "shipcalc.actions.quoting:request_for"),
    ("the quote", "shipcalc.quote.assemble:make_quote"),
    ("  miles", "shipcalc.quote.network.reaching:road_lanes"),
    ("  vehicles and lanes as columns, what applies to them", "shipcalc.quote.network.reaching:truck_trip"),
    ("  all services priced", "shipcalc.quote.choose.ways:price_parts"),
    ("  the options made", "shipcalc.quote.answer:option_of"),
    ("    their papers and tasks", "shipcalc.quote.options:papers"),
)
OVERSEAS = (
    ("the words understood", "shipcalc.actions.quoting:request_for"),
    ("the quote", "shipcalc.quote.assemble:make_quote"),
    ("  ports, roads to them, ships, sea miles, trucks", "shipcalc.quote.choose.ways:network_for"),
    ("  trucks priced", "shipcalc.quote.choose.ways:price_parts"),
    ("  all ways dated", "shipcalc.quote.choose.ways:days"),
    ("  all else priced, summed under the term, cover, duty and tax", "shipcalc.quote.choose.ways:sums_under"),
    ("  the ways chosen", "shipcalc.quote.choose.ways:choices"),
    ("  the options made", "shipcalc.quote.answer:option_of"),
    ("    their lines", "shipcalc.quote.options:way_charges"),
    ("    their papers and tasks", "shipcalc.quote.options:papers"),
)


def timed(function: Callable[..., Any], took: list[float]) -> Callable[..., Any]:
    """Return the function, which then adds the seconds that it takes."""

    def call(*args: Any, **wishes: Any) -> Any:
        began = time.process_time()
        try:
            return function(*args, **wishes)
        finally:
            took.append(time.process_time() - began)

    return call


def yardstick() -> float:
    """Return the processor time of a Python that only imports numpy: the least of five."""
    took = []
    for _ in range(5):
        process = subprocess.Popen([sys.executable, "-c", "import numpy"])
        used = os.wait4(process.pid, 0)[2]
        process.returncode = 0
        took.append(used.ru_utime + used.ru_stime)
    return min(took)


def main() -> None:
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 50
    sources = invented_sources()
    books = open_books(sources)
    for to, stages in (("59715", HOME), ("Bremen, Germany", OVERSEAS)):
        order = Order(vehicles=("HV-1042",), to=to)
        quote_to_json(quote(order, sources, as_of=DAY, books=books))  # what is read and searched once is read now
        whole: list[float] = []
        for _ in range(times):
            timed(lambda order=order: quote_to_json(quote(order, sources, as_of=DAY, books=books)), whole)()
        lines = [(f"from typed words to JSON, to {to}", sum(whole))]
        for words, function in stages:
            room, _, name = function.partition(":")
            module, took = importlib.import_module(room), list[float]()
            before = getattr(module, name)
            setattr(module, name, timed(before, took))
            for _ in range(times):
                quote(order, sources, as_of=DAY, books=books)
            setattr(module, name, before)
            lines.append((f"  {words}", sum(took)))
        for words, seconds in lines:
            sys.stdout.write(f"{words:68} {seconds / times * 1000:6.2f} ms\n")
    sys.stdout.write(f"{'the yardstick, python -c import numpy':68} {yardstick() * 1000:6.2f} ms\n")


if __name__ == "__main__":
    main()

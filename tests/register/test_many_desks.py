"""Many desks at once: each number that somebody was told is there, once, and none is missing."""

import os
import subprocess
import sys

import pytest
from sqlalchemy import select, text

from shipcalc.register.opening import open_register
from shipcalc.register.tables import counts, quotes, revisions

DESKS = 8
# A desk keeps the same quote again and again, and tells each number once it is kept.
DESK = """
import sys
from pathlib import Path
from shipcalc.actions.quoting import Order, made_quote, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.register.opening import open_register
from shipcalc.register.quotes import keep_quote
from datetime import date
sources = invented_sources()
books = open_books(sources)
made = made_quote(Order(vehicles=("HV-1042",), to="59715", buyer="B"), sources, as_of=date(2026, 12, 1), books=books)
print("ready", flush=True)
sys.stdin.readline()
register = open_register(sys.argv[1])
for _ in range(int(sys.argv[2])):
    print(keep_quote(register, made.quote, made.request, made.rates, at="2026-12-01T16:20:05Z").number, flush=True)
"""


def _desk(url: str, count: int) -> "subprocess.Popen[str]":
    return subprocess.Popen(
        [sys.executable, "-c", DESK, url, str(count)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )


def _begin(desks: "list[subprocess.Popen[str]]") -> None:
    for desk in desks:
        assert desk.stdout is not None
        assert desk.stdout.readline() == "ready\n"
    for desk in desks:
        assert desk.stdin is not None
        desk.stdin.write("go\n")
        desk.stdin.flush()


def check_numbers(url: str, told: list[str], *, all_told: bool) -> int:
    """Hold the register to the numbers that were told; return how many are kept."""
    assert len(set(told)) == len(told), "no number twice"
    register = open_register(url)
    with register.reading() as connection:
        kept = list(connection.execute(select(quotes.c.number).order_by(quotes.c.number)).scalars())
        last = connection.execute(select(counts.c.last)).scalar()
        both = set(connection.execute(select(revisions.c.number)).scalars())
        if connection.dialect.name == "sqlite":
            assert connection.execute(text("pragma integrity_check")).scalar() == "ok"
    register.close()
    assert kept == [f"Q-2026-{number:04d}" for number in range(1, len(kept) + 1)], "none is missing"
    assert (last or 0) == len(kept)
    assert both == set(kept), "none is half kept"
    assert set(told) <= set(kept), "each that was told is there"
    if all_told:
        assert len(told) == len(kept)
    return len(kept)


@pytest.mark.soak
def test_eight_processes_keep_quotes_side_by_side(url: str) -> None:
    """`QUOTES=250 pytest tests/register/test_many_desks.py` has each of eight desks keep so many."""
    each = int(os.environ.get("QUOTES", "12"))
    desks = [_desk(url, each) for _ in range(DESKS)]
    _begin(desks)
    told = [line for desk in desks for line in desk.communicate()[0].split()]
    assert all(desk.returncode == 0 for desk in desks)
    assert check_numbers(url, told, all_told=True) == DESKS * each

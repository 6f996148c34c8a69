"""How long keeping and finding take: `pytest tests/benchmarks -k register --benchmark-enable`."""

import os
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from shipcalc.actions.quoting import Made, Order, made_quote, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.checklist.office_day import OfficeDay, office_day
from shipcalc.records import replace
from shipcalc.register.finding import Asked, Listed, find_quotes
from shipcalc.register.opening import Register, open_register, url_of_file
from shipcalc.register.quotes import keep_quote
from shipcalc.register.under_way import open_lines, shipments_under_way
from tests.register.many import fill

DAY = date(2026, 12, 1)


@pytest.fixture(scope="module")
def overseas() -> Made:
    sources = invented_sources()
    order = Order(vehicles=("HV-1027",), to="Bremen, Germany", buyer="K. Brandt")
    return made_quote(order, sources, as_of=DAY, books=open_books(sources))


def test_register_keep(benchmark, overseas: Made, tmp_path: Path) -> None:
    register = open_register(url_of_file(tmp_path / "r.sqlite"))
    kept = benchmark(
        lambda: keep_quote(register, overseas.quote, overseas.request, overseas.rates, at="2026-12-01T16:20:05Z")
    )
    register.close()
    assert kept.number


@pytest.fixture(scope="module")
def full(
    overseas: Made, tmp_path_factory: pytest.TempPathFactory, size: Callable[[int, int], int]
) -> Iterator[Register]:
    """100,000 quotes and 5,000 shipments, 200 of them under way; FULL names a database of PostgreSQL in place of a file."""
    register = open_register(os.environ.get("FULL") or url_of_file(tmp_path_factory.mktemp("full") / "r.sqlite"))
    count, accepted = size(100_000, 2_000), size(5_000, 400)
    fill(register, overseas.quote, count=count, accepted=accepted, under_way=200, day=DAY)
    yield register
    register.close()


def test_register_list(benchmark, full: Register) -> None:
    assert len(benchmark(lambda: found(full, Asked()))) == 50


def test_register_search_spelt_nearly_so(benchmark, full: Register) -> None:
    assert benchmark(lambda: found(full, Asked(text="okonkvo", since=DAY - timedelta(days=400)))) is not None


def test_register_search_with_a_slip_in_the_first_letter(benchmark, full: Register) -> None:
    assert len(benchmark(lambda: found(full, Asked(text="akonkwo")))) == 50


def test_register_ending(benchmark, full: Register) -> None:
    benchmark(lambda: found(full, Asked(ending_by=DAY + timedelta(days=7))))


def test_register_today(benchmark, full: Register) -> None:
    def today() -> OfficeDay:
        with full.reading() as connection:
            lines = open_lines(connection, until=DAY + timedelta(days=14))
            return office_day(lines, shipments_under_way(connection), today=DAY)

    assert 150 < len(benchmark(today).shipments) <= 200


def test_register_keep_in_a_full_one(benchmark, full: Register, overseas: Made) -> None:
    at = "2027-12-01T16:20:05Z"
    quote = replace(overseas.quote, as_of=date(2027, 12, 1))
    assert benchmark(lambda: keep_quote(full, quote, overseas.request, overseas.rates, at=at)).number


def found(register: Register, asked: Asked) -> tuple[Listed, ...]:
    with register.reading() as connection:
        return find_quotes(connection, asked, today=DAY)

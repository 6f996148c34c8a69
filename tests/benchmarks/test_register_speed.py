"""How long keeping and finding take: `pytest tests/benchmarks -k register --benchmark-enable`."""

from datetime import date
from pathlib import Path

import pytest

from shipcalc.actions.quoting import Made, Order, made_quote, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.register.opening import open_register, url_of_file
from shipcalc.register.quotes import keep_quote

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

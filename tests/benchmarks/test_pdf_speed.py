"""How long the buyer's PDF takes once everything is read: `pytest tests/benchmarks -k pdf --benchmark-enable`."""

from datetime import date
from itertools import count

import pytest

from shipcalc.actions.quoting import Order, quote
from shipcalc.documents.buyer.pdf import quote_pdf
from shipcalc.records import replace


@pytest.mark.parametrize("to", ["59715", "Bremen, Germany"])
def test_the_offer_as_pdf(benchmark, books, sources, to: str) -> None:
    """Each for another buyer, so that nothing of the last one helps."""
    made = quote(Order(vehicles=("HV-1042",), to=to), sources, as_of=date(2026, 12, 1), books=books)
    numbers = count()
    pdf = benchmark(lambda: quote_pdf(replace(made, buyer=f"Buyer {next(numbers)}")))
    assert pdf.startswith(b"%PDF-1.7")

"""What it costs to keep vehicles at a yard: days or started months beyond the free ones."""

from collections.abc import Iterator, Sequence

import numpy as np

from shipcalc.money import E4, Int64, decimals
from shipcalc.pricing.counted import counted_line
from shipcalc.pricing.line import Line
from shipcalc.ratebook.rows.yards import Storage

CODE = "yard.storage"
DAYS_OF_A_MONTH = 30


def counted(days: int, *, free_days: int, per: str) -> int:
    """Return how many days, or started months of 30 days, are charged of so many days kept."""
    charged = max(0, days - free_days)
    return -(-charged // DAYS_OF_A_MONTH) if per == "month" else charged


def storage_lines(of_vehicles: Sequence[Storage], days: int, *, stage: str, currency: str) -> Iterator[Line]:
    """Yield a line (n, 1) for each row that vehicles kept so many days are charged by; `of_vehicles` has the row of each."""
    for row in {id(row): row for row in of_vehicles}.values():
        own = counted(days, free_days=row.free_days, per=row.per)
        quantity: Int64 = np.array([[own if its is row else 0] for its in of_vehicles], dtype=np.int64)
        free = f"; the first {row.free_days} are free" if row.free_days else ""
        yield counted_line(
            code=CODE,
            label=row.storage,
            stage=stage,
            unit=row.per,
            quantity=quantity,
            rate_e4=row.amount_minor * E4 // 10 ** decimals(currency),
            markup_ppm=0,
            currency=currency,
            cell=row.at.cell("amount_minor"),
            note=f"Kept {days} days{free}.",
        )

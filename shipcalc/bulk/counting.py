"""How many rows have a price, and why the others have none."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pyarrow as pa


class Count:
    """Counts the rows of tables that pass by."""

    def __init__(self) -> None:
        self.priced = 0
        self._reasons: Counter[str] = Counter()

    @property
    def why_not(self) -> tuple[tuple[str, int], ...]:
        """Return the reasons, the commonest first."""
        return tuple(sorted(self._reasons.items(), key=lambda entry: (-entry[1], entry[0])))

    def counted(self, tables: "Iterable[pa.Table]") -> "Iterator[pa.Table]":
        """Yield the tables as they come."""
        for table in tables:
            self.priced += len(table) - table["price"].null_count
            for entry in table["why_not"].drop_null().value_counts().to_pylist():
                self._reasons[str(entry["values"])] += entry["counts"]
            yield table

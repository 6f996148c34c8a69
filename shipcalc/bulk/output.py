"""The finished table as one file: Parquet, CSV or Excel; whole, or not there at all."""

from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput, asked
from shipcalc.sheets.plain_csv import as_text
from shipcalc.sheets.saving import whole

if TYPE_CHECKING:
    import pyarrow as pa

# Excel's last row (ECMA-376 allows no more), one of them for the headers.
MOST_EXCEL_ROWS = 1_048_576 - 1
ENDINGS = (".parquet", ".csv", ".xlsx")

Tables = Iterable["pa.Table"]


def check_output(out: Path, rows: int) -> None:
    """Raise WrongInput for a file that cannot hold the rows, before anything is priced."""
    ending = out.suffix.lower()
    if ending not in ENDINGS:
        raise WrongInput(
            f"is not a kind of file for a table: {ending or 'no ending'}", where=str(out), remedy=_ENDINGS_TOLD
        )
    if out.is_dir():
        raise WrongInput("is a folder, not a file", where=str(out), remedy="name the file itself")
    if ending == ".xlsx" and rows > MOST_EXCEL_ROWS:
        raise WrongInput(
            f"an Excel sheet ends after {MOST_EXCEL_ROWS + 1:,} rows, and these are {rows:,}",
            where=str(out),
            remedy=f"write .parquet or .csv, or ask for fewer vehicles ({asked('vehicle')}), places or trailers",
        )


def write_parquet(out: Path, tables: Tables, progress: Callable[[int], None]) -> None:
    """Write one row group a block. The same rows give the same bytes."""
    import pyarrow.parquet as pq

    with whole(out, remedy=_ANOTHER) as beside:
        writer: pq.ParquetWriter | None = None
        try:
            for table in tables:
                if writer is None:
                    words = [field.name for field in table.schema if str(field.type).startswith("dictionary")]
                    writer = pq.ParquetWriter(
                        beside,
                        table.schema,
                        compression="snappy",
                        use_dictionary=[*words, "price", "miles"],
                        write_statistics=["price", "miles"],
                        store_decimal_as_integer=True,
                    )
                writer.write_table(table, row_group_size=len(table))
                progress(len(table))
        finally:
            if writer is not None:
                writer.close()


def write_csv(out: Path, tables: Tables, progress: Callable[[int], None]) -> None:
    """Write UTF-8 with commas and a header row; no text begins like a formula, which Excel would compute."""
    import pyarrow as pa
    import pyarrow.csv as pc

    with whole(out, remedy=_ANOTHER) as beside:
        writer: pc.CSVWriter | None = None
        try:
            for table in tables:
                plain = pa.table(
                    {
                        name: _harmless(column).cast(column.type.value_type)
                        if pa.types.is_dictionary(column.type)
                        else column
                        for name, column in zip(table.column_names, table.columns, strict=True)
                    }
                )
                writer = writer or pc.CSVWriter(
                    beside, plain.schema, write_options=pc.WriteOptions(quoting_style="needed")
                )
                writer.write_table(plain)
                progress(len(table))
        finally:
            if writer is not None:
                writer.close()


def _harmless(column: "pa.ChunkedArray") -> "pa.ChunkedArray":
    """Return a column of words (a dictionary) of which none begins like a formula."""
    import pyarrow as pa

    def plain(chunk: "pa.DictionaryArray") -> "pa.DictionaryArray":
        words = chunk.dictionary.to_pylist()
        return pa.DictionaryArray.from_arrays(chunk.indices, pa.array(map(as_text, words), chunk.dictionary.type))

    return pa.chunked_array([plain(chunk) for chunk in column.chunks], column.type)


def rows_of(tables: Tables, progress: Callable[[int], None]) -> Iterator[tuple[object, ...]]:
    """Yield the rows of tables as plain values, in order."""
    for table in tables:
        for batch in table.to_batches(max_chunksize=10_000):
            yield from zip(*(column.to_pylist() for column in batch.columns), strict=True)
            progress(len(batch))


_ENDINGS_TOLD = "end it in .parquet, .csv or .xlsx for the table, in .svg or .png for a price map of one vehicle"
_ANOTHER = f"close it where it is open, or name another with {asked('out')}"

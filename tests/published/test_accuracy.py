"""The kept table of errors is what the code makes, and keeps what was aimed at. Published sets: see the text of ACCURACY.md."""

from shipcalc.places.making.accuracy import FILE, document


def test_the_kept_table_is_what_the_code_makes() -> None:
    """Else: python -m shipcalc.places.making.accuracy --write"""
    assert FILE.read_text(encoding="utf-8") == document()


def test_every_row_of_the_tables_has_all_its_columns() -> None:
    rows = [line for line in document().splitlines() if line.startswith("|")]
    assert len(rows) > 15
    assert all(line.count("|") == 9 for line in rows)
    assert any(line.startswith("| lane, scaled | 1949 | 8128 |") for line in rows)
    assert any(line.startswith("| network | held out, 2,000 nmi and more |") for line in rows)

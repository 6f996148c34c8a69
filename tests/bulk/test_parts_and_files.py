"""A file is whole or not there; what was priced is kept for the next start; all kinds of file say the same."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pyarrow.csv as pc
import pyarrow.parquet as pq
import pytest

from shipcalc.actions.lanes import LanesAnswer, LanesOrder, price_lanes
from shipcalc.bulk import output, plan, running
from shipcalc.bulk.plan import blocks_of, key_of
from shipcalc.errors import WrongInput
from shipcalc.records import replace
from shipcalc.sheets.reading import read_workbook

DAY = date(2026, 12, 18)
VEHICLES = ("HV-1042", "HV-1044", "HV-1153")
QUIET = lambda what, done, in_all: None  # noqa: E731


@pytest.fixture
def short_blocks(monkeypatch: pytest.MonkeyPatch) -> None:
    """Blocks of one vehicle, so that three vehicles make several."""
    monkeypatch.setattr(plan, "MOST_ROWS", 120)


def lanes(sources, out: Path, told=QUIET, **more: object) -> LanesAnswer:
    order = LanesOrder(**{"to": "states", "out": out, "vehicles": VEHICLES} | more)
    return price_lanes(order, sources, as_of=DAY, told=told)


def left_in(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_every_vehicle_has_a_row_for_every_place_and_trailer(sources, tmp_path: Path) -> None:
    answer = lanes(sources, tmp_path / "prices.parquet")
    table = pq.read_table(tmp_path / "prices.parquet")
    rows = {(row["vehicle"], row["to"], row["trailer"]) for row in table.to_pylist()}
    assert answer.rows == len(table) == len(rows) == 3 * 51 * 2
    assert answer.priced == len(table) - table["price"].null_count > 200
    assert answer.priced + sum(count for _, count in answer.why_not) == answer.rows
    assert left_in(tmp_path) == {"prices.parquet"}


def test_all_kinds_of_file_have_the_same_rows(sources, tmp_path: Path) -> None:
    for ending in ("parquet", "csv", "xlsx"):
        lanes(sources, tmp_path / f"prices.{ending}")
    table = pq.read_table(tmp_path / "prices.parquet").to_pylist()
    text = pc.read_csv(tmp_path / "prices.csv").to_pylist()
    sheet = read_workbook(tmp_path / "prices.xlsx").find_sheet("Prices")
    assert sheet is not None
    names = list(table[0])
    assert len(table) == len(text) == len(sheet.rows) - 1
    for row, line, cells in zip(table, text, sheet.rows[1:], strict=True):
        assert line["price"] is None or row["price"] == Decimal(str(line["price"]))
        assert {**row, "price": None, "buyer_pays_locally": None} == {
            name: (value or None if name in ("carrier", "way", "why_not") else value)
            for name, value in {**line, "price": None, "buyer_pays_locally": None}.items()
        }
        beside = dict(zip(names, cells, strict=True))
        assert beside["price"] == (None if row["price"] is None else pytest.approx(float(row["price"])))
        assert {name: beside[name] for name in ("vehicle", "to", "place", "trailer", "carrier")} == {
            name: row[name] for name in ("vehicle", "to", "place", "trailer", "carrier")
        }


@pytest.mark.parametrize("ending", ["parquet", "csv", "xlsx"])
def test_the_same_order_gives_the_same_bytes(sources, tmp_path: Path, ending: str) -> None:
    lanes(sources, tmp_path / f"a.{ending}", vehicles=VEHICLES[:1])
    lanes(sources, tmp_path / f"b.{ending}", vehicles=VEHICLES[:1])
    assert (tmp_path / f"a.{ending}").read_bytes() == (tmp_path / f"b.{ending}").read_bytes()


def test_a_list_of_many_places_at_home_and_few_abroad_is_one_table(make_plan, zips, some, tmp_path: Path) -> None:
    """Blocks of two hundred places and of one: what words take in them is the same."""
    home = [number for number, code in enumerate(zips.names) if code.startswith("59")][:200]
    list_of = make_plan(some(zips, [*home, zips.names.index("96813")]), [0], by_sea=True)
    blocks = blocks_of(list_of)
    tables = [running.rows_of_block(list_of, block) for block in blocks]
    assert sorted(len(block.places) for block in blocks) == [1, 200]
    assert tables[0].schema == tables[1].schema
    output.write_parquet(tmp_path / "prices.parquet", tables, lambda rows: None)
    assert pq.read_table(tmp_path / "prices.parquet").num_rows == 402


def test_what_is_for_the_buyer_names_no_carrier(sources, books, tmp_path: Path) -> None:
    lanes(sources, tmp_path / "prices.csv", for_office=False)
    text = (tmp_path / "prices.csv").read_text()
    assert "carrier" not in text.partition("\n")[0]
    assert [row.carrier for row in books.rates.carriers if row.carrier in text] == []


def test_after_a_stop_there_is_no_half_file_and_the_next_start_goes_on(
    sources, tmp_path: Path, short_blocks: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    priced = []
    price = running.rows_of_block
    monkeypatch.setattr(running, "rows_of_block", lambda its, block: priced.append(block.number) or price(its, block))

    def stopping(what: str, done: int, in_all: int) -> None:
        if len(priced) >= 3:  # the next may be priced already
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        lanes(sources, tmp_path / "prices.parquet", stopping)
    assert not (tmp_path / "prices.parquet").exists()
    assert [name for name in left_in(tmp_path) if not name.endswith(".parts")] == []
    answer = lanes(sources, tmp_path / "prices.parquet")
    assert len(priced) == len(set(priced)) > 3
    assert left_in(tmp_path) == {"prices.parquet"}
    lanes(sources, tmp_path / "at-once.parquet")
    assert answer.rows == 306
    assert (tmp_path / "prices.parquet").read_bytes() == (tmp_path / "at-once.parquet").read_bytes()


def test_a_stop_while_the_file_is_written_leaves_what_stood_there(sources, tmp_path: Path) -> None:
    out = tmp_path / "prices.csv"
    out.write_text("yesterday's")

    def stopping(what: str, done: int, in_all: int) -> None:
        if what == "written":
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        lanes(sources, out, stopping)
    assert out.read_text() == "yesterday's"
    assert [name for name in left_in(tmp_path) if name.endswith(".half")] == []


def test_parts_of_other_inputs_are_not_taken_but_removed(sources, tmp_path: Path, short_blocks: None) -> None:
    def stopping(what: str, done: int, in_all: int) -> None:
        raise KeyboardInterrupt

    for trailer in ("open", "enclosed"):
        with pytest.raises(KeyboardInterrupt):
            lanes(sources, tmp_path / "prices.csv", stopping, trailer=trailer)
        assert len(left_in(tmp_path)) == 1


def test_a_plan_is_named_by_everything_its_rows_depend_on(make_plan, states, some) -> None:
    one = make_plan(some(states, [3, 4]), [0, 1])
    others = (
        make_plan(some(states, [3, 5]), [0, 1]),
        make_plan(some(states, [3, 4]), [0, 2]),
        make_plan(some(states, [3, 4]), [0, 1], trailers=("open",)),
        make_plan(some(states, [3, 4]), [0, 1], for_office=False),
        replace(one, as_of=DAY.replace(day=19), ready=DAY.replace(day=19)),
        replace(one, book=replace(one.book, fingerprint="another")),
        replace(one, starts=one.starts[::-1]),
    )
    assert key_of(one) == key_of(make_plan(some(states, [3, 4]), [0, 1]))
    assert len({key_of(each) for each in (one, *others)}) == len(others) + 1 - (one.starts[0] == one.starts[1])


def test_blocks_cover_every_vehicle_and_place_once(make_plan, zips, states, short_blocks: None) -> None:
    for its in (make_plan(zips, range(5)), make_plan(states)):
        seen = [(v, p) for block in blocks_of(its) for v in block.vehicles for p in block.places]
        assert len(seen) == len(set(seen)) == len(its.vehicles) * len(its.destinations)


def test_a_table_that_excel_cannot_hold_is_refused_before_it_is_priced(sources, tmp_path: Path) -> None:
    with pytest.raises(WrongInput, match=r"ends after 1,048,576 rows, and these are .* — write \.parquet or \.csv"):
        lanes(sources, tmp_path / "prices.xlsx", to="zips", vehicles=())
    assert left_in(tmp_path) == set()
    assert output.MOST_EXCEL_ROWS == 1_048_575  # Excel specifications and limits, Microsoft: rows, less the headers


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"out": "prices.txt"}, "is not a kind of file for a table"),
        ({"out": "prices.svg"}, "a price map is of one vehicle, and these are 3"),
        ({"to": "moon"}, "is not a destination"),
        ({"to": "cities"}, "needs a file with the places"),
        ({"trailer": "flying"}, "is not a kind of trailer"),
        ({"ready": DAY.replace(day=1)}, "nothing can be ready on 2026-12-01"),
    ],
)
def test_what_cannot_be_used_is_said_in_a_sentence(sources, tmp_path: Path, given: dict, message: str) -> None:
    out = tmp_path / given.pop("out", "prices.csv")
    with pytest.raises(WrongInput, match=message):
        lanes(sources, out, **given)

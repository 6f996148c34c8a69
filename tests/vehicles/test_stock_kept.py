"""A stock list that is kept says what the list itself says, and nothing else is ever taken for it."""

import os
import shutil
from pathlib import Path

import pytest

from shipcalc.errors import WrongInput
from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.vehicles import stock_kept, stock_list
from shipcalc.vehicles.stock_kept import stock_of
from shipcalc.vehicles.stock_list import read_stock

LIST = "Stock No.,Year,Make,Model,Body,Length (in),Width,Runs,Value,Note\n"
ROWS = (
    'HV-1,1961,Larkspur,Minnow,roadster,160.5,60 in,yes,"41,000",Näher besehen \U0001f697\n',
    "HV-2,1931,Larkspur,Teal,landaulet,5 m,70 in,no,9000,\n",
    "HV-3,nineteen,Larkspur,Heron,coupe,170,66 in,yes,1,\n",
)


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty cache folder."""
    monkeypatch.setattr(stock_kept, "kept_in", lambda name: tmp_path / "store" / name)
    return tmp_path / "store" / "stock-lists"


@pytest.fixture
def listed(tmp_path: Path) -> Path:
    """A list with a sound row, one with a warning and one with a fault."""
    path = tmp_path / "stock.csv"
    path.write_text(LIST + "".join(ROWS), encoding="utf-8")
    return path


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """The files that were read, one entry for each time."""
    read: list[Path] = []

    def counted(path: Path, **more: object) -> object:
        read.append(path)
        return read_stock(path, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(stock_list, "read_stock", counted)
    return read


def test_what_is_kept_is_what_was_read(store: Path, listed: Path, reads: list[Path]) -> None:
    said = stock_of(listed)
    assert (said.vehicles[0].note, said.vehicles[0].value_minor) == ("Näher besehen \U0001f697", 4_100_000)
    assert said.unusable
    assert said.problems
    assert stock_of(listed) == said == read_stock(listed)
    assert reads == [listed]
    assert len(list(store.iterdir())) == 1


def test_another_content_name_currency_or_table_of_bodies_is_read_anew(
    store: Path, listed: Path, reads: list[Path]
) -> None:
    sizes = (
        VehicleSize(
            body="landaulet",
            also=(),
            length_mm=4_900_000,
            width_mm=1_800,
            height_mm=1_900,
            clearance_mm=200,
            mass_grams=1_500_000,
        ),
    )
    stock_of(listed)
    copied = Path(shutil.copy(listed, listed.with_name("other.csv")))
    assert stock_of(copied).file == "other.csv"
    assert stock_of(listed, currency="EUR").vehicles[0].currency == "EUR"
    assert len(stock_of(listed, sizes=sizes).problems) < len(stock_of(listed).problems)
    before = listed.stat()
    listed.write_text(LIST + ROWS[0].replace("1961", "1962") + "".join(ROWS[1:]), encoding="utf-8")
    os.utime(listed, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert listed.stat().st_size == before.st_size
    assert stock_of(listed).vehicles[0].year == 1962
    assert len(reads) == 5


@pytest.mark.parametrize("content", [b"", b"{}", b'{"vehicles": [[1]]}', b"\xff", b"[]", b'{"vehicles": 3}'])
def test_whatever_is_amiss_with_a_kept_list_it_is_read_again(
    store: Path, listed: Path, reads: list[Path], content: bytes
) -> None:
    said = stock_of(listed)
    (kept,) = store.iterdir()
    kept.write_bytes(content)
    assert stock_of(listed) == said
    assert len(reads) == 2
    assert kept.read_bytes() != content


def test_a_folder_that_cannot_be_written_only_takes_longer(
    tmp_path: Path, listed: Path, reads: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = tmp_path / "blocked"
    blocked.write_text("a file, where a folder should be")
    monkeypatch.setattr(stock_kept, "kept_in", lambda name: blocked / name)
    assert stock_of(listed) == stock_of(listed) == read_stock(listed)
    assert len(reads) == 2


def test_what_is_no_list_is_never_kept(store: Path, tmp_path: Path) -> None:
    path = tmp_path / "letter.csv"
    path.write_text("Dear Mr Lindqvist,\nthe roadster is sold.\n")
    for _ in range(2):
        with pytest.raises(WrongInput, match="this is not a stock list"):
            stock_of(path)
    with pytest.raises(WrongInput, match="there is no such file"):
        stock_of(tmp_path / "none.csv")
    assert not store.exists()


def test_only_so_many_lists_are_kept(store: Path, listed: Path) -> None:
    for number in range(stock_kept.MOST_LISTS + 3):
        listed.write_text(LIST + ROWS[0].replace("HV-1", f"HV-{number}"), encoding="utf-8")
        stock_of(listed)
    assert len(list(store.iterdir())) == stock_kept.MOST_LISTS

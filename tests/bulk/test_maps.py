"""Price maps of one vehicle show the prices of its table."""

from datetime import date
from pathlib import Path
from xml.etree import ElementTree as ET
from zipfile import ZipFile

import pyarrow.parquet as pq
import pytest

from shipcalc.actions.lanes import LanesOrder, price_lanes
from shipcalc.errors import WrongInput

DAY = date(2026, 12, 18)


def lanes(sources, out: Path, **more: object) -> None:
    order = LanesOrder(**{"to": "states", "out": out, "vehicles": ("HV-1042",), "trailer": "open"} | more)
    price_lanes(order, sources, as_of=DAY, told=lambda what, done, in_all: None)


def words_of(svg: Path) -> list[str]:
    root = ET.parse(svg).getroot()
    return [text.text or "" for text in root.iter("{http://www.w3.org/2000/svg}text")]


def test_every_state_has_its_figure(sources, tmp_path: Path) -> None:
    lanes(sources, tmp_path / "map.svg")
    lanes(sources, tmp_path / "prices.parquet")
    words = words_of(tmp_path / "map.svg")
    for row in pq.read_table(tmp_path / "prices.parquet").to_pylist():
        figure = "–" if row["price"] is None else f"{row['price'] + row['buyer_pays_locally']:,.0f}"
        assert words[words.index(row["to"]) + 1] == figure, row["to"]
    assert any(word.startswith("up to ") for word in words)
    assert any("Census" in word for word in words)


def test_zips_are_shown_by_their_first_figures_with_a_legend(sources, tmp_path: Path) -> None:
    lanes(sources, tmp_path / "map.svg", to="zips")
    assert [word for word in words_of(tmp_path / "map.svg") if word.startswith(("up to", "above"))]
    assert (tmp_path / "map.svg").stat().st_size < 600_000


def test_the_workbook_of_one_vehicle_has_the_picture(sources, tmp_path: Path) -> None:
    lanes(sources, tmp_path / "one.xlsx")
    lanes(sources, tmp_path / "two.xlsx", vehicles=("HV-1042", "HV-1044"))
    pictures = {
        name: [entry for entry in ZipFile(tmp_path / name).namelist() if entry.startswith("xl/media/")]
        for name in ("one.xlsx", "two.xlsx")
    }
    assert pictures == {"one.xlsx": ["xl/media/image1.png"], "two.xlsx": []}
    content = ZipFile(tmp_path / "one.xlsx").read("xl/media/image1.png")
    assert content.startswith(b"\x89PNG")


def test_there_is_no_map_of_a_list_of_places(sources, tmp_path: Path) -> None:
    file = tmp_path / "shows.csv"
    file.write_text("59715\n")
    with pytest.raises(WrongInput, match="there is no price map of cities"):
        lanes(sources, tmp_path / "map.png", to="cities", to_file=file)


def test_a_country_without_duty_figures_is_hatched_in_its_shade_and_the_legend_says_so(sources, tmp_path: Path) -> None:
    lanes(sources, tmp_path / "map.svg", to="countries")
    lanes(sources, tmp_path / "prices.parquet", to="countries")
    rows = {row["to"]: row for row in pq.read_table(tmp_path / "prices.parquet").to_pylist()}
    assert rows["BR"]["price"] is not None
    assert rows["BR"]["not_in_sum"] == "duty and tax"  # no row of Brazil on Import charges
    assert rows["DE"]["not_in_sum"] is None
    words = words_of(tmp_path / "map.svg")
    assert "duty and tax" in words
    assert any(word.startswith("Hatched in its shade") for word in words)
    lanes(sources, tmp_path / "states.svg")
    assert "duty and tax" not in words_of(tmp_path / "states.svg")

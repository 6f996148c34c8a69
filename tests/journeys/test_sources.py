"""Where stock, prices and settings come from, in which order, and that it is said."""

import json
import shutil
from pathlib import Path

from shipcalc.actions.sources import find_sources, invented_folder, invented_sources

STOCK = 'Stock number,Year,Body,Value ($),Yard\n{},1961,roadster,9000,"Bellingham, WA"\n'


def write_stock(file: Path, number: str) -> Path:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(STOCK.format(number), encoding="utf-8")
    return file


def numbers(said) -> list[str]:
    assert said.status == 0, said.err
    return [vehicle["stock_number"] for vehicle in json.loads(said.out)["vehicles"]]


def test_the_command_line_goes_before_settings_before_the_folder_before_the_invented(say, here: Path) -> None:
    assert len(numbers(say("stock", "--json"))) > 100
    write_stock(here / "demo/stock.csv", "FOLDER-1")
    assert numbers(say("stock", "--json")) == ["FOLDER-1"]
    write_stock(here / "cars/mine.csv", "SET-1")
    (here / "shipcalc.toml").write_text('stock = "cars/mine.csv"\n', encoding="utf-8")
    assert numbers(say("stock", "--json")) == ["SET-1"]
    write_stock(here / "named.csv", "NAMED-1")
    assert numbers(say("stock", "--json", "--stock", "named.csv")) == ["NAMED-1"]


def test_what_nobody_named_is_said(say, here: Path) -> None:
    assert "stock list: the invented dealer inside shipcalc" in say("stock").err
    write_stock(here / "demo/stock.csv", "FOLDER-1")
    assert "stock list: demo/stock.csv in this folder" in say("stock").err
    (here / "shipcalc.toml").write_text('stock = "demo/stock.csv"\n', encoding="utf-8")
    assert "stock list: stock.csv, as shipcalc.toml says" in say("stock").err
    assert say("stock", "--stock", "demo/stock.csv").err == ""


def test_a_rate_book_in_the_folder_is_used_and_not_called_invented(say, here: Path) -> None:
    shutil.copytree(invented_folder("rates"), here / "rates")
    said = say("quote", "--vehicle", "HV-1153", "--to", "53703", "--as-of", "2026-12-01", "--json")
    assert "prices: the folder rates in this folder" in said.err
    assert not any("inside shipcalc" in sentence for sentence in json.loads(said.out)["assumptions"])


def test_an_empty_folder_rates_is_no_rate_book(here: Path) -> None:
    (here / "rates").mkdir()
    assert find_sources(folder=here).rates.invented


def test_the_invented_dealer_brings_its_own_settings(here: Path) -> None:
    sources = find_sources(folder=here)
    assert sources == invented_sources()
    assert "invented" in sources.settings.dealer.name
    assert [yard for yard, _ in sources.settings.yards] == ["Bellingham", "Savannah"]


def test_ones_own_stock_list_never_gets_the_invented_dealers_name(here: Path) -> None:
    named = write_stock(here / "named.csv", "NAMED-1")
    sources = find_sources(folder=here, stock=named)
    assert sources.settings.dealer.name == ""
    assert "dealer: nobody yet; name yours under [dealer] in shipcalc.toml" in sources.notes

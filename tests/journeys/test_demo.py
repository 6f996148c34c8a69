"""The newcomer's journey: an invented dealer's day in one folder."""

import subprocess
import sys
from pathlib import Path

import pytest

from shipcalc.actions.demo import run_demo
from shipcalc.documents.offer.first_answer import rounded
from shipcalc.quote.as_data import quote_from_json

FILES = {
    "buyer/quote.pdf",
    "buyer/quote.xlsx",
    "buyer/message.txt",
    "office/quote-office.xlsx",
    "office/checklist.xlsx",
    "office/quote.json",
}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of somebody who has just run the demo, and what it said."""
    folder = tmp_path_factory.mktemp("newcomer")
    program = Path(sys.executable).with_name("shipcalc")
    done = subprocess.run([program, "demo"], cwd=folder, text=True, capture_output=True, timeout=240, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    (folder / "said.txt").write_text(done.stdout, encoding="utf-8")
    return folder


def first_text(folder: Path) -> str:
    return (folder / "shipcalc-demo/OPEN THIS FIRST.txt").read_text(encoding="utf-8")


def test_the_day_fills_one_folder_and_says_what_to_open_first(folder: Path) -> None:
    said = (folder / "said.txt").read_text(encoding="utf-8")
    assert said.rstrip().endswith(f"Open first: {Path('shipcalc-demo/OPEN THIS FIRST.txt')}")
    buyers = sorted(path for path in (folder / "shipcalc-demo").iterdir() if path.is_dir())
    assert len(buyers) >= 8
    for buyer in buyers:
        assert {file.relative_to(buyer).as_posix() for file in buyer.rglob("*.*")} == FILES
        assert buyer.name in first_text(folder)
        quote = quote_from_json((buyer / "office/quote.json").read_bytes())
        assert f"{quote.options[quote.recommended].total:,}" in first_text(folder)
        assert "invented" in quote.dealer.name
        assert quote.buyer in (buyer / "buyer/message.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("name", "reason"),
    [("Sgt. Imogen Pryce", "military")],
)
def test_who_cannot_be_served_gets_a_plain_reason(folder: Path, name: str, reason: str) -> None:
    told = first_text(folder).split(name, 1)[1].split("\n\n", 1)[0]
    assert reason in told
    assert name in (folder / "said.txt").read_text(encoding="utf-8")
    assert not any(name.split()[-1] in path.name for path in (folder / "shipcalc-demo").iterdir())


@pytest.mark.parametrize("name", ["Linus Haldane", "Marguerite Oyelaran"])
def test_who_buys_what_no_closed_trailer_holds_is_served_all_the_same(folder: Path, name: str) -> None:
    """A camper of more than ten feet goes on a low open trailer, or a hired driver drives it."""
    (quote,) = (
        quote
        for path in (folder / "shipcalc-demo").glob("*/office/quote.json")
        if (quote := quote_from_json(path.read_bytes())).buyer == name
    )
    assert {option.trailer for option in quote.options} <= {"open", None}
    assert name in first_text(folder)


def test_the_buyer_on_an_island_has_the_ferry_in_the_quote(folder: Path) -> None:
    written = [quote_from_json(path.read_bytes()) for path in (folder / "shipcalc-demo").glob("*/office/quote.json")]
    (quote,) = (quote for quote in written if quote.buyer == "Barnaby Coffin")
    assert all("ferry" in [leg.mode for leg in option.legs] for option in quote.options)


def test_buyers_on_every_continent_have_a_quote(folder: Path) -> None:
    """Bremen and Southampton, Yokohama and Jeddah, Durban, Santos and Toronto, Auckland; and Honolulu over the same sea."""
    quotes = [
        quote_from_json(path.read_bytes()) for path in sorted((folder / "shipcalc-demo").glob("*/office/quote.json"))
    ]
    abroad = {quote.to.country: quote for quote in quotes if quote.to.country != "US"}
    assert set(abroad) == {"DE", "GB", "JP", "SA", "ZA", "BR", "CA", "NZ"}
    assert {quote.exchange.currency for quote in abroad.values() if quote.exchange} >= {"EUR", "JPY", "GBP"}
    assert {option.ocean for option in abroad["GB"].options} == {"container"}
    assert {option.term for option in abroad["SA"].options} == {"CIF"}
    assert any(option.ocean for quote in quotes for option in quote.options if quote.to.subdivision == "HI")
    for quote in abroad.values():
        option = quote.options[quote.recommended]
        assert f"about ${rounded(option.buyer_pays_locally):,} to others" in first_text(folder)


def test_everything_says_that_it_is_invented(folder: Path) -> None:
    for text in (first_text(folder), (folder / "said.txt").read_text(encoding="utf-8")):
        assert "is invented" in text


def test_the_day_is_the_same_whenever_it_is_run(folder: Path, tmp_path: Path) -> None:
    day = run_demo(tmp_path)
    assert len(day.files) > 40
    for file in day.files:
        before = folder / "shipcalc-demo" / file.relative_to(tmp_path)
        assert file.read_bytes() == before.read_bytes(), file.name

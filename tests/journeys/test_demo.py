"""The newcomer's journey: an invented dealer's day in one folder."""

import json
import os
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from shipcalc.actions.demo import DEMO_DAY
from shipcalc.actions.demo_office import REGISTER_FILE
from shipcalc.actions.today import day_in
from shipcalc.cli.look import Look
from shipcalc.cli.main import run
from shipcalc.cli.newcomer import COMMANDS
from shipcalc.cli.today import day_lines
from shipcalc.documents.offer.first_answer import rounded
from shipcalc.quote.as_data import quote_from_json
from shipcalc.register.opening import open_register, url_of_file

((_, _, _, EXAMPLE),) = COMMANDS
FILES = {
    "buyer/quote.pdf",
    "buyer/quote.xlsx",
    "buyer/message.txt",
    "buyer/message.html",
    "buyer/message.eml",
    "office/quote-office.xlsx",
    "office/checklist.xlsx",
    "office/checklist-to-print.pdf",
    "office/checklist.ics",
    "office/quote.json",
}


@pytest.fixture(scope="module")
def folder(made_once: Callable[[str, Callable[[Path], None]], Path]) -> Path:
    """The folder of somebody who has just run the demo, and what it said."""
    return made_once("newcomer", _run_as_installed)


def _run_as_installed(folder: Path) -> None:
    program = Path(sys.executable).with_name("shipcalc")
    done = subprocess.run([program, "demo"], cwd=folder, text=True, capture_output=True, timeout=240, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    (folder / "said.txt").write_text(done.stdout, encoding="utf-8")


@pytest.fixture(scope="module")
def again(made_once: Callable[[str, Callable[[Path], None]], Path]) -> Path:
    """The folder of the same day once more, in this process and by the example of the command's own help."""
    return made_once("again", _run_here) / shlex.split(EXAMPLE)[-1]


def _run_here(folder: Path) -> None:
    program, *words = shlex.split(EXAMPLE)
    assert program == "shipcalc"
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        assert run(words) == 0


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


def test_the_day_is_the_same_whenever_it_is_run(folder: Path, again: Path) -> None:
    written = [file for file in again.rglob("*") if file.is_file() and not file.name.startswith(REGISTER_FILE)]
    assert len(written) > 40
    assert said_in(again, "today", "--json") == said_in(folder / "shipcalc-demo", "today", "--json")
    for file in written:
        before = folder / "shipcalc-demo" / file.relative_to(again)
        assert file.read_bytes() == before.read_bytes(), file.name


def said_in(folder: Path, *words: str) -> str:
    """What a command says to somebody who works in the demo's folder, on the demo's day."""
    program = Path(sys.executable).with_name("shipcalc")
    plain = {name: value for name, value in os.environ.items() if name != "SHIPCALC_REGISTER"}
    command = [program, *words, "--as-of", "2026-12-01"]
    done = subprocess.run(command, cwd=folder, env=plain, text=True, capture_output=True, timeout=120, check=False)
    assert (done.returncode, done.stderr) == (0, ""), done.stderr
    return done.stdout


def test_the_office_has_twelve_shipments_of_every_kind_at_different_stages(folder: Path) -> None:
    demo = folder / "shipcalc-demo"
    day = json.loads(said_in(demo, "today", "--json"))
    assert len(day["shipments"]) == 12
    assert all(day[name] for name in ("late", "due", "waiting", "people"))
    assert len(day["ending"]) == 3
    assert {one["next"]["id"] for one in day["shipments"] if one["next"]} >= {
        "pickup",
        "cut-off",
        "sailing",
        "delivery",
    }
    shown = [json.loads(said_in(demo, "shipments", "show", one["shipment"], "--json")) for one in day["shipments"][:4]]
    assert len({tuple(one["recorded"]) for one in shown}) > 1
    assert all(any(task["state"] == "done" for task in one["tasks"]) for one in shown)


def test_the_demos_vehicles_are_promised_once_and_each_of_its_quotes_has_a_number(folder: Path) -> None:
    quotes = json.loads(said_in(folder / "shipcalc-demo", "quotes", "list", "--most", "100", "--json"))["quotes"]
    numbers = sorted(one["number"] for one in quotes)
    assert numbers == [f"Q-2026-{count:04}" for count in range(1, len(numbers) + 1)]
    assert len(numbers) == 36
    asked = [stock for one in quotes for stock in one["vehicles"].split("; ")]
    assert len(asked) == len(set(asked))


def test_what_the_office_needs_stands_on_one_screen(again: Path) -> None:
    """80 columns, 24 lines with the prompt: every shipment, whose work it is, the quotes that end, the most pressing tasks."""
    register = open_register(url_of_file(again / REGISTER_FILE))
    found = day_in(register, DEMO_DAY)
    register.close()
    lines = day_lines(found, Look(width=80), 23)
    assert len(lines) <= 23
    assert max(map(len, lines)) <= 80
    text = "\n".join(lines)
    assert all(one.buyer[:15] in text for one in (*found.day.shipments, *found.ending))
    assert all(one.vehicles.partition(" ")[0] in text for one in found.day.shipments)
    assert all(f"{share.who} {share.late} late" in text for share in found.day.people if share.late)
    assert "File the export" in text  # 15 CFR 30.4: what a law asks for comes before what is only late

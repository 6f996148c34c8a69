"""The salesperson's journey: a stock number and a place become a price, choices and files."""

import json
import os
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from subprocess import CompletedProcess

import pytest

from shipcalc.quote.as_data import quote_from_json

ASK = ("quote", "--vehicle", "HV-1153", "--to", "53703", "--as-of", "2026-12-01")
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
Command = Callable[..., "CompletedProcess[str]"]


def data(said) -> dict:
    assert said.status == 0, said.err
    return json.loads(said.out)


def test_the_total_of_every_choice_is_the_sum_of_its_lines(say) -> None:
    quote = data(say(*ASK, "--json"))
    assert len(quote["options"]) >= 2
    for option in quote["options"]:
        seller = [Decimal(charge["amount"]) for charge in option["charges"] if charge["payer"] == "seller"]
        assert sum(seller) == Decimal(option["total"])


def test_the_answer_in_a_pipe_has_the_place_and_the_price_first_and_no_colour(say) -> None:
    quote = data(say(*ASK, "--json"))
    best = quote["options"][quote["recommended"]]
    told = say(*ASK)
    lines = told.out.splitlines()
    assert lines[0] == "To Madison, WI 53703: 1961 Larkspur Minnow roadster (HV-1153)"
    assert f"{Decimal(best['total']):,} USD" in lines[1]
    labels = ["Price", "There by", "Also to pay", "Not included", "To book"]
    assert [line.split("\t")[0] for line in lines[1:6]] == labels
    assert "\x1b[" not in told.out
    assert quote["reason"] in told.out


def test_everything_else_is_shown_only_when_it_is_asked_for(say) -> None:
    card, full = say(*ASK).out, say(*ASK, "--full").out
    headings = {
        "lines": "What choice 1 is made of",
        "included": "What is included",
        "dates": "Step by step",
        "papers": "Papers",
        "assumed": "What we assumed",
        "cautions": "Cautions",
    }
    for part, heading in headings.items():
        shown = say(*ASK, "--show", part).out
        assert heading in shown
        assert shown.strip() in full
        assert not any(other in shown.splitlines() for other in headings.values() if other != heading)
        assert heading not in card.splitlines()
    both = say(*ASK, "--show", "lines,assumed").out
    assert headings["lines"] in both
    assert headings["assumed"] in both
    wrong = say(*ASK, "--show", "weather")
    assert wrong.status == 2
    assert "one of lines, duty, warnings" in wrong.err


def test_what_may_be_read_to_the_buyer_has_no_cost_no_margin_and_no_cell(say) -> None:
    card = say(*ASK, "--for", "office")
    assert "\nMargin\t" in card.out
    office, buyer = say(*ASK, "--for", "office", "--full"), say(*ASK, "--full")
    assert "Cost" in office.out
    assert "trucking.xlsx" in office.out
    for word in ("Cost", "Margin", "trucking.xlsx", "Left out"):
        assert word not in buyer.out
    quote = data(say(*ASK, "--json"))
    private = {leg["carrier"] for option in quote["options"] for leg in option["legs"] if not leg["carrier_named"]}
    assert private
    assert not any(carrier in told for carrier in private for told in (buyer.out, say(*ASK).out))


@pytest.mark.parametrize("ready", ["12/15/2026", "15 Dec 2026", "Dec. 15, 2026", "15.12.2026"])
def test_a_day_may_be_written_as_people_do_where_it_is_one_day_only(say, ready: str) -> None:
    assert say(*ASK, "--ready", ready).out == say(*ASK, "--ready", "2026-12-15").out != ""


def test_the_data_are_the_offices_unless_the_buyers_are_asked_for(say) -> None:
    office, buyer = data(say(*ASK, "--json")), data(say(*ASK, "--json", "--for", "buyer"))
    assert any(charge["cost"] for option in office["options"] for charge in option["charges"])
    for option in buyer["options"]:
        assert option["total_cost"] is None
        assert all(charge["cost"] is None and charge["source"] is None for charge in option["charges"])
    assert [option["total"] for option in buyer["options"]] == [option["total"] for option in office["options"]]


def test_the_same_question_on_the_same_day_gives_the_same_bytes(say, here: Path) -> None:
    first = say(*ASK, "--out", "one", "--json")
    second = say(*ASK, "--out", "two", "--json")
    assert first.out == second.out
    for name in FILES:
        assert (here / "one" / name).read_bytes() == (here / "two" / name).read_bytes(), name


def test_the_files_are_written_and_named(say, here: Path) -> None:
    told = say(*ASK, "--out", "lindqvist", "--buyer", "Ms Lindqvist")
    assert told.status == 0, told.err
    assert {file.relative_to(here / "lindqvist").as_posix() for file in (here / "lindqvist").rglob("*.*")} == FILES
    assert all(f"written: {Path('lindqvist') / name}" in told.err for name in FILES)
    kept = quote_from_json((here / "lindqvist/office/quote.json").read_bytes())
    assert kept.buyer == "Ms Lindqvist"
    assert kept.options[kept.recommended].total_cost is not None


def test_another_choice_shows_its_own_lines(say) -> None:
    quote = data(say(*ASK, "--json"))
    other = next(number for number in range(len(quote["options"])) if number != quote["recommended"])
    told = say(*ASK, "--choice", str(other + 1), "--full")
    assert f"What choice {other + 1} is made of" in told.out
    assert f"Total\t\t{Decimal(quote['options'][other]['total']):,}" in told.out


def test_only_the_trailer_that_was_wished_for_is_offered(say) -> None:
    quote = data(say(*ASK, "--trailer", "Enclosed", "--json"))
    assert {option["trailer"] for option in quote["options"]} == {"enclosed"}


def test_a_vehicle_that_is_not_in_stock_is_described(say) -> None:
    text = "1961 roadster, 153 in x 60 in x 49 in, 2030 lb, $38,000, does not run"
    quote = data(say("quote", "--vehicle", text, "--to", "53703", "--as-of", "2026-12-01", "--json"))
    (vehicle,) = quote["vehicles"]
    assert (vehicle["year"], vehicle["runs"], vehicle["value_minor"]) == (1961, False, 3_800_000)
    assert quote["from"]["name"] == "Bellingham"
    assert any("Bellingham" in sentence and "taken as starting" in sentence for sentence in quote["assumptions"])


def test_a_vehicle_in_the_other_yard_starts_there_and_it_is_said(say) -> None:
    quote = data(say("quote", "--vehicle", "HV-1182", "--to", "53703", "--as-of", "2026-12-01", "--json"))
    assert quote["from"]["name"] == "Savannah"
    assert any("stands in the yard Savannah" in sentence for sentence in quote["assumptions"])


def test_two_vehicles_of_two_yards_go_in_one_quote(say) -> None:
    quote = data(say(*ASK, "--vehicle", "HV-1182", "--json"))
    assert [leg["from"]["name"] for leg in quote["options"][0]["legs"]] == ["Bellingham", "Savannah"]


def test_the_invented_prices_are_said_to_be_invented(say) -> None:
    told = say(*ASK, "--full")
    assert "prices: the invented rate book inside shipcalc" in told.err
    assert "The prices are from the invented rate book inside shipcalc: nobody offers them." in told.out


def test_settings_name_the_dealer_and_keep_every_quote(say, here: Path) -> None:
    (here / "shipcalc.toml").write_text(
        'out = "kept"\npaper = "a4"\n[dealer]\nname = "Alder Garage (invented)"\n[yards]\nBellingham = "98225"\n',
        encoding="utf-8",
    )
    quote = data(say(*ASK, "--json"))
    assert quote["dealer"]["name"] == "Alder Garage (invented)"
    (folder,) = (here / "kept").iterdir()
    assert folder.name == "2026-12-01 HV-1153 to Madison WI 53703"
    assert {file.relative_to(folder).as_posix() for file in folder.rglob("*.*")} == FILES


def test_the_checklist_is_made_from_the_saved_quote(say, here: Path) -> None:
    assert say(*ASK, "--out", "lindqvist").status == 0
    (here / "lindqvist/office/checklist.xlsx").unlink()
    told = say("checklist", "lindqvist/office/quote.json", "--accepted", "2026-12-01")
    assert told.status == 0, told.err
    assert (here / "lindqvist/office/checklist.xlsx").is_file()
    dues = [line.split("\t")[0] for line in told.out.splitlines() if line[:3] == "202"]
    assert len(dues) > 5
    as_data = json.loads(
        say("checklist", "lindqvist/office/quote.json", "--accepted", "2026-12-01", "--out", "later", "--json").out
    )
    assert (here / "later/checklist.xlsx").is_file()
    assert [item["due"] for item in as_data["items"]] == dues
    assert dues == sorted(dues)


@pytest.mark.skipif(os.name == "nt", reason="no head there")
def test_a_reader_that_has_read_enough_is_no_fault(command: Command, here: Path) -> None:
    import subprocess
    import sys

    program = Path(sys.executable).with_name("shipcalc")
    done = subprocess.run(
        ["bash", "-c", f'set -o pipefail; "{program}" stock --json | head -1'],
        text=True,
        capture_output=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, "{\n", "")


def test_more_cover_at_home_is_a_line_of_its_own_and_its_price_is_said(say) -> None:
    asked = (*ASK, "--insure-for", "700,000")
    quote = data(say(*asked, "--json"))
    raised = [option for option in quote["options"] if any(c["code"] == "extra.more-cover" for c in option["charges"])]
    assert raised
    for option in raised:
        line = next(charge for charge in option["charges"] if charge["code"] == "extra.more-cover")
        assert "excess" in line["label"]
        assert Decimal(option["cover"]) == 700_000
        assert any(f"{Decimal(line['amount']):,} USD of the price" in said for said in option["included"])
    assert all(Decimal(option["cover"]) >= 700_000 for option in quote["options"])


@pytest.mark.parametrize(("to", "told"), [("53703", "not a sum to insure for"), ("Hamburg, Germany", "over the sea")])
def test_more_cover_is_refused_where_it_means_nothing(say, to: str, told: str) -> None:
    said = say("quote", "--vehicle", "HV-1153", "--to", to, "--insure-for", "lots" if to == "53703" else "90000")
    assert said.status == 2
    assert told in said.err
    assert "--insure-for" in said.err


def test_a_price_in_hand_stands_beside_the_choices_and_what_to_ask_is_said_to_who_types_it(say) -> None:
    said = say(*ASK, "--spot", "Nobody Known, 1,250, until 2026-12-10, ref NK-8")
    assert said.status == 0, said.err
    assert "price in hand until 10 Dec 2026" in said.out
    assert "good until 10 Dec 2026" in said.out
    assert "Nobody Known is not in the rate book" in said.err
    assert "Nobody Known" not in said.out


def test_a_price_in_hand_that_has_ended_is_refused(say) -> None:
    said = say(*ASK, "--spot", "Nobody Known, 1,250, until 2026-11-30")
    assert (said.status, said.out) == (2, "")
    assert "ended on 2026-11-30" in said.err

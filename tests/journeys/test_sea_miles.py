"""How far it is between two ports, as a user asks."""

import json

import pytest

# NGA (then NIMA) Pub. 151, Distances Between Ports, 11th ed., 2001: entry New York, via Bishop Rock; entry Los Angeles.
PUBLISHED = [("USNYC", "DEBRV", 3594, ["dover"]), ("USLAX", "AUSYD", 6511, []), ("USNYC", "NZAKL", 8532, ["panama"])]


@pytest.mark.parametrize(("start", "to", "nmi", "passages"), PUBLISHED)
def test_two_ports_are_measured_by_sea(say, start: str, to: str, nmi: int, passages: list[str]) -> None:
    told = json.loads(say("miles", start, to, "--json").out)
    assert told["sea_nmi"] == pytest.approx(nmi, rel=0.02)
    assert told["passages"] == passages
    assert (told["from"]["kind"], told["to"]["kind"]) == ("port", "port")
    assert told["road_mi"] is None


def test_two_towns_are_not_measured_by_sea(say) -> None:
    told = json.loads(say("miles", "98225", "31401", "--json").out)
    assert (told["sea_nmi"], told["passages"]) == (None, [])
    assert told["road_mi"] > 2_423


def test_the_terminal_shows_the_passages(say) -> None:
    shown = say("miles", "USNYC", "NZAKL").out
    assert "By sea\t" in shown
    assert "Passages\tpanama" in shown


def test_five_letters_that_are_no_port_are_taken_as_a_town(say) -> None:
    assert json.loads(say("miles", "Boise", "98225", "--json").out)["from"]["kind"] == "city"


def test_a_closed_canal_is_gone_round(say) -> None:
    # By the Cape of Good Hope instead of Suez; the Red Sea is then entered from the south.
    short, long = (
        json.loads(say("miles", "USNYC", "SAJED", *more, "--json").out) for more in ((), ("--without", "Suez"))
    )
    assert short["passages"] == ["gibraltar", "suez"]
    assert long["passages"] == ["good hope", "bab-el-mandeb"]
    assert long["sea_nmi"] > 1.8 * short["sea_nmi"]


def test_where_every_way_is_closed_the_answer_is_no(say) -> None:
    told = say("miles", "USNYC", "SAJED", "--without", "suez", "--without", "bab-el-mandeb")
    assert told.status == 1
    assert "there is no way by sea with bab-el-mandeb, suez closed" in told.err


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("USNYC", "SAJED", "--without", "nile"), "no passage is called 'nile'"),
        (("USXXX", "SAJED"), '"USXXX" is neither a sea port (UN/LOCODE) nor a town'),
    ],
)
def test_an_unknown_passage_or_port_is_wrong_input(say, arguments, sentence) -> None:
    told = say("miles", *arguments)
    assert told.status == 2
    assert sentence in told.err

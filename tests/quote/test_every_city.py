"""Cities all over the world have choices or a plain reason, and never a traceback; `every_city.py 5000` asks many more."""

import sys
from decimal import Decimal
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
import every_city

COUNT = 240


@pytest.fixture(scope="module")
def answers(shipped) -> dict[str, object]:
    return {f"{c.name}, {c.country}": every_city.answer(c, shipped, "HV-1042") for c in every_city.sample(COUNT)}


def test_the_sample_goes_over_the_whole_world(answers) -> None:
    assert len({name[-2:] for name in answers}) > 200


def test_what_has_a_price_has_a_whole_one(answers) -> None:
    quotes = {name: answer for name, answer in answers.items() if not isinstance(answer, str)}
    assert len(quotes) > 0.6 * len(answers)
    for name, quote in quotes.items():
        assert 1 <= len(quote.options) <= 6, name
        for option in quote.options:
            by_payer = {
                payer: sum((charge.amount for charge in option.charges if charge.payer == payer), Decimal(0))
                for payer in ("seller", "buyer")
            }
            assert by_payer == {"seller": option.total, "buyer": option.buyer_pays_locally}, name
            assert option.total > 0, name
            assert option.dates.pickup[0] < option.dates.delivery[0] <= option.dates.delivery[1], name


def test_what_has_no_price_has_one_plain_sentence(answers) -> None:
    refused = {name: answer for name, answer in answers.items() if isinstance(answer, str)}
    assert refused
    for name, said in refused.items():
        assert "\n" not in said, name
        assert 20 < len(said) < 400, name
        assert "None" not in said, name


def test_what_does_not_arrive_stands_behind_what_does_and_says_so_above_its_price(answers) -> None:
    """No leg of any way touches a held country that is not the buyer's own, too."""
    classes = {every_city.class_of(answer) for answer in answers.values() if not isinstance(answer, str)}
    assert "finished" in classes


def test_only_where_no_road_leads_from_any_port_does_a_price_end_at_one(answers) -> None:
    """Every country has carriage from a port or a gateway: what stays unfinished lies on an island without a port of the book."""
    unfinished = {
        name: every_city.why_unfinished(answer)
        for name, answer in answers.items()
        if not isinstance(answer, str) and not any(option.arrives for option in answer.options)
    }
    assert len(unfinished) < 0.04 * len(answers), unfinished
    for name, said in unfinished.items():
        assert "no road leads from a port of the rate book" in said, name

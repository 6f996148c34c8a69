"""A price in hand is understood however it is typed, and refused in one clear sentence where it is not."""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.actions.in_hand import price_in_hand, prices_in_hand
from shipcalc.errors import WrongInput
from shipcalc.quote.model import SpotPrice

TODAY = date(2026, 12, 1)  # a Tuesday
TERN = {"carrier": "Tern Haulage", "amount": Decimal("1250.00"), "until": date(2026, 12, 10)}


def _tern(**more: object) -> SpotPrice:
    return SpotPrice(**(TERN | more))


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("Tern Haulage, 1,250, until 2026-12-10, TH-88", _tern(reference="TH-88")),
        ("Tern Haulage,1,250,until 2026-12-10,ref TH-88", _tern(reference="TH-88")),
        ("Tern Haulage, 1250, 2026-12-10", _tern()),
        ("Tern Haulage; $1,250.00; until Dec 10, 2026; Ref: TH-88", _tern(reference="TH-88")),
        ("  tern haulage ,  $ 1250 , good until dec 10 , #TH-88", _tern(carrier="tern haulage", reference="TH-88")),
        ("1,250 USD, Tern Haulage, until 2026-12-10", _tern(currency="USD")),
        ("Tern Haulage, USD 1250, till 12/10", _tern(currency="USD")),
        ("Tern Haulage, 1.250,00 EUR, until the 10th", _tern(currency="EUR")),
        ("Tern Haulage, €1250, until the 10th", _tern(currency="EUR")),
        ("Tern Haulage, C$1,250, valid until 10 December", _tern(currency="CAD")),
        ("Tern Haulage, 1.25k, until 2026-12-10", _tern()),
        ("Tern Haulage 1,250 until 2026-12-10 ref TH-88", _tern(reference="TH-88")),
        ("Tern Haulage $1,250 until 2026-12-10", _tern()),
        ("Tern Haulage, 1,250 each, until 2026-12-10", _tern(each=True)),
        ("Tern Haulage, 1,250, per vehicle, until 2026-12-10", _tern(each=True)),
        ("Tern Haulage, enclosed, 1,250, until 2026-12-10", _tern(trailer="enclosed")),
        ("Tern Haulage, 1,250, open trailer, all in, until 2026-12-10", _tern(trailer="open")),
        ("Tern Haulage, 1,250, until 2026-12-10, to Tacoma", _tern(to="Tacoma")),
        ("Studio 54 Cars, 1,250, until 2026-12-10", _tern(carrier="Studio 54 Cars")),
        ("Tern Haulage, 1,250.75, until 2026-12-10", _tern(amount=Decimal("1250.75"))),
        ("Tern Haulage, 12,500, until 2026-12-10", _tern(amount=Decimal("12500.00"))),
        ("Tern Haulage, 1,250, until friday", _tern(until=date(2026, 12, 4))),
        ("Tern Haulage, 1,250, until in two weeks", _tern(until=date(2026, 12, 15))),
        ("Tern Haulage, 1,250, until 2026-11-10", _tern(until=date(2026, 11, 10))),
    ],
)
def test_a_price_in_hand_is_understood(text: str, meant: SpotPrice) -> None:
    assert price_in_hand(text, today=TODAY) == meant


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "it says no carrier"),
        ("Tern Haulage", "it says no price"),
        ("Tern Haulage, 1,250", "it says no day until which it holds"),
        ("1,250, until 2026-12-10", "it says no carrier"),
        ("Tern Haulage, 0, until 2026-12-10", "is no price for a transport"),
        ("Tern Haulage, 1,250, until whenever", '"whenever" is not a day'),
        ("Tern Haulage, 1,250, until next friday, ref 4", "can be 2026-12-04 or 2026-12-11"),
        ("Tern Haulage, 1,250, 1,300, until 2026-12-10", '"1,250" and "1,300" are both taken as its price'),
        ("Tern Haulage, 1,250, open, enclosed, until 2026-12-10", "are both taken as its kind of trailer"),
    ],
)
def test_what_is_not_understood_is_refused_in_a_sentence_that_says_why(text: str, why: str) -> None:
    with pytest.raises(WrongInput) as refused:
        price_in_hand(text, today=TODAY)
    assert why in str(refused.value)
    assert "Tern Haulage, 1,250, until 2026-12-10, ref TH-88" in str(refused.value)


def test_of_two_readings_of_a_day_the_one_that_is_soon_is_meant() -> None:
    """11/12 may be the eleventh of December; the twelfth of November has passed, and next year's is too far."""
    assert price_in_hand("Tern Haulage, 1,250, until 11/12", today=TODAY).until == date(2026, 12, 11)


def test_more_than_three_are_too_many() -> None:
    with pytest.raises(WrongInput, match="give the best 3"):
        prices_in_hand(["Tern, 1, until friday"] * 4, today=TODAY)

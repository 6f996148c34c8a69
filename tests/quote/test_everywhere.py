"""Every hundred-and-fiftieth ZIP of the gazetteer has a price or a plain reason, and never a traceback."""

from decimal import Decimal

import pytest

from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.pages import all_postal_codes

STRIDE = 150
CONTIGUOUS = 48 + 1  # with the District of Columbia


@pytest.fixture(scope="module")
def answers(dealer_quote) -> dict[str, tuple[str, object]]:
    """Return for each ZIP of the sample its state and the quote, or the sentence that says no."""
    columns = all_postal_codes()
    found: dict[str, tuple[str, object]] = {}
    for code, state in zip(columns.codes[::STRIDE].tolist(), columns.state[::STRIDE].tolist(), strict=True):
        try:
            found[code] = state, dealer_quote("HV-1042", to=code)
        except NoAnswer as no:
            found[code] = state, str(no)
    return found


def test_the_sample_goes_over_the_whole_country(answers) -> None:
    assert len(answers) > 200
    assert len({state for state, _ in answers.values()}) >= CONTIGUOUS - 4


def test_what_has_a_price_has_a_whole_one(answers) -> None:
    quotes = [answer for _, answer in answers.values() if not isinstance(answer, str)]
    assert len(quotes) > 0.9 * len(answers)
    for quote in quotes:
        for option in quote.options:
            assert option.total > 0
            sellers = (charge.amount for charge in option.charges if charge.payer == "seller")
            assert option.total == sum(sellers, Decimal(0))
        assert quote.options[0].legs[0].distance > 0


def test_what_has_no_price_has_one_plain_sentence(answers, dealer_quote) -> None:
    """A place that nobody serves, if there is one, and a vehicle that no truck takes, and that nobody may drive, so high."""
    refused = {code: answer for code, (_, answer) in answers.items() if isinstance(answer, str)}
    for code in ("85719", "10012", "98225"):
        with pytest.raises(NoAnswer) as no:
            dealer_quote("1979 camper, 402 in x 96 in x 160 in, 14800 lb, $36,500", to=code)
        refused[f"a high one to {code}"] = str(no.value)
    for code, said in refused.items():
        assert "\n" not in said, code
        assert 20 < len(said) < 350, code
        assert "None" not in said, code


def test_every_place_beyond_the_roads_goes_by_sea_or_is_refused(answers) -> None:
    beyond = [answer for state, answer in answers.values() if state in ("HI", "PR", "GU", "VI", "AS", "MP")]
    assert beyond
    priced = [answer for answer in beyond if not isinstance(answer, str)]
    assert priced
    for quote in priced:
        assert all(any(leg.unit == "nmi" for leg in option.legs) for option in quote.options)

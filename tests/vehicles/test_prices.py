import pytest

from shipcalc.errors import WrongInput
from shipcalc.vehicles.prices import money_minor


@pytest.mark.parametrize(
    ("text", "cents"),
    [
        ("$38,000", 3_800_000),
        ("38000", 3_800_000),
        ("38000.50", 3_800_050),
        ("USD 38 000", 3_800_000),
        ("US$ 38,000.-", 3_800_000),
        ("38,000 dollars", 3_800_000),
        ("38k", 3_800_000),
        ("$38.5K", 3_850_000),
        ("1.2 million", 120_000_000),
        (38000.0, 3_800_000),
        (0.1 + 0.2, 30),
    ],
)
def test_sums_as_people_write_them(text: str | float, cents: int) -> None:
    assert money_minor(text) == cents


def test_a_sum_in_the_lists_own_currency_is_read_in_its_own_way() -> None:
    assert money_minor("38.000,00 €", "EUR") == 3_800_000
    assert money_minor("¥ 4,500,000", "JPY") == 4_500_000
    assert money_minor("$38,000", "CAD") == 3_800_000


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("38.000,00 €", '"38.000,00 €" is in EUR; values here are in USD — convert it'),
        ("38.000", '"38.000" can be read as 38000 or as 38 — write 38000 or 38'),
        ("POA", '"POA" is not a sum of money — write digits, e.g. 38,000, or leave it out'),
        ("38O00", '"38O00" is not a sum of money — perhaps it is 38000'),
        ("-$500", '"-$500" is negative, which no value is — remove the minus sign'),
        ("($500)", "is not a sum of money"),
        ("(500)", '"(500)" is negative'),
        ("0", '"0" is not a value — leave it out where the value is not known'),
        ("38 zorkmids", '"38 zorkmids" is not a sum of money'),
        ("99999999999999", "is more than any vehicle is worth — check the figure"),
    ],
)
def test_what_is_no_value_gets_a_sentence(text: str, sentence: str) -> None:
    with pytest.raises(WrongInput) as raised:
        money_minor(text)
    assert sentence in str(raised.value)

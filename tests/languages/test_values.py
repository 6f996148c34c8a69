"""Days, numbers and sums as a reader's locale writes them.

Expected values: Unicode CLDR 47 (common/main/{de,es,fr,ja}.xml: symbols, currencyFormats, availableFormats yMMMd and MMMd,
intervalFormats), whose reference library here is babel.
"""

from datetime import date
from decimal import Decimal

import pytest
from babel import Locale
from babel.dates import format_date
from babel.numbers import format_currency

from shipcalc.documents import wording
from shipcalc.languages.values import currency_said, day_said, number_said, place_said, sum_said

DAYS = {
    "8 Dec 2026": ("8. Dez. 2026", "8 dic 2026", "8 déc. 2026", "2026年12月8日"),
    "2026-12-08": ("8. Dez. 2026", "8 dic 2026", "8 déc. 2026", "2026年12月8日"),
    "8 Dec": ("8. Dez.", "8 dic", "8 déc.", "12月8日"),
    "Tuesday 8 December 2026": (
        "Dienstag, 8. Dezember 2026", "martes, 8 de diciembre de 2026", "mardi 8 décembre 2026", "2026年12月8日火曜日",
    ),
    "8–14 Dec 2026": ("8.–14. Dez. 2026", "8–14 dic 2026", "8–14 déc. 2026", "2026年12月8日～14日"),
    "28 Nov – 3 Dec": ("28. Nov. – 3. Dez.", "28 nov – 3 dic", "28 nov. – 3 déc.", "11月28日～12月3日"),
    "31 Dec 2026 – 6 Jan": ("31. Dez. 2026 – 6. Jan.", "31 dic 2026 – 6 ene", "31 déc. 2026 – 6 janv.", "2026年12月31日 – 1月6日"),
    "28 Dec 2026 – 3 Jan 2027": (
        "28. Dez. 2026 – 3. Jan. 2027", "28 dic 2026 – 3 ene 2027", "28 déc. 2026 – 3 janv. 2027",
        "2026年12月28日～2027年1月3日",
    ),
}  # fmt: skip
NUMBERS = {
    "1,234.50": ("1.234,50", "1.234,50", "1 234,50", "1,234.50"),
    "−1,234": ("−1.234", "−1.234", "−1 234", "−1,234"),
    "0.065": ("0,065", "0,065", "0,065", "0.065"),
    "2026": ("2026", "2026", "2026", "2026"),
    "two": ("2", "2", "2", "2"),
}
SUMS = {
    "$1,934.50": ("1.934,50 $", "1.934,50 US$", "1 934,50 $US", "$1,934.50"),
    "€23,800": ("23.800 €", "23.800 €", "23 800 €", "€23,800"),
    "JPY 182,500": ("182.500 ¥", "182.500 JPY", "182 500 JPY", "￥182,500"),
    "38,000 USD": ("38.000 $", "38.000 US$", "38 000 $US", "$38,000"),
}
LOCALES = ("de", "es", "fr", "ja")


def plain(text: str) -> str:
    """Return text with every kind of blank as a plain one: which of them stands between figures is no matter here."""
    return text.replace("\u202f", " ").replace("\u00a0", " ").replace("\u2009", " ")


@pytest.mark.parametrize(("table", "said"), [(DAYS, day_said), (NUMBERS, number_said), (SUMS, sum_said)])
def test_values_are_written_as_the_cldr_has_them(table, said) -> None:
    for english, expected in table.items():
        assert tuple(plain(said(english, Locale.parse(code))) for code in LOCALES) == expected, english


@pytest.mark.parametrize("code", LOCALES)
def test_every_day_and_sum_that_is_said_in_english_is_read_back(code: str) -> None:
    locale = Locale.parse(code)
    for month in range(1, 13):
        when = date(2027, month, 28)
        assert day_said(wording.long_day(when), locale) == format_date(when, "full", locale=locale)
        assert str(when.day) in day_said(wording.day(when), locale)
    for currency in ("USD", "EUR", "GBP", "CAD", "KWD"):
        amount = Decimal("12345.678") if currency == "KWD" else Decimal("12345.67")
        assert sum_said(wording.money(amount, currency), locale) == format_currency(amount, currency, locale=locale)


def test_currencies_and_countries_have_their_names() -> None:
    german = Locale.parse("de")
    assert currency_said("US dollars (USD)", german) == "US-Dollar (USD)"
    assert place_said("Lyon, France", german) == "Lyon, Frankreich"
    assert place_said("Yokohama, Japan", Locale.parse("ja")) == "Yokohama, 日本"
    assert place_said("Portland, OR 97205", german) == "Portland, OR 97205"


def test_a_sum_in_two_currencies_keeps_both() -> None:
    assert plain(sum_said("$2,905.00 (€2,676.96)", Locale.parse("de"))) == "2.905,00 $ (2.676,96 €)"


def test_a_day_that_there_is_not_is_none() -> None:
    with pytest.raises(ValueError, match=r"day is out of range|must be in range"):
        day_said("31 Feb 2027", Locale.parse("de"))

"""Publishers' files are read in every shape in which they come, to the same exact figures."""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal, localcontext
from itertools import permutations

import pytest

from shipcalc.errors import WrongInput
from shipcalc.ratebook.weekly.central_bank import rate_for_one
from shipcalc.ratebook.weekly.energy_office import find_region
from shipcalc.ratebook.weekly.publishers import get_publication
from tests.ratebook import weekly_files as files

MONDAY, FRIDAY, JUNE = date(2026, 11, 23), date(2026, 11, 27), date(2021, 6, 3)


def publication(path):
    return get_publication(path.name, path.read_bytes())


def figures(found):
    return {key: str(figure) for key, figure in found.figures.items()}


DIESEL = {
    "psw18vwall.xls": files.write_diesel_xls,
    "psw18vwall.xlsx": files.write_diesel_xlsx,
    "psw18vwall.csv": files.write_diesel_csv,
    "cut.csv": lambda path: files.write_diesel_csv(path, keyed=False),
    "semicolons.csv": lambda path: files.write_diesel_csv(path, keyed=False, divider=";"),
}


@pytest.mark.parametrize("name", DIESEL)
def test_the_newest_week_of_diesel_is_read_by_region(tmp_path, name):
    found = publication(DIESEL[name](tmp_path / name))

    assert (found.subject, found.day, found.file) == ("diesel", MONDAY, name)
    assert "Energy Information Administration" in found.source
    assert figures(found) == files.NEWEST_DIESEL


def test_a_region_without_a_price_of_the_week_is_left_out(tmp_path):
    """Of 7 March 2022 the made file has the whole country alone: 4.849 dollars (published, from memory)."""
    found = publication(files.write_diesel_xls(tmp_path / "old.xls", files.DIESEL_ROWS[:3]))

    assert (found.day, figures(found)) == (date(2022, 3, 7), {"": "4.849"})


def test_prices_of_ultra_low_sulfur_stand_in_where_there_are_no_others(tmp_path):
    path = tmp_path / "ulsd.csv"
    path.write_text(
        "Back to Contents\nSourcekey,EMD_EPD2DXL0_PTE_NUS_DPG,EMM_EPM0_PTE_NUS_DPG\nDate,a,b\n2026-11-23,3.9,3.1\n"
    )
    assert figures(publication(path)) == {"": "3.9"}

    path.write_text("Sourcekey,EMD_EPD2DXL0_PTE_NUS_DPG,EMD_EPD2D_PTE_NUS_DPG\nDate,a,b\n2026-11-23,3.9,3.8\n")
    assert figures(publication(path)) == {"": "3.8"}


@pytest.mark.parametrize(
    ("text", "region"),
    [
        ("West Coast", "West Coast"),
        ("PADD 5", "West Coast"),
        ("west coast (PADD 5)", "West Coast"),
        ("West Coast (PADD 5) Except California", "West Coast except California"),
        ("padd 1B", "Central Atlantic"),
        ("US", ""),
        ("U.S.", ""),
        ("Pacific", None),
    ],
)
def test_regions_are_known_by_the_names_people_give_them(text, region):
    assert find_region(text) == region


def rates_in_every_shape(folder):
    day = [(FRIDAY, files.NOVEMBER_2026)]
    both = [*day, (JUNE, files.JUNE_2021)]
    daily = files.write_rates_csv(folder / "eurofxref.csv", files.NOVEMBER_2026, FRIDAY)
    history = files.write_history_csv(folder / "eurofxref-hist.csv", both)
    return [
        daily,
        history,
        files.write_zipped(folder / "eurofxref.zip", daily),
        files.write_zipped(folder / "eurofxref-hist.zip", history),
        files.write_rates_xml(folder / "eurofxref-daily.xml", day),
        files.write_rates_xml(folder / "eurofxref-hist-90d.xml", both),
        files.write_rates_xml(folder / "oldest-first.xml", both[::-1]),
    ]


def test_reference_rates_are_read_alike_from_csv_zip_and_xml(tmp_path):
    for path in rates_in_every_shape(tmp_path):
        found = publication(path)
        assert (found.subject, found.day, found.file) == ("exchange", FRIDAY, path.name)
        assert "European Central Bank" in found.source
        assert figures(found) == files.NOVEMBER_2026, path.name


def test_cross_rates_are_the_quotient_of_two_rates_for_one_euro_rounded_once():
    """Against a plain division in Decimal with fifty digits, for every pair that the bank published on 3 June 2021."""
    rates = {code: Decimal(rate) for code, rate in files.JUNE_2021.items()}
    every = {**rates, "EUR": Decimal(1)}
    with localcontext() as plain:
        plain.prec = 50
        for one, base in permutations(every, 2):
            slow = (every[one] / every[base]).quantize(Decimal("0.000001"), rounding=ROUND_HALF_UP)
            assert rate_for_one(rates, one, base) == slow, (one, base)
    assert rate_for_one(rates, "EUR", "USD") == Decimal("0.820546")  # 1 ÷ 1.2187 = 0.8205464…
    assert rate_for_one(rates, "GBP", "USD") == Decimal("0.705301")  # 0.85955 ÷ 1.2187 = 0.7053007…
    assert rate_for_one(rates, "RUB", "USD") is None
    assert rate_for_one(rates, "GBP", "RUB") is None


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("prices.csv", b"Carrier,Price\nOwl,100\n"),
        ("eurofxref.csv", b"Date, USD, JPY, \n"),
        ("eurofxref.csv", b"Date, USD, \nsome day, 1.1, \n"),
        ("eurofxref.zip", b"PK and nothing that follows"),
        ("eurofxref-daily.xml", b"<Envelope><Cube><Cube time='2026-11-27'>"),
        ("eurofxref-daily.xml", b"<!DOCTYPE x [<!ENTITY a 'b'>]><x><Cube time='2026-11-27'><Cube currency='USD' rate='1'/></Cube></x>"),
        ("psw18vwall.csv", b"Sourcekey,EMD_EPD2D_PTE_NUS_DPG\nDate,x\n"),
        ("psw18vwall.csv", b"Sourcekey,EMM_EPM0_PTE_NUS_DPG\nDate,gasoline\n2026-11-23,3.1\n"),
        ("page.html", b"<html><body>Sign in to this network</body></html>"),
        ("nothing.csv", b""),
    ],
)  # fmt: skip
def test_what_is_no_publication_is_said_with_where_to_find_one(name, content):
    with pytest.raises(WrongInput, match="no weekly figures that are known here") as told:
        get_publication(name, content)
    assert "psw18vwall.xls" in str(told.value)
    assert "eurofxref" in str(told.value)

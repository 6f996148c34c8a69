from contextlib import suppress

from hypothesis import example, given
from hypothesis import strategies as st

from shipcalc.errors import WrongInput
from shipcalc.measures import GRAMS_PER_POUND, MM_PER_FOOT, MM_PER_INCH
from shipcalc.vehicles.description import vehicle_from_text
from shipcalc.vehicles.prices import money_minor
from shipcalc.vehicles.serial import check_digit, check_serial
from shipcalc.vehicles.units import engine_cc, length_mm, mass_grams

LENGTHS = st.integers(min_value=20, max_value=20_000)


@given(mm=LENGTHS)
def test_a_length_comes_back_from_every_unit_it_is_written_in(mm: int) -> None:
    feet, rest = divmod(mm, MM_PER_FOOT)
    inches = f"{rest / MM_PER_INCH:.2f}"
    assert length_mm(f"{mm} mm") == length_mm(f"{mm:,} mm") == mm
    assert length_mm(f"{mm / 10:.1f} cm") == length_mm(f"{mm / 10:.1f} cm".replace(".", ",")) == mm
    assert length_mm(f"{mm / 1000:.3f} m") == mm
    assert length_mm(f"{mm / MM_PER_INCH:.2f} in") == length_mm(round(mm / MM_PER_INCH, 2), "in") == mm
    if inches != "12.00":
        assert length_mm(f"{feet:.0f}'{inches}\"") == length_mm(f"{feet:.0f} ft {inches} in") == mm


@given(kilograms=st.integers(min_value=40, max_value=40_000))
def test_a_weight_comes_back_from_every_unit_it_is_written_in(kilograms: int) -> None:
    grams = kilograms * 1000
    assert mass_grams(f"{kilograms} kg") == mass_grams(f"{kilograms:,} kg") == mass_grams(kilograms, "kg") == grams
    assert mass_grams(f"{kilograms / 1000:.4f} t") == grams
    pounds = f"{grams / GRAMS_PER_POUND:,.2f}"
    assert abs(mass_grams(f"{pounds} lb") - grams) <= 3  # a hundredth of a pound is 4.5 g


@given(cc=st.integers(min_value=20, max_value=60_000))
def test_an_engine_size_comes_back_from_every_unit_it_is_written_in(cc: int) -> None:
    assert engine_cc(f"{cc} cc") == engine_cc(f"{cc:,} cc") == engine_cc(f"{cc / 1000:.4f} l") == cc


@given(cents=st.integers(min_value=1, max_value=10**12))
def test_a_sum_comes_back_however_it_is_written(cents: int) -> None:
    plain = f"{cents // 100}.{cents % 100:02d}"
    grouped = f"{cents // 100:,}.{cents % 100:02d}"
    continental = grouped.translate(str.maketrans(",.", ".,"))
    assert money_minor(plain) == money_minor(f"${grouped}") == cents
    assert money_minor(f"{continental} €", "EUR") == money_minor(f"{grouped} USD") == cents


@given(st.text(max_size=30))
@example("'")
@example("1'")
@example("x" * 17)
def test_nothing_that_is_typed_is_more_than_wrong_input(text: str) -> None:
    for read in (length_mm, mass_grams, engine_cc, money_minor, vehicle_from_text):
        with suppress(WrongInput):
            read(text)  # type: ignore[operator]
    for year in (None, 1950, 1990):
        checked = check_serial(text, year)
        assert checked.ok or checked.remedy


@given(st.text("ABCDEFGHJKLMNPRSTUVWXYZ0123456789", min_size=17, max_size=17))
def test_a_number_with_its_own_check_digit_is_right(text: str) -> None:
    vin = text[:8] + check_digit(text) + text[9:]
    assert check_serial(vin, 1990).message == ""

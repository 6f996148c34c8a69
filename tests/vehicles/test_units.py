import pytest

from shipcalc.errors import WrongInput
from shipcalc.vehicles.units import MissingUnit, engine_cc, length_mm, mass_grams

# 1 in = 25.4 mm, 1 ft = 304.8 mm, 1 lb = 453.59237 g: definitions (NIST Special Publication 811, appendix B).


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("196 in", 4978),
        ('196"', 4978),
        ("196″", 4978),
        ("196 INCHES", 4978),
        ("16'4\"", 4978),
        ("16’ 4”", 4978),
        ("16 ft 4 in", 4978),
        ("16ft. 4in.", 4978),
        ("16'", 4877),
        ("16.5 ft", 5029),
        ("16 ft 4 1/2 in", 4991),
        ("196 ½ in", 4991),
        ("1/2 in", 13),
        ("4.98 m", 4980),
        ("4,98 m", 4980),
        ("498 cm", 4980),
        ("498,5 cm", 4985),
        ("4980 mm", 4980),
        ("4,980 mm", 4980),
        ("4 980 mm", 4980),
        ("4.5 in", 114),
        ("-5 in", -127),
    ],
)
def test_lengths_as_people_write_them(text: str, mm: int) -> None:
    assert length_mm(text) == mm


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("3,450 lb", 1_564_894),
        ("3450 lbs.", 1_564_894),
        ("3450 pounds", 1_564_894),
        ("1565 kg", 1_565_000),
        ("1 565 kg", 1_565_000),
        ("1'565 kg", 1_565_000),
        ("1.565 t", 1_565_000),
        ("1,5 t", 1_500_000),
    ],
)
def test_weights_as_people_write_them(text: str, grams: int) -> None:
    assert mass_grams(text) == grams


@pytest.mark.parametrize(
    ("text", "cc"),
    [
        ("2.2 l", 2200),
        ("2,2 l", 2200),
        ("2.199 litres", 2199),
        ("2199 cc", 2199),
        ("2,199 cm³", 2199),
        ("134 cu in", 2196),  # 134 x 16.387064 = 2195.87
        ("134 cu. in.", 2196),
        ("134 cid", 2196),
    ],
)
def test_engine_sizes_as_people_write_them(text: str, cc: int) -> None:
    assert engine_cc(text) == cc


def test_a_unit_beside_the_value_holds_where_the_value_has_none() -> None:
    assert length_mm(196.0, "in") == length_mm("196", "in") == 4978
    assert length_mm("4.98 m", "in") == 4980
    assert mass_grams(2030, "lb") == 920_793


@pytest.mark.parametrize("value", ["196", 196.0, "16.5"])
def test_a_number_without_any_unit_is_not_guessed(value: str | float) -> None:
    with pytest.raises(MissingUnit, match=r"has no unit — write in, ft, mm, cm or m, e\.g\. 196 in"):
        length_mm(value)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("10 cubits", '"10 cubits" has the unit "cubits", which is no unit of length here — write in, ft, mm, cm or m'),
        ("2030 lb", '"2030 lb" has the unit "lb", which is no unit of length here'),
        ("long", '"long" is not a length — write digits and a unit, e.g. 196 in'),
        ("", '"" is not a length'),
        ("19o in", '"19o" is not a number — perhaps it is 190'),
        ("16'14\"", "has 12 or more inches beside its feet — write it as inches"),
        ("4.980 mm", '"4.980" can be read as 4980 or as 4.98 — write 4980 or 4.98'),
        ("4.985 mm", '"4.985" can be read as 4985 or as 4.985 — write 4985 or 4.9850'),
        ("1.2.3 m", '"1.2.3" is not a number'),
        ("9" * 60 + " in", "is not a number"),
    ],
)
def test_what_is_no_length_gets_a_sentence(text: str, sentence: str) -> None:
    with pytest.raises(WrongInput) as raised:
        length_mm(text)
    assert sentence in str(raised.value)


def test_a_ton_is_refused_since_it_is_two_weights() -> None:
    with pytest.raises(WrongInput, match=r'the unit "tons", which is no unit of weight here — write lb, kg or t'):
        mass_grams("2 tons")


def test_what_a_numeric_cell_cannot_hold_is_refused() -> None:
    with pytest.raises(WrongInput, match="is not a length"):
        length_mm(float("nan"), "in")

"""The contrast of two colours, held to WCAG 2.1."""

import pytest

from shipcalc.contrast import PALE, WHITE, contrast, is_colour
from shipcalc.sheets import look


def test_black_on_white_is_21_and_a_colour_on_itself_1() -> None:
    """WCAG 2.1, "contrast ratio": from 1 to 21."""
    assert contrast("#000000", WHITE) == pytest.approx(21)
    assert contrast("#1B4B52", "#1B4B52") == 1


# The palest grey that passes 4.5 : 1 on white, and the next (W3C, technique G18's examples; from memory), and pure red, 3.998 : 1.
@pytest.mark.parametrize(("colour", "ratio"), [("#767676", 4.54), ("#777777", 4.48), ("#FF0000", 4.0)])
def test_known_colours_have_their_known_contrast_on_white(colour: str, ratio: float) -> None:
    assert contrast(colour, WHITE) == pytest.approx(ratio, abs=0.005)
    assert contrast(WHITE, colour) == contrast(colour, WHITE)


def test_the_pale_ground_is_that_of_workbooks_and_papers() -> None:
    assert f"#{look.WASH}" == PALE


def test_a_colour_has_six_hexadecimal_digits() -> None:
    assert is_colour("#1B4B52")
    assert not any(is_colour(text) for text in ("1B4B52", "#1B4B5", "#1B4B5G", "#1B4B522", ""))

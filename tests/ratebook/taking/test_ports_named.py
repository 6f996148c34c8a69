"""Ports as a mail writes them, in the language of the port, and the number of a quotation on a title line.

The codes of the ports are those of UN/LOCODE (UNECE), from memory.
"""

import pytest

from shipcalc.ratebook.taking.ends import Unclear
from shipcalc.ratebook.taking.letter import facts_of_text
from shipcalc.ratebook.taking.port_names import port_in


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Antwerpen", "BEANR"),
        ("Antwerpen (B)", "BEANR"),
        ("Anvers (BE)", "BEANR"),
        ("Genova", "ITGOA"),
        ("Genova (I)", "ITGOA"),
        ("Bremerhaven (D)", "DEBRV"),
        ("Livorno", "ITLIV"),
        ("Göteborg", "SEGOT"),
        ("København", "DKCPH"),
        ("Vlissingen", "NLVLI"),
        ("Le Havre (F)", "FRLEH"),
        ("Gdańsk", "PLGDN"),
        ("Lisboa", "PTLIS"),
    ],
)
def test_a_port_is_understood_in_its_own_language_and_with_its_country(text, code):
    assert port_in(text).text == code


@pytest.mark.parametrize("text", ["Portland", "Cartagena", "Newport", "Wien", "Genova (F)"])
def test_a_name_of_several_ports_or_of_none_is_not_chosen(text):
    with pytest.raises(Unclear):
        port_in(text)


@pytest.mark.parametrize("text", ["Nr. 27/03", "RoRo-Raten – Nr. 27/03", "Preisliste Nr. 27/03 gültig ab 01.12.2026"])
def test_a_number_on_a_title_line_is_the_reference(text):
    assert dict(facts_of_text(text))["reference"] == "27/03"


@pytest.mark.parametrize("text", ["Nr. 27/03/2026", "No. 5 ton trucks", "Order 3 - 5 cars"])
def test_a_day_or_a_count_is_no_reference(text):
    assert "reference" not in dict(facts_of_text(text))

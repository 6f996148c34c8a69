"""What the buyer is asked for: one list by term, way and country, and what must stand on it.

Which numbers a customs declaration wants is from memory for most countries, and each row says so; EORI for whoever imports as a
business into the European Union: Regulation (EU) No 952/2013, Article 9 (from memory).
"""

import pytest

from shipcalc.paperwork.needs import asked_of_buyer, rules_of
from shipcalc.quote.price.terms import CODES, find_term
from shipcalc.ratebook.rows.paperwork import FromBuyerRow
from shipcalc.ratebook.workbook.region_codes import COUNTRIES
from shipcalc.ratebook.workbook.typed import rows_in
from tests.paperwork.tasks_table import MODES, facts_of

ROWS = rows_in("from_buyer", FromBuyerRow)
RULES = rules_of(ROWS)


def asked(code: str, mode: str, *, abroad: bool = True, **others: object) -> dict[str, str]:
    term = find_term(code)
    assert term is not None
    facts = facts_of(term, mode, "clean", abroad=abroad, **others)
    return {row.code: row.asked for row in asked_of_buyer(RULES, facts)}


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("code", CODES)
def test_everybody_is_asked_for_name_receiver_and_payment(code: str, mode: str):
    assert {"name", "address", "receiver", "payment"} <= set(asked(code, mode))


def test_whoever_pays_is_asked():
    """Ship, export, cover and the way on are asked of the buyer where the term leaves them to the buyer (common practice)."""
    assert {"haulier", "booking", "export", "cover", "port", "duty"} <= set(asked("EXW", "roro"))
    assert {"booking", "cover", "port"} <= set(asked("FOB", "roro"))
    assert set(asked("FOB", "roro")).isdisjoint({"haulier", "export"})
    assert set(asked("DAP", "roro")).isdisjoint({"haulier", "booking", "export", "cover", "port"})
    assert set(asked("DDP", "roro")).isdisjoint({"broker", "customs-number", "duty"})
    assert "unloading" in asked("DAP", "roro")
    assert "unloading" not in asked("DPU", "roro")


def test_customs_ask_for_the_number_of_the_country():
    assert "EORI" in asked("DAP", "roro", to_country="FR")["customs-number"]
    assert "CPF" in asked("DAP", "roro", to_country="BR")["customs-number"]
    assert "NIF" in asked("DAP", "roro", to_country="PT")["customs-number"]
    assert "the broker knows which" in asked("DAP", "roro", to_country="MU")["customs-number"]
    assert "customs-number" not in asked("DAP", "truck", abroad=False)


def test_the_payment_is_asked_for_as_the_rate_book_sets_it():
    told = [
        asked("DAP", "roro", balance_due=due)["payment"]
        for due in ("before pickup", "before the papers are released", "on delivery")
    ]
    assert len(set(told)) == 3
    assert all("deposit" in sentence for sentence in told)
    assert "before you collect" in asked("EXW", "collected", abroad=False, balance_due="on delivery")["payment"]


def test_whoever_collects_brings_an_identity_document_plates_and_insurance():
    told = asked("EXW", "collected", abroad=False)
    assert "identity document" in told["receiver"]
    assert "insurance" in told["haulier"]


def test_every_row_is_a_sentence_with_its_source_for_countries_that_there_are():
    for row in ROWS:
        assert row.asked.endswith(".")
        assert row.source or row.trust == "memory"
        assert set(row.to_country) <= set(COUNTRIES)

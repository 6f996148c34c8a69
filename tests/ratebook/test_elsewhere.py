"""Codes beside another's name. Where ports lie: UN/LOCODE; continents: the gazetteer's, of GeoNames; the slips are our own."""

from functools import cache
from pathlib import Path

from shipcalc.ratebook.checks.charges import driven_vehicles_work
from shipcalc.ratebook.checks.elsewhere import (
    countries_bear_their_names,
    ferries_abroad_bear_their_names,
    gateways_lie_near,
    ports_bear_their_names,
)
from shipcalc.ratebook.checks.paperwork import documents_are_due_with_their_task
from shipcalc.ratebook.drafting import draft_of
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.records import replace


@cache
def shipped() -> Tables:
    return draft_of(Path(__file__).parents[2] / "rates").tables


def with_one(rows: tuple, wanted, **changes) -> tuple:
    changed = next(row for row in rows if wanted(row))
    return tuple(replace(row, **changes) if row is changed else row for row in rows)


def test_the_shipped_books_name_everything_as_its_code_does() -> None:
    for check in (
        ports_bear_their_names,
        ferries_abroad_bear_their_names,
        countries_bear_their_names,
        gateways_lie_near,
        documents_are_due_with_their_task,
        driven_vehicles_work,
    ):
        assert list(check(shipped())) == []


def test_a_port_with_another_ports_name_is_told() -> None:
    ports = with_one(shipped().ports, lambda row: row.port == "DEBRV", name="Antwerp")
    (told,) = ports_bear_their_names(replace(shipped(), ports=ports))
    assert told.message == 'DEBRV is Bremerhaven, and "Antwerp" is BEANR: code and name are those of two ports'


def test_the_two_ends_of_a_ferry_swapped_by_name_are_told() -> None:
    row = shipped().ferries_abroad[0]
    swapped = with_one(shipped().ferries_abroad, lambda one: one is row, from_name=row.to_name, to_name=row.from_name)
    told = list(ferries_abroad_bear_their_names(replace(shipped(), ferries_abroad=swapped)))
    assert told
    assert all(problem.severity == "warning" for problem in told)


def test_a_country_with_another_countrys_name_is_told_and_its_own_spellings_are_not() -> None:
    for name, count in (("France", 1), ("Federal Republic of Germany", 0), ("germany", 0)):
        rows = with_one(shipped().countries, lambda row: row.country == "DE", name=name)
        assert len(list(countries_bear_their_names(replace(shipped(), countries=rows)))) == count


def test_a_gateway_on_another_continent_is_told_with_the_one_that_is_not() -> None:
    gateways = with_one(shipped().gateways, lambda row: row.country == "ZM", port="NLRTM")
    (told,) = gateways_lie_near(replace(shipped(), gateways=gateways))
    assert told.message.startswith("NLRTM is Rotterdam, The Netherlands: on another continent than Zambia")


def test_a_document_that_is_due_with_its_task_says_no_other_day() -> None:
    documents = with_one(shipped().documents, lambda row: row.code == "title", days=-40)
    (told,) = documents_are_due_with_their_task(replace(shipped(), documents=documents))
    assert told.cell.endswith("Documents!I15")
    assert "is due with its task" in told.message


def test_a_charge_for_what_is_driven_and_does_not_run_is_never_charged() -> None:
    extras = with_one(shipped().extras, lambda row: row.trailer == "driven", runs=False)
    (told,) = driven_vehicles_work(replace(shipped(), extras=extras))
    assert '"Runs"' in told.message

"""The overseas half of the rate book that comes with the program: real places, a price or an honest gap, facts with their source."""

import itertools
import re
from pathlib import Path

import pytest

from shipcalc.places.sea.ports import find_port
from shipcalc.ratebook.book import read_rate_book
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.sourced import READ, TRUST
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import fields
from shipcalc.trade import COST_STAGES

RATES = Path(__file__).parents[2] / "rates"
# From Ports, Ocean, Containers, On-carriage, Marine cover, Import charges instead of Stage charges.
PRICED_ELSEWHERE = {"main carriage", "cargo insurance", "on-carriage", "duty and tax"}


@pytest.fixture(scope="module")
def book():
    return read_rate_book(RATES)


def handles(port, mode):
    return port.roro if mode == "roro" else port.container


def test_every_port_stands_where_the_table_of_ports_has_it(book):
    """UN/LOCODE positions of the program's own table."""
    for port in book.ports:
        known = find_port(port.port)
        assert known is not None, port.port
        assert known.country == port.country
        assert (port.latitude, port.longitude) == pytest.approx((known.latitude, known.longitude), abs=0.001)


def test_both_coasts_and_the_gulf_ship_and_every_continent_is_reached(book):
    exports = {port.region for port in book.ports if port.exports}
    assert exports == {
        f"US {coast}" for coast in ("North Atlantic", "South Atlantic", "Gulf", "California", "Pacific Northwest")
    }
    reached = {service.to_region for service in book.ocean}
    assert {port.region for port in book.ports if not port.exports} == reached
    countries = {port.country for port in book.ports}
    assert len(countries) > 120
    assert countries >= {"DE", "GB", "SA", "JP", "AU", "NZ", "ZA", "KE", "BR", "CL", "CA", "MX", "PR", "GU", "VI"}


def test_every_port_is_served_by_a_ship_that_it_can_handle(book):
    for port in book.ports:
        if not port.exports:
            services = [s for s in book.ocean if s.to_region == port.region and handles(port, s.mode)]
            assert services, port.name


def test_every_way_to_travel_leaves_from_both_coasts(book):
    for coasts in (("US North Atlantic", "US South Atlantic", "US Gulf"), ("US California", "US Pacific Northwest")):
        modes = {service.mode for service in book.ocean if service.from_region in coasts}
        assert modes == {"roro", "container", "shared container"}


def test_the_lines_leave_honest_gaps(book):
    pairs = {(service.from_region, service.to_region) for service in book.ocean}
    assert ("US Pacific Northwest", "West Africa") not in pairs
    assert len(pairs) < 5 * len({to for _, to in pairs}) * 2 / 3


def test_every_stage_that_costs_something_has_a_row(book):
    charged = {row.stage for row in book.stage_charges}
    assert set(COST_STAGES) - charged == PRICED_ELSEWHERE


def test_no_export_pays_harbor_maintenance(book):
    """United States v. United States Shoe Corp., 523 U.S. 360 (1998): not on exports."""
    assert not any("harbor" in f"{row.code} {row.label}".casefold() for row in book.stage_charges)


def test_containers_have_the_least_sizes_of_the_standard(book):
    """ISO 1496-1, least inside and door sizes in mm, read at second hand."""
    sizes = {
        row.container: (
            row.inside_length_mm,
            row.inside_width_mm,
            row.inside_height_mm,
            row.door_width_mm,
            row.door_height_mm,
        )
        for row in book.containers
    }
    assert sizes == {
        "20′": (5_867, 2_330, 2_350, 2_286, 2_261),
        "40′": (11_998, 2_330, 2_350, 2_286, 2_261),
        "40′HC": (11_998, 2_330, 2_655, 2_286, 2_566),
    }


def test_a_last_leg_has_both_trailers_and_a_road_factor(book):
    def is_about(row: RoadFactor, country: str) -> bool:
        return row.from_place in (country, f"{country}-AK") and row.to_place in (country, f"{country}-AK", None)

    by_country: dict[str, set[str]] = {}
    for row in book.on_carriage:
        by_country.setdefault(row.country, set()).add(row.trailer)
    assert {tuple(sorted(trailers)) for trailers in by_country.values()} == {("enclosed", "open")}
    for country in by_country:
        assert any(is_about(row, country) for row in book.road_factors), country


def test_landlocked_neighbours_of_ports_have_a_last_leg(book):
    countries = {row.country for row in book.on_carriage}
    assert countries >= {"CH", "AT", "CZ", "SK", "HU", "LU", "LI", "PY", "BW"}


def every_row(book):
    for sheet in fields(book):
        rows = getattr(book, sheet.name)
        if isinstance(rows, tuple):
            yield from (row for row in rows if isinstance(row, Row))


def sourced_rows(book):
    return (
        *book.documents,
        *book.tasks,
        *book.from_buyer,
        *book.countries,
        *book.import_charges,
        *book.entry_rules,
        *book.holds,
    )


def test_every_row_says_how_its_source_was_learnt(book):
    for row in (*book.countries, *book.import_charges, *book.entry_rules, *book.holds):
        assert row.trust in TRUST, row.at.cell("trust")
        assert row.source or row.trust == "memory", row.at.cell("source")


def test_a_day_of_checking_stands_only_with_what_was_read(book):
    for row in sourced_rows(book):
        assert row.checked_on is None or row.trust in READ, row.at.cell("checked_on")


def test_no_source_or_note_that_a_buyer_may_read_holds_a_trust_mark(book):
    marks = re.compile(r"second hand|secondary|from memory|not checked|(was|were) not read|\(read", re.I)
    for row in (
        *book.documents,
        *book.tasks,
        *book.from_buyer,
        *book.countries,
        *book.import_charges,
        *book.entry_rules,
    ):
        for field in ("source", "note", "rule", "label", "steering", "collector_criteria", "asked"):
            assert not marks.search(str(getattr(row, field, None) or "")), row.at.cell(field)


def test_no_source_of_any_sheet_holds_a_trust_mark(book):
    """How a source was learnt stands under Trust and Office note alone."""
    marks = re.compile(
        r"second hand|secondary|memory|not checked|\bread\b|invented|no source|general knowledge|practice", re.I
    )
    for row in every_row(book):
        source = getattr(row, "source", None) or ""
        assert not marks.search(source.replace("common practice, no source", "")), row.at.cell("source")


def test_every_row_with_a_source_column_says_how_it_was_learnt(book):
    sheets = (
        "ferries",
        "ports",
        "containers",
        "loading_ways",
        "stage_charges",
        "on_carriage",
        "ferries_abroad",
        "gateways",
    )
    for row in itertools.chain.from_iterable(
        getattr(book, sheet) for sheet in (*sheets, "passages", "currencies", "sizes")
    ):
        assert row.trust in TRUST, row.at.cell("trust")


def test_only_a_rule_that_was_read_bars_a_vehicle(book):
    assert [row.rule for row in book.entry_rules if row.answer == "bars" and row.trust not in READ] == []


def test_every_member_state_of_the_union_has_duty_and_tax_for_both_treatments(book):
    """27 member states: from memory."""
    union = [row.country for row in book.countries if "chapter 97" in (row.source or "")]
    assert len(union) == 27
    for country in union:
        rows = [row for row in book.import_charges if row.country == country]
        assert {row.treatment for row in rows if row.kind == "tax"} == {"ordinary", "collector", "preference"}
        assert {row.treatment for row in rows if row.kind == "duty"} == {"ordinary"}


def test_embargoed_destinations_are_refused(book):
    refused = {hold.country for hold in book.holds if hold.hold == "refused" and hold.subdivision is None}
    assert refused == {"CU", "IR", "KP", "RU", "BY"}

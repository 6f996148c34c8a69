"""Codes that are right by themselves and lie elsewhere than the row says: beside another's name, on another continent."""

from collections.abc import Iterator, Mapping

from shipcalc.errors import Problem
from shipcalc.places.gazetteer.pages import countries
from shipcalc.places.gazetteer.regions import country_name
from shipcalc.places.sea.ports import find_port
from shipcalc.ratebook.checks.remarks import short_cell, warning
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.rows.ways import Gateway
from shipcalc.ratebook.workbook.columns import Row

# Continents that share a border or a strait: a country of one may well ship through the other.
_NEIGHBOURS = frozenset(map(frozenset, (("EU", "AS"), ("AS", "AF"), ("EU", "AF"), ("NA", "SA"), ("AS", "OC"))))


def ports_bear_their_names(tables: Tables) -> Iterator[Problem]:
    """A port's name is not that of another port of the sheet, whose code says where it lies."""
    code_of = {place.name.casefold(): row.port for row in tables.ports if (place := find_port(row.port)) is not None}
    for row in tables.ports:
        yield from _another_ports(row, "name", row.name, row.port, code_of)


def ferries_abroad_bear_their_names(tables: Tables) -> Iterator[Problem]:
    """The names of a ferry's ends are not those of other ends of the sheet."""
    ends = [
        (row, field, name, code)
        for row in tables.ferries_abroad
        for field, name, code in (
            ("from_name", row.from_name, row.from_port),
            ("to_name", row.to_name, row.to_port),
        )
    ]
    code_of = {place.name.casefold(): code for _, _, _, code in ends if (place := find_port(code)) is not None}
    for row, field, name, code in ends:
        yield from _another_ports(row, field, name, code, code_of)


def _another_ports(row: Row, field: str, name: str, code: str, code_of: Mapping[str, str]) -> Iterator[Problem]:
    other, known = code_of.get(name.casefold(), code), find_port(code)
    if other.upper() != code.upper() and known is not None and known.name.casefold() != name.casefold():
        message = f'{code} is {known.name}, and "{name}" is {other}: code and name are those of two ports'
        yield warning(row, field, message, f'write "{known.name}", or the other code')


def countries_bear_their_names(tables: Tables) -> Iterator[Problem]:
    """A country's name is not another country's."""
    code_of = {one.name.casefold(): code for code, one in countries().items()} if tables.countries else {}
    for row in tables.countries:
        other = code_of.get(row.name.casefold(), row.country.upper())
        if other != row.country.upper():
            message = f'{row.country} is {country_name(row.country.upper())}, and "{row.name}" is {other}'
            yield warning(row, "name", message, "correct the code or the name: the code is what counts")


def gateways_lie_near(tables: Tables) -> Iterator[Problem]:
    """A country is reached from a port of its own continent, or of the next one where it names no other."""
    for row in tables.gateways:
        own, there = _continent(row.country), _continent(row.port[:2])
        if not own or not there or own == there:
            continue
        others = [one for one in tables.gateways if _same_country(one, row) and _continent(one.port[:2]) == own]
        if others or frozenset((own, there)) not in _NEIGHBOURS:
            port = find_port(row.port)
            name = f"{port.name}, {country_name(row.port[:2].upper())}" if port else country_name(row.port[:2].upper())
            beside = f", and {others[0].port} ({short_cell(others[0], 'port')}) is not" if others else ""
            message = f"{row.port} is {name}: on another continent than {country_name(row.country.upper())}{beside}"
            yield warning(row, "port", message, "correct the code, if the port is not meant")


def _same_country(one: Gateway, other: Gateway) -> bool:
    return one.country.upper() == other.country.upper()


def _continent(code: str) -> str:
    known = countries().get(code.upper())
    return known.continent if known is not None else ""


CHECKS = (ports_bear_their_names, ferries_abroad_bear_their_names, countries_bear_their_names, gateways_lie_near)

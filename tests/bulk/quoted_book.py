"""A rate book in which most ships are quoted, ports charge line by line and hauliers ask by port and town: figures at random."""

from collections.abc import Iterator
from datetime import date, timedelta

import numpy as np

from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.ratebook.rows.quotations import OceanQuotation, size_of
from shipcalc.records import replace
from shipcalc.trade import CROSSING_BY_MODE

FIRST = date(2026, 1, 1)


def quoted_book(book: RateBook, seed: int) -> RateBook:
    """Return the book with the rows; the same for the same seed."""
    chance = np.random.default_rng(seed)
    return replace(
        book,
        quotations=tuple(_quotations(book, chance)),
        port_charges=tuple(_port_charges(book, chance)),
        on_carriage=(*book.on_carriage, *_zones(book, chance)),
    )


def _one_of(chance: np.random.Generator, *some: object) -> object:
    return some[int(chance.integers(len(some)))]


def _quotations(book: RateBook, chance: np.random.Generator) -> Iterator[OceanQuotation]:
    ends = {(row.from_region, row.to_region, row.mode, size_of(row.basis)): row for row in book.ocean}
    for number, ((from_region, to_region, mode, size), service) in enumerate(ends.items()):
        if chance.random() < 0.4:
            continue
        bases = [f"per {size}"] if size else [*CROSSING_BY_MODE[mode].bases, "per shipment"]
        same = {"quotation": f"R-{number}", "forwarder": "Harrow Quay Forwarding"}
        scale = 1_000_000 if size else 10_000
        yield OceanQuotation(
            **same,
            line=_one_of(chance, None, service.carrier),
            mode=mode,
            from_port=from_region,
            to_port=_one_of(chance, to_region, next(p.port for p in book.ports if p.region == to_region)),
            basis=_one_of(chance, *bases),
            amount_e4=int(chance.integers(20, 400)) * scale,
            minimum_e4=_one_of(chance, None, int(chance.integers(400, 2_000)) * 10_000),
            currency=_one_of(chance, None, "EUR", "JPY"),
            includes=_one_of(chance, (), ("origin terminal",), ("destination terminal", "loading at origin")),
            valid_to=_one_of(chance, None, FIRST + timedelta(days=int(chance.integers(480)))),
            transit_days=_one_of(chance, None, int(chance.integers(8, 60))),
            cutoff_days=_one_of(chance, None, int(chance.integers(0, 9))),
        )
        yield OceanQuotation(**same, surcharge="BAF", percent_ppm=int(chance.integers(200_000)))
        yield OceanQuotation(**same, surcharge="ISPS", basis="per vehicle", amount_e4=19_5000)
        yield OceanQuotation(**same, surcharge="B/L", basis="per shipment", amount_e4=60_0000, currency="EUR")


def _port_charges(book: RateBook, chance: np.random.Generator) -> Iterator[PortCharge]:
    for port in book.ports:
        if chance.random() < 0.5:
            for label, per in (
                ("Gate", "vehicle"),
                ("Dues", "revenue ton"),
                ("THC", "container"),
                ("Papers", "shipment"),
            ):
                mode = _one_of(chance, None, "roro", "container")
                yield PortCharge(
                    port=port.port, label=label, per=per, mode=mode, amount_e4=int(chance.integers(900)) * 10_000
                )


def _zones(book: RateBook, chance: np.random.Generator) -> Iterator[OnCarriage]:
    for port in book.ports:
        if not port.exports and chance.random() < 0.3:
            trailer = _one_of(chance, "open", "enclosed")
            yield OnCarriage(country=port.country, trailer=trailer, port=port.port, base_minor=333_00, rate_e4=1_9000)

"""Writes the invented `overseas.xlsx` that comes with the program: python -m shipcalc.ratebook.making.build_overseas FOLDER."""

import sys
from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

from shipcalc.places.sea.ports import find_port
from shipcalc.ratebook.making import border_ports as borders
from shipcalc.ratebook.making import invented_charges as charges
from shipcalc.ratebook.making import invented_ferries as ferries
from shipcalc.ratebook.making import invented_gateways as gateways
from shipcalc.ratebook.making import invented_ocean as ocean
from shipcalc.ratebook.making import invented_ports as ports
from shipcalc.ratebook.making import invented_quotations as quotations
from shipcalc.ratebook.making.build_trucking import CHECKED_ON
from shipcalc.ratebook.rows.containers import ContainerType
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.marine_cover import MarineCover
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.ratebook.rows.overseas_sheets import OVERSEAS
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.rows.quotations import OceanQuotation
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.ratebook.rows.ways import BorderPort, Gateway, PassageState
from shipcalc.ratebook.starter.workbooks import write_workbook
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.ratebook.workbook.typed import lines, row

ABOUT = """\
The ports are real places; everything else is invented: lines, services and prices are made up to show how the program works.
Replace them by your own before you quote anybody. Not every line sails from every coast, and not every country has a row.
""".splitlines()

_MODE_WORDS = {"roro": "RoRo", "shared container": "shared"}


def invented_rows() -> dict[str, tuple[Row, ...]]:
    """Return the rows of every sheet of the invented workbook, by the sheet's name."""
    return {
        "Ports": tuple(_ports()),
        "Ocean": tuple(_ocean()),
        "Ocean quotations": tuple(_quotations()),
        "Port charges": tuple(
            row(PortCharge, {**cells, **quotations.CHARGE_SOURCE})
            for cells in lines(quotations.CHARGE_FIELDS, quotations.PORT_CHARGES)
        ),
        "Containers": tuple(
            row(ContainerType, {**cells, **charges.CONTAINER_SOURCE})
            for cells in lines(charges.CONTAINER_FIELDS, charges.CONTAINERS)
        ),
        "Ways of loading": tuple(_loading()),
        "Stage charges": tuple(_stage_charges()),
        "On-carriage": tuple(_on_carriage()),
        "Ferries abroad": tuple(
            row(FerryAbroad, {**cells, "ferry": _ferry_name(cells), **ferries.SOURCE})
            for cells in lines(ferries.ABROAD_FIELDS, ferries.ABROAD)
        ),
        "Gateways": tuple(_gateways()),
        "Passages": tuple(
            row(PassageState, {**cells, "note": gateways.NOTES[cells["note"]], **gateways.PASSAGE_SOURCE})
            for cells in lines(gateways.PASSAGE_FIELDS, gateways.PASSAGES)
        ),
        "Border ports": tuple(row(BorderPort, cells) for cells in lines(borders.FIELDS, borders.BORDER_PORTS)),
        "Marine cover": tuple(row(MarineCover, cells) for cells in lines(charges.COVER_FIELDS, charges.COVER)),
        "Currencies": tuple(
            row(Currency, {**cells, "as_of": charges.CURRENCY_DAY, **charges.INVENTED})
            for cells in lines(charges.CURRENCY_FIELDS, charges.CURRENCIES)
        ),
    }


def _ports() -> Iterator[Port]:
    fees = {cells.pop("class"): cells for cells in lines(ports.FEE_FIELDS, ports.FEES)}
    for exports, table in (("yes", ports.EXPORT_PORTS), ("no", ports.ARRIVAL_PORTS)):
        for cells in lines(ports.PORT_FIELDS, table):
            place = find_port(cells["port"])
            assert place is not None, cells["port"]
            handles = cells.pop("handles")
            yield row(
                Port,
                {
                    **fees[cells.pop("class")],
                    **cells,
                    "country": place.country,
                    "latitude": repr(round(place.latitude, 3)),
                    "longitude": repr(round(place.longitude, 3)),
                    "exports": exports,
                    "groups": "; ".join(
                        name for name, listed in quotations.GROUPS.items() if cells["port"] in listed.split()
                    ),
                    "roro": "yes" if handles in ("roro", "both") else "no",
                    "container": "yes" if handles in ("container", "both") else "no",
                    **ports.PORT_SOURCE,
                },
            )


def _ocean() -> Iterator[OceanService]:
    """Yield a row for each line, coast, region and unit; sailings are spread so that not all ships leave on one day."""
    by_line: dict[str, list[dict[str, str]]] = {}
    for cells in lines(ocean.LINE_FIELDS, ocean.LINES):
        by_line.setdefault(cells.pop("line"), []).append(cells)
    number = 0
    for lane in lines(ocean.LANE_FIELDS, ocean.LANES):
        for coast in lane["coasts"]:
            number += 1
            first = date.fromisoformat(ocean.FIRST_SAILING) + timedelta(days=number * 3 % int(lane["sails_every_days"]))
            for line in by_line[lane["line"]]:
                yield row(OceanService, _service(line, lane, ocean.COASTS[coast], first))


def _service(line: dict[str, str], lane: dict[str, str], coast: str, first: date) -> dict[str, str]:
    word = _MODE_WORDS.get(line["mode"], line["basis"].removeprefix("per "))
    name = f"{line['carrier']} {word}, {coast.removeprefix('US ')} – {lane['to_region']}"
    factor = 1 + Decimal(lane["dearer"]) / 100
    base, per_nmi = Decimal(line["base_e4"]) * factor, Decimal(line["per_nmi_e4"]) * factor
    return {
        **line,
        "service": name,
        "private": "no" if line["carrier"] in ocean.NAMED else "yes",
        "security_minor": ocean.SECURITY,
        "from_region": coast,
        "to_region": lane["to_region"],
        "base_e4": f"{base:.0f}",
        "per_nmi_e4": f"{per_nmi:.4f}" if per_nmi < Decimal("0.1") else f"{per_nmi:.3f}",
        "sails_every_days": lane["sails_every_days"],
        "first_sailing": first.isoformat(),
        "sailings": ocean.LISTED.get(name, ""),
        "port_days": lane["port_days"],
        "avoids": lane["avoids"],
    }


def _quotations() -> Iterator[OceanQuotation]:
    """Yield the freight of each quotation with its surcharges below it."""
    days = {cells["quotation"]: cells for cells in lines(quotations.DAYS_FIELDS, quotations.DAYS)}
    surcharges = list(lines(quotations.SURCHARGE_FIELDS, quotations.SURCHARGES))
    for freight in lines(quotations.FREIGHT_FIELDS, quotations.FREIGHT):
        number = freight["quotation"]
        same = {"forwarder": quotations.FORWARDERS[number[:2]], **quotations.SOURCE}
        yield row(OceanQuotation, {**freight, **days.get(number, {}), **same})
        yield from (row(OceanQuotation, {**cells, **same}) for cells in surcharges if cells["quotation"] == number)


def _loading() -> Iterator[LoadingWay]:
    conditions = lines(charges.LOADING_FIELDS, charges.LOADING)
    for cells, prices in zip(conditions, lines(charges.LOADING_PRICE_FIELDS, charges.LOADING_PRICES), strict=True):
        assert cells["code"] == prices["code"], cells
        yield row(LoadingWay, {**cells, **prices, **charges.LOADING_SOURCE})


_STINK_BUG = "stink bugs"


def _stage_charges() -> Iterator[StageCharge]:
    named = "; ".join(dict.fromkeys([*charges.EUROPE.split(), *charges.GULF.split(), "AU", "NZ", "JP", "CA", "MX"]))
    countries = {"europe": "; ".join(charges.EUROPE.split()), "gulf": "; ".join(charges.GULF.split()), "named": named}
    countries["american"] = "; ".join(charges.AMERICAN.split())
    written = charges.STAGE_CHARGES.format(**countries, stink_bug=_STINK_BUG).strip().splitlines()
    for title, terms in zip(written[::2], written[1::2], strict=True):
        (cells,) = lines("code label", title)
        given = dict(term.strip().split(": ") for term in terms.split(",") if term.strip() != _STINK_BUG)
        if terms.endswith(_STINK_BUG):
            given |= {**charges.SEASON, "said": charges.STINK_BUG, **charges.SEASON_SOURCE}
        yield row(StageCharge, {**cells, **charges.INVENTED, **given})


def _on_carriage() -> Iterator[OnCarriage]:
    for cells in lines(charges.CARRIAGE_FIELDS, charges.CARRIAGE):
        dearer = 1 + Decimal(cells.pop("enclosed_percent")) / 100
        for country in cells.pop("countries").split():
            own = {**cells, **_handling(cells), "country": country, **charges.INVENTED}
            yield row(OnCarriage, {**own, "trailer": "open"})
            enclosed = {
                "base_minor": f"{Decimal(cells['base_minor']) * dearer:.0f}",
                "rate_e4": f"{Decimal(cells['rate_e4']) * dearer:.2f}",
                "minimum_minor": f"{Decimal(cells['minimum_minor']) * dearer:.0f}",
                "spare_days": str(int(cells["spare_days"]) + 2),
            }
            yield row(OnCarriage, {**own, **enclosed, "trailer": "enclosed"})
    for cells in lines(charges.ZONE_FIELDS, charges.ZONES):
        yield row(OnCarriage, {**cells, **charges.INVENTED})


def _handling(cells: dict[str, str]) -> dict[str, str]:
    """Return what a winch, and skates with a forklift, cost there at each end: as much dearer as carriage is."""
    minimum = Decimal(cells["minimum_minor"])
    return {"winch_minor": f"{minimum * 3 / 10:.0f}", "skates_minor": f"{minimum * 13 / 20:.0f}"}


def _gateways() -> Iterator[Gateway]:
    for cells in lines(gateways.GATEWAY_FIELDS, gateways.GATEWAYS):
        for port in cells["ports"].split():
            yield row(Gateway, {"country": cells["country"], "port": port, **gateways.LEARNT[cells["learnt"]]})


def _ferry_name(cells: dict[str, str]) -> str:
    return f"Car ferry {cells['from_name']} – {cells['to_name']}"


def main(folder: Path) -> None:
    """Write `overseas.xlsx` into a folder."""
    write_workbook(folder / OVERSEAS, invented_rows(), about=ABOUT, made=date.fromisoformat(CHECKED_ON))


if __name__ == "__main__":
    main(Path(sys.argv[1]))

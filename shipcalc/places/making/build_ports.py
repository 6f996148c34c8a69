"""Build time only: the table of sea ports, and the short ways from each port to the network.

Ports come from the World Port Index (as the package `harborly` carries it); those it lacks from the port list of `searoute`.
`port_names.tsv` gives some their common English name. A port that no water leads to within reach is left out.
"""

import json
import re
from pathlib import Path

import numpy as np

from shipcalc.places.gazetteer.pages import nearest_city
from shipcalc.places.making.build_port_access import Waters, port_ways
from shipcalc.places.making.build_sea_links import Network
from shipcalc.places.making.build_sea_water import Mask, package_file
from shipcalc.places.sea.ports import CODE
from shipcalc.records import dataclass

# States and provinces are told by the nearest town.
WITH_SUBDIVISION = ("US", "CA")
TOWN_WITHIN_MI = 20.0


@dataclass(frozen=True, slots=True, order=True)
class Port:
    """One row of the table."""

    code: str
    name: str
    subdivision: str
    latitude: float
    longitude: float


def write_ports(sea: Mask, network: Network, ports: tuple[Port, ...], path: Path) -> tuple[int, int]:
    """Write the ports that the network reaches; return how many were written and left out."""
    waters = Waters(sea, network)
    ways = [port_ways(waters, latitude=port.latitude, longitude=port.longitude) for port in ports]
    reached = [(port, way) for port, way in zip(ports, ways, strict=True) if way]
    text = "\n".join(f"{port.name}\t{port.subdivision}" for port, _ in reached)
    np.savez(
        path,
        code=np.array([port.code for port, _ in reached], dtype="S5"),
        text=np.frombuffer(text.encode(), dtype=np.uint8),
        latitude=np.array([round(port.latitude * 1e5) for port, _ in reached], dtype=np.int32),
        longitude=np.array([round(port.longitude * 1e5) for port, _ in reached], dtype=np.int32),
        access_first=np.cumsum([0, *(len(way) for _, way in reached)]).astype(np.uint32),
        access_node=np.array([node for _, way in reached for node, _ in way], dtype=np.uint16),
        access_length=np.array([round(nmi * 100) for _, way in reached for _, nmi in way], dtype=np.uint16),
    )
    return len(reached), len(ports) - len(reached)


def world_ports(listed: Path) -> tuple[Port, ...]:
    """Return all ports with a well-formed UN/LOCODE, in the order of their codes; `listed` holds our own two tables."""
    english = dict(_rows(listed / "port_names.tsv"))
    more = {code: (name, float(north), float(east)) for code, name, north, east, _ in _rows(listed / "more_ports.tsv")}
    found = {**more, **_ports_of_searoute(), **_world_port_index()}
    return tuple(
        Port(code, english.get(code, name), _subdivision(code, latitude, longitude), latitude, longitude)
        for code, (name, latitude, longitude) in sorted(found.items())
    )


def _rows(path: Path) -> list[list[str]]:
    return [line.split("\t") for line in path.read_text(encoding="utf-8").splitlines()[1:]]


def _world_port_index() -> dict[str, tuple[str, float, float]]:
    """Return {code: (name, latitude, longitude)}; of two rows with one code the first in the index counts."""
    from pyarrow import parquet

    columns = ["provider_id", "unlocode", "canonical_name", "latitude", "longitude"]
    rows = parquet.read_table(
        package_file("harborly", "data", "port_registry.parquet"),
        columns=columns,
        filters=[("provider", "=", "NGA_WPI")],
    ).to_pylist()
    found: dict[str, tuple[str, float, float]] = {}
    for row in sorted(rows, key=lambda row: str(row["provider_id"])):
        code = row["unlocode"] or ""
        if re.fullmatch(CODE, code) and code not in found:
            found[code] = (_spoken(code, row["canonical_name"]), row["latitude"], row["longitude"])
    return found


def _spoken(code: str, name: str) -> str:
    """Return a name without the word for port that the index keeps in the local language: "Nagoya Ko" is Nagoya."""
    harbour = {"JP": " Ko", "KR": " Hang", "CN": " Gang"}.get(code[:2], "")
    return name.removesuffix(harbour) if harbour else name


def _ports_of_searoute() -> dict[str, tuple[str, float, float]]:
    with package_file("searoute", "data", "ports.geojson").open(encoding="utf-8") as file:
        features = json.load(file)["features"]
    found: dict[str, tuple[str, float, float]] = {}
    for feature in features:
        code, name = str(feature["properties"]["port"]), str(feature["properties"]["name"])
        if re.fullmatch(CODE, code) and code not in found:
            longitude, latitude = feature["geometry"]["coordinates"]
            found[code] = (name, float(latitude), float(longitude))
    return found


def _subdivision(code: str, latitude: float, longitude: float) -> str:
    if code[:2] not in WITH_SUBDIVISION:
        return ""
    near = nearest_city(latitude=latitude, longitude=longitude, within_mi=TOWN_WITHIN_MI)
    return near[0].subdivision if near and near[0].country == code[:2] else ""

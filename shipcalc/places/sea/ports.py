"""Sea ports of the world by UN/LOCODE (UN/CEFACT Recommendation No. 16): where they are, and which are near a place."""

import re
from functools import cache
from pathlib import Path

import numpy as np

from shipcalc.places.place import Place
from shipcalc.places.sea.geometry import Floats
from shipcalc.records import dataclass

FILE = Path(__file__).parents[1] / "data" / "sea" / "ports.npz"

# Two letters for the country, three letters or figures from 2 to 9 for the place (Recommendation No. 16, annex).
CODE = r"[A-Z]{2}[A-Z2-9]{3}"

# Codes met in use for a port that the table has under another one; two of them under a country that is no more.
OTHER_CODES = {"GUGUM": "GUAPR", "USBQK": "USSSI", "SXPHI": "ANPHI", "BQKRA": "ANKRA"}
_COUNTRY_NOW = {"ANPHI": "SX", "ANKRA": "BQ"}


@dataclass(frozen=True, slots=True, eq=False)
class _Table:
    codes: tuple[str, ...]
    names: tuple[tuple[str, str], ...]
    degrees: Floats
    number: dict[str, int]


@cache
def _table() -> _Table:
    with np.load(FILE) as file:
        codes = tuple(file["code"].astype(str).tolist())
        lines = file["text"].tobytes().decode().split("\n")
        degrees = np.stack([file["latitude"], file["longitude"]], axis=1) / 1e5
    names = tuple((name, subdivision) for name, subdivision in (line.split("\t") for line in lines))
    return _Table(codes, names, degrees, {code: number for number, code in enumerate(codes)})


def is_port_code(text: str) -> bool:
    """Return whether a text has the form of a UN/LOCODE, small letters and a space after the country allowed."""
    return re.fullmatch(CODE, _as_code(text)) is not None


def find_port(text: str) -> Place | None:
    """Return the port with a UN/LOCODE ("USNYC", "us nyc"), or None."""
    code = _as_code(text)
    number = _table().number.get(OTHER_CODES.get(code, code))
    return None if number is None else _place(number)


def port_codes() -> tuple[str, ...]:
    """Return all codes of the table, in their order."""
    return _table().codes


def _as_code(text: str) -> str:
    compact = text.strip().upper()
    return compact.replace(" ", "", 1) if compact[2:3] == " " else compact


def _place(number: int) -> Place:
    table = _table()
    name, subdivision = table.names[number]
    latitude, longitude = table.degrees[number].tolist()
    code = table.codes[number]
    return Place(
        name=name,
        kind="port",
        country=_COUNTRY_NOW.get(code, code[:2]),
        subdivision=subdivision,
        latitude=latitude,
        longitude=longitude,
        found_by=f"UN/LOCODE {code}",
    )

"""Stock lists that were read before, kept by content in the user's cache folder: a list changes daily, and is asked all day."""

import hashlib
from collections.abc import Sequence
from pathlib import Path

from msgspec import json

from shipcalc import __version__
from shipcalc.files import read_file
from shipcalc.records import fields
from shipcalc.sheets.keeping import find_kept_file, keep_file, kept_in
from shipcalc.vehicles.sizes import BodySize, body_keys
from shipcalc.vehicles.stock import Stock
from shipcalc.vehicles.vehicle import Vehicle

# Raise it when reading changes what the same cells come to.
READING = 3
MOST_LISTS = 12


def stock_of(path: Path, *, currency: str = "USD", sizes: Sequence[BodySize] = ()) -> Stock:
    """Return what `read_stock` says of a list, from the cache where its content was read before; raises what it raises."""
    key = _key(path, currency, sizes)
    stock = _find(key)
    if stock is None:
        from shipcalc.vehicles.stock_list import read_stock

        stock = read_stock(path, currency=currency, sizes=sizes)
        if key and _key(path, currency, sizes) == key:  # or somebody has saved another list meanwhile
            keep_file(_file(key), json.encode(stock), most=MOST_LISTS)
    return stock


def _key(path: Path, currency: str, sizes: Sequence[BodySize]) -> str:
    """Return a hash of all that a list's vehicles and problems depend on; empty for a file that is not there to be read."""
    try:
        content = read_file(path)
    except OSError:
        return ""
    asked = json.encode([__version__, READING, path.name, currency, sorted(body_keys(sizes)), _FIELDS])
    return hashlib.sha256(asked + content).hexdigest() if content else ""


def _find(key: str) -> Stock | None:
    kept = find_kept_file(_file(key))
    if kept is None:
        return None
    try:
        return json.decode(kept, type=Stock)
    except ValueError:
        return None


def _file(key: str) -> Path:
    return kept_in("stock-lists") / f"{key}.json"


_FIELDS = tuple(field.name for field in fields(Vehicle))

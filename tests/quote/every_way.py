"""One request for each kind of way there is: what must hold for any way is asked of all of them (`test_every_way.py`)."""

from collections.abc import Mapping
from datetime import date

from shipcalc.records import dataclass, field

NOT_RUNNING = "1961 roadster, 153 in x 60 in x 49 in, 2030 lb, $38,000, does not run"
NOT_ROLLING = f"{NOT_RUNNING}, does not roll"
TALL = "1979 camper, 402 in x 96 in x 150 in, 14800 lb, $36,500"


@dataclass(frozen=True, kw_only=True)
class Way:
    """A request for a kind of way. `modes`: of the legs of at least one of its choices, in order; of legs alike in a row, one."""

    vehicles: tuple[str, ...] = ("HV-1042",)
    to: str
    order: Mapping[str, object] = field(default_factory=dict)
    modes: tuple[str, ...] = ("truck",)


WAYS = {
    "at home": Way(to="59715"),
    "at home, open": Way(to="33040", order={"trailer": "open", "express": True}),
    "at home, enclosed": Way(to="04609", order={"trailer": "enclosed", "lift_gate": True}),
    "at home, in another currency": Way(to="14850", order={"currency": "JPY", "limited_access": True}),
    "at home, from two yards": Way(vehicles=("HV-1042", "HV-1003", "HV-1187"), to="79843"),
    "at home, does not roll": Way(vehicles=(NOT_ROLLING,), to="59715"),
    "at home, driven": Way(vehicles=(TALL,), to="78701", modes=("driven",)),
    "at home, with a lien": Way(vehicles=("HV-1167",), to="33040"),
    "at home, ferry": Way(to="Nantucket, MA", modes=("truck", "ferry")),
    "at home, two by ferry": Way(vehicles=("HV-1042", "HV-1003"), to="98250", modes=("truck", "ferry", "truck", "ferry")),
    "at home, collected": Way(to="59715", order={"collect": True}, modes=()),
    "at home, terminal": Way(to="59715", order={"terminal": True}),
    "at home, kept in the yard": Way(to="59715", order={"keep_until": date(2027, 4, 1)}),
    "at home, prices in hand": Way(vehicles=("HV-1042", "HV-1003"), to="59715", order={"spot": ("Nobody Known, 1,250.01, until 2026-12-20, ref 7", "Three Puffins, $900 each, until 2026-12-12, open")}),
    "RoRo, a price in hand": Way(to="Bremen, Germany", order={"spot": ("Three Puffins, 310, until 2026-12-20, to Tacoma",)}, modes=("truck", "roro", "truck")),
    "Hawaii": Way(to="Honolulu, HI", modes=("truck", "roro", "truck")),
    "Alaska": Way(to="Anchorage, AK", modes=("truck", "roro", "truck")),
    "Puerto Rico": Way(to="San Juan, Puerto Rico", modes=("truck", "roro", "truck")),
    "ends at a port": Way(to="Prudhoe Bay, AK", modes=("truck", "roro")),
    "Canada by road": Way(to="Toronto, ON"),
    "Canada, two by road": Way(vehicles=("HV-1042", "HV-1003"), to="Calgary, AB", order={"term": "DDP", "currency": "CAD"}),
    "Mexico by road": Way(to="Monterrey, Mexico"),
    "ferry abroad": Way(to="Visby, Sweden", modes=("truck", "roro", "truck", "ferry", "truck")),
    "RoRo": Way(to="Bremen, Germany", order={"ocean": "roro", "currency": "EUR"}, modes=("truck", "roro", "truck")),
    "RoRo, on a platform": Way(vehicles=(NOT_ROLLING,), to="Bremerhaven", order={"ocean": "roro"}, modes=("truck", "roro", "truck")),
    "RoRo, free on board": Way(to="Bremen, Germany", order={"term": "FOB"}, modes=("truck", "roro", "truck")),
    "RoRo, cost, insurance and freight": Way(to="Yokohama, Japan", order={"term": "CIF", "currency": "JPY"}, modes=("truck", "roro", "truck")),
    "a container of its own": Way(to="Rotterdam, Netherlands", order={"ocean": "container"}, modes=("truck", "container", "truck")),
    "a shared container": Way(vehicles=(NOT_RUNNING,), to="London, UK", order={"ocean": "container"}, modes=("truck", "shared container", "truck")),
    "two over the sea": Way(vehicles=("HV-1042", "HV-1003"), to="Sydney, Australia", modes=("truck", "roro", "truck")),
    "ex works": Way(to="Auckland, New Zealand", order={"term": "EXW"}, modes=("truck", "roro", "truck")),
    "to the port": Way(to="Bremen, Germany", order={"term": "CIP"}, modes=("truck", "roro", "truck")),
    "duty paid": Way(to="Hamburg", order={"term": "DDP", "currency": "EUR"}, modes=("truck", "roro", "truck")),
    "landlocked, by a gateway": Way(to="Kampala, Uganda", modes=("truck", "roro", "truck")),
    "through the Red Sea": Way(to="Dubai", order={"start": "31401"}, modes=("truck", "roro", "truck")),
    "without a road from any port": Way(to="Flying Fish Cove, Christmas Island", modes=("truck", "roro")),
    "overseas, collected": Way(to="Bremen, Germany", order={"collect": True}, modes=()),
    "overseas, kept in the yard": Way(to="Bremen, Germany", order={"keep_until": date(2027, 4, 1)}, modes=("truck", "roro", "truck")),
}  # fmt: skip

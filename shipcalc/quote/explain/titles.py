"""What a way is called as a choice, and the place that its delivery term names."""

from shipcalc.quote.choose.ways import Found
from shipcalc.quote.explain.legs import goes_on
from shipcalc.quote.network.trucks import find_trailer
from shipcalc.quote.request import Request


def title_of(way: int, mode: str, found: Found, loading: str) -> str:
    """Return what a way is called; `loading` is how the vehicles go aboard, where that needs words."""
    export, arrival = int(found.ways.export[way]), int(found.ways.arrival[way])
    if found.network.at_home:
        trailer = find_trailer(found.network.services[int(found.ways.truck[way])])
        return f"{trailer.capitalize()} trailer" if trailer else "Driven by a hired driver"
    if mode == "truck":
        return "By road all the way"
    ports = f"{found.network.exports[export].row.name} to {found.network.arrivals.ports[arrival].row.name}"
    if mode == "roro":
        return f"RoRo {loading}, {ports}" if loading and "," not in loading else f"RoRo, {ports}"
    packing = found.network.crossings[int(found.ways.crossing[way])].load.packing
    return f"{packing.name} container, {ports}" if packing else f"Shared container, {ports}"


def term_place(way: int, request: Request, found: Found) -> str:
    """Return the place that the delivery term names."""
    export, arrival = int(found.ways.export[way]), int(found.ways.arrival[way])
    place = found.sums.term.place
    if place == "yard" or (place == "port" and export < 0):
        return request.starts[0].name
    if place == "port":
        return found.network.exports[export].row.name
    if place == "arrival port" and arrival >= 0:
        return found.network.arrivals.ports[arrival].row.name
    return request.to.name


def paid_by_seller(way: int, found: Found) -> frozenset[str]:
    """Return what the seller pays of this way: nothing beyond a port where nobody is priced to carry it on."""
    ends_at_port = found.ways.arrival[way] >= 0 and not goes_on(way, found)
    return found.sums.term.seller_pays - ({"on-carriage", "unloading"} if ends_at_port else set())

"""The buyer comes for the vehicle, or sends a truck of his own: a choice without carriage, at home and overseas."""

from datetime import date

from shipcalc.money import to_decimal
from shipcalc.places.straight import great_circle_mi
from shipcalc.quote.choose.ways import find_ways
from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.model import Also, Option
from shipcalc.quote.network.territory import is_domestic, is_home
from shipcalc.quote.options import Said, option_of
from shipcalc.quote.request import Fetched, Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import replace

# From so near a buyer may well come himself (our own rule); a straight line in miles.
NEAR_MI = 150

EXPORTED_YOURSELF = (
    "Taking it abroad from here is then up to you: export filing, showing the title to customs before it leaves, carriage, cover "
    "and import. Ask a licensed forwarder before you agree; the seller must still give the data of the export filing."
)


def collected(request: Request, book: RateBook, as_of: date) -> Option:
    """Return the choice of coming for it without carriage."""
    lead = with_lead(replace(request, by=None, fetched=Fetched()), book, as_of, collected=True)
    found = find_ways(lead.request, book, as_of)
    exported = () if is_domestic(request.to.country) else (EXPORTED_YOURSELF,)
    said = Said(before_price=(*lead.said, *exported))
    return option_of(found.one(0), found, said, as_of=as_of, good_for=("you come for it, or send your own truck",))


def collected_beside(request: Request, best: Option, book: RateBook) -> Also | None:
    """Return in one line that a buyer who is near may come for it; None for others."""
    if not is_home(request.to.country, request.to.subdivision):
        return None
    miles = max(great_circle_mi(start, request.to) for start in request.starts)
    if miles > NEAR_MI:
        return None
    nothing = to_decimal(0, book.pricing.currency)
    return Also(
        what="collected",
        title="Collected by you at the yard",
        total=nothing,
        difference=nothing - best.total,
        note=f"{miles:,.0f} miles in a straight line",
    )

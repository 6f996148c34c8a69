"""What a quote comes to for the buyer, in the same words on every face, in both currencies; and how the customs may treat it."""

from decimal import ROUND_HALF_UP, Decimal

from shipcalc.documents import wording
from shipcalc.money import decimals
from shipcalc.quote.model import Charge, ImportEstimate, Option, Quote
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.price.exchange import converted
from shipcalc.trade import Treatment

_FINEST = 4  # decimals of the deposit's percentage
_TREATMENTS = {"ordinary": "Ordinary", "collector": "Collector's piece", "preference": "With proof of origin"}
_AS = {
    "ordinary": "as an ordinary vehicle",
    "collector": "as a collector's piece",
    "preference": "with proof of origin",
}
TREATED = tuple(_AS.values())
CUSTOMS_CAUTION = (
    "All of it is an estimate: customs in that country decide what the vehicle is and what is due. Ask a licensed customs broker "
    "there before you agree."
)


def altogether(option: Option) -> Decimal:
    """Return all that the buyer pays beside the vehicles: the total and what goes to others."""
    return option.total + option.buyer_pays_locally


def has_more(option: Option) -> bool:
    """Return whether anything comes beside the total: what goes to others, or the landed sum."""
    return bool(option.buyer_pays_locally) or option.landed is not None


def lacks_duty(quote: Quote, option: Option) -> bool:
    """Return whether the customs of the country will ask for something that no figure is known for."""
    return not option.imports and not is_domestic(quote.to.country)


def landed_label(quote: Quote, option: Option) -> str:
    """Return what the landed sum is: with the vehicle, and without duty and tax where these are not known."""
    vehicle = "vehicle" if len(quote.vehicles) == 1 else "vehicles"
    return f"with the {vehicle}, without duty and tax" if lacks_duty(quote, option) else f"with the {vehicle}"


def exchange_told(quote: Quote) -> str:
    """Return how the buyer's currency was counted, or nothing where it is the dealer's: `1 USD = 0.9215 EUR on 23 Nov 2026 …`."""
    exchange = quote.exchange
    if exchange is None:
        return ""
    buffer = (
        f", and {exchange.buffer.normalize():f} % on it as a buffer against exchange-rate movements until payment"
        if exchange.buffer
        else ""
    )
    return f"1 {quote.currency} = {exchange.rate:f} {exchange.currency} on {wording.day(exchange.as_of)}{buffer}"


def sum_told(quote: Quote, amount: Decimal) -> str:
    """Return `$2,905.00`, and in brackets the same in the buyer's currency, where the quote has one."""
    told = wording.money(amount, quote.currency)
    if quote.exchange is None:
        return told
    return f"{told} ({wording.money(converted(amount, quote.exchange), quote.exchange.currency)})"


def treatment_name(estimate: ImportEstimate) -> str:
    """Return how the customs take the vehicle: `Ordinary`, `Collector's piece`, `With proof of origin`."""
    return _TREATMENTS[estimate.treatment]


def as_told(estimate: ImportEstimate) -> str:
    """Return the same within a sentence: `as a collector's piece`."""
    return _AS[estimate.treatment]


def criteria_told(estimate: ImportEstimate) -> str:
    """Return what the customs ask for a treatment, which is named; nothing where they ask for nothing more."""
    if not estimate.criteria:
        return ""
    return f"To be taken {as_told(estimate)}, customs ask for: {wording.lower_first(estimate.criteria.rstrip('.'))}."


def less_as(option: Option, treatment: Treatment) -> Decimal | None:
    """Return how much less the customs may ask under a treatment than is counted; None where that is not known."""
    counted = next((one for one in option.imports if one.counted), None)
    other = next((one for one in option.imports if one.treatment == treatment and not one.counted), None)
    return None if counted is None or other is None else counted.amount - other.amount


def treatment_rows(quote: Quote, option: Option) -> list[tuple[str, tuple[Charge | None, ...]]]:
    """Return (label, the line under each treatment) of every duty and tax, in the order of the first treatment's lines."""
    several = len(quote.vehicles) > 1
    found: dict[tuple[str, str | None], list[Charge | None]] = {}
    for place, estimate in enumerate(option.imports):
        for line in estimate.lines:
            found.setdefault((line.code, line.vehicle), [None] * len(option.imports))[place] = line
    rows = []
    for lines in found.values():
        named = next(line for line in lines if line is not None)
        rows.append((f"{named.label}, {named.vehicle}" if several else named.label, tuple(lines)))
    return rows


def deposit_percent(option: Option, currency: str) -> Decimal | None:
    """Return the shortest percentage of the total that gives the deposit to the cent (25), or None where none does."""
    if not option.total:
        return None
    exact = option.deposit * 100 / option.total
    unit = Decimal(1).scaleb(-decimals(currency))
    for places in range(_FINEST + 1):
        percent = exact.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
        if (option.total * percent / 100).quantize(unit, ROUND_HALF_UP) == option.deposit:
            return percent
    return None

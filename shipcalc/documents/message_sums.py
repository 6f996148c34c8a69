"""What a message says of every choice, at home and abroad: when, what is paid when, and what others may ask."""

from collections.abc import Iterator

from shipcalc.documents import wording
from shipcalc.documents.landing import sum_told
from shipcalc.quote.model import Option, Quote


def when_and_what_is_paid(quote: Quote, option: Option) -> Iterator[str]:
    """Yield the windows, by when it must be ready, deposit and balance, and what is paid to others."""
    yield f"  Pickup {wording.window(option.dates.pickup)}, delivery {wording.window(option.dates.delivery)}."
    if quote.by is not None:
        yield f"  To be there by {wording.day(quote.by)}, it must be ready by {wording.latest_ready(option)}."
    deposit, balance = sum_told(quote, option.deposit), sum_told(quote, option.total - option.deposit)
    yield f"  {deposit} when you say yes, {balance} on delivery."
    if option.buyer_pays_locally:
        local = sum_told(quote, option.buyer_pays_locally)
        yield f"  At your end you may pay about {local} to others; that is an estimate and not in our price."

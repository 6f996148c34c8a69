"""When the rest of a price is due, in a buyer's words: the one rule of the sheet *Pricing*, as every face says it."""

from shipcalc.quote.model import Option

_IN_WORDS = {
    "before pickup": "before the vehicle leaves us",
    "before the papers are released": "before title and papers go out to you",
    "on delivery": "on delivery",
}


def balance_is_due(option: Option) -> str:
    """Return when the balance is due, as it stands in a sentence."""
    return _IN_WORDS.get(option.balance_due, option.balance_due)

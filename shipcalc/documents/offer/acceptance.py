"""How an offer is accepted and paid, as every face says it."""

from shipcalc.documents import wording
from shipcalc.documents.offer.differences import differences
from shipcalc.documents.offer.landing import sum_told
from shipcalc.quote.explain.payment import balance_is_due
from shipcalc.quote.model import Option, Quote

WINDOWS = "Until a carrier has confirmed, dates are windows, not promises."
BANK_CAUTION = (
    "Before you pay, call us at a number you already had and let us read the bank details to you: a changed account in a mail "
    "is the usual fraud."
)


def bank_told(quote: Quote) -> tuple[str, ...]:
    """Return where the money goes, as far as the dealer has set it, and always how to be sure of it: sentences.

    Each is said by itself in another language: one that cannot be must not keep the caution in English.
    """
    if not quote.dealer.bank:
        return (BANK_CAUTION,)
    reference = (f"Write {quote.number} with it.",) if quote.number else ()
    return (f"Payment goes to {', '.join(quote.dealer.bank)}.", *reference, BANK_CAUTION)


def payment_told(quote: Quote, option: Option) -> str:
    """Return what is paid when: `You pay $755.00 when you accept, $3,020.00 before the vehicle leaves us.`."""
    if not option.deposit:
        return f"You pay {sum_told(quote, option.total)} {balance_is_due(option)}."
    deposit, balance = sum_told(quote, option.deposit), sum_told(quote, option.total - option.deposit)
    return f"You pay {deposit} when you accept, {balance} {balance_is_due(option)}."


def sent_back_told(quote: Quote, *, paper: str = "") -> str:
    """Return how the signed paper comes back, and by when; `paper` names it on another face (" of quote.pdf")."""
    until = wording.long_day(quote.valid_until)
    reach = [way for way in (quote.dealer.email, quote.dealer.phone) if way]
    where = f" ({' or '.join(reach)})" if reach else ""
    page = f"on the last page{paper}"
    chosen = f"tick your choice {page}, sign" if len(quote.options) > 1 else f"sign {page}"
    return f"To accept, {chosen} and send it back to us{where} by {until}. Then we book it."


def accepts(quote: Quote) -> tuple[str, ...]:
    """Return what stands beside the boxes to tick: one for each choice, with what it comes to."""
    if len(quote.options) == 1:
        return ()
    return tuple(
        f"{wording.choice_name(one.number - 1)}, {wording.money(one.price, quote.currency)}, by {wording.day(one.there_by)}"
        for one in differences(quote)
    )

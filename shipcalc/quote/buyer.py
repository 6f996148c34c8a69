"""The same quote without what is not the buyer's business: cost, margin, sources, carriers the manager keeps private."""

import re

from shipcalc.quote.model import Charge, InHand, Leg, Option, Quote
from shipcalc.records import replace

UNNAMED_CARRIER = "a carrier we work with"
# How the miles of a road were reckoned is for the office; where they are from, and how near they are, is for the buyer too.
_RECKONED = (
    (re.compile(r" road miles? for [\d,]+ in a straight line"), " miles by road"),
    (re.compile(r"straight line × [\d.]+, the lane's own factor from"), "from"),
    (re.compile(r"straight line × [\d.]+"), "estimated"),
)


def for_buyer(quote: Quote) -> Quote:
    """Return the quote as the buyer may have it, as data too. Doing it twice changes nothing."""
    exchange = replace(quote.exchange, source=None) if quote.exchange else None
    return replace(
        quote,
        exchange=exchange,
        wishes=replace(quote.wishes, spot=(), buyer_is=""),
        options=tuple(_option(option) for option in quote.options),
        left_out=(),
        assumptions=tuple(_without_reckoning(said) for said in quote.assumptions),
    )


def is_for_buyer(quote: Quote) -> bool:
    """Return whether nothing in the quote is for the office only."""
    return quote == for_buyer(quote)


def _without_reckoning(said: str) -> str:
    for pattern, instead in _RECKONED:
        said = pattern.sub(instead, said)
    return said


def _option(option: Option) -> Option:
    return replace(
        option,
        total_cost=None,
        to_check=(),
        when_it_happens=tuple(replace(one, cost=None, source=None) for one in option.when_it_happens),
        in_hand=InHand(until=option.in_hand.until) if option.in_hand else None,
        legs=tuple(_leg(leg) for leg in option.legs),
        charges=tuple(_charge(charge) for charge in option.charges),
        imports=tuple(
            replace(estimate, lines=tuple(_charge(line) for line in estimate.lines)) for estimate in option.imports
        ),
        documents=tuple(replace(document, fee=None, trust="") for document in option.documents),
        tasks=tuple(replace(task, trust="") for task in option.tasks),
        dates=replace(option.dates, timeline=tuple(replace(step, office_note="") for step in option.dates.timeline)),
    )


def _leg(leg: Leg) -> Leg:
    return leg if leg.carrier_named else replace(leg, carrier=UNNAMED_CARRIER)


def _charge(charge: Charge) -> Charge:
    return replace(charge, cost=None, source=None, offer="")

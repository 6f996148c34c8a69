"""The choices beside the recommended one: what each costs more or less, how many days it is sooner or later, what is covered."""

import re
from collections import Counter
from datetime import date
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.offer.first_answer import by_sea, rounded, ship
from shipcalc.documents.offer.landing import altogether
from shipcalc.quote.model import Option, Quote
from shipcalc.records import dataclass

_FROM_TO = re.compile(", from (.+) to (.+)$")
# From so many days on a difference is told in weeks.
IN_WEEKS_FROM = 14
GUARANTEED = "guaranteed pick-up"


@dataclass(frozen=True, slots=True)
class Difference:
    """A choice beside the recommended one, as every face lists it.

    `name` is what it is, `words` how it differs, `good_for` what it is the best in, `more` what it costs more altogether
    (less: negative), None for the recommended one itself.
    """

    number: int
    name: str
    words: tuple[str, ...]
    good_for: tuple[str, ...]
    price: Decimal
    altogether: Decimal
    more: Decimal | None
    there_by: date

    @property
    def told(self) -> str:
        """Return name and differences: `Open trailer, 3 days sooner, cover 150,000`."""
        return ", ".join((self.name, *self.words))

    @property
    def brief(self) -> str:
        """Return the same in fewer words: `20′ container, enclosed, 5 weeks sooner, Baltimore – Bremerhaven`."""
        told = self.told.removeprefix("1 × ").replace(" truck", "").replace(" trailer", "")
        told = told.replace(f", {GUARANTEED}", "")
        return _FROM_TO.sub(r", \1 – \2", told).replace(", from ", ", ")


def differences(quote: Quote) -> tuple[Difference, ...]:
    """Return all choices in their order; what rounding to weeks would make alike is told in days."""
    in_weeks = [_difference(number, option, quote) for number, option in enumerate(quote.options, 1)]
    alike = {told for told, count in Counter(one.told for one in in_weeks).items() if count > 1}
    return tuple(
        _difference(one.number, quote.options[one.number - 1], quote, weeks=False) if one.told in alike else one
        for one in in_weeks
    )


def _difference(number: int, option: Option, quote: Quote, *, weeks: bool = True) -> Difference:
    best = quote.options[quote.recommended]
    return Difference(
        number=number,
        name=_name(option, quote),
        words=_words(option, quote, weeks=weeks),
        good_for=tuple(good.removesuffix(f", {option.title.lower()}") for good in option.good_for),
        price=option.total,
        altogether=altogether(option),
        more=None if option is best else _more(option, best),
        there_by=option.dates.delivery[1] if option.legs else option.dates.pickup[0],
    )


def _words(option: Option, quote: Quote, *, weeks: bool) -> tuple[str, ...]:
    """Return how a choice differs; what the buyer fetches is told by the first day alone, for it brings nothing to him."""
    if not option.legs:
        return (f"from {wording.day(option.dates.pickup[0])}, not brought to you",)
    told = (
        wording.in_hand(option),
        GUARANTEED if option.service_class else "",
        days_beside(option, quote, weeks=weeks),
        _covered(option, quote),
        _ports(option, quote),
    )
    return tuple(word for word in told if word)


def _more(option: Option, best: Option) -> Decimal:
    """Return what a choice costs more; where others ask a part of it, an estimate.

    What the buyer fetches himself is compared in our price alone: what he will pay beyond it nobody knows.
    """
    if not option.legs:
        return option.total - best.total
    more = altogether(option) - altogether(best)
    return rounded(more) if option.buyer_pays_locally or best.buyer_pays_locally else more


def _name(option: Option, quote: Quote) -> str:
    """Return what a choice is: the ship or what it is called, and the truck where that differs and is not in its name."""
    told, trailer = by_sea(option) or option.title, option.trailer
    differs = len({one.trailer for one in quote.options}) > 1
    return f"{told}, {trailer} truck" if trailer and differs and trailer not in told.casefold() else told


def _ports(option: Option, quote: Quote) -> str:
    """Return from which port it sails, and to which where the choices differ in it."""
    sea = ship(option)
    if sea is None:
        return ""
    arrivals = {other.to.name for one in quote.options if (other := ship(one))}
    return f"from {sea.from_.name}{f' to {sea.to.name}' if len(arrivals) > 1 else ''}"


def days_beside(option: Option, quote: Quote, *, weeks: bool = True) -> str:
    """Return how much sooner or later than the recommended choice it is there: `3 days sooner`; nothing where on the same day."""
    best = quote.options[quote.recommended]
    days = (best.dates.delivery[1] - option.dates.delivery[1]).days
    if not days:
        return ""
    told = span(abs(days)) if weeks or abs(days) == 1 else f"{abs(days)} days"
    return f"{told} {'sooner' if days > 0 else 'later'}"


def span(days: int) -> str:
    """Return so many days in words: `1 day`, `5 days`, `3 weeks`."""
    if days >= IN_WEEKS_FROM:
        return f"{(days + 3) // 7} weeks"
    return "1 day" if days == 1 else f"{days} days"


def _covered(option: Option, quote: Quote) -> str:
    """Return up to what each vehicle is covered, where the choices differ in it and no marine cover says otherwise."""
    if option.cover_conditions or len({one.cover for one in quote.options}) == 1:
        return ""
    return f"cover {option.cover:,.0f}" if option.cover or not option.in_hand else "cover not known yet"


def signed(amount: Decimal) -> str:
    """Return `+785`, `−310`; cents only where there are any."""
    figures = f"{abs(amount):,f}"
    whole = figures.split(".", maxsplit=1)[0] if amount == amount.to_integral_value() else figures
    return f"{'−' if amount < 0 else '+'}{whole}"

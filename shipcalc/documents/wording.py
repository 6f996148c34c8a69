"""How dates, amounts, places and vehicles are said, in the same words on every paper."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from itertools import zip_longest

from shipcalc.money import decimals
from shipcalc.places.place import Place
from shipcalc.quote.model import Dealer, LeftOut, Leg, Option, Quote, WhenItHappens, Window
from shipcalc.quote.time.days_in_words import MONTHS, day_in_words
from shipcalc.trade import CROSSING_BY_MODE, CROSSINGS, MILES_IN_WORDS, OCEAN_MODES, SHIP, Called, called_by
from shipcalc.vehicles.vehicle import Vehicle

_LONG_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
                "November", "December")  # fmt: skip
_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")

# ISO 4217: the codes most met, as people say them; any other currency is said by its code.
_CURRENCIES = {
    "USD": "US dollars",
    "CAD": "Canadian dollars",
    "AUD": "Australian dollars",
    "NZD": "New Zealand dollars",
    "EUR": "euros",
    "GBP": "pounds sterling",
    "CHF": "Swiss francs",
    "JPY": "Japanese yen",
    "MXN": "Mexican pesos",
    "NOK": "Norwegian kroner",
    "SEK": "Swedish kronor",
    "DKK": "Danish kroner",
    "AED": "UAE dirhams",
    "KWD": "Kuwaiti dinars",
    "ZAR": "South African rand",
}
_CARRIED: dict[str, str] = {
    **{crossing.mode: crossing.told for crossing in CROSSINGS if crossing.handled},
    "ferry": "aboard the ferry, on its truck",
}
_SIGNS = {"USD": "$", "EUR": "€", "GBP": "£"}


def day(when: date) -> str:
    """Return `8 Dec 2026`."""
    return day_in_words(when)


def long_day(when: date) -> str:
    """Return `Tuesday 8 December 2026`."""
    return f"{_WEEKDAYS[when.weekday()]} {when.day} {_LONG_MONTHS[when.month - 1]} {when.year}"


def window(days: Window) -> str:
    """Return the shortest clear form: `8–14 Dec 2026`, `28 Nov – 3 Dec 2026`, `28 Dec 2026 – 3 Jan 2027`."""
    first, last = days
    if first == last:
        return day(first)
    if first.year != last.year:
        return f"{day(first)} – {day(last)}"
    if first.month != last.month:
        return f"{first.day} {MONTHS[first.month - 1]} – {day(last)}"
    return f"{first.day}–{day(last)}"


def within(days: Window) -> str:
    """Return a window as it stands in a sentence: `between 8 and 14 Dec 2026`, `on 1 Feb 2027`."""
    first, last = days
    if first == last:
        return f"on {day(first)}"
    if first.year != last.year:
        return f"between {day(first)} and {day(last)}"
    begun = f"{first.day}" if first.month == last.month else f"{first.day} {MONTHS[first.month - 1]}"
    return f"between {begun} and {day(last)}"


def currency_name(code: str) -> str:
    """Return `US dollars (USD)`, or the code alone where no name is known."""
    name = _CURRENCIES.get(code)
    return f"{name} ({code})" if name else code


def money(amount: Decimal, currency: str) -> str:
    """Return an amount with its currency, as in a sentence: `$1,934.50`, `JPY 182,500`."""
    return _signed(amount, f"{abs(amount):,.{decimals(currency)}f}", currency)


def money_told(amount: Decimal, currency: str) -> str:
    """Return an amount with its currency and the decimals it has: `$1,934.50`, and `$23,800` where it is rounded to that."""
    return _signed(amount, f"{abs(amount):,f}", currency)


def _signed(amount: Decimal, figures: str, currency: str) -> str:
    sign = _SIGNS.get(currency)
    shown = f"{sign}{figures}" if sign else f"{currency} {figures}"
    return f"−{shown}" if amount < 0 else shown


def number(count: int) -> str:
    """Return a small number as a word: 5 → five."""
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def place(where: Place) -> str:
    """Return `Portland, OR 97205`, or `Lyon, France` abroad."""
    region = where.subdivision if where.country in ("US", "CA") else country(where.country)
    name = f"{where.name}, {region}" if region and region != where.name else where.name
    return f"{name} {where.postal_code}" if where.postal_code and where.postal_code not in name else name


def country(code: str) -> str:
    """Return a country by its name in English."""
    from shipcalc.places.gazetteer.regions import (
        country_name,  # late: it reads the gazetteer, which most quotes at home need not
    )

    return country_name(code)


def stop(where: Place, called: Called = SHIP) -> str:
    """Return a place of a journey: `the port of Tacoma, WA`, as it is `called`; any other as `place` says it."""
    return f"the {called.place} of {place(where)}" if where.kind == "port" else place(where)


def called_on(option: Option) -> Called:
    """Return how the longest leg of a choice is spoken of."""
    return called_by(leg.mode for leg in option.legs)[0]


def carried(leg: Leg, trailer: str | None) -> str:
    """Return how a leg is travelled: `by open truck`, `in a shared container`."""
    kind = f"{trailer} " if trailer else ""
    if leg.mode == "ferry" and trailer is None:
        return "aboard the ferry"
    if leg.mode == "driven":
        return "on its own wheels, by a hired driver"
    crossing = CROSSING_BY_MODE.get(leg.mode)
    if crossing and crossing.is_driven_aboard:
        return f"{leg.loading} ({crossing.title})" if leg.loading else crossing.told
    if leg.loading:
        return f"{_CARRIED[leg.mode]}, {leg.loading}"
    return _CARRIED.get(leg.mode, f"by {kind}truck")


def distance(leg: Leg) -> str:
    """Return how far a leg is: `9,121 nautical miles`, `39 miles`."""
    near = {0: "less than a mile", 1: "1 mile"} if leg.unit == "mi" else {}
    return near.get(leg.distance, f"{leg.distance:,} {MILES_IN_WORDS[leg.unit]}")


def passages(leg: Leg) -> str:
    """Return by which straits and canals a leg at sea goes: `by the Panama Canal, the Strait of Dover`; nothing where by none."""
    _, by, named = leg.method_note.partition(" by ") if leg.mode in OCEAN_MODES else ("", "", "")
    return f"by {named}" if by else ""


def way(leg: Leg, option: Option) -> str:
    """Return a leg as a line: from where to where, how far, how, and at sea by which passages."""
    by = f", {passages(leg)}" if passages(leg) else ""
    called = called_on(option)
    start, to = sentence_case(stop(leg.from_, called)), stop(leg.to, called)
    return f"{start} to {to}, {distance(leg)} {carried(leg, option.trailer)}{by}"


def left_out(entry: LeftOut) -> str:
    """Return what could not be offered: a carrier with its trailer, a container, a port."""
    return f"{entry.carrier}, {entry.trailer}" if entry.trailer else entry.carrier


def term(option: Option) -> str:
    """Return the delivery term with its named place: `DAP Bremen`."""
    return f"{option.term} {option.term_place}"


def latest_ready(option: Option) -> str:
    """Return the last day to be ready that is in time for the day the buyer named: `8 Dec 2026`."""
    return day(option.latest_ready) if option.latest_ready is not None else "–"


def listed(items: Sequence[str]) -> str:
    """Return `a, b and c`."""
    return items[0] if len(items) == 1 else ", ".join(items[:-1]) + " and " + items[-1] if items else ""


def vehicles(all_of_them: Sequence[Vehicle]) -> str:
    """Return the vehicle's name, or how many there are: `your five vehicles`."""
    return f"your {all_of_them[0].name}" if len(all_of_them) == 1 else f"your {number(len(all_of_them))} vehicles"


def headline(quote: Quote) -> str:
    """Return what the quote is about: `Bringing your 1961 Larkspur Minnow to Portland, OR 97205`."""
    return f"Bringing {vehicles(quote.vehicles)} to {place(quote.to)}"


def letterhead(dealer: Dealer) -> str:
    """Return the dealer's address, telephone, mail and licence in one line that breaks between them only."""
    told = (dealer.address, dealer.phone, dealer.email, dealer.website, dealer.licence)
    return "\u00a0 ·\u00a0 ".join(part.replace(" ", "\u00a0") for part in told if part)


def reference(quote: Quote) -> str:
    """Return how the quote is referred to: its number, or its date where it has none yet."""
    if not quote.number:
        return f"Quote of {day(quote.as_of)}"
    return f"Quote {quote.number}{f', revision {quote.revision}' if (quote.revision or 1) > 1 else ''}"


def choice_name(index: int) -> str:
    """Return what a choice is called, counted from 0."""
    return f"Choice {index + 1}"


def trailer(option: Option) -> str:
    """Return which trailer carries the vehicle, in words."""
    if option.trailer is None and any(leg.mode == "driven" for leg in option.legs):
        return "none, a driver drives it"
    return {"open": "open trailer", "enclosed": "enclosed trailer", None: "as agreed"}[option.trailer]


def sentence_case(text: str) -> str:
    """Return text with its first letter large and the rest as it is."""
    return text[:1].upper() + text[1:]


def lower_first(text: str) -> str:
    """Return text with its first letter small, unless the first word has more large ones: Open trailer → open trailer; RoRo."""
    first = text.split(maxsplit=1)[0] if text.strip() else ""
    return text[:1].lower() + text[1:] if first[1:].islower() else text


def in_hand(option: Option) -> str:
    """Return until when a choice's price in hand holds: `price in hand until 10 Dec 2026`; nothing where it has none."""
    return f"price in hand until {day(option.in_hand.until)}" if option.in_hand else ""


def guaranteed(option: Option) -> str:
    """Return that the carrier guarantees the day of pick-up: `pick-up by 4 Dec 2026 guaranteed`; nothing where it does not."""
    return f"pick-up by {day(option.dates.pickup[1])} guaranteed" if option.service_class else ""


def when_it_happens(one: WhenItHappens, currency: str) -> str:
    """Return what a carrier asks when something happens, at cost where it is known: `Waiting: $75 an hour after the first 2`."""
    each = {"hour": "an hour", "day": "a day", "time": "each time"}[one.per]
    cost = one.amount if one.cost is None else one.cost
    free = f" after the first {one.free}" if one.free else ""
    sold = "" if one.cost is None else f"; to the buyer {money(one.amount, currency)}"
    return f"{one.what}: {money(cost, currency)} {each}{free}{sold}"


def in_hand_from(option: Option) -> str:
    """Return the same for the office: `price in hand from Tern Haulage, until 10 Dec 2026, ref TH-88`."""
    held = option.in_hand
    if held is None:
        return ""
    whose = f" from {held.carrier}," if held.carrier else ""
    return f"price in hand{whose} until {day(held.until)}{f', ref {held.reference}' if held.reference else ''}"


def choices_named(where: Sequence[int]) -> str:
    """Return which choices are meant, counted from 0: `Choice 1`, `Choices 2 and 3`."""
    numbers = listed([str(index + 1) for index in where])
    return f"Choice {numbers}" if len(where) == 1 else f"Choices {numbers}"


def by_choice(lists: Sequence[Sequence[str]]) -> list[str]:
    """Return every sentence once, in order, and after it the choices it belongs to where it is not for all."""
    told: dict[str, list[int]] = {}
    for abreast in zip_longest(*lists):  # so that sentences which differ from choice to choice stand together
        for index, sentence in enumerate(abreast):
            if sentence is not None:
                told.setdefault(sentence, []).append(index)
    everywhere = len(lists)
    return [
        sentence if len(where) == everywhere else f"{sentence} ({lower_first(choices_named(where))})"
        for sentence, where in told.items()
    ]

"""How dates, amounts, places and vehicles are said, in the same words on every paper."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from shipcalc.money import decimals
from shipcalc.places.place import Place
from shipcalc.quote.model import Dealer, Option, Quote, Window
from shipcalc.vehicles.vehicle import Vehicle

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
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
_SIGNS = {"USD": "$", "EUR": "€", "GBP": "£"}


def day(when: date) -> str:
    """Return `8 Dec 2026`."""
    return f"{when.day} {_MONTHS[when.month - 1]} {when.year}"


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
        return f"{first.day} {_MONTHS[first.month - 1]} – {day(last)}"
    return f"{first.day}–{day(last)}"


def currency_name(code: str) -> str:
    """Return `US dollars (USD)`, or the code alone where no name is known."""
    name = _CURRENCIES.get(code)
    return f"{name} ({code})" if name else code


def money(amount: Decimal, currency: str) -> str:
    """Return an amount with its currency, as in a sentence: `$1,934.50`, `JPY 182,500`."""
    figures = f"{abs(amount):,.{decimals(currency)}f}"
    sign = _SIGNS.get(currency)
    shown = f"{sign}{figures}" if sign else f"{currency} {figures}"
    return f"−{shown}" if amount < 0 else shown


def number(count: int) -> str:
    """Return a small number as a word: 5 → five."""
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def place(where: Place) -> str:
    """Return `Portland, OR 97205`, or `Lyon, FR` abroad."""
    region = where.subdivision if where.country in ("US", "CA") else where.country
    name = f"{where.name}, {region}" if region and region != where.name else where.name
    return f"{name} {where.postal_code}" if where.postal_code and where.postal_code not in name else name


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
    return f"Quote {quote.number}" if quote.number else f"Quote of {day(quote.as_of)}"


def choice_name(index: int) -> str:
    """Return what a choice is called, counted from 0."""
    return f"Choice {index + 1}"


def trailer(option: Option) -> str:
    """Return which trailer carries the vehicle, in words."""
    return {"open": "open trailer", "enclosed": "enclosed trailer", None: "as agreed"}[option.trailer]


def sentence_case(text: str) -> str:
    """Return text with its first letter large and the rest as it is."""
    return text[:1].upper() + text[1:]


def lower_first(text: str) -> str:
    """Return text with its first letter small, unless the first word is an abbreviation: Open trailer → open trailer."""
    return text[:1].lower() + text[1:] if text[1:2].islower() else text


def choices_named(where: Sequence[int]) -> str:
    """Return which choices are meant, counted from 0: `Choice 1`, `Choices 2 and 3`."""
    numbers = listed([str(index + 1) for index in where])
    return f"Choice {numbers}" if len(where) == 1 else f"Choices {numbers}"

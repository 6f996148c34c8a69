"""What the call page says of a quote: the words of every other face, for one choice of it at a time."""

from collections.abc import Mapping, Sequence
from typing import Any

from shipcalc.documents import wording
from shipcalc.documents.buyer.pdf_lines import customs, lines
from shipcalc.documents.notes import notes, papers
from shipcalc.documents.offer.differences import differences, signed
from shipcalc.documents.offer.first_answer import answers, further, place_and_vehicles
from shipcalc.documents.offer.opening import marks
from shipcalc.documents.offer.sentences import in_one_style, phone_script
from shipcalc.documents.offer.small_print import assumed
from shipcalc.errors import WrongInput
from shipcalc.languages.currencies import currency_of
from shipcalc.quote.model import Option, Quote
from shipcalc.vehicles.vehicle import Vehicle

SOONEST, FETCHED, TERMINAL = "soonest", "collect", "terminal"
_LISTS = ("needed", "missing", "noted")


def choice_meant(quote: Quote, said: str) -> int:
    """Return the index of the choice to show: by its number, the soonest, one that the buyer fetches; else the recommended."""
    if said.isdecimal():
        return min(max(int(said), 1), len(quote.options)) - 1
    options = list(enumerate(quote.options))
    brought = [(index, one) for index, one in options if one.legs and one.arrives]
    if said == SOONEST and brought:
        return min(brought, key=lambda each: (each[1].dates.delivery[1], each[1].total))[0]
    if said == FETCHED:
        return next((index for index, one in options if not one.legs), quote.recommended)
    if said == TERMINAL:
        to_terminal = (index for index, one in options if any(leg.to.terminal for leg in one.legs))
        return next(to_terminal, quote.recommended)
    if said:
        raise WrongInput(f'"{said}" is no choice', where="choice", remedy="say its number, or soonest")
    return quote.recommended


def answer_data(quote: Quote, index: int) -> Mapping[str, Any]:
    """Return what the page says of a choice of a buyer's quote."""
    option = quote.options[index]
    to, vehicles = place_and_vehicles(quote)
    return {
        "to": to,
        "vehicles": vehicles,
        "each": [_vehicle(one) for one in quote.vehicles] if len(quote.vehicles) > 1 else [],
        "script": phone_script(quote, index),
        "decisive": option.before_price,
        "answers": [
            (one.what, one.label, wording.sentence_case(one.text)) for one in answers(quote, index, wording.money_told)
        ],
        "further": [(one.label, one.text) for one in further(quote, index, wording.money_told)],
        "currency": wording.currency_name(quote.currency),
        "their_currency": currency_of(quote.to.country, on=quote.as_of),
        "yard": quote.from_.yard,
        "term": option.term,
        "choices": [_choice(one, quote, index) for one in differences(quote)],
        "others_ask": any(one.buyer_pays_locally for one in quote.options),
        "shown": index + 1,
        "recommended": index == quote.recommended,
        "reason": quote.reason,
        **lines(quote, option, duty_stands="above"),
        "customs": customs(quote, option),
        "days": _days(option),
        "ways": [wording.way(leg, option) for leg in option.legs],
        "lists": _lists(quote, option),
        "papers": [(title, by, wording.day(due)) for title, by, due in papers(option)],
    }


def _vehicle(vehicle: Vehicle) -> tuple[str, str]:
    return vehicle.name, marks(vehicle)


def _choice(one: Any, quote: Quote, shown: int) -> Mapping[str, Any]:
    return {
        "number": one.number,
        "told": wording.sentence_case(one.told),
        "good_for": ", ".join(one.good_for),
        "price": f"{one.price:,}",
        "altogether": f"{one.altogether:,}",
        "more": "" if one.more is None else signed(one.more),
        "there_by": wording.day(one.there_by),
        "recommended": one.number == quote.recommended + 1,
        "shown": one.number == shown + 1,
    }


def _days(option: Option) -> list[tuple[str, str, str]]:
    return [(step.what, wording.window((step.earliest, step.latest)), step.note) for step in option.dates.timeline]


def _lists(quote: Quote, option: Option) -> list[tuple[str, Sequence[str]]]:
    """Return (title, sentences) of what is behind the figures, without the lists that are empty."""
    told = [notes(subject, quote, option) for subject in _LISTS]
    lists = [(one.title, one.sentences) for one in told]
    lists += [("What we assumed", tuple(assumed(quote))), ("Cautions", notes("cautions", quote).sentences)]
    return [(title, [in_one_style(one, quote) for one in sentences]) for title, sentences in lists if sentences]

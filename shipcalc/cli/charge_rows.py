"""What every answer on the terminal writes alike: days, and the lines of a price with what the office sees beside them."""

from decimal import Decimal

from shipcalc.cli.look import Look, paragraph
from shipcalc.cli.words import amount, reckoning, short_span, vehicle_name
from shipcalc.documents.offer.first_answer import place_and_vehicles
from shipcalc.documents.wording import day
from shipcalc.quote.model import Charge, Option, Quote, Window


def ready_by(quote: Quote, option: Option) -> str:
    """Return by when the vehicle must be ready, where the buyer must have it by a day."""
    if quote.by is None or option.latest_ready is None:
        return ""
    return f"{day(option.latest_ready)} at the latest, to be there by {day(quote.by)}"


def headline(quote: Quote, look: Look) -> list[str]:
    """Return the first line of every answer, the place as it was understood; below it the vehicles where there are several."""
    told = paragraph(look, "To {}: {}".format(*place_and_vehicles(quote)))
    several = quote.vehicles if len(quote.vehicles) > 1 else ()
    return [
        *(look.strong(line) for line in told),
        *(line for v in several for line in paragraph(look, vehicle_name(v))),
    ]


def made_of(chosen: int) -> str:
    """Return the title of the lines that a choice's total covers."""
    return f"What choice {chosen + 1} is made of"


def figures(quote: Quote, *, for_office: bool) -> tuple[str, ...]:
    """Return the titles of the columns of amounts."""
    return ("Price", "Cost", "Margin") if for_office else (quote.currency,)


def charge_row(charge: Charge, *, for_office: bool, name_vehicle: bool) -> tuple[str, ...]:
    """Return a line: what for, how it comes about, its amount; for the office with its cell, cost and margin.

    What the buyer pays to others costs the dealer nothing and earns nothing: it has an amount alone.
    """
    label = f"{charge.label}, {charge.vehicle}" if name_vehicle and charge.vehicle else charge.label
    told = f"{label} (estimate)" if charge.estimate else label
    how = _with_source(charge) if for_office else reckoning(charge)
    if not for_office or charge.payer == "buyer":
        return (told, how, amount(charge.amount))
    cost = charge.cost.amount if charge.cost else Decimal(0)
    return (told, how, amount(charge.amount), amount(cost), amount(charge.amount - cost))


def _with_source(charge: Charge) -> str:
    return " · ".join(part for part in (reckoning(charge), charge.source) if part)


def totals(option: Option, *, for_office: bool) -> tuple[str, ...]:
    """Return the sums of the columns of amounts."""
    if not for_office:
        return (amount(option.total),)
    cost = option.total_cost or Decimal(0)
    return (amount(option.total), amount(cost), amount(option.total - cost))


def days_shown(days: Window, look: Look) -> str:
    """Return a window for people on a terminal, as an interval of ISO 8601 in a pipe."""
    first, last = days
    return short_span(days) if look.width else f"{first}/{last}"

"""The lines of a choice in the groups that every face shows them in, and what each of them is called."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.quote.explain.stages import by_stage, has_stages, stage_title
from shipcalc.quote.model import Charge, Option, Quote
from shipcalc.vehicles.vehicle import Vehicle


def included_charges(option: Option) -> tuple[Charge, ...]:
    """Return the charges that the total covers."""
    return tuple(charge for charge in option.charges if charge.payer == "seller")


def local_charges(option: Option) -> tuple[Charge, ...]:
    """Return the charges that the buyer pays to others, beside the total."""
    return tuple(charge for charge in option.charges if charge.payer == "buyer")


def label(charge: Charge, quote: Quote, *, under_vehicle: bool = False) -> str:
    """Return what a line is for, with its vehicle where several are and none stands above, and whether it is an estimate."""
    names = charge.vehicle and len(quote.vehicles) > 1 and not under_vehicle
    named = f"{charge.label}, {charge.vehicle}" if names else charge.label
    return f"{named} (estimate)" if charge.estimate else named


def groups(
    option: Option, charges: Iterable[Charge], vehicles: Sequence[Vehicle]
) -> list[tuple[str, tuple[Charge, ...]]]:
    """Return (title, charges) stage by stage; where there is one stage, vehicle by vehicle."""
    if has_stages(option):
        return [(stage_title(stage, option), own) for stage, own in by_stage(charges)]
    return list(by_vehicle(charges, vehicles))


def by_vehicle(charges: Iterable[Charge], vehicles: Sequence[Vehicle]) -> Iterator[tuple[str, tuple[Charge, ...]]]:
    """Yield (title, charges) for each vehicle, then for the whole shipment; a lone vehicle takes everything."""
    everything = tuple(charges)
    if len(vehicles) == 1:
        yield vehicles[0].name, everything
        return
    known = {vehicle.stock_number for vehicle in vehicles}
    for vehicle in vehicles:
        own = tuple(charge for charge in everything if charge.vehicle == vehicle.stock_number)
        if own:
            yield f"{vehicle.name} ({vehicle.stock_number})", own
    shared = tuple(charge for charge in everything if charge.vehicle not in known)
    if shared:
        yield "For the whole shipment", shared


_SAME_WORD = 6  # letters


def with_title(title: str, what: str) -> str:
    """Return what the only line of a stage is called where its title has no row of its own: `Unloading: at the named place`."""
    says_it = what[:_SAME_WORD].casefold() == title[:_SAME_WORD].casefold()  # Unloaded at …, Unloading
    return what if says_it else f"{title}: {wording.lower_first(what)}"


_COUNTED = {"mi": "miles", "nmi": "sea miles", "W/M": "t or m³"}


def reckoned(charge: Charge) -> str:
    """Return how an amount comes about: `129 miles × 1.653`, `15 % of 1,281.21`; nothing for a fixed sum."""
    if charge.unit == "%":
        return f"{plain(charge.rate)} % of {charge.quantity:,f}"
    if charge.unit == "lump" and charge.quantity == 1:
        return ""
    counted = "" if charge.unit == "lump" else f" {_COUNTED.get(charge.unit, charge.unit)}"
    return f"{plain(charge.quantity)}{counted} × {plain(charge.rate)}"


def plain(number: Decimal) -> str:
    """Return a number without noughts that say nothing: 15.00 → 15."""
    told = f"{number:,f}".replace("-", "−")
    return told.rstrip("0").rstrip(".") if "." in told else told


def figures(amount: Decimal) -> str:
    """Return an amount as it stands in a column of figures: −1,234.50."""
    return f"{amount:,f}".replace("-", "−")

"""What must be true of service classes: sooner than the ordinary service, for a surcharge, of a service that there is."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.service_classes import ServiceClass
from shipcalc.ratebook.rows.tables import Tables


def classes_have_a_surcharge(tables: Tables) -> Iterator[Problem]:
    """A class says one surcharge: without one nobody would take the ordinary service."""
    for row in tables.classes:
        if (row.amount_minor is None) == (row.percent_ppm is None):
            what = "no surcharge" if row.amount_minor is None else "a sum and a percentage"
            yield fault(row, "amount_minor", f"the class says {what}", "fill one of the two")
        elif not (row.amount_minor or row.percent_ppm):
            field = "percent_ppm" if row.amount_minor is None else "amount_minor"
            message = "the class costs nothing more than the ordinary service"
            yield warning(row, field, message, "write its surcharge, or its days into the carrier's own row")


def classes_are_sooner(tables: Tables) -> Iterator[Problem]:
    """A class picks up sooner than the service it belongs to, which there is."""
    for row in tables.classes:
        own = [one for one in tables.carriers if one.carrier.casefold() == row.carrier.casefold()]
        of_trailer = [one for one in own if row.trailer in (None, one.trailer)]
        if own and not of_trailer and not tables.may_stand_in("Carriers", row.carrier):
            message = f'"{row.carrier}" has no {row.trailer} trailer on the sheet Carriers'
            yield fault(row, "trailer", message, "write its other trailer, or leave it blank")
        late = next((one for one in of_trailer if one.pickup_to_days <= row.within_days), None)
        if late is not None:
            where = short_cell(late, "pickup_to_days")
            message = f"the ordinary service picks up within {late.pickup_to_days} days already ({where})"
            yield warning(row, "within_days", message, "write fewer days, or more there")


def classes_stand_once(tables: Tables) -> Iterator[Problem]:
    """A class of a carrier has one row at a time; one that is sooner does not cost less."""
    first: dict[tuple[str, str | None, str], ServiceClass] = {}
    for row in tables.classes:
        earlier = first.setdefault((row.carrier.casefold(), row.trailer, row.name.casefold()), row)
        dated = row.valid_from or earlier.valid_to
        if earlier is not row and not (dated and earlier.valid_to and row.valid_from):
            message = f'"{row.name}" stands at {short_cell(earlier, "name")} already'
            yield fault(row, "name", message, "give it another name, or remove one of the two")
        for other in tables.classes:
            alike = (other.carrier.casefold(), other.trailer) == (row.carrier.casefold(), row.trailer)
            sums = row.amount_minor is not None and other.amount_minor is not None
            if (
                alike
                and sums
                and other.within_days > row.within_days
                and (other.amount_minor or 0) > (row.amount_minor or 0)
            ):
                message = f'it costs less than "{other.name}", which is later ({short_cell(other, "amount_minor")})'
                yield warning(row, "amount_minor", message, "correct one of the two")


CHECKS = (classes_have_a_surcharge, classes_are_sooner, classes_stand_once)

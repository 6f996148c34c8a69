"""Which destinations are held, which countries no way may pass: the rate book's word, and the program's own as its floor."""

from collections.abc import Iterator
from datetime import date

from shipcalc.errors import NoAnswer, asked
from shipcalc.places.place import Place
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.decisions import decision_table, holding
from shipcalc.ratebook.embargoed import NO_ADVICE, WHERE, WHERE_HELD, embargo_on, embargoed_countries, shipped_holds
from shipcalc.ratebook.rows.imports import Hold

RELEASE = f"ask whoever is responsible for export compliance, then name them with {asked('released_by')}"


def check_holds(request: Request, book: RateBook, as_of: date) -> tuple[str, ...]:
    """Return what must be said of a destination that was released.

    Raises NoAnswer where it is refused, or waits for somebody's release.
    """
    to = request.to
    rows = _rows_of(to, book, as_of)
    for row in rows:
        if row.hold == "refused":
            raise NoAnswer(_told(to, "is not quoted", row.reason, row.source), where=row.at.cell("hold"))
    embargo = embargo_on(to)
    if embargo is not None:
        raise NoAnswer(_told(to, "is not quoted", embargo.reason, embargo.source), where=WHERE, remedy=NO_ADVICE)
    said = [
        f"Released in the rate book: {row.reason.rstrip('.')}{_in_brackets(row.source)}."
        for row in rows
        if row.hold == "released"
    ]
    for reason, source, where in _waiting(to, rows):
        if not request.wishes.released_by:
            raise NoAnswer(_told(to, "waits for release", reason, source), where=where, remedy=RELEASE)
        said.append(f"Released for export by {request.wishes.released_by}: {reason}")
    return tuple(said)


def shut_countries(request: Request, book: RateBook, as_of: date) -> frozenset[str]:
    """Return the countries that no way may pass: those refused, and those held.

    Where somebody released the shipment, that counts for the buyer's country and for those of its customary gateways, which the
    refusal names; a way through any other country that is held stays shut.
    """
    refused = {hold.country.upper() for hold in _valid(book, as_of) if hold.hold == "refused" and not hold.subdivision}
    refused |= embargoed_countries()
    own = {hold.country.upper(): hold for hold in _valid(book, as_of) if not hold.subdivision}
    held = {country for country, hold in own.items() if hold.hold == "to be released"}
    held |= {hold.country for hold in shipped_holds() if hold.country not in own}
    if request.wishes.released_by:
        gateways = {row.port.upper() for row in book.gateways if row.country.upper() == request.to.country}
        held -= {request.to.country, *(port.country.upper() for port in book.ports if port.port.upper() in gateways)}
    return frozenset(refused | held)


def _waiting(to: Place, rows: tuple[Hold, ...]) -> Iterator[tuple[str, str, str]]:
    """Yield (reason, source, where) of what waits for release; a row of the rate book stands for the program's own."""
    for row in rows:
        if row.hold == "to be released":
            yield row.reason, row.source or "", row.at.cell("hold")
    if not any(row.subdivision is None for row in rows):
        for hold in shipped_holds():
            if hold.country == to.country:
                yield hold.reason, hold.source, WHERE_HELD


def _rows_of(to: Place, book: RateBook, as_of: date) -> tuple[Hold, ...]:
    told = {"to_country": to.country, "to_part": frozenset({to.subdivision, to.name}), "day": as_of}
    return holding(decision_table(book.holds), told)


def _valid(book: RateBook, as_of: date) -> tuple[Hold, ...]:
    return holding(decision_table(book.holds, "day"), {"day": as_of})


def _told(to: Place, what: str, reason: str, source: str | None) -> str:
    return f"{to.name} {what}: {reason.rstrip('.')}{_in_brackets(source)}"


def _in_brackets(source: str | None) -> str:
    return f" ({source})" if source else ""

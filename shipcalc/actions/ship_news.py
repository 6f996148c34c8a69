"""News of a shipment: days that came true replace windows, what they miss is said, the next ship is asked of the rate book."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING

from shipcalc.actions.shipments import misses_of, number_of
from shipcalc.errors import ShipcalcError, WrongInput, asked
from shipcalc.records import dataclass, replace
from shipcalc.trade import MOMENTS

if TYPE_CHECKING:
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.actions.sources import Sources
    from shipcalc.documents.letter import Letter
    from shipcalc.quote.model import Leg, Option, Quote, Window
    from shipcalc.quote.request import Request
    from shipcalc.register.doing import Done
    from shipcalc.register.shipments import Shipment


@dataclass(frozen=True, slots=True, kw_only=True)
class News:
    """A shipment after news: what changed, what has to be said, the next ships that the rate book knows, a letter.

    `page` is the letter as a page of HTML, `mail` ready to open in a mail program (RFC 5322).
    """

    shipment: "Shipment"
    changed: tuple[str, ...]
    said: tuple[str, ...]
    next_ships: tuple[str, ...]
    letter: str
    page: str
    mail: bytes


def tell_news(
    number: str,
    days: Mapping[str, date],
    references: Sequence[str],
    desk: "Desk",
    sources: "Sources",
    *,
    look: bool = False,
) -> News:
    """Keep days that came true, by moment, and references; with `look` nothing is written.

    Raises WrongInput for a moment that the shipment does not have, a day that is still to come (but for a ship's departure and
    arrival, which are announced), and one before what must be earlier.
    """
    from shipcalc.checklist.known_ship import missed
    from shipcalc.checklist.references import reference_in
    from shipcalc.documents.buyer.mail import mail_bytes
    from shipcalc.documents.letter import as_html, as_text
    from shipcalc.register.doing import Done, do, named
    from shipcalc.register.quotes import find_kept
    from shipcalc.register.shipments import find_shipment

    told = dict(reference_in(text) for text in references)
    if not days and not told:
        raise WrongInput(
            "there is no news",
            where="shipments news",
            remedy=f"give {asked('sailing')}, {asked('arrived')} or {asked('container')}",
        )
    _check_past(days, desk.today)
    meant = number_of(number, desk)

    def change(shipment: "Shipment") -> Done:
        return _after(
            shipment, days, desk.today, named(shipment, told) if told else Done(shipment=shipment, changed=())
        )

    with desk.register() as register:
        with register.reading() as connection:
            request = find_kept(connection, meant).request
            done = change(find_shipment(connection, meant))
        if not look:
            done = do(register, meant, change, what="news", at=desk.at, who=desk.who)
    shipment = done.shipment
    late = misses_of(shipment, desk.today)
    gone = bool(missed(shipment.moments)) or any("missed" in sentence for sentence in late)
    letter = _letter(shipment, days)
    said = (*done.said, *late, *_shut_there(shipment, days))
    ships = _next_ships(shipment, request, sources, desk) if gone and "sailing" not in days else ()
    return News(
        shipment=shipment,
        changed=done.changed,
        said=tuple(dict.fromkeys(said)),
        next_ships=ships,
        letter=as_text(letter),
        page=as_html(letter),
        mail=mail_bytes(letter, shipment.quote.dealer, desk.today),
    )


def _check_past(days: Mapping[str, date], today: date) -> None:
    for stage, day in days.items():
        if day > today and stage not in ("sailing", "arrival"):
            raise WrongInput(
                f"{day.isoformat()} is still to come",
                where=asked({"port": "gate_in"}.get(stage, stage)),
                remedy="news is what has happened; shipcalc shipments move has other days for what is to come",
            )


def _after(shipment: "Shipment", days: Mapping[str, date], today: date, done: "Done") -> "Done":
    """Return a shipment after days that came true, in the order of its way; an announced day is expected, and not recorded."""
    from shipcalc.register.doing import came_true, shifted

    changed, said = list(done.changed), list(done.said)
    for stage in sorted(days, key=MOMENTS.index):
        now, day = done.shipment, days[stage]
        if day > today:
            window = now.moments.get(stage)
            done = shifted(now, stage, days=(day - window[0]).days if window else 0, known=day)
        else:
            done = came_true(now, stage, day)
        changed += done.changed
        said += done.said
    return replace(done, changed=tuple(changed), said=tuple(said))


def _shut_there(shipment: "Shipment", days: Mapping[str, date]) -> Iterator[str]:
    """Yield what falls on a weekend or a holiday in the buyer's country after an arrival."""
    from shipcalc.checklist.columns import MOMENTS_IN_WORDS
    from shipcalc.schedule.working_days import SATURDAY, public_holidays

    if not {"sailing", "arrival", "release"} & set(days):
        return
    country = shipment.quote.to.country
    for stage in ("release", "delivery"):
        if stage not in shipment.moments or stage in shipment.recorded:
            continue
        for day in dict.fromkeys(shipment.moments[stage]):
            holiday = public_holidays(country, day.year).get(day)
            if holiday or day.weekday() >= SATURDAY:
                what = holiday or f"a {day:%A}"
                yield f"{MOMENTS_IN_WORDS[stage]} on {day.isoformat()} is {what} there: ask whether anybody works."


def _next_ships(shipment: "Shipment", request: "Request", sources: "Sources", desk: "Desk") -> tuple[str, ...]:
    """Return the ships that the rate book knows of now, on the same way as the one that was missed, in a sentence each."""
    from shipcalc.actions.quoting import dealer_of
    from shipcalc.quote.assemble import make_quote
    from shipcalc.ratebook.book import read_rate_book

    wishes = replace(request.wishes, sailing=None, spot=())
    try:
        rates = read_rate_book(sources.rates.path)
        wanted = replace(request, ready=max(request.ready, desk.today), by=None, wishes=wishes)
        quote = make_quote(wanted, rates, as_of=desk.today, dealer=dealer_of(sources))
    except ShipcalcError as error:
        return (f"The rate book knows no next ship: {error}",)
    return tuple(dict.fromkeys(_ships(shipment, quote)))


def _ships(shipment: "Shipment", quote: "Quote") -> Iterator[str]:
    from shipcalc.documents.offer.first_answer import ship
    from shipcalc.documents.wording import place

    was = ship(shipment.option)
    soonest: dict[tuple[Window, Window], tuple[date, Leg]] = {}
    for option in quote.options:
        now = ship(option)
        if was is None or now is None or (now.mode, now.from_, now.to) != (was.mode, was.from_, was.to):
            continue
        windows = _windows(option)
        if "sailing" in windows and "cut-off" in windows:
            days, there = (windows["sailing"], windows["cut-off"]), option.dates.delivery[1]
            soonest[days] = min(soonest.get(days, (there, now)), (there, now), key=lambda one: one[0])
    for (sailing, cutoff), (there, leg) in sorted(soonest.items(), key=lambda one: one[0]):
        yield (
            f"By the rate book the next ship from {place(leg.from_)} to {place(leg.to)} sails {_span(sailing)}; vehicle and "
            f"papers are due {_span(cutoff)}, there by {there.isoformat()}."
        )


def _windows(option: "Option") -> "dict[str, Window]":
    return {step.stage: (step.earliest, step.latest) for step in option.dates.timeline if step.stage}


def _span(days: "Window") -> str:
    first, last = days
    return first.isoformat() if first == last else f"{first.isoformat()} to {last.isoformat()}"


def _letter(shipment: "Shipment", days: Mapping[str, date]) -> "Letter":
    from shipcalc.checklist.references import in_words
    from shipcalc.documents.buyer.ship_news import news_letter

    happened = {stage: day for stage, day in days.items() if stage in shipment.recorded}
    return news_letter(
        shipment.quote,
        shipment.option,
        happened,
        shipment.moments,
        in_words(dict(shipment.references), for_buyer=True),
        recorded=shipment.recorded,
    )

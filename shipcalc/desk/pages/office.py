"""The office page: the day over all shipments, what is late, due and waited for, quotes to be decided; all of it to be found."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Query, Response
from fastapi.responses import HTMLResponse

from shipcalc.actions import kept_quotes, shipments
from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.today import Today, today_of
from shipcalc.actions.watching import latest
from shipcalc.checklist.columns import MOMENTS_IN_WORDS
from shipcalc.checklist.office_day import COMING, Entry, Standing
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.handing_out import CALENDAR, WORKBOOK, handed_out
from shipcalc.desk.pages.said import Accepted, Declined, Extended, Said
from shipcalc.desk.rendering import part, whole_page
from shipcalc.desk.saying import how_far, short_day
from shipcalc.documents import wording
from shipcalc.errors import ShipcalcError
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.register.finding import Listed
    from shipcalc.register.shipments import Standing as Kept

# So many rows of a list are shown at first, and so many once somebody asks for more.
FIRST, MOST = 8, 200
MOST_QUOTES = 200
LISTS = {
    "late": "Late",
    "today": "Today",
    "week": "This week",
    "waiting": "Waiting for others",
    "papers": "Papers that are not there yet",
}
Text = Annotated[str, Query(max_length=200)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What somebody looks for: one person's day, words, a stage that is next; and of which lists more is shown."""

    person: str = ""
    text: str = ""
    stage: str = ""
    more: tuple[str, ...] = ()


def paths(clerk: Clerk) -> APIRouter:
    """Return the paths of the page."""
    router = APIRouter(prefix="/office", include_in_schema=False)

    @router.get("", response_class=HTMLResponse)
    async def page(person: Text = "", text: Text = "", stage: Text = "", more: Text = "") -> Response:
        """Return the page, as the day stands."""
        wanted = _wanted(person, text, stage, more)
        return await shown(clerk, "office.html", lambda: day_data(clerk.desk(), wanted))

    @router.get("/day", response_class=HTMLResponse)
    async def day(person: Text = "", text: Text = "", stage: Text = "", more: Text = "") -> str:
        """Return the day alone, for a page that is open."""
        wanted = _wanted(person, text, stage, more)
        return part("office_day.html", **await clerk.do(lambda: day_data(clerk.desk(), wanted)))

    @router.get("/day.xlsx")
    async def workbook(person: Text = "") -> Response:
        """Return the day as a workbook."""
        return await handed_out(clerk, "today.xlsx", WORKBOOK, lambda file: _written(clerk.desk(), person, file))

    @router.get("/day.ics")
    async def calendar(person: Text = "") -> Response:
        """Return one calendar of all shipments."""
        return await handed_out(clerk, "today.ics", CALENDAR, lambda file: _written(clerk.desk(), person, file))

    _of_quotes(router, clerk)
    return router


def _of_quotes(router: APIRouter, clerk: Clerk) -> None:
    @router.get("/quotes/{number}", response_class=HTMLResponse)
    async def deciding(number: str) -> str:
        """Return what is asked when a buyer has decided."""
        return part("office_quote.html", **await clerk.do(lambda: _quote_data(number, clerk.desk())))

    @router.post("/quotes/{number}/accept", response_class=HTMLResponse)
    async def accept(number: str, told: Accepted) -> str:
        """Keep the buyer's yes: a shipment begins."""
        quote, chosen, said = await clerk.do(
            lambda: kept_quotes.accept(number, clerk.desk(), choice=told.choice, on=told.on, by=told.by)
        )
        changed = (f"{quote.number} is accepted: choice {chosen + 1}, {quote.options[chosen].title}",)
        return part("outcome.html", changed=changed, said=said, shipment=quote.number)

    @router.post("/quotes/{number}/decline", response_class=HTMLResponse)
    async def decline(number: str, told: Declined) -> str:
        """Keep the buyer's no."""
        quote = await clerk.do(
            lambda: kept_quotes.decline(number, clerk.desk(), on=told.on, by=told.by or told.who, why=told.why)
        )
        return part("outcome.html", changed=(f"{quote.number} is declined",), said=())

    @router.post("/quotes/{number}/revise", response_class=HTMLResponse)
    async def revise(number: str, told: Said) -> str:
        """Price it anew, as of today."""
        quote, why = await clerk.do(
            lambda: kept_quotes.revise(number, kept_quotes.Changes(), clerk.sources(), clerk.desk(who=told.who))
        )
        total = wording.money(quote.options[quote.recommended].total, quote.currency)
        changed = (f"{quote.number}, revision {quote.revision}: {total}, until {wording.day(quote.valid_until)}",)
        return part("outcome.html", changed=changed, said=(why,))

    @router.post("/quotes/{number}/extend", response_class=HTMLResponse)
    async def extend(number: str, told: Extended) -> str:
        """Keep a quote's price for longer."""
        quote = await clerk.do(lambda: kept_quotes.extend(number, told.until, clerk.desk(who=told.who)))
        return part("outcome.html", changed=(f"{quote.number} holds until {wording.day(quote.valid_until)}",), said=())


async def shown(clerk: Clerk, template: str, data: Callable[[], Mapping[str, Any]]) -> HTMLResponse:
    """Return a page of the office, or what is wrong as a page: a browser shows no problem as data."""
    sources = await clerk.do(clerk.sources)
    try:
        found = await clerk.do(lambda: {"after": latest(clerk.desk()), **data()})
    except ShipcalcError as error:
        told = whole_page("trouble.html", sources, here="/office", sentence=str(error))
        return HTMLResponse(told, status_code=409 if error.exit_status == 1 else 422)
    return HTMLResponse(whole_page(template, sources, here="/office", **found))


def _wanted(person: str, text: str, stage: str, more: str) -> Wanted:
    known = tuple(name for name in more.split(",") if name in (*LISTS, "shipments", "quotes"))
    return Wanted(person=person.strip(), text=text.strip(), stage=stage if stage in COMING else "", more=known)


def _written(desk: Desk, person: str, file: Any) -> None:
    today_of(desk, person=person, out=file)


def day_data(desk: Desk, wanted: Wanted) -> Mapping[str, Any]:
    """Return what the page says of a day."""
    found = today_of(desk, person=wanted.person)
    day, today = found.day, desk.today
    standings = [
        one for one in day.shipments if not wanted.stage or (one.next is not None and one.next.id == wanted.stage)
    ]
    finished: list[Mapping[str, Any]] = []
    if wanted.text:
        found_now = shipments.find(wanted.text, desk, most=MOST)
        numbers = [one.number for one in found_now]
        numbers += [one.shipment for one in day.shipments if _is_number(wanted.text, one.shipment, desk)]
        standings = [one for one in standings if one.shipment in numbers]
        finished = [_finished(one) for one in found_now if not one.open and not wanted.stage]
    shown_numbers = {one.shipment for one in standings} if wanted.text or wanted.stage else None
    lists = [_list(name, entries, wanted, shown_numbers, today) for name, entries in _lists(found, today).items()]
    quotes = _quotes(desk, found, wanted)
    return {
        "day": wording.long_day(today),
        "counts": (
            ("under way", len(day.shipments)),
            ("late", len(day.late)),
            ("due in a week", len(day.due)),
            ("with others", len(day.waiting)),
        ),
        "wanted": wanted,
        "people": [{"who": one.who, "late": one.late, "due": one.due} for one in day.people],
        "stages": [(stage, MOMENTS_IN_WORDS[stage]) for stage in COMING],
        "lists": lists,
        "shipments": _limited("shipments", [*(_standing(one, today) for one in standings), *finished], wanted),
        "quotes": quotes,
        "is_empty": not day.shipments and not quotes["all"] and not (wanted.person or wanted.text),
        "finding": bool(wanted.text or wanted.stage),
    }


def _is_number(text: str, number: str, desk: Desk) -> bool:
    try:
        return shipments.number_of(text, desk) == number
    except ShipcalcError:
        return False


def _lists(found: Today, today: date) -> Mapping[str, Sequence[Entry]]:
    day = found.day
    return {
        "late": day.late,
        "today": [one for one in day.due if one.due == today],
        "week": [one for one in day.due if one.due > today],
        "waiting": day.waiting,
        "papers": day.papers,
    }


def _list(
    name: str, entries: Sequence[Entry], wanted: Wanted, numbers: set[str] | None, today: date
) -> Mapping[str, Any]:
    meant = [one for one in entries if numbers is None or one.shipment in numbers]
    return {
        "name": name,
        "title": LISTS[name],
        **_limited(name, [_entry(one, today) for one in _cut(name, meant, wanted)], wanted, count=len(meant)),
    }


def _cut(name: str, entries: Sequence[Entry], wanted: Wanted) -> Sequence[Entry]:
    """Return as many as are shown: what can be done now comes before what waits for it, what a law asks for before the rest."""
    pressing = sorted(entries, key=lambda one: (not one.ready, not one.legal, not one.critical, one.due))
    return sorted(pressing[: MOST if name in wanted.more else FIRST], key=lambda one: one.due)


def _limited(name: str, rows: Sequence[Any], wanted: Wanted, *, count: int | None = None) -> Mapping[str, Any]:
    all_of_it = len(rows) if count is None else count
    shown_rows = rows[: MOST if name in wanted.more else FIRST]
    return {
        "rows": shown_rows,
        "all": all_of_it,
        "more": "" if len(shown_rows) == all_of_it or name in wanted.more else ",".join((*wanted.more, name)),
    }


def _entry(entry: Entry, today: date) -> Mapping[str, Any]:
    return {
        "shipment": entry.shipment,
        "id": entry.id,
        "version": entry.version,
        "task": entry.task,
        "critical": entry.critical,
        "legal": entry.legal,
        "ready": entry.ready,
        "who": entry.owner,
        "due": short_day(entry.due, today),
        "far": how_far(entry.due, today),
        "vehicle": entry.vehicle,
        "buyer": entry.buyer,
        "wanted": entry.wanted,
    }


def _standing(one: Standing, today: date) -> Mapping[str, Any]:
    coming = one.next
    return {
        "shipment": one.shipment,
        "vehicles": one.vehicles,
        "buyer": one.buyer,
        "to": one.to,
        "late": one.late,
        "due": one.due,
        "papers": one.papers,
        "waiting": ", ".join(one.waiting),
        "next": "" if coming is None else coming.task,
        "next_day": "" if coming is None else short_day(coming.due, today),
        "overdue": coming is not None and coming.overdue,
    }


def _finished(one: "Kept") -> Mapping[str, Any]:
    """Return a shipment of which all is done: it is no part of the day, and still to be found."""
    told = {"shipment": one.number, "vehicles": one.vehicles, "buyer": one.buyer, "to": one.to}
    rest = {"late": 0, "due": 0, "papers": 0, "waiting": "", "next_day": "", "overdue": False}
    return told | rest | {"next": "all is done"}


def _quotes(desk: Desk, found: Today, wanted: Wanted) -> Mapping[str, Any]:
    """Return the quotes that nobody has answered: those that end soon at the head."""
    from shipcalc.register.finding import Asked

    open_now = kept_quotes.find(Asked(state="open", text=wanted.text, most=MOST_QUOTES), desk)
    ending = {one.number for one in found.ending}
    rows = sorted(open_now, key=lambda one: (one.valid_until, one.number))
    return _limited("quotes", [_listed(one, desk.today, one.number in ending) for one in rows], wanted)


def _listed(one: "Listed", today: date, ends_soon: bool) -> Mapping[str, Any]:
    return {
        "number": one.number,
        "until": short_day(one.valid_until, today),
        "far": how_far(one.valid_until, today),
        "soon": ends_soon,
        "buyer": one.buyer,
        "vehicles": one.vehicles,
        "to": one.to,
        "total": wording.money(one.total, one.currency),
    }


def _quote_data(number: str, desk: Desk) -> Mapping[str, Any]:
    found = kept_quotes.show(number, desk)
    quote = found.kept.quote
    return {
        "number": quote.number,
        "buyer": quote.buyer,
        "today": desk.today.isoformat(),
        "until": quote.valid_until.isoformat(),
        "promised": found.promised,
        "choices": [
            {
                "number": place + 1,
                "title": option.title,
                "price": wording.money(option.total, quote.currency),
                "chosen": place == quote.recommended,
            }
            for place, option in enumerate(quote.options)
        ],
    }

"""One shipment: its days, tasks, papers, references, files, bills and history, as they stand now."""

import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from fastapi import APIRouter, Response
from fastapi.responses import HTMLResponse

from shipcalc.actions import bills, contacts, kept_quotes, shipments
from shipcalc.actions.booking import draft_booking
from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.papers import draft_papers, write_papers
from shipcalc.checklist.columns import MOMENTS_IN_WORDS
from shipcalc.checklist.office_day import COMING
from shipcalc.checklist.references import REFERENCES
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.handing_out import CALENDAR, PDF, WORKBOOK, ZIP, as_file, handed_out, kept_file, zipped
from shipcalc.desk.pages.office import shown
from shipcalc.desk.rendering import part
from shipcalc.desk.saying import how_far, short_day, short_span
from shipcalc.documents import wording
from shipcalc.errors import NoAnswer
from shipcalc.money import to_decimal

if TYPE_CHECKING:
    from shipcalc.register.folder import Paper
    from shipcalc.register.shipments import Line, Shipment

# How a paper says that what it misses is filled in at the terminal; on the page it is a field.
_SETS = re.compile(r"shipcalc shipments set \S+ (\w+)=…")
_ADDS = re.compile(r"shipcalc contacts (?:add|change) .*")
# News is told of these moments: that a vehicle is ready the yard knows, and a cut-off is nobody's news.
NEWS = {
    "pickup": "Picked up",
    "port": "Into the terminal",
    "sailing": "Sailed, or is to sail",
    "arrival": "Arrived, or is to arrive",
    "release": "Released",
    "delivery": "Delivered",
}


def paths(clerk: Clerk) -> APIRouter:
    """Return the paths of the page."""
    router = APIRouter(prefix="/office", include_in_schema=False)

    @router.get("/{number}", response_class=HTMLResponse)
    async def page(number: str) -> Response:
        """Return the page of a shipment."""
        return await shown(clerk, "shipment.html", lambda: shipment_data(number, clerk.desk()))

    @router.get("/{number}/parts", response_class=HTMLResponse)
    async def parts(number: str) -> str:
        """Return all that may have changed, for a page that is open."""
        return part("shipment_parts.html", **await clerk.do(lambda: shipment_data(number, clerk.desk())))

    @router.get("/{number}/booking", response_class=HTMLResponse)
    async def booking(number: str) -> str:
        """Return the mail to the carrier."""
        return part("shipment_booking.html", **await clerk.do(lambda: _booking_data(number, clerk.desk())))

    _of_files(router, clerk)
    return router


def _of_files(router: APIRouter, clerk: Clerk) -> None:
    @router.get("/{number}/checklist.xlsx")
    async def checklist(number: str) -> Response:
        """Return the checklist as it stands, to be ticked and brought back."""
        return await _checklist(clerk, number, ".xlsx", WORKBOOK)

    @router.get("/{number}/checklist.ics")
    async def calendar(number: str) -> Response:
        """Return the checklist's calendar."""
        return await _checklist(clerk, number, ".ics", CALENDAR)

    @router.get("/{number}/papers.zip")
    async def papers(number: str) -> Response:
        """Return all papers that the shipment asks for."""
        return await _papers(clerk, number, ())

    @router.get("/{number}/papers/{kind}")
    async def paper(number: str, kind: str) -> Response:
        """Return one kind of paper; several of it, one for each vehicle, as an archive."""
        return await _papers(clerk, number, (kind,))

    @router.get("/{number}/files/{digest}")
    async def file(number: str, digest: str) -> Response:
        """Return a file that was copied into the shipment's folder."""

        def found() -> tuple[str, str, bytes]:
            desk = clerk.desk()
            shown_now = shipments.show(number, desk)
            wanted = next((one for one in shown_now.papers if one.sha256 == digest and one.copied), None)
            if wanted is None or not wanted.path.is_relative_to((desk.files / shown_now.shipment.number).resolve()):
                raise NoAnswer("there is no such file in the shipment's folder", remedy="load the page again")
            return kept_file(wanted.path)

        return as_file(*await clerk.do(found))


async def _checklist(clerk: Clerk, number: str, ending: str, media_type: str) -> Response:
    def write(file: Path) -> None:
        desk = clerk.desk()
        _, workbook, calendar = shipments.write_checklist(number, desk, out=file.parent, paper=desk.settings.paper)
        (workbook if ending == ".xlsx" else calendar).rename(file)

    meant = await clerk.do(lambda: shipments.number_of(number, clerk.desk()))
    return await handed_out(clerk, f"{meant}{ending}", media_type, write)


async def _papers(clerk: Clerk, number: str, which: Sequence[str]) -> Response:
    def made() -> tuple[str, str, bytes]:
        import tempfile

        desk = clerk.desk()
        with tempfile.TemporaryDirectory(prefix="shipcalc-") as folder:
            written = write_papers(number, desk, out=Path(folder), which=which, size=desk.settings.paper)
            files = [one.file for one in written.written]
            if len(files) == 1:
                return f"{written.number}-{files[0].name}", PDF, files[0].read_bytes()
            return f"{written.number}-{which[0] if which else 'papers'}.zip", ZIP, zipped(files)

    return as_file(*await clerk.do(made))


def shipment_data(number: str, desk: Desk) -> Mapping[str, Any]:
    """Return what the page says of a shipment."""
    found = shipments.show(number, desk)
    shipment, today = found.shipment, desk.today
    quote = shipment.quote
    order = {item.id: place for place, item in enumerate(shipment.items)}
    lines = sorted(shipment.lines, key=lambda line: order[line.item.id])
    still = {line.item.id: line.item.title for line in lines if line.item.is_open}
    tasks = [_task(line, still, found.papers, today) for line in lines]
    return {
        "number": shipment.number,
        "version": shipment.version,
        "vehicles": ", ".join(vehicle.name for vehicle in quote.vehicles),
        "to": wording.place(quote.to),
        "buyer": quote.buyer,
        "choice": shipment.option.title,
        "accepted": wording.day(shipment.accepted_on),
        "today": today.isoformat(),
        "counts": {
            "open": len(still),
            "late": sum(task["late"] for task in tasks),
            "closed": len(lines) - len(still),
        },
        "said": found.said,
        "moments": list(_moments(shipment, today)),
        "news": [(stage, NEWS[stage]) for stage in NEWS if stage in shipment.moments],
        "open": [task for task in tasks if task["state"] == "open"],
        "closed": [task for task in tasks if task["state"] != "open"],
        "files": [_file(one) for one in found.papers],
        "references": [_reference(one, shipment) for one in REFERENCES],
        "bills": [_bill(one) for one in bills.list_bills(shipment.number, desk, most=50)],
        "bill_kinds": _kinds(),
        "people": sorted({line.assigned for line in lines if line.assigned}),
        **_contacts(shipment, desk),
        **_papers_data(shipment.number, desk),
        "history": [_event(*one) for one in reversed(kept_quotes.show(shipment.number, desk).history)],
    }


def _moments(shipment: "Shipment", today: date) -> Iterator[Mapping[str, Any]]:
    next_found = False
    stages = list(shipment.moments)
    latest = max((stages.index(stage) for stage in shipment.recorded if stage in stages), default=-1)
    for place, (stage, days) in enumerate(shipment.moments.items()):
        came = stage in shipment.recorded
        is_next = not came and not next_found and days[1] >= today
        next_found = next_found or is_next
        yield {
            "stage": stage,
            "name": MOMENTS_IN_WORDS[stage],
            "days": short_day(shipment.recorded[stage], today) if came else short_span(days, today),
            "first": days[0].isoformat(),
            "came": came,
            "next": is_next,
            "over": days[1] < today and stage in COMING and place > latest,
            "free": shipment.free_days.get(stage),
        }


def _task(line: "Line", still: Mapping[str, str], papers: Sequence["Paper"], today: date) -> dict[str, Any]:
    item = line.item
    return {
        "place": line.place,
        "id": item.id,
        "version": line.version,
        "title": item.title,
        "state": item.state,
        "who": line.who,
        "assigned": line.assigned,
        "due": short_day(item.due, today) if item.due < date.max else "no day",
        "due_day": item.due.isoformat() if item.due < date.max else "",
        "far": how_far(item.due, today) if item.due < date.max else "",
        "late": item.is_open and item.due < today,
        "by_hand": item.due_by_hand,
        "critical": item.critical,
        "waits": [still[key] for key in item.after if key in still],
        "wanted": item.wanted,
        "note": item.note,
        "source": item.source,
        "slack": item.slack_days,
        "vehicle": item.vehicle,
        "remark": item.remark,
        "added": line.added,
        "done": short_day(item.done_on, today) if item.done_on else "",
        "done_by": item.done_by,
        "files": [_file(one) for one in papers if one.task == item.id],
        "paper": line.paper,
    }


def _file(one: "Paper") -> Mapping[str, Any]:
    return {
        "what": one.what,
        "name": one.path.name,
        "task": one.task,
        "how": one.how,
        "digest": one.sha256 if one.copied and one.how == "as it was" else "",
        "size": f"{max(one.bytes // 1000, 1):,} kB",
        "added": one.added_at[:10],
    }


def _reference(one: Any, shipment: "Shipment") -> Mapping[str, Any]:
    return {
        "name": one.name,
        "label": one.label,
        "role": one.role,
        "value": shipment.references.get(one.name, ""),
        "for_buyer": one.for_buyer,
    }


def _contacts(shipment: "Shipment", desk: Desk) -> Mapping[str, Any]:
    """Return whom the address book knows of those who are named, and who may be named."""
    from shipcalc.register.contacts import ROLES

    book = contacts.find("", desk)
    named = {(one.role, shipment.references.get(one.name, "").casefold()) for one in REFERENCES if one.role}
    named.add(("buyer", shipment.quote.buyer.casefold()))
    return {
        "known": [one for one in book if (one.role, one.name.casefold()) in named],
        "offered": {role: [one.name for one in book if one.role == role] for role in ROLES},
        "roles": ROLES,
    }


def _papers_data(number: str, desk: Desk) -> Mapping[str, Any]:
    try:
        drafted = draft_papers(number, desk, which=(), size=desk.settings.paper)
    except NoAnswer as no:
        return {"papers": [], "no_papers": str(no)}
    return {"no_papers": "", "papers": [_kind(kind, drafts) for kind, drafts in drafted.drafts]}


def _kind(kind: Any, drafts: Sequence[Any]) -> Mapping[str, Any]:
    wanting: dict[tuple[str, str, str], None] = {}
    for field in (field for draft in drafts for field in draft.missing()):
        wanting[(field.wanted, *_where(field.where))] = None
    return {
        "code": kind.code,
        "title": kind.title,
        "count": len(drafts),
        "missing": [{"what": what, "where": where, "at": at} for what, where, at in wanting],
    }


def _where(text: str) -> tuple[str, str]:
    """Return where something is filled in, and which part of the page that is; the terminal's command is none here."""
    found = _SETS.search(text)
    if found:
        label = next((one.label for one in REFERENCES if one.name == found[1]), found[1])
        return text.replace(found[0], f"References, {label}"), f"reference-{found[1]}"
    return _ADDS.sub("Contacts", text), "contacts" if _ADDS.search(text) else ""


def _bill(one: Any) -> Mapping[str, Any]:
    return {
        "id": one.id,
        "carrier": one.carrier,
        "kind": one.kind,
        "amount": wording.money(to_decimal(one.amount_minor, one.currency), one.currency),
        "day": wording.day(one.day),
        "reference": one.reference,
    }


def _kinds() -> Sequence[str]:
    from shipcalc.learning.bill import ALL_IN, WORDS

    return (ALL_IN, *(word for word in WORDS if word != ALL_IN))


def _event(at: str, what: str, who: str, told: str, revision: int) -> Mapping[str, Any]:
    return {
        "at": at.replace("T", " ").removesuffix("Z")[:16],
        "what": what,
        "who": who,
        "told": told,
        "revision": revision,
    }


def _booking_data(number: str, desk: Desk) -> Mapping[str, Any]:
    from shipcalc.documents.letter import as_text
    from shipcalc.documents.papers.booking_mail import CAUTION

    drafted = draft_booking(number, desk)
    return {
        "to": drafted.to,
        "subject": drafted.letter.subject,
        "text": as_text(drafted.letter),
        "missing": [
            dict(zip(("what", "where", "at"), (one.what, *_where(one.where)), strict=True)) for one in drafted.missing
        ],
        "caution": CAUTION,
    }

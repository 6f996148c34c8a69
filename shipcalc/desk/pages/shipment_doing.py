"""What is done to a shipment from its page: each by the action that the terminal uses, and told in the action's own words."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Annotated

from fastapi import APIRouter, File, Form, UploadFile
from fastapi.responses import HTMLResponse

from shipcalc.actions import bills, contacts, shipments
from shipcalc.actions.kept_quotes import Desk
from shipcalc.actions.ship_news import tell_news
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.pages import said
from shipcalc.desk.rendering import part
from shipcalc.desk.uploads import SCANS, received
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from shipcalc.register.doing import Done

Sent = Annotated[UploadFile, File()]
Typed = Annotated[str, Form(max_length=500)]
DETAILS = ("telephone", "evening", "mail", "address", "remark")


def paths(clerk: Clerk) -> APIRouter:
    """Return the paths."""
    router = APIRouter(prefix="/office/{number}", include_in_schema=False, default_response_class=HTMLResponse)
    _of_lines(router, clerk)
    _of_days(router, clerk)
    _of_bills_and_contacts(router, clerk)
    _of_files(router, clerk)
    return router


async def _did(clerk: Clerk, work: Callable[[Desk], "Done"], who: str, *, look: bool = False) -> str:
    done = await clerk.do(lambda: work(clerk.desk(who=who)))
    return _outcome(done.changed, done.said, look=look)


def _of_lines(router: APIRouter, clerk: Clerk) -> None:
    @router.post("/tick")
    async def tick(number: str, told: said.Ticked) -> str:
        """Set a line to done, not needed or open."""

        def work(desk: Desk) -> "Done":
            day = told.on or desk.today
            return shipments.tick(number, told.line, desk, state=told.state, on=day, by=desk.who, seen=told.seen)

        return await _did(clerk, work, told.who)

    @router.post("/assign")
    async def assign(number: str, told: said.Assigned) -> str:
        """Give a line to somebody."""
        return await _did(
            clerk, lambda desk: shipments.assign(number, told.line, desk, to=told.to.strip(), seen=told.seen), told.who
        )

    @router.post("/note")
    async def note(number: str, told: said.Noted) -> str:
        """Write a note on a line."""
        return await _did(
            clerk,
            lambda desk: shipments.note(number, told.line, desk, text=told.text.strip(), seen=told.seen),
            told.who,
        )

    @router.post("/due")
    async def due(number: str, told: said.DueOn) -> str:
        """Set the day a line is due."""
        return await _did(
            clerk, lambda desk: shipments.set_due(number, told.line, desk, due=told.due, seen=told.seen), told.who
        )


def _of_days(router: APIRouter, clerk: Clerk) -> None:
    @router.post("/move")
    async def move(number: str, told: said.Moved) -> str:
        """Say what moves with a moment, or move it."""
        if (told.to is None) == (told.days is None):
            raise WrongInput("it is not clear to when", where="move", remedy="give a day, or a number of days")

        def work(desk: Desk) -> "Done":
            return shipments.move(number, told.stage, desk, to=told.to, days=told.days, look=told.look, seen=told.seen)

        return await _did(clerk, work, told.who, look=told.look)

    @router.post("/references")
    async def references(number: str, told: said.Named) -> str:
        """Keep references."""
        given = [f"{name}={value}" for name, value in told.references.items()]
        return await _did(clerk, lambda desk: shipments.name(number, given, desk), told.who)

    @router.post("/news")
    async def news(number: str, told: said.News) -> str:
        """Say what news changes, or keep it; the letter to the buyer stands below."""

        def work() -> str:
            desk = clerk.desk(who=told.who)
            found = tell_news(number, told.days(), told.references(), desk, clerk.sources(), look=told.look)
            return _outcome(found.changed, found.said, look=told.look, next_ships=found.next_ships, letter=found.letter)

        return await clerk.do(work)


def _of_bills_and_contacts(router: APIRouter, clerk: Clerk) -> None:
    @router.post("/bills")
    async def bill(number: str, told: said.Billed) -> str:
        """Keep a bill."""

        def work() -> str:
            desk = clerk.desk(who=told.who)
            kept = bills.add_bill(
                number,
                told.carrier,
                told.kind,
                told.amount,
                currency=told.currency,
                day=told.day or desk.today,
                reference=told.reference,
                desk=desk,
            )
            return _outcome((f"kept: {kept.kind}, {kept.carrier}",))

        return await clerk.do(work)

    @router.post("/bills/remove")
    async def no_bill(told: said.OneBill) -> str:
        """Take a bill out again."""
        gone = await clerk.do(lambda: bills.remove(told.bill, clerk.desk(who=told.who)))
        return _outcome((f"removed: {gone.kind}, {gone.carrier}",))

    @router.post("/contacts")
    async def contact(told: said.InBook) -> str:
        """Keep somebody in the address book, or other details of them."""
        details = {name: getattr(told, name) for name in DETAILS}

        def work() -> str:
            desk = clerk.desk(who=told.who)
            if told.known:
                kept = contacts.change(told.name, details, desk, role=told.role)
            else:
                kept = contacts.add(told.role, told.name, details, desk)
            return _outcome((f"{kept.name} ({kept.role}) is in the address book",))

        return await clerk.do(work)


def _of_files(router: APIRouter, clerk: Clerk) -> None:
    @router.post("/files")
    async def scan(number: str, file: Sent, line: Typed = "", what: Typed = "", who: Typed = "") -> str:
        """Keep a scan in the shipment's folder, for a line of the checklist or for none."""
        async with received(file, SCANS) as kept:

            def work() -> None:
                shipments.add_files(number, (kept,), clerk.desk(who=who), what=what, line=line, copy=True)

            await clerk.do(work)
            return _outcome((f"{kept.name} is in the shipment's folder",))

    @router.post("/copies")
    async def copy(number: str, file: Sent, look: Annotated[bool, Form()] = False, who: Typed = "") -> str:
        """Say what a ticked workbook changes, or take it."""
        async with received(file, (".xlsx",)) as kept:
            return await _did(
                clerk, lambda desk: shipments.read_copies(number, (kept,), desk, look=look), who, look=look
            )


def _outcome(
    changed: Sequence[str],
    told: Sequence[str] = (),
    *,
    look: bool = False,
    next_ships: Sequence[str] = (),
    letter: str = "",
) -> str:
    return part("outcome.html", changed=changed, said=told, look=look, next_ships=next_ships, letter=letter)

"""Quotes kept: keep one, list, show, revise, extend, compare, accept, decline, export, forget, verify."""

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput, asked
from shipcalc.records import dataclass, replace

if TYPE_CHECKING:
    from shipcalc.actions.quoting import Made
    from shipcalc.actions.sources import Sources
    from shipcalc.quote.model import Quote
    from shipcalc.quote.request import Request
    from shipcalc.register.asked_once import AskedKey
    from shipcalc.register.finding import Asked, Listed
    from shipcalc.register.opening import Register
    from shipcalc.register.quotes import Kept
    from shipcalc.register.verifying import Verified
    from shipcalc.settings import Settings

VARIABLE = "SHIPCALC_REGISTER"


@dataclass(frozen=True, slots=True)
class Desk:
    """Who sits at which register, and when: `today` is the day by the calendar there, `at` the point in time in UTC."""

    settings: "Settings"
    today: date
    at: str
    who: str = ""

    @property
    def url(self) -> str:
        """Return where the register is: by the environment, by the settings, else the user's own."""
        named = os.environ.get(VARIABLE, "").strip() or self.settings.register
        if "://" in named:
            return named
        from shipcalc.register.opening import default_url, url_of_file

        return url_of_file(Path(named)) if named else default_url()

    @property
    def files(self) -> Path:
        """Return the folder that copies of shipments' files are put into: as it is set, else beside a register that is a file.

        Raises WrongInput where the register is on a server and no folder is set: other desks would not see the copies.
        """
        from sqlalchemy import make_url

        if self.settings.files is not None:
            return self.settings.files
        url = make_url(self.url)
        if url.get_backend_name() != "sqlite":
            remedy = "name one that every desk sees as files in shipcalc.toml, or leave out --copy"
            raise WrongInput("there is no folder for copies of files, as the register is on a server", remedy=remedy)
        return Path(url.database or "").resolve().parent / "files"

    @contextmanager
    def register(self) -> "Iterator[Register]":
        """Give the register, and let go of it at the end."""
        from shipcalc.register.opening import open_register

        register = open_register(self.url)
        try:
            yield register
        finally:
            register.close()


def keep(made: "Made", desk: Desk, *, once: "AskedKey | None" = None) -> "Quote":
    """Keep a quote, and return it with its number; asked again under the same key `once`, return what was kept."""
    from shipcalc.register.quotes import keep_quote

    with desk.register() as register:
        return keep_quote(register, made.quote, made.request, made.rates, at=desk.at, who=desk.who, once=once)


def find(wanted: "Asked", desk: Desk) -> "tuple[Listed, ...]":
    """Return the kept quotes that are asked for."""
    from shipcalc.register.finding import find_quotes

    with desk.register() as register, register.reading() as connection:
        return find_quotes(connection, wanted, today=desk.today)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A kept quote, how it stands, what happened to it: (when, what, who, told, revision), and vehicles promised elsewhere."""

    kept: "Kept"
    listed: "Listed"
    history: tuple[tuple[str, str, str, str, int], ...]
    promised: tuple[tuple[str, str], ...]


def show(number: str, desk: Desk, *, revision: int | None = None) -> Shown:
    """Return a kept quote with its history. Raises WrongInput where there is none of that number."""
    from shipcalc.register.deciding import promised_to
    from shipcalc.register.events import events_of
    from shipcalc.register.finding import find_one
    from shipcalc.register.quotes import find_kept

    meant = _meant(number, desk)
    with desk.register() as register, register.reading() as connection:
        kept = find_kept(connection, meant, revision)
        listed = find_one(connection, meant, today=desk.today)
        history = events_of(connection, meant)
        promised = promised_to(connection, kept.quote)
    return Shown(kept=kept, listed=listed, history=history, promised=promised)


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """What is to be different in a revision; None, "" and False leave it as it was. The words are those of an order."""

    to: str = ""
    online: bool = False
    ready: date | None = None
    by: date | None = None
    trailer: str = ""
    ocean: str = ""
    term: str = ""
    cover: str = ""
    currency: str = ""
    lift_gate: bool = False
    limited_access: bool = False
    express: bool = False
    collect: bool = False
    terminal: bool = False
    buyer: str = ""


def revise(number: str, changes: Changes, sources: "Sources", desk: Desk) -> "tuple[Quote, str]":
    """Price a kept quote anew, as of today and with what is to be different; return the revision and what differs.

    Raises NoAnswer for an accepted one: what was agreed is not changed by one side.
    """
    from shipcalc.actions.quoting import Made, dealer_of
    from shipcalc.quote.assemble import make_quote
    from shipcalc.ratebook.book import read_rate_book

    meant = _meant(number, desk)
    with desk.register() as register:
        kept = _to_revise(register, meant)
        rates = read_rate_book(sources.rates.path)
        request = _changed(kept.request, changes, sources, desk.today)
        made = make_quote(request, rates, as_of=desk.today, dealer=dealer_of(sources))
        return _revised(register, kept, Made(made, request, rates), desk)


def keep_as_revision(number: str, made: "Made", desk: Desk) -> "tuple[Quote, str]":
    """Keep a quote that was made as a revision of a kept one; return it with its number and what differs.

    Raises WrongInput for other vehicles, which are a quote of their own, and NoAnswer for an accepted one.
    """
    meant = _meant(number, desk)
    with desk.register() as register:
        kept = _to_revise(register, meant)
        if {one.stock_number for one in kept.request.vehicles} != {one.stock_number for one in made.request.vehicles}:
            remedy = "keep it as a quote of its own"
            raise WrongInput(f"{meant} is of other vehicles, and a revision is of the same", remedy=remedy)
        return _revised(register, kept, made, desk)


def _to_revise(register: "Register", number: str) -> "Kept":
    from shipcalc.register.quotes import find_kept

    with register.reading() as connection:
        kept = find_kept(connection, number)
        _check_not_accepted(connection, number)
    return kept


def _revised(register: "Register", kept: "Kept", made: "Made", desk: Desk) -> "tuple[Quote, str]":
    from shipcalc.register.differing import what_is_different
    from shipcalc.register.quotes import keep_revision

    why = what_is_different(kept.quote, made.quote, kept.request, made.request)
    told = keep_revision(
        register, made.quote, made.request, of=kept.quote, why=why, at=desk.at, who=desk.who, book=made.rates
    )
    return told, why


def _changed(request: "Request", changes: Changes, sources: "Sources", today: date) -> "Request":
    """Return the request with what is to be different; a day that is past becomes today."""
    from shipcalc.actions.place import destination
    from shipcalc.actions.quoting import Order, wishes_of

    wished = request.wishes
    order = Order(
        vehicles=(),
        to=changes.to,
        trailer=changes.trailer or wished.trailer or "",
        ocean=changes.ocean or wished.ocean or "",
        term=changes.term or wished.term or "",
        cover=changes.cover or wished.cover or "",
        currency=changes.currency or wished.currency or "",
        lift_gate=changes.lift_gate or wished.lift_gate,
        limited_access=changes.limited_access or wished.limited_access,
        express=changes.express or wished.express,
        collect=changes.collect or wished.collect,
        terminal=changes.terminal or wished.terminal,
    )
    asked_for = wishes_of(order, sources, today)
    wishes = replace(
        asked_for,
        insure_for=wished.insure_for,
        released_by=wished.released_by,
        keep_until=wished.keep_until,
        sailing=wished.sailing,
        spot=wished.spot,
    )
    to, notes = request.to, request.notes
    if changes.to:
        target = destination(changes.to, online=changes.online, settings=sources.settings)
        assert target.place is not None, "what is not a place raises"
        to, notes = target.place, (*notes, *((target.note,) if target.note else ()))
    return replace(
        request,
        to=to,
        notes=notes,
        ready=changes.ready or max(request.ready, today),
        by=changes.by or request.by,
        wishes=wishes,
        buyer=changes.buyer or request.buyer,
    )


def extend(number: str, until: date, desk: Desk) -> "Quote":
    """Keep a quote's price for longer, as a revision that says so. Raises WrongInput for a day that makes it no longer."""
    from shipcalc.register.quotes import find_kept, keep_revision

    meant = _meant(number, desk)
    with desk.register() as register:
        with register.reading() as connection:
            kept = find_kept(connection, meant)
            _check_not_accepted(connection, meant)
        if until <= kept.quote.valid_until or until < desk.today:
            told = f"{meant} holds until {kept.quote.valid_until.isoformat()} already"
            raise WrongInput(told, where=asked("until"), remedy="give a later day")
        why = f"holds until {until.isoformat()} in place of {kept.quote.valid_until.isoformat()}, at the same price"
        longer = replace(kept.quote, valid_until=until)
        by_hand = {**kept.by_hand, "valid_until": until.isoformat()}
        return keep_revision(
            register, longer, kept.request, of=kept.quote, why=why, at=desk.at, who=desk.who, by_hand=by_hand
        )


def _check_not_accepted(connection: object, number: str) -> None:
    from shipcalc.register.deciding import state_of
    from shipcalc.register.quotes import check_not_accepted

    check_not_accepted(number, state_of(connection, number))  # type: ignore[arg-type]


def accept(
    number: str, desk: Desk, *, choice: int | None, on: date | None, by: str
) -> "tuple[Quote, int, tuple[str, ...]]":
    """Keep that the buyer said yes; return the quote, the choice, counted from 0, and what that day no longer reaches."""
    from shipcalc.actions.files import option_index
    from shipcalc.register.deciding import accept as keep_yes
    from shipcalc.register.quotes import find_kept

    meant = _meant(number, desk)
    if on is not None and on > desk.today:
        told = f"{on.isoformat()} is still to come"
        raise WrongInput(told, where=asked("on"), remedy="give the day on which the buyer said yes")
    with desk.register() as register:
        with register.reading() as connection:
            chosen = option_index(find_kept(connection, meant).quote, choice)
        quote, said = keep_yes(register, meant, choice=chosen, on=on or desk.today, by=by, at=desk.at)
    return quote, chosen, said


def decline(number: str, desk: Desk, *, on: date | None, by: str, why: str) -> "Quote":
    """Keep that the buyer said no."""
    from shipcalc.register.deciding import decline as keep_no

    with desk.register() as register:
        return keep_no(register, _meant(number, desk), on=on or desk.today, by=by, why=why, at=desk.at)


def forget(numbers: Sequence[str], buyer: str, desk: Desk, *, although_accepted: bool = False) -> tuple[str, ...]:
    """Erase who the buyers were, of some numbers or of all quotes of a buyer; return the numbers."""
    from shipcalc.register.finding import numbers_of_buyer
    from shipcalc.register.forgetting import forget as erase

    with desk.register() as register:
        meant = tuple(_meant(number, desk) for number in numbers)
        if buyer:
            with register.reading() as connection:
                meant = (*meant, *numbers_of_buyer(connection, buyer))
        if not meant:
            raise WrongInput(
                "nobody is to be forgotten", where=asked("buyer"), remedy="name a number, or the buyer as written"
            )
        return erase(register, tuple(dict.fromkeys(meant)), at=desk.at, although_accepted=although_accepted)


def verify(numbers: Sequence[str], desk: Desk) -> "Iterator[Verified]":
    """Yield for each kept revision whether it still comes out the same."""
    from shipcalc.register.verifying import verify as work_out

    with desk.register() as register:
        yield from work_out(register, tuple(_meant(number, desk) for number in numbers))


def _meant(number: str, desk: Desk) -> str:
    from shipcalc.register.numbers import number_meant

    return number_meant(number, year=desk.today.year)

"""Asking for what a quote still needs, on a terminal and nowhere else; what shipcalc knows is shown with each question."""

import sys
from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from shipcalc.actions.quoting import Order
from shipcalc.actions.sources import Sources
from shipcalc.cli.listing import unknown_place
from shipcalc.cli.look import bullets, look_of_stdout, show
from shipcalc.cli.options import day_of
from shipcalc.cli.words import vehicle_name
from shipcalc.documents.wording import place as place_name
from shipcalc.errors import WrongInput
from shipcalc.vehicles.vehicle import Vehicle

SHOWN_AT_ONCE = 8


def complete(order: Order, sources: Sources, *, as_of: date) -> Order:
    """Return the order with what was missing. Raises WrongInput where nobody is there to be asked (a pipe, a script)."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        missing = [option for option, given in (("--vehicle", order.vehicles), ("--to", order.to.strip())) if not given]
        raise WrongInput(
            f"{' and '.join(missing)} {'is' if len(missing) == 1 else 'are'} missing",
            where="quote",
            remedy="e.g. shipcalc quote --vehicle HV-1153 --to 53703",
        )
    vehicles = order.vehicles or (_ask_vehicle(sources),)
    to = order.to if order.to.strip() else _ask_place()
    ready = order.ready or _ask_ready(as_of)
    print()
    return replace(order, vehicles=vehicles, to=to, ready=ready)


def _ask_vehicle(sources: Sources) -> str:
    """Ask until the answer is a vehicle in stock or a description of one; a part of a name shows who has it."""
    from shipcalc.actions.vehicles import read_stock_of, vehicle_meant
    from shipcalc.vehicles.stock import search

    stock = read_stock_of(sources)
    while True:
        typed = _ask("Vehicle (stock number, part of its name, or a description)")
        try:
            return _said_again(vehicle_meant(typed, stock), typed)
        except WrongInput as error:
            found = search(stock, typed)
            if len(found) == 1:
                return _said_again(found[0], found[0].stock_number)
            if found:
                more = f" (the first {SHOWN_AT_ONCE} of {len(found)})" if len(found) > SHOWN_AT_ONCE else ""
                _offer(f"Which one{more}?", [vehicle_name(vehicle) for vehicle in found[:SHOWN_AT_ONCE]])
            else:
                _tell(str(error))


def _said_again(vehicle: Vehicle, text: str) -> str:
    """Show what was understood, and return the text that says it."""
    show(bullets(look_of_stdout(), [vehicle_name(vehicle)]))
    return text


def _ask_place() -> str:
    """Ask until the answer is a place; of namesakes the user picks one by its number."""
    from shipcalc.actions.place import understand_place

    while True:
        typed = _ask("Where to (ZIP, or City, ST)")
        finding = understand_place(typed)
        if finding.place is None:
            _tell(unknown_place(finding))
            continue
        if not finding.others:
            return typed
        namesakes = (finding.place, *finding.others[: SHOWN_AT_ONCE - 1])
        names = [place_name(place) for place in namesakes]
        _offer("Several places have that name:", names, numbered=True)
        number = _ask_number("Number of the one you mean", len(names))
        chosen = namesakes[number - 1]
        return chosen.postal_code or f"{chosen.latitude:.5f}, {chosen.longitude:.5f}" if number > 1 else typed


def _ask_ready(as_of: date) -> date:
    while True:
        typed = _ask(f"Ready to be picked up on (Enter: {as_of.isoformat()})", may_be_empty=True)
        if not typed:
            return as_of
        try:
            ready = day_of(typed, "ready")
        except WrongInput as error:
            _tell(str(error))
            continue
        if ready >= as_of:
            return ready
        _tell(f"{ready} has passed: give {as_of} or a later day")


def _ask_number(question: str, highest: int) -> int:
    while True:
        typed = _ask(f"{question} (Enter: 1)", may_be_empty=True) or "1"
        if typed.isdecimal() and 1 <= int(typed) <= highest:
            return int(typed)
        _tell(f"give a number from 1 to {highest}")


def _ask(question: str, *, may_be_empty: bool = False) -> str:
    while True:
        typed = input(f"{question}: ").strip()
        if typed or may_be_empty:
            return typed


def _offer(title: str, texts: Sequence[str], *, numbered: bool = False) -> None:
    look = look_of_stdout()
    lines = [title]
    for number, text in enumerate(texts, start=1):
        lines += bullets(look, [text], f"{number}." if numbered else "·")
    show(lines)


def _tell(what: str) -> None:
    show(bullets(look_of_stdout(), [what], "!"))

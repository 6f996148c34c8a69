"""Asking for what a quote still needs, on a terminal and nowhere else; what shipcalc knows is shown with each question."""

from datetime import date

from shipcalc.actions.quoting import Order
from shipcalc.actions.sources import Sources
from shipcalc.cli.listing import unknown_place
from shipcalc.cli.option_names import option_of
from shipcalc.cli.options import day_of
from shipcalc.cli.prompt import ask, number_in, offer, say_again, somebody_is_there, tell
from shipcalc.cli.words import vehicle_name
from shipcalc.documents.wording import place as place_name
from shipcalc.errors import WrongInput
from shipcalc.places.gazetteer.finding import Finding
from shipcalc.records import replace
from shipcalc.vehicles.stock import Stock
from shipcalc.vehicles.vehicle import Vehicle

SHOWN_AT_ONCE = 8
ZIP_DIGITS = 5


def complete(order: Order, sources: Sources, *, as_of: date) -> Order:
    """Return the order with what was missing. Raises WrongInput where nobody is there to be asked (a pipe, a script)."""
    if not somebody_is_there():
        missing = [option for option, given in (("--vehicle", order.vehicles), ("--to", order.to.strip())) if not given]
        raise WrongInput(
            f"{' and '.join(missing)} {'is' if len(missing) == 1 else 'are'} missing",
            where="quote",
            remedy="e.g. shipcalc quote --vehicle HV-1153 --to 53703",
        )
    vehicles = order.vehicles or _ask_vehicles(sources)
    to = order.to if order.to.strip() else _ask_place()
    ready = order.ready or _ask_ready(as_of)
    print()
    return replace(order, vehicles=vehicles, to=to, ready=ready)


def settled(order: Order) -> Order:
    """Return the order with a place that is beyond doubt: one that is not is asked for, where somebody is there."""
    if order.online or not somebody_is_there():
        return order
    return replace(
        order,
        to=_settled_place(order.to, "Where to"),
        start=_settled_place(order.start, "From where") if order.start.strip() else order.start,
    )


def _ask_vehicles(sources: Sources) -> tuple[str, ...]:
    """Ask until the answer is a vehicle in stock, several of them, or a description; words show who has them, by number."""
    from shipcalc.actions.vehicles import read_stock_of

    stock = read_stock_of(sources)
    listed: tuple[Vehicle, ...] = ()
    question = "Vehicle (stock number, part of its name, or a description)"
    while True:
        typed = ask(question if not listed else "Number of the one you mean, or other words")
        if number := number_in(typed, len(listed)):
            return _said_again([listed[number - 1]], (listed[number - 1].stock_number,))
        if not any(letter.isdigit() for letter in typed) and (listed := _in_stock(stock, typed)):
            continue
        try:
            return _meant(typed, stock)
        except WrongInput as error:
            listed = _listed(stock, typed, error)


def _in_stock(stock: Stock, typed: str) -> tuple[Vehicle, ...]:
    """Show what of the stock has the words, where several have: "roadster" is asked for and not taken for a description."""
    from shipcalc.vehicles.stock import search

    found = search(stock, typed)
    if len(found) < 2:
        return ()
    more = (
        f" (the first {SHOWN_AT_ONCE} of {len(found)}; say more of it, or its number)"
        if len(found) > SHOWN_AT_ONCE
        else ""
    )
    offer(f"Which one{more}?", [vehicle_name(vehicle) for vehicle in found[:SHOWN_AT_ONCE]])
    return found[:SHOWN_AT_ONCE]


def _meant(typed: str, stock: Stock) -> tuple[str, ...]:
    from shipcalc.actions.vehicles import texts_of_each, vehicle_meant

    texts = texts_of_each(typed, stock)
    return _said_again([vehicle_meant(text, stock) for text in texts], texts)


def _listed(stock: Stock, typed: str, error: WrongInput) -> tuple[Vehicle, ...]:
    """Show the vehicles that have the words, or nearly so, and return them; the error where there are none."""
    from shipcalc.vehicles.stock import search, spelled_nearly

    exact = search(stock, typed)
    found = exact or spelled_nearly(stock, typed)
    if not found:
        tell(error.told(option_of))
        return ()
    more = f" (the first {SHOWN_AT_ONCE} of {len(found)})" if len(found) > SHOWN_AT_ONCE else ""
    nearly = "" if exact else f'Nothing has "{typed}" exactly; these are spelled almost like it. '
    offer(f"{nearly}Which one{more}?", [vehicle_name(vehicle) for vehicle in found[:SHOWN_AT_ONCE]])
    return found[:SHOWN_AT_ONCE]


def _said_again(vehicles: list[Vehicle], texts: tuple[str, ...]) -> tuple[str, ...]:
    """Show what was understood, and return the texts that say it."""
    for vehicle in vehicles:
        say_again(vehicle_name(vehicle))
    return texts


def _ask_place() -> str:
    """Ask until the answer is a place beyond doubt, and show how it was understood."""
    question = "Where to (ZIP, or City, ST)"
    typed = _settled_place(ask(question), question)
    place = _understood(typed).place
    assert place is not None, "settled"
    say_again(place_name(place))
    return typed


def _settled_place(typed: str, question: str) -> str:
    """Return a text that is a place beyond doubt; until it is, what it can be is listed and its number taken."""
    while True:
        finding = _understood(typed)
        if finding.place is not None and not finding.doubt:
            return typed
        listed = finding.suggestions[:SHOWN_AT_ONCE]
        if not listed:
            tell(unknown_place(finding))
            typed = ask(question)
            continue
        offer(_as_a_question(finding), listed)
        typed = _one_listed_or_other_words(listed)


def _as_a_question(finding: Finding) -> str:
    """Return what is doubtful as a question: `There are several places called “KC”. Which one is meant?`"""
    head, _, question = finding.doubt.partition(": ")
    if not question:
        return f"{_capital((finding.doubt or finding.note).rstrip('.?'))}. It can be:"
    return f"{_capital(head)}. {_capital(question.rstrip('?'))}?"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _one_listed_or_other_words(listed: tuple[str, ...]) -> str:
    is_one = len(listed) == 1
    while True:
        question = f"Enter: {listed[0]}; or another place" if is_one else "Number of the one you mean, or another place"
        answer = ask(question, may_be_empty=is_one)
        if not answer:
            return listed[0]
        if number := number_in(answer, len(listed)):
            return listed[number - 1]
        if not (answer.isdecimal() and len(answer) < ZIP_DIGITS):
            return answer
        tell(f"give a number from 1 to {len(listed)}")


def _understood(typed: str) -> Finding:
    from shipcalc.actions.place import understand_place

    return understand_place(typed)


def _ask_ready(as_of: date) -> date:
    while True:
        typed = ask(f"Ready to be picked up on (Enter: {as_of.isoformat()})", may_be_empty=True)
        if not typed:
            return as_of
        try:
            ready = day_of(typed, "ready", today=as_of)
        except WrongInput as error:
            tell(error.told(option_of))
            continue
        if ready >= as_of:
            return ready
        tell(f"{ready} has passed: give {as_of} or a later day")

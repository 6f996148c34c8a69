"""Ways on which the buyer does a part himself: he comes to the yard, or to a terminal near him. Never the recommended ones."""

from datetime import date

from shipcalc.errors import WrongInput, asked
from shipcalc.quote.answer import Answer
from shipcalc.quote.choose.unbeaten import MOST_CHOICES
from shipcalc.quote.model import Also, Option
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.own.collection import collected, collected_beside
from shipcalc.quote.own.terminals import ToTerminal, port_beside, terminal_beside, terminal_option, to_terminal
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import replace


def with_own_ways(answer: Answer, request: Request, book: RateBook, as_of: date) -> Answer:
    """Return the choices with those that were asked for behind them, at most six in all.

    Raises WrongInput where a terminal is asked for and none is near.
    """
    own = _own_ways(answer.options[answer.recommended], request, book, as_of)
    if not own:
        return answer
    first = [(number != answer.recommended, option.in_hand is None) for number, option in enumerate(answer.options)]
    order = sorted(range(len(answer.options)), key=first.__getitem__)
    stay = sorted(order[: MOST_CHOICES - len(own)])
    return replace(
        answer,
        options=(*(answer.options[number] for number in stay), *own),
        recommended=stay.index(answer.recommended),
    )


def _no_terminal(request: Request, best: Option) -> WrongInput:
    """Return why there is no terminal to name: over the sea the port of arrival is the place to fetch it from."""
    if best.ocean is not None:
        told = f"{request.to.name} is reached by sea, where the vehicle is fetched from the port of arrival"
        remedy = f"leave it out: the price to the port stands beside the price to the door; {asked('term')} CIP quotes it alone"
        return WrongInput(told, where=asked("terminal"), remedy=remedy)
    return WrongInput(
        f"no terminal of the rate book is near {request.to.name}",
        where=asked("terminal"),
        remedy="leave it out, or add one to the sheet Terminals (trucking.xlsx)",
    )


def _own_ways(best: Option, request: Request, book: RateBook, as_of: date) -> list[Option]:
    own = []
    if request.wishes.terminal:
        there = _terminal(request, best, book, as_of)
        if there is None:
            raise _no_terminal(request, best)
        own.append(terminal_option(there, as_of))
    if request.wishes.collect:
        own.append(collected(request, book, as_of))
    return own


def beside(request: Request, best: Option, book: RateBook, as_of: date) -> tuple[Also, ...]:
    """Return what stands beside the choices in one line each: the terminal or port, and coming to a yard that is near."""
    there = None if request.wishes.terminal else _terminal(request, best, book, as_of)
    lines = (
        terminal_beside(there, best) if there else port_beside(best, request, book, as_of),
        None if request.wishes.collect else collected_beside(request, best, book),
    )
    return tuple(line for line in lines if line is not None)


def _terminal(request: Request, best: Option, book: RateBook, as_of: date) -> ToTerminal | None:
    if not is_home(request.to.country, request.to.subdivision):
        return None
    return to_terminal(request, book, as_of, best.trailer)

"""What becomes of a quote: quotes revise, extend, accept, decline, forget."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.at_register import Number, Today, Who, desk_of, tell
from shipcalc.cli.look import (
    look_of_stdout,
    note,
    show,
    show_json,
)
from shipcalc.cli.options import (
    AsJson,
    Online,
    RatesFolder,
    argument,
    day_of,
    flag,
    option,
)
from shipcalc.cli.prompt import ask, ask_number, offer, somebody_is_there
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from shipcalc.actions.kept_quotes import Desk


def revise(
    number: Number,
    to: Annotated[str, option("--to", "PLACE", "Another place.")] = "",
    online: Online = False,
    ready: Annotated[str, option("--ready", "DATE", "Another first day for the pick-up.")] = "",
    by: Annotated[str, option("--by", "DATE", "Another day it must be there by.")] = "",
    trailer: Annotated[str, option("--trailer", "KIND", "Only open, or only enclosed, trailers.")] = "",
    ocean: Annotated[str, option("--ocean", "KIND", "Over the sea only roro, or only container.")] = "",
    term: Annotated[str, option("--term", "CODE", "Another delivery term.")] = "",
    cover: Annotated[str, option("--cover", "A|B|C", "Other conditions of the marine cover.")] = "",
    currency: Annotated[str, option("--currency", "CODE", "Another currency of the buyer's.")] = "",
    lift_gate: Annotated[bool, flag("--lift-gate", "Load and unload with a lift gate.")] = False,
    limited_access: Annotated[bool, flag("--limited-access", "A long truck cannot reach the buyer's door.")] = False,
    express: Annotated[bool, flag("--express", "Pickup sooner than usual.")] = False,
    collect: Annotated[bool, flag("--collect", "Add a choice: the buyer comes to the yard.")] = False,
    terminal: Annotated[bool, flag("--terminal", "Add a choice: to the terminal nearest the buyer.")] = False,
    buyer: Annotated[str, option("--buyer", "NAME", "Another name.")] = "",
    rates: RatesFolder = None,
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Price a kept quote anew, with today's rates and what is to be different; the earlier revision stays as it was."""
    from shipcalc.actions.kept_quotes import Changes
    from shipcalc.actions.kept_quotes import revise as make
    from shipcalc.actions.sources import find_sources

    desk = desk_of(as_of, who)
    changes = Changes(
        to=to,
        online=online,
        ready=day_of(ready, "--ready", today=desk.today) if ready else None,
        by=day_of(by, "--by", today=desk.today) if by else None,
        trailer=trailer,
        ocean=ocean,
        term=term,
        cover=cover,
        currency=currency,
        lift_gate=lift_gate,
        limited_access=limited_access,
        express=express,
        collect=collect,
        terminal=terminal,
        buyer=buyer,
    )
    sources = find_sources(folder=Path.cwd(), rates=rates, as_of=desk.today)
    revised, why = make(number, changes, sources, desk)
    if as_json:
        from shipcalc.quote.as_data import quote_to_json

        show_json(quote_to_json(revised))
    else:
        from shipcalc.cli.card import card_lines

        look = look_of_stdout()
        show(card_lines(revised, look, chosen=revised.recommended, for_office=False))
    note(f"kept: {revised.number}, revision {revised.revision}: {why}")


def extend(
    number: Number,
    until: Annotated[str, option("--until", "DATE", "The day until which the price is to hold.")] = "",
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Keep a quote's price for longer. Nothing is priced anew: see that the carriers hold theirs as long."""
    from shipcalc.actions.kept_quotes import extend as keep_longer

    desk = desk_of(as_of, who)
    if not until:
        raise WrongInput("says no day", where="--until", remedy="give the day until which the price is to hold")
    quote = keep_longer(number, day_of(until, "--until", today=desk.today), desk)
    told = {"number": quote.number, "revision": quote.revision, "valid_until": quote.valid_until.isoformat()}
    tell(told, f"{quote.number}, revision {quote.revision}: holds until {quote.valid_until}", as_json=as_json)


def accept(
    number: Number,
    choice: Annotated[int | None, option("--choice", "N", "Which choice. Default: the recommended one.")] = None,
    on: Annotated[str, option("--on", "DATE", "The day the buyer said yes. Default: today.")] = "",
    who: Annotated[str, option("--who", "NAME", "Who said yes.")] = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """The buyer says yes: the choice is fixed, and its vehicles are promised to nobody else."""
    from shipcalc.actions.kept_quotes import accept as keep_yes

    desk = desk_of(as_of)
    if not as_json and somebody_is_there():
        choice, on, who = _asked_of_the_yes(number, desk, choice, on, who)
    day = day_of(on, "--on", today=desk.today) if on else desk.today
    quote, chosen, said = keep_yes(number, desk, choice=choice, on=day, by=who)
    title = quote.options[chosen].title
    told = {
        "number": quote.number,
        "choice": chosen + 1,
        "title": title,
        "accepted": day.isoformat(),
        "who": who,
        "said": list(said),
    }
    tell(told, f"{quote.number} is accepted: choice {chosen + 1}, {title}, on {day}", as_json=as_json)
    for sentence in (*said, f"its tasks: shipcalc shipments show {quote.number}"):
        note(sentence)


def _asked_of_the_yes(number: str, desk: "Desk", choice: int | None, on: str, who: str) -> tuple[int | None, str, str]:
    """Ask, in a terminal, what was not said of the buyer's yes: which choice, on which day, who said it."""
    from shipcalc.actions.kept_quotes import show as show_kept

    quote = show_kept(number, desk).kept.quote
    if choice is None and len(quote.options) > 1:
        order = sorted(range(len(quote.options)), key=lambda place: place != quote.recommended)
        offer(
            "Which choice?",
            [f"{quote.options[place].title}, {quote.options[place].total:,} {quote.currency}" for place in order],
        )
        choice = order[ask_number("Number of the choice", len(order)) - 1] + 1
    on = on or ask("The day the buyer said yes (Enter: today)", may_be_empty=True)
    return choice, on, who or ask("Who said yes", may_be_empty=True)


def decline(
    number: Number,
    why: Annotated[str, option("--why", "TEXT", "What the buyer said.")] = "",
    on: Annotated[str, option("--on", "DATE", "The day. Default: today.")] = "",
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """The buyer says no, or takes the yes back: its vehicles are free again."""
    from shipcalc.actions.kept_quotes import decline as keep_no

    desk = desk_of(as_of, who)
    day = day_of(on, "--on", today=desk.today) if on else None
    quote = keep_no(number, desk, on=day, by=who, why=why)
    tell(
        {"number": quote.number, "declined": (day or desk.today).isoformat()},
        f"{quote.number} is declined",
        as_json=as_json,
    )


def forget(
    numbers: Annotated[list[str] | None, argument("[NUMBER...]", "The quotes whose buyer is to be forgotten.")] = None,
    buyer: Annotated[str, option("--buyer", "NAME", "All quotes of the buyer of this name, as written on them.")] = "",
    although_accepted: Annotated[bool, flag("--although-accepted", "Also of accepted ones.")] = False,
    as_json: AsJson = False,
) -> None:
    """Erase who a buyer was from all that is kept; sums, days and vehicles stay. It cannot be taken back."""
    from shipcalc.actions.kept_quotes import forget as erase

    erased = erase(numbers or (), buyer, desk_of(""), although_accepted=although_accepted)
    tell({"forgotten": list(erased)}, f"forgotten: {', '.join(erased)}", as_json=as_json)


COMMANDS = (
    ("revise", revise, "Price it anew, with changes.", "shipcalc quotes revise 1 --trailer enclosed"),
    ("extend", extend, "Keep its price for longer.", "shipcalc quotes extend 1 --until 2027-01-15"),
    ("accept", accept, "The buyer says yes.", 'shipcalc quotes accept 1 --choice 2 --who "M. Lindqvist"'),
    ("decline", decline, "The buyer says no.", 'shipcalc quotes decline 1 --why "bought another"'),
    ("forget", forget, "Erase who a buyer was.", "shipcalc quotes forget 1 --although-accepted"),
)

"""The newcomer's and the manager's command: setup."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.look import bullets, look_of_stdout, show
from shipcalc.cli.option_names import option_of
from shipcalc.cli.options import option
from shipcalc.cli.prompt import ask, somebody_is_there, tell
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from shipcalc.actions.setup import Answer, Setup

CLEAR = "-"


def setup(
    name: Annotated[str | None, option("--name", "TEXT", "Name of the firm, as papers show it.")] = None,
    address: Annotated[str | None, option("--address", "TEXT", "Its address, in one line.")] = None,
    phone: Annotated[str | None, option("--phone", "TEXT", "Its telephone.")] = None,
    email: Annotated[str | None, option("--email", "TEXT", "Its mail address.")] = None,
    website: Annotated[str | None, option("--website", "TEXT", "Its website.")] = None,
    licence: Annotated[str | None, option("--licence", "TEXT", "Its licence, as it is to be named.")] = None,
    logo: Annotated[str | None, option("--logo", "FILE", "Its logo: PNG, JPEG or SVG.")] = None,
    accent: Annotated[str | None, option("--accent", "COLOUR", "Colour of names and titles, as #1B4B52.")] = None,
    signatory: Annotated[str | None, option("--signatory", "TEXT", "Who signs papers, and as what.")] = None,
    terms: Annotated[
        list[str] | None, option("--terms", "TEXT", "A sentence of your own terms. May be repeated.")
    ] = None,
    holder: Annotated[str | None, option("--holder", "TEXT", "Whose the bank account is.")] = None,
    bank: Annotated[str | None, option("--bank", "TEXT", "Name of the bank.")] = None,
    iban: Annotated[str | None, option("--iban", "IBAN", "The account's IBAN.")] = None,
    account: Annotated[str | None, option("--account", "NUMBER", "The account's number, where it has no IBAN.")] = None,
    bic: Annotated[str | None, option("--bic", "BIC", "The bank's BIC.")] = None,
    routing: Annotated[str | None, option("--routing", "NUMBER", "The bank's routing number (United States).")] = None,
    yard: Annotated[
        list[str] | None, option("--yard", "NAME=PLACE", "A yard, and where it is. May be repeated.")
    ] = None,
    stock: Annotated[str | None, option("--stock", "FILE", "The stock list, Excel or CSV.")] = None,
    rates: Annotated[str | None, option("--rates", "DIR", "The rate book: a folder of workbooks.")] = None,
    currency: Annotated[str | None, option("--currency", "CODE", "Currency of your prices, as USD.")] = None,
    paper: Annotated[str | None, option("--paper", "SIZE", "letter or a4.")] = None,
) -> None:
    """Set what every quote and paper shows of you: it is asked question by question, or given by options, and kept in
    shipcalc.toml with what stands there already. An option with "" takes a setting away.
    """
    from shipcalc.actions.setup import find_setup, save_setup

    given = {key: value for key, value in locals().items() if isinstance(value, str | list)}
    before = find_setup(Path.cwd())
    if given:
        made = _with_options(before, given)
    elif somebody_is_there():
        made = _asked(before)
    else:
        raise WrongInput(
            "nobody is there to be asked",
            where="setup",
            remedy='give options, e.g. shipcalc setup --name "Heron & Vale"',
        )
    if made == before:
        show([f"{made.file}: nothing is changed"])
        return
    save_setup(made)
    show([f"{made.file}: written", *_standing(made)])


def _with_options(made: "Setup", given: dict[str, str | list[str]]) -> "Setup":
    from shipcalc.actions.setup import ANSWERS, with_answer, with_yard

    for answer in ANSWERS:
        if answer.option in given:
            typed = given[answer.option]
            made = with_answer(
                made, answer, [one for one in typed if one.strip()] if isinstance(typed, list) else typed
            )
    for typed in given.get("yard", ()):
        made = with_yard(made, typed)
    return made


def _asked(made: "Setup") -> "Setup":
    """Ask for one thing after the other; Enter keeps what is set."""
    from shipcalc.actions.setup import ANSWERS

    show([f"For {made.file}. Enter keeps what is set or leaves it open; {CLEAR} takes it away."])
    for answer in ANSWERS:
        if not (answer.once and made.shown(answer)):
            made = _asked_one(made, answer)
    return made if made.yards() else _asked_yard(made)


def _asked_one(made: "Setup", answer: "Answer") -> "Setup":
    """Ask until the answer can be used."""
    from shipcalc.actions.setup import with_answer

    known = made.shown(answer)
    while True:
        typed = ask(f"{answer.question} (Enter: {known})" if known else answer.question, may_be_empty=True)
        if not typed:
            return made
        try:
            return with_answer(made, answer, "" if typed == CLEAR else typed)
        except WrongInput as error:
            tell(error.told(option_of))


def _asked_yard(made: "Setup") -> "Setup":
    from shipcalc.actions.setup import with_yard

    while typed := ask("A yard and where it is, as Bellingham=98225 (Enter: no more)", may_be_empty=True):
        try:
            made = with_yard(made, typed)
        except WrongInput as error:
            tell(error.told(option_of))
    return made


def _standing(made: "Setup") -> list[str]:
    """Return what papers still lack."""
    from shipcalc.actions.setup import ANSWERS

    lacking = [one.key for one in ANSWERS if not one.once and not made.shown(one)]
    wanted = [key for key in ("name", "address", "phone", "email", "signatory") if key in lacking]
    return bullets(look_of_stdout(), [f"Not set yet, and papers ask for it: {', '.join(wanted)}"]) if wanted else []


COMMANDS = (
    ("setup", setup, "Set what papers show of you.", 'shipcalc setup --name "Heron & Vale Motors" --accent "#1B4B52"'),
)

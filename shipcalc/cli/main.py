"""The command `shipcalc`: one verb a person would say; the same option means the same everywhere.

Exit status: 0 done, 1 the answer is no, 2 wrong input. What went wrong is one sentence on standard error, never a traceback;
130 is the shells' own number for somebody who pressed Ctrl-C, 70 the system's for a mistake of the program itself.
"""

import errno
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from typing import Annotated, NamedTuple, Protocol, cast

import typer

from shipcalc import __version__
from shipcalc.cli.group import ChecklistGroup, ListGroup, VerbGroup
from shipcalc.cli.look import has_output, let_go_of_output, note
from shipcalc.cli.option_names import option_of
from shipcalc.cli.options import flag
from shipcalc.errors import FaultyWorkbook, ShipcalcError, sentence, why

INTERRUPTED = 130
OWN_MISTAKE = 70
TRACE = "SHIPCALC_TRACE"
LONGEST_NAME_TOLD = 120
_PATHLIBS_LOOP = "Symlink loop"  # what `Path.resolve` raises RuntimeError with, before Python 3.13
# What printing ends in, where standard output is a full disk or something that is gone; whoever writes files tells it himself.
_CANNOT_PRINT = (errno.ENOSPC, errno.EIO, errno.EBADF, errno.EFBIG, errno.EINVAL)

_HELP_OPTIONS = {"help_option_names": ["--help", "-h"]}


# Name, face, what it does, an example.
Commands = tuple[tuple[str, Callable[..., None], str, str], ...]


class Group(NamedTuple):
    """A command with verbs of its own: how it is called, what it is for, an example, the module of its verbs; `kind` is what it
    means alone.
    """

    name: str
    about: str
    example: str
    module: str
    kind: type[VerbGroup] = VerbGroup


# The commands without verbs, by the module that has them.
SINGLE = {
    "demo": "shipcalc.cli.newcomer",
    "setup": "shipcalc.cli.setup",
    "quote": "shipcalc.cli.sales",
    "stock": "shipcalc.cli.sales",
    "place": "shipcalc.cli.sales",
    "miles": "shipcalc.cli.sales",
    "lanes": "shipcalc.cli.lanes",
    "today": "shipcalc.cli.today",
    "papers": "shipcalc.cli.papers",
    "desk": "shipcalc.cli.desk",
}
GROUPS = (
    Group(
        "checklist",
        "The tasks for an accepted quote: make the list, read it back, move its dates.",
        "shipcalc checklist lindqvist/office/quote.json",
        "shipcalc.cli.office",
        ChecklistGroup,
    ),
    Group(
        "rates",
        "The manager's rate book: begin one, check it, change a copy, put it in force, go back.",
        "shipcalc rates check my-rates",
        "shipcalc.cli.manager",
    ),
    Group(
        "quotes",
        "What was promised: list it, show it, revise it, accept it.",
        "shipcalc quotes list --ending",
        "shipcalc.cli.kept",
        ListGroup,
    ),
    Group(
        "shipments",
        "What is under way: its tasks, its numbers, news of it.",
        "shipcalc shipments list",
        "shipcalc.cli.shipments",
        ListGroup,
    ),
    Group(
        "contacts",
        "The address book: carriers, forwarders, brokers, ports' agents, buyers.",
        "shipcalc contacts list",
        "shipcalc.cli.contacts",
        ListGroup,
    ),
    Group(
        "costs",
        "What was really paid: keep bills, hold quotes to them.",
        "shipcalc costs review",
        "shipcalc.cli.costs",
    ),
    Group(
        "people",
        "Who may sign in at a desk that others reach, and which sites may ask it for prices.",
        "shipcalc people list",
        "shipcalc.cli.people",
        ListGroup,
    ),
    Group(
        "register",
        "Where quotes and shipments are kept: back it up, restore it.",
        "shipcalc register backup register.zip",
        "shipcalc.cli.kept_register",
    ),
)


def commands_of(module: str) -> Commands:
    """Return the commands of a module, which is imported only now: to make the options of all takes a twentieth of a quote."""
    found: Commands = import_module(module).COMMANDS
    return found


def app_with(verb: str | None = None) -> typer.Typer:
    """Return the application; with one of its verbs, that one alone: looking into every command's options takes 5 ms.

    Without rich: its import alone takes a quarter of the time that a quote may take.
    """
    app = typer.Typer(
        name="shipcalc",
        help=shipcalc.__doc__,
        epilog="Begin with: shipcalc demo",
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        add_completion=False,
        context_settings=_HELP_OPTIONS,
    )
    app.callback(invoke_without_command=True)(shipcalc)
    for module in dict.fromkeys(module for name, module in SINGLE.items() if verb in (None, name)):
        for name, face, short, example in commands_of(module):
            if verb in (None, name):
                app.command(name, short_help=short, epilog=f"Example: {example}")(face)
    for group in GROUPS:
        if verb in (None, group.name):
            app.add_typer(_typer_of(group), name=group.name)
    return app


def _typer_of(group: Group) -> typer.Typer:
    verbs = typer.Typer(
        cls=group.kind,
        help=group.about,
        epilog=f"Example: {group.example}",
        rich_markup_mode=None,
        context_settings=_HELP_OPTIONS,
    )
    for name, face, short, example in commands_of(group.module):
        verbs.command(name, short_help=short, epilog=f"Example: {example}")(face)
    return verbs


VERBS = frozenset(SINGLE) | {group.name for group in GROUPS}


def shipcalc(
    context: typer.Context,
    version: Annotated[bool, flag("--version", "Print the version and stop.")] = False,
) -> None:
    """Shipping quotes and shipment planning for a dealer of collector vehicles."""
    if version:
        print(f"shipcalc {__version__}")
        raise typer.Exit
    if context.invoked_subcommand is None:
        print(context.get_help())


def main() -> None:
    """Run the command line and leave with its exit status."""
    if not has_output():
        _say("the answer has nowhere to go: standard output is closed", remedy="leave out >&-, or send it to a file")
        sys.exit(2)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):  # a letter the terminal does not have must not stop the answer
            stream.reconfigure(errors="replace")
    sys.exit(run(sys.argv[1:]))


def run(arguments: Sequence[str]) -> int:
    """Carry out one command line and return its exit status; nothing is ever raised but SystemExit."""
    try:
        outcome = typer.main.get_command(app_with(_verb(arguments)))(
            args=list(arguments), prog_name="shipcalc", standalone_mode=False
        )
        sys.stdout.flush()
    except (KeyboardInterrupt, typer.Abort):  # before what else is a RuntimeError, as Abort is
        outcome = INTERRUPTED
    except BrokenPipeError:  # the reader, `head` for one, has read all that it wanted
        let_go_of_output()
        return 0
    except OSError as error:
        return _tell_refusal(error)
    except RuntimeError as error:
        if not str(error).startswith(_PATHLIBS_LOOP):
            return _tell_mistake(error)
        _say("a link leads back to itself", remedy="name the file or folder that is meant")
        return 2
    except UnicodeError:
        _say("a name holds signs that are no text", remedy="rename it, or type it anew")
        return 2
    except ShipcalcError as error:
        return _tell_error(error)
    except UsageFault as fault:
        return _tell_usage(cast("_Usage", fault))
    except Exception as mistake:  # noqa: BLE001 - the last net: a sentence in place of a traceback
        return _tell_mistake(mistake)
    if outcome == INTERRUPTED:
        note("shipcalc: stopped")
    return outcome if isinstance(outcome, int) else 0


def _verb(arguments: Sequence[str]) -> str | None:
    """Return the verb that the command line begins with, None for anything else: help, a slip of the pen, an option."""
    return arguments[0] if arguments and arguments[0] in VERBS else None


def _tell_error(error: ShipcalcError) -> int:
    note(f"shipcalc: {error.told(option_of)}")
    if isinstance(error, FaultyWorkbook):
        for problem in error.problems:
            note(f"  {problem}")
    return error.exit_status


def _tell_refusal(error: OSError) -> int:
    """Tell what the system does not let the program do: no mistake of the program, and mostly nothing that was typed either."""
    if error.filename is None and error.errno in _CANNOT_PRINT:
        let_go_of_output()
        _say(f"the answer cannot be written ({why(error)})", remedy="make room, or send it elsewhere")
    elif error.filename is None and _is_nowhere():
        _say("the folder you are in is gone", remedy="go to one that is there (cd), and ask again")
    else:
        _say(f"cannot be used ({why(error)})", where=_named(error), remedy="check the name, its folder and the disk")
    return 2


def _named(error: OSError) -> str:
    name = error.filename if isinstance(error.filename, str) else ""
    return name if len(name) <= LONGEST_NAME_TOLD else f"{name[:LONGEST_NAME_TOLD]}…"


def _is_nowhere() -> bool:
    try:
        return not os.getcwd()  # noqa: PTH109 - Path.cwd() is the same, and asks for an object first
    except OSError:
        return True


def _say(what: str, *, where: str = "", remedy: str = "") -> None:
    note(f"shipcalc: {sentence(what, where=where, remedy=remedy)}")


class _Usage(Protocol):
    """What is read from a fault in the command line itself."""

    ctx: typer.Context | None

    def format_message(self) -> str: ...


def _tell_usage(fault: _Usage) -> int:
    command = fault.ctx.command_path if fault.ctx else "shipcalc"
    what = " ".join(fault.format_message().split()).rstrip(".")
    told = sentence(what[:1].lower() + what[1:], remedy=f"{command} --help shows how")
    note(f"shipcalc: {told}")
    return 2


def _tell_mistake(mistake: Exception) -> int:
    """Tell a mistake of the program itself in a sentence; whoever wants to correct it gets the trace by SHIPCALC_TRACE=1."""
    if os.environ.get(TRACE):
        import traceback

        traceback.print_exc()
    what = " ".join(f"{type(mistake).__name__} {mistake}".split())
    told = sentence(
        f"this is a mistake in shipcalc itself ({what[:200]})", remedy=f"please report it; {TRACE}=1 shows where"
    )
    note(f"shipcalc: {told}")
    return OWN_MISTAKE


# The class above every fault in a command line. Newer typers carry it inside, older ones take it from click: both have
# it above their public BadParameter.
UsageFault: type[Exception] = next(kind for kind in typer.BadParameter.__mro__ if kind.__name__ == "ClickException")

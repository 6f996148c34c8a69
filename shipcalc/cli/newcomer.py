"""The newcomer's command: demo."""

from pathlib import Path
from typing import Annotated

import typer

from shipcalc.cli.look import look_of_stdout, show
from shipcalc.cli.options import day_of

DEFAULT_FOLDER = Path("shipcalc-demo")


def demo(
    out: Annotated[
        Path, typer.Option(metavar="DIR", help="The folder to fill; made if it is not there.")
    ] = DEFAULT_FOLDER,
    as_of: Annotated[
        str, typer.Option("--as-of", metavar="DATE", help="The day it is. Default: the invented dealer's own day.")
    ] = "",
) -> None:
    """Run an invented dealer's day into one folder: quotes for buyers at home and overseas, workbooks, checklists, messages,
    and an office with twelve shipments under way in a register of the demo's own, which is made anew each time.

    Everything in it is invented: the dealer, the vehicles, the buyers, the carriers and their prices.
    """
    from shipcalc.actions.demo import run_demo
    from shipcalc.cli.day import day_lines

    look = look_of_stdout()
    day = run_demo(out, as_of=day_of(as_of, "--as-of") if as_of else None)
    show(day_lines(day, look))


COMMANDS = (("demo", demo, "An invented dealer's day, to look around in.", "shipcalc demo --out my-first-quotes"),)

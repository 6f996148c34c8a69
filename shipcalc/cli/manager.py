"""The manager's commands: rates new, check, compare, trace.

Those of copies and editions are in `editions.py`, that of mails in `taking.py`, that of weekly figures in `weekly.py`.
"""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from shipcalc.cli.editions import adopt, copy, history
from shipcalc.cli.facts import facts
from shipcalc.cli.look import look_of_stdout, note, show, show_found, show_json
from shipcalc.cli.options import (
    AsJson,
    AsOf,
    Choice,
    RatesFolder,
    StockFile,
    argument,
    day_of,
    day_of_quote,
    flag,
    option,
)
from shipcalc.cli.taking import take
from shipcalc.cli.weekly import weekly

if TYPE_CHECKING:
    from shipcalc.actions.rates import Checked

HAS_FAULTS = 1


def check(
    folder: Annotated[Path | None, argument("[DIR]", "The rate book. Default: the one that quotes use.")] = None,
    rates: RatesFolder = None,
    as_of: AsOf = "",
    mark: Annotated[
        Path | None,
        option(
            "--mark",
            "FILE|DIR",
            "Write a copy in which the cells named are marked and commented; the original is only read.",
        ),
    ] = None,
    full: Annotated[bool, flag("--full", "List every note, even those that say the same.")] = False,
    as_json: AsJson = False,
) -> None:
    """Say everything that is wrong with the rate book, by cell, and how to correct it; with faults it ends with status 1."""
    from shipcalc.actions.rates import check_rates
    from shipcalc.actions.sources import find_sources
    from shipcalc.cli.checked import checked_lines

    sources = find_sources(folder=Path.cwd(), rates=folder or rates)
    in_force = find_sources(folder=Path.cwd(), rates=rates).rates
    beside = None if in_force.invented else in_force.path
    found = check_rates(sources.rates.path, as_of=day_of_quote(as_of), beside=beside)
    marked = _marked(found, mark) if mark is not None else ()
    faults = [str(problem) for problem in found.problems if problem.severity == "fault"]
    missing = [str(problem) for problem in found.missing]
    other = [str(problem) for problem in found.problems if problem.severity == "warning"]
    warnings = [*missing, *(told for told in other if told not in missing)]
    if as_json:
        from shipcalc.cli.listing import to_json

        show_json(to_json({"fingerprint": found.fingerprint or None, "faults": faults, "warnings": warnings}))
    else:
        show(checked_lines(found, look_of_stdout(), full=full))
    for file in marked:
        note(f"written: {file}")
    if mark is not None and not marked:
        note("nothing to mark: no copy was written")
    if faults:
        raise typer.Exit(HAS_FAULTS)


def _marked(found: "Checked", target: Path) -> tuple[Path, ...]:
    from shipcalc.actions.marking import mark_rates

    return mark_rates(found, target)


def new(
    folder: Annotated[Path, argument("DIR", "Where the workbooks are to be written.")],
    empty: Annotated[bool, flag("--empty", "Without prices; holds, tasks, papers, countries and ports stay.")] = False,
) -> None:
    """Write workbooks to begin with. What is in the folder already is never written over."""
    from shipcalc.actions.rates import new_rates

    for path in new_rates(folder, empty=empty):
        print(path)
    note(
        "no price stands in them: fill them in, then run shipcalc rates check"
        if empty
        else "every price in them is invented"
    )


def compare(
    old: Annotated[Path, argument("OLD", "The rate book as it was: a folder of workbooks.")],
    new: Annotated[
        Path | None, argument("[NEW]", "The rate book as it is to be. Default: the one that quotes use.")
    ] = None,
    basket: Annotated[
        Path | None,
        option(
            "--basket",
            "FILE",
            "Transports to price, Excel or CSV with the headers Vehicle and To. Default: a spread over the country.",
        ),
    ] = None,
    quotes: Annotated[
        Path | None, option("--quotes", "DIR", "Also price the open quotes in this folder (quote.json).")
    ] = None,
    stock: StockFile = None,
    as_of: AsOf = "",
    on: Annotated[
        str, option("--on", "DATE", "The day of pickup that both books are priced for. Default: the day of the quote.")
    ] = "",
    out: Annotated[Path | None, option("--out", "FILE", "Write a workbook of it, with a chart.")] = None,
    as_json: AsJson = False,
) -> None:
    """Say what was changed between two rate books, and what that does to prices, before anybody quotes from the new one."""
    from shipcalc.actions.comparing import compare_rates, write_comparison
    from shipcalc.actions.sources import find_sources
    from shipcalc.cli.comparison import comparison_json, comparison_lines

    day = day_of_quote(as_of)
    sources = find_sources(folder=Path.cwd(), stock=stock, rates=new, as_of=day)
    picked_up = day_of(on, "--on", today=day) if on else None
    compared = compare_rates(old, sources.rates.path, sources, as_of=day, on=picked_up, basket=basket, quotes=quotes)
    if out is not None:
        write_comparison(compared, out)
    show_found(compared, comparison_json, comparison_lines, as_json=as_json)
    if out is not None:
        note(f"written: {out}")


def trace(
    file: Annotated[Path, argument("QUOTE", "The quote.json that the office kept.")],
    line: Annotated[str, argument("[LINE]", "The number of a line. Default: all lines.")] = "",
    choice: Choice = None,
    rates: RatesFolder = None,
    as_of: AsOf = "",
    as_json: AsJson = False,
) -> None:
    """Say which cell priced a line of a quote and how, what the cell says today, and whether the price would change."""
    from shipcalc.actions.sources import find_sources
    from shipcalc.actions.tracing import trace_quote
    from shipcalc.cli.tracing import trace_json, trace_lines

    day = day_of_quote(as_of)
    sources = find_sources(folder=Path.cwd(), rates=rates, as_of=day)
    found = trace_quote(file, sources.rates.path, as_of=day, choice=choice, line=line or None)
    show_found(found, trace_json, trace_lines, as_json=as_json)


COMMANDS = (
    ("check", check, "Everything that is wrong with the rate book, by cell.", "shipcalc rates check"),
    ("new", new, "Workbooks to begin with.", "shipcalc rates new my-rates"),
    (
        "weekly",
        weekly,
        "Diesel and rates of exchange from their publishers.",
        "shipcalc rates weekly --file eurofxref.csv --into my-rates",
    ),
    ("copy", copy, "A copy of the rate book to work on.", "shipcalc rates copy my-rates next-week"),
    ("take", take, "Rates from a carrier's mail into a copy.", "shipcalc rates take lanes.xlsx --into december"),
    ("compare", compare, "What a change of the rate book does.", "shipcalc rates compare my-rates"),
    ("adopt", adopt, "Put a rate book in force, or go back to one.", "shipcalc rates adopt next-week"),
    ("facts", facts, "Which facts to look up again.", "shipcalc rates facts"),
    ("history", history, "What was in force when.", "shipcalc rates history"),
    ("trace", trace, "From a line of a quote to its cell.", "shipcalc rates trace lindqvist/office/quote.json 2"),
)

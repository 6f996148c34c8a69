"""What a check of a rate book says: faults one by one, notes that say the same of many cells told once."""

import re

from shipcalc.actions.rates import Checked
from shipcalc.cli.look import Look, paragraph, section
from shipcalc.errors import Problem, sentence

# From so many on, notes that differ in nothing but their figures and names are told as one.
_FEWEST_ALIKE = 3
_MOST_CELLS = 6
_FIGURES = re.compile(r'"[^"]*"|[A-Z]{1,3}[0-9]+|[0-9][0-9,.]*')


def checked_lines(found: Checked, look: Look, *, full: bool) -> list[str]:
    """Return the verdict, what is to be corrected, what is to be known: what is missing, what stands alone, what comes often."""
    causes = found.causes
    faults = [str(problem) for problem in found.faults if problem not in causes]
    warnings = [problem for problem in found.problems if problem.severity == "warning" and problem not in causes]
    notes = [*found.missing, *(problem for problem in warnings if problem not in found.missing)]
    verdict = _verdict(len(found.faults), found.fingerprint, lacks=bool(found.missing))
    lines = [look.strong(line) for line in paragraph(look, f"{found.folder}: {verdict}")]
    lines += section(look, "To correct first", [str(cause) for cause in causes], "!")
    lines += section(look, "To correct", faults if full or not causes else _may_follow(faults), "!")
    lines += section(look, "To know", [str(note) for note in notes] if full else _grouped(notes))
    return lines


def _verdict(faults: int, fingerprint: str, *, lacks: bool) -> str:
    if faults == 1:
        return "1 fault: no quote can be made until it is corrected."
    if faults:
        return f"{faults} faults: no quote can be made until they are corrected."
    but = ", but rows are missing that the program ships" if lacks else ""
    return f"No faults{but}. Fingerprint {fingerprint}."


def _may_follow(faults: list[str]) -> list[str]:
    """Return the first faults where a cause of all is known, and how many others there are."""
    rest = len(faults) - _FEWEST_ALIKE
    if rest < _FEWEST_ALIKE:
        return faults
    return [*faults[:_FEWEST_ALIKE], f"{rest} more faults, which may all come of it; --full lists each"]


def _grouped(notes: list[Problem]) -> list[str]:
    groups: dict[tuple[str, str, str], list[Problem]] = {}
    for note in notes:
        groups.setdefault((_sheet(note), _FIGURES.sub("", note.message), _FIGURES.sub("", note.remedy)), []).append(
            note
        )
    alone = [str(note) for group in groups.values() if len(group) < _FEWEST_ALIKE for note in group]
    often = [_told_once(group) for group in groups.values() if len(group) >= _FEWEST_ALIKE]
    return alone + often


def _told_once(group: list[Problem]) -> str:
    first, others = group[0], group[1:]
    cells = [note.cell.rpartition("!")[2] for note in others]
    more = "" if len(cells) <= _MOST_CELLS else " …"
    listed = f": {', '.join(cells[:_MOST_CELLS])}{more}" if "!" in first.cell else ""
    told = f"{first.message} (and {len(others)} more like it{listed}; --full lists each)"
    return sentence(told, where=first.cell, remedy=first.remedy)


def _sheet(note: Problem) -> str:
    return note.cell.rpartition("!")[0]

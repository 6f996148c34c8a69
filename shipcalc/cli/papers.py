"""The papers of a shipment, filled in: papers."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.at_register import Number, Today, desk_of
from shipcalc.cli.look import Look, bullets, paragraph, section, show_found
from shipcalc.cli.options import AsJson, OutFolder, option

if TYPE_CHECKING:
    from shipcalc.actions.papers import Papers, Written


def papers(
    number: Number,
    only: Annotated[
        list[str] | None, option("--only", "PAPER", "This paper alone; its name may be begun only. May be repeated.")
    ] = None,
    choice: Annotated[
        int | None, option("--choice", "N", "Before the yes: of choice N instead of the recommended one.")
    ] = None,
    out: OutFolder = None,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Write the papers of a quote or shipment as PDF, filled in as far as they are known, and say what is missing and where
    it is filled in. They are drafts: somebody reads each before it is signed."""
    from shipcalc.actions.papers import write_papers

    desk = desk_of(as_of)
    made = write_papers(
        number,
        desk,
        out=out or Path("papers") / number,
        which=only or (),
        size=desk.settings.paper,
        choice=None if choice is None else choice - 1,
    )
    show_found(made, papers_json, papers_lines, as_json=as_json)


def papers_lines(made: "Papers", look: Look) -> list[str]:
    """Return what was written, what is missing, each once, and which papers were left for another time."""
    folder = made.written[0].file.parent
    count = f"{len(made.written)} papers" if len(made.written) > 1 else "1 paper"
    lines = [
        look.strong(line)
        for line in paragraph(look, f"{made.number}: {count} in {folder}, drafts to be read before they are signed")
    ]
    lines += bullets(look, [f"{one.file.name}{_lacking(one)}" for one in made.written])
    lines += section(look, "Missing, and where it is filled in", _where(made), "!")
    if made.others:
        lines += section(look, "Also asked for", [kind.code for kind in made.others])
    return lines


def _lacking(one: "Written") -> str:
    missing = len({field.wanted for field in one.paper.missing()})
    return f" ({missing} missing)" if missing else ""


def _where(made: "Papers") -> list[str]:
    """Return each thing that is missing once, however many papers want it; what is written by hand in one line at the end."""
    from shipcalc.documents.papers.paper import BY_HAND

    found: dict[str, dict[str, None]] = {}
    for one in made.written:
        for field in one.paper.missing():
            found.setdefault(field.where, {})[field.wanted] = None
    return [
        f"{', '.join(labels)}: {where}" for where, labels in sorted(found.items(), key=lambda one: one[0] == BY_HAND)
    ]


def papers_json(made: "Papers") -> str:
    """Return `{"number", "papers": [{"paper", "title", "vehicle", "file", "missing": [{"field", "where"}]}], "others"}`."""
    from shipcalc.cli.listing import to_json

    return to_json(
        {
            "number": made.number,
            "papers": [
                {
                    "paper": one.paper.code,
                    "title": one.paper.title,
                    "vehicle": one.paper.vehicle,
                    "file": str(one.file),
                    "missing": [{"field": field.wanted, "where": field.where} for field in one.paper.missing()],
                }
                for one in made.written
            ],
            "others": [kind.code for kind in made.others],
        }
    )


COMMANDS = (("papers", papers, "A shipment's papers, filled in.", "shipcalc papers 3 --out papers"),)

"""A checklist on the terminal: what is to be done, by whom and by when."""

from datetime import date

from shipcalc.actions.checklist import Checklist
from shipcalc.cli.listing import to_json
from shipcalc.cli.look import Column, Look, heading, paragraph, table
from shipcalc.cli.words import short_day, vehicle_names
from shipcalc.documents.wording import place as place_name


def checklist_lines(made: Checklist, look: Look) -> list[str]:
    """Return the tasks and the papers in the order they are due."""
    quote, option = made.quote, made.option
    title = f"{vehicle_names(quote.vehicles)} to {place_name(quote.to)}, {option.title.lower()}"
    several = len(quote.vehicles) > 1
    tasks = [
        (
            _due(task.due, look),
            task.owner,
            _named(task.title, task.vehicle, several),
            "yes" if task.critical else "",
            task.proof,
        )
        for task in option.tasks
    ]
    papers = [
        (_due(paper.due, look), paper.prepared_by, _named(paper.title, paper.vehicle, several), paper.given_to)
        for paper in option.documents
    ]
    task_columns = (
        Column("Due"),
        Column("Who"),
        Column("Task", wraps=True),
        Column("Must"),
        Column("Proof", wraps=True),
    )
    paper_columns = (Column("Due"), Column("From"), Column("Paper", wraps=True), Column("To"))
    return [
        *[look.strong(line) for line in paragraph(look, title)],
        *heading(look, "Tasks"),
        *table(look, task_columns, tasks),
        *(heading(look, "Papers") if papers else []),
        *(table(look, paper_columns, papers) if papers else []),
    ]


def checklist_json(made: Checklist) -> str:
    """Return `{"file": "…", "tasks": [{…}], "documents": [{…}]}`."""
    from shipcalc.quote.as_data import plain

    return to_json(
        {
            "file": str(made.file),
            "tasks": [plain(task) for task in made.option.tasks],
            "documents": [plain(paper) for paper in made.option.documents],
        }
    )


def _due(when: date, look: Look) -> str:
    return short_day(when) if look.width else when.isoformat()


def _named(title: str, vehicle: str | None, several: bool) -> str:
    return f"{title}, {vehicle}" if several and vehicle else title

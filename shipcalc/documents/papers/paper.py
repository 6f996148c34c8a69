"""What a paper is made of, whichever it is: boxes, a table, sentences, cautions, lines to sign on."""

from collections.abc import Iterator, Mapping
from typing import Any

from shipcalc.documents import stationery
from shipcalc.documents.papers.facts import Facts
from shipcalc.records import dataclass
from shipcalc.typeset.typesetting import typeset

TEMPLATE = "documents/papers/paper.typ"
DRAFT = "Draft: to be read and completed before anybody signs it"
BY_HAND = "by hand, on the paper"


@dataclass(frozen=True, slots=True)
class Field:
    """One box or cell: what it is called and what stands in it, lines divided by "\\n".

    `where` is how a missing one is filled in; without it the field may stay empty. `lacks` is what else must stand in it and is
    not known, such as the address of somebody whose name is.
    """

    label: str
    told: str
    where: str = ""
    lacks: str = ""

    @property
    def is_missing(self) -> bool:
        """Return whether something must stand here that is not known."""
        return bool(self.where) and (bool(self.lacks) or not self.told.strip())

    @property
    def wanted(self) -> str:
        """Return what is to be filled in: the field, or what it lacks."""
        return f"{self.label}: {self.lacks}" if self.lacks else self.label


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """What is listed: `columns` are (title, whether it holds figures); a row has a field for each; `sums` are rows in
    bold. `by_hand`: what is empty in it is written with a pen."""

    columns: tuple[tuple[str, bool], ...]
    rows: tuple[tuple[Field, ...], ...]
    sums: tuple[tuple[str, ...], ...] = ()
    wide: int = 0
    by_hand: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """One paper. `boxes` are rows of one or two; `opening` and `sentences` are paragraphs above and below boxes and table.

    `after` says which layout or law the boxes follow. `drawing` is what a template of its own shows beside them. A form that
    is filled in with a pen is no draft: `draft` is empty.
    """

    code: str
    title: str
    vehicle: str = ""
    to: tuple[str, ...] = ()
    opening: tuple[str, ...] = ()
    boxes: tuple[tuple[Field, ...], ...] = ()
    table: Table | None = None
    sentences: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    signatures: tuple[str, ...] = ()
    after: str = ""
    draft: str = DRAFT
    template: str = TEMPLATE
    drawing: Mapping[str, Any] | None = None

    @property
    def name(self) -> str:
        """Return the name of its file, without ending."""
        return f"{self.code}-{self.vehicle}" if self.vehicle else self.code

    def fields(self) -> Iterator[Field]:
        """Yield all that can be filled in."""
        for row in self.boxes:
            yield from row
        if self.table:
            for row in self.table.rows:
                yield from row

    def missing(self) -> tuple[Field, ...]:
        """Return what is yet to be filled in."""
        return tuple(one for one in self.fields() if one.is_missing)


def paper_pdf(paper: Paper, facts: Facts) -> bytes:
    """Return a paper as PDF, on the paper of the dealer's country."""
    data = {**stationery.head(facts.quote, facts.logo), **paper_data(paper)}
    return typeset(paper.template, data, paper=facts.size, language="en", day=facts.day)


def paper_data(paper: Paper) -> Mapping[str, Any]:
    """Return what the template sets."""
    table = paper.table
    return {
        "title": paper.title,
        "draft": paper.draft or None,
        "to": paper.to,
        "opening": paper.opening,
        "boxes": [[_field(one) for one in row] for row in paper.boxes],
        "table": table
        and {
            "columns": [{"title": title, "figures": figures} for title, figures in table.columns],
            "wide": table.wide,
            "by_hand": table.by_hand,
            "rows": [[_field(one) for one in row] for row in table.rows],
            "sums": table.sums,
        },
        "sentences": paper.sentences,
        "cautions": paper.cautions,
        "signatures": paper.signatures,
        "after": paper.after,
        "drawing": paper.drawing,
    }


def _field(one: Field) -> Mapping[str, Any]:
    return {"label": one.label, "told": one.told, "missing": one.is_missing, "lacks": one.lacks}

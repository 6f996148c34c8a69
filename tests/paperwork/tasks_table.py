"""What is needed for a shipment, laid out for a forwarder to read, and what must be true of it.

Every delivery term × RoRo, container and truck × every kind of title, for a shipment to Germany by sea, to Canada by road.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from itertools import combinations, pairwise, product

from shipcalc.paperwork.needs import Facts, as_travelled, documents_needed, rules_of, tasks_needed
from shipcalc.quote.price.terms import TERMS, Term, find_term
from shipcalc.ratebook.rows.paperwork import DocumentRow, TaskRow
from shipcalc.records import dataclass, replace
from shipcalc.trade import MOMENTS, TITLES

MODES = ("roro", "container", "truck")
LOADED = {"roro": "driven", "container": "container", "truck": "truck", "collected": None}

# Under the E and F rules the buyer contracts for the main carriage, under the C and D rules the seller; the buyer clears for export
# under EXW alone, the seller for import under DDP alone; CIF and CIP oblige the seller to insure; DPU to unload. (The grouping of
# Incoterms 2020 as every published chart shows it; from memory, the rules' text was not read.)
BUYER_BOOKS = frozenset({"EXW", "FCA", "FAS", "FOB"})
BUYER_EXPORTS = frozenset({"EXW"})
SELLER_IMPORTS = frozenset({"DDP"})
MUST_INSURE = frozenset({"CIF", "CIP"})
SELLER_UNLOADS = frozenset({"DPU"})

# The stages that a truck all the way has not: no ports, and one carriage only.
PORTS = frozenset({"origin terminal", "loading on vessel", "destination terminal", "pre-carriage", "on-carriage"})
AT_HOME = ("title", "title-sent", "title-received")
ABROAD = ("title", "title-export", "papers-presented", "title-back", "originals-sent", "originals-received")


@dataclass(frozen=True)
class Case:
    """One shipment and what it needs."""

    term: Term
    mode: str
    title: str
    facts: Facts
    tasks: Sequence[TaskRow]
    papers: Sequence[DocumentRow]

    @property
    def by_code(self) -> Mapping[str, TaskRow]:
        return {row.code: row for row in self.tasks}

    def __str__(self) -> str:
        return f"{column(self.term)} {self.mode} {self.title}"


def column(term: Term) -> str:
    """Return a term with its place where it can be had at two."""
    return term.code if find_term(term.code) == term and _once(term) else f"{term.code} {term.place}"


def _once(term: Term) -> bool:
    return sum(other.code == term.code for other in TERMS) == 1


def facts_of(term: Term, mode: str, title: str, *, abroad: bool = True, **others: object) -> Facts:
    """Return the facts of a shipment to Germany by sea, to Canada by road, or within the United States."""
    country = ("CA" if mode == "truck" else "DE") if abroad else "US"
    facts = Facts(
        day=date(2026, 12, 1),
        overseas=abroad,
        export_filing=abroad,
        to_country=country,
        mode=mode,
        loaded=LOADED[mode],
        term=term.code,
        seller_pays=as_travelled(term.seller_pays, mode),
        treatment="ordinary" if abroad else None,
        trailer="open",
        title=title,
        value_minor=4_000_000,
        age_years=40,
    )
    return replace(facts, **others)


def cases(tasks: Sequence[TaskRow], papers: Sequence[DocumentRow]) -> tuple[Case, ...]:
    """Return all shipments abroad with what they need by these tables."""
    task_rules, paper_rules = rules_of(tasks), rules_of(papers)
    return tuple(
        Case(term, mode, title, facts, tasks_needed(task_rules, facts), documents_needed(paper_rules, facts))
        for term, mode, title in product(TERMS, MODES, TITLES)
        for facts in (facts_of(term, mode, title),)
    )


def home_cases(tasks: Sequence[TaskRow], papers: Sequence[DocumentRow]) -> tuple[Case, ...]:
    """Return the shipments at home: delivered by truck, or collected at the yard."""
    delivered, collected = find_term("DAP"), find_term("EXW")
    assert delivered is not None
    assert collected is not None
    task_rules, paper_rules = rules_of(tasks), rules_of(papers)
    return tuple(
        Case(term, mode, title, facts, tasks_needed(task_rules, facts), documents_needed(paper_rules, facts))
        for (term, mode), title in product(((delivered, "truck"), (collected, "collected")), TITLES)
        for facts in (facts_of(term, mode, title, abroad=False),)
    )


def before(case: Case, code: str) -> frozenset[str]:
    """Return all tasks that come before one, straight away or through others."""
    found: set[str] = set()
    ahead = [code]
    while ahead:
        for name in case.by_code[ahead.pop()].after:
            if name not in found:
                found.add(name)
                ahead.append(name)
    return frozenset(found)


def broken_titles(case: Case, chain: Sequence[str]) -> Iterator[str]:
    """A title, or what stands in its place, is signed, sent and received, in this order; abroad customs see and stamp it between."""
    for earlier, later in pairwise(chain):
        if {earlier, later} - set(case.by_code):
            yield f"{case}: {earlier} or {later} is missing"
        elif earlier not in before(case, later):
            yield f"{case}: {later} does not wait for {earlier}"


def wrong_bookings(case: Case) -> Iterator[str]:
    """Whoever pays for the main carriage books it."""
    buyer_books, held = case.term.code in BUYER_BOOKS, case.by_code
    if case.mode == "truck":
        booked = ("buyers-haulier", "transport-order") if buyer_books else ("transport-order", "buyers-haulier")
        if booked[0] not in held or booked[1] in held:
            yield f"{case}: the truck is booked by the wrong side"
    elif "booking" not in held or (held["booking"].owner == "sales") != buyer_books:
        yield f"{case}: the ship is booked by the wrong side"


def wrong_duties(case: Case) -> Iterator[str]:
    """Clearance, cover and unloading are seen to by the side that owes them."""
    code, held = case.term.code, case.by_code
    if ("buyer" in held["export-filing"].task) != (code in BUYER_EXPORTS):
        yield f"{case}: the wrong side files the export"
    if (held["import-authority"].owner == "office") != (code in SELLER_IMPORTS):
        yield f"{case}: the wrong side imports"
    if ("importer-number" in held) != (code in SELLER_IMPORTS):
        yield f"{case}: an importer's number is asked of the wrong side"
    owed = "marine-certificate" in held and "owes the buyer" in held["marine-certificate"].task
    if owed != (code in MUST_INSURE):
        yield f"{case}: the cover that the term owes"
    if ("buyers-cover" in held) == ("cargo insurance" in case.term.seller_pays):
        yield f"{case}: the buyer is told about the cover although it is the seller's, or is not told"
    if ("unloading" in held and held["unloading"].owner == "forwarder") != (code in SELLER_UNLOADS):
        yield f"{case}: the wrong side unloads"


def impossible_orders(case: Case) -> Iterator[str]:
    """Every task waits only for tasks that are there, none for itself, none for one of a later moment."""
    held = case.by_code
    for code, row in held.items():
        yield from (f"{case}: {code} waits for {name}, which is not there" for name in row.after if name not in held)
    if any(set(row.after) - set(held) for row in case.tasks):
        return
    for code, row in held.items():
        if code in before(case, code):
            yield f"{case}: {code} waits for itself"
        for name in row.after:
            if MOMENTS.index(held[name].stage) > MOMENTS.index(row.stage):
                yield f"{case}: {code} ({row.stage}) waits for {name} ({held[name].stage})"


def papers_nobody_sees_to(case: Case) -> Iterator[str]:
    """Each paper has its task."""
    yield from (f"{case}: nobody sees to {row.code}" for row in case.papers if row.code not in case.by_code)


def rows_without_source(case: Case) -> Iterator[str]:
    """Each row says where it is from."""
    yield from (f"{case}: {row.code} has no source" for row in (*case.tasks, *case.papers) if not row.source)


CHECKS = (wrong_bookings, wrong_duties, impossible_orders, papers_nobody_sees_to, rows_without_source)


def faults(case: Case) -> list[str]:
    """Return all that is wrong with one shipment abroad."""
    return [*broken_titles(case, ABROAD), *(fault for check in CHECKS for fault in check(case))]


def same_lists(found: Sequence[Case]) -> list[str]:
    """No two terms under which other sides pay for something give the same list."""
    return [
        f"{one.mode}, {one.title}: {column(one.term)} and {column(other.term)} give the same list"
        for mode, title in product(MODES, TITLES)
        for one, other in combinations([case for case in found if (case.mode, case.title) == (mode, title)], 2)
        if _paid(one) != _paid(other) and _listed(one) == _listed(other)
    ]


def _paid(case: Case) -> frozenset[str]:
    return case.facts.seller_pays - (PORTS if case.mode == "truck" else frozenset())


def _listed(case: Case) -> frozenset[tuple[str, str]]:
    return frozenset((row.code, row.task) for row in case.tasks) | {(row.code, row.document) for row in case.papers}


def table(found: Sequence[Case], home: Sequence[Case]) -> str:
    """Return all of it as a page of tables."""
    return "\n".join([*_HEAD, *(line for part in _parts(found, home) for line in part)]) + "\n"


_HEAD = (
    "# What is done and which papers there are, by delivery term, way and title",
    "",
    "Made by `tests/paperwork/test_tasks_by_term.py` from the rows that come with the program; `REWRITE=1` writes it anew.",
    "A dot: needed under that term. Due: the moment, and days after it (before it: negative). The kinds of title differ only in the",
    "rows of the last tables; a test holds that. By sea the shipment goes to Germany, by road to Canada; the vehicle is 40 years old,",
    "is driven aboard or stands in a container, and its balance is due before pickup.",
    "Not legal advice: each row says its source, and how far it is to be trusted.",
    "",
)


def _parts(found: Sequence[Case], home: Sequence[Case]) -> Iterator[list[str]]:
    names = {"roro": "Over the sea, RoRo", "container": "Over the sea, container", "truck": "By truck over a border"}
    columns = [column(term) for term in TERMS]
    for mode in MODES:
        clean = {column(case.term): case for case in found if (case.mode, case.title) == (mode, "clean")}
        for what, heading in (("tasks", "tasks"), ("papers", "papers")):
            yield _table(f"{names[mode]}: {heading}, clean title", clean, columns, what)
    for mode in MODES:
        by_title = {case.title: case for case in found if case.mode == mode and case.term.code == "DAP"}
        for what in ("tasks", "papers"):
            yield _table(f"{names[mode]}, DAP: {what} that depend on the title", by_title, TITLES, what, differing=True)
    for mode, name in (("truck", "At home, delivered by truck"), ("collected", "At home, collected by the buyer")):
        by_title = {case.title: case for case in home if case.mode == mode}
        for what in ("tasks", "papers"):
            yield _table(f"{name}: {what}", by_title, TITLES, what)


def _table(
    heading: str, by_column: Mapping[str, Case], columns: Sequence[str], what: str, *, differing: bool = False
) -> list[str]:
    lines: dict[tuple[str, str, str, str, str], list[str]] = {}
    for name in columns:
        rows = by_column[name].tasks if what == "tasks" else by_column[name].papers
        for row in rows:
            lines.setdefault(_line(row), []).append(name)
    codes = [row.code for case in by_column.values() for row in (case.tasks if what == "tasks" else case.papers)]
    order = {code: number for number, code in enumerate(dict.fromkeys(codes))}
    shown = {line: held for line, held in lines.items() if not differing or len(held) < len(columns)}
    if not shown:
        return []
    by = "Done by" if what == "tasks" else "From → to"
    out = [f"## {heading}", "", f"| What | {by} | Due | {' | '.join(columns)} | Source |"]
    out.append("|---|---|---|" + ":-:|" * len(columns) + "---|")
    for line in sorted(shown, key=lambda line: (MOMENTS.index(line[2].split(" +")[0].split(" −")[0]), order[line[4]])):
        said, who, due, source, _ = line
        dots = " | ".join("•" if name in shown[line] else "" for name in columns)
        out.append(f"| {said} | {who} | {due} | {dots} | {source} |")
    return [*out, ""]


def _line(row: TaskRow | DocumentRow) -> tuple[str, str, str, str, str]:
    due = row.stage + (f" +{row.days}" if row.days > 0 else f" −{-row.days}" if row.days else "")
    if isinstance(row, TaskRow):
        takes = f" (takes {row.takes_days} days)" if row.takes_days else ""
        return f"{row.task}{takes}", row.owner, due, row.source or "", row.code
    return row.document, f"{row.prepared_by} → {row.given_to or ''}", due, row.source or "", row.code

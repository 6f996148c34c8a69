"""Templates filled in: a whole page inside the frame that all pages share, or a part of one."""

from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from shipcalc.actions.sources import Sources
from shipcalc.desk.who import WHO

# Address, name and what it is for: the frame's row of pages.
PAGES = (("/", "Call"), ("/office", "Office"), ("/rates", "Rates"))
_TEMPLATES = Environment(
    loader=FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


def whole_page(template: str, sources: Sources, *, here: str, **data: Any) -> str:
    """Return a page inside the frame; `here` is its address in the row of pages."""
    dealer = sources.settings.dealer.name or "The dealer"
    mine = [(address, name) for address, name in PAGES if WHO.get().may(address)] if here != "/sign-in" else []
    return part(
        template, dealer=dealer, invented=sources.rates.invented, pages=mine, here=here, who=WHO.get().name, **data
    )


def part(template: str, **data: Any) -> str:
    """Return a part of a page. Every text in it is escaped."""
    return _TEMPLATES.get_template(template).render(data)

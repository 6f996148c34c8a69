"""What the printed pages look like, as far as a machine can tell: few pages, none empty, nothing clipped to ####."""

import pytest

from shipcalc.documents.buyer.workbook import write_buyer_workbook
from shipcalc.documents.office.workbook import write_office_workbook
from shipcalc.sheets.paging import breaks


def test_pages_are_few_and_none_is_empty(make_quote, every_row, many_vehicles, printed, tmp_path) -> None:
    quotes = {
        "two": (make_quote(choices=2), 3, 2),
        "three": (make_quote(choices=3, rows=every_row), 3, 3),
        "five": (make_quote(choices=4, vehicles=many_vehicles, rows=every_row), 5, 5),
        "yen": (make_quote(choices=2, currency="JPY", scale="15100"), 3, 2),
    }
    for name, (quote, _, _) in quotes.items():
        for paper in ("letter", "a4"):
            write_buyer_workbook(quote, tmp_path / f"{name}-{paper}-buyer.xlsx", paper=paper)
            write_office_workbook(quote, tmp_path / f"{name}-{paper}-office.xlsx", paper=paper)
    pages = printed(sorted(tmp_path.glob("*.xlsx")))
    for name, (_, most_buyer, most_office) in quotes.items():
        for paper in ("letter", "a4"):
            buyer, office = pages[f"{name}-{paper}-buyer.xlsx"], pages[f"{name}-{paper}-office.xlsx"]
            assert len(buyer) <= most_buyer, (name, paper)
            assert len(office) <= most_office, (name, paper)
            for number, text in enumerate([*buyer, *office]):
                assert "###" not in text, (name, paper, number)
                assert len(text.split()) > 30, f"{name} {paper}: page {number + 1} is all but empty"
            assert "How to accept" in buyer[0], "the front is one page"
            assert "How to accept" not in "".join(buyer[1:])
            for text in (*buyer[1:], *office[1:]):
                assert not torn(text), (name, paper, text[:200])


def torn(text: str) -> bool:
    """Whether a page begins with a sum whose lines stand on the page before, or ends with a heading alone."""
    lines = [line.split() for line in text.splitlines() if line.strip()]
    head, *others = [line for line in lines if line[:1] != ["Line"]] or [[]]
    last = others[-2] if len(others) > 1 else head  # above the foot of the page
    return head[:1] in (["Together"], ["Total"]) or last[:2] in (["When", "it"], ["Papers", "Who"], ["Please", "note"])


@pytest.mark.parametrize(
    ("sections", "expected"),
    [
        ([[100], [300], [200]], []),
        ([[100], [300], [300]], [(2, 0)]),
        ([[100], [550], [550]], [(1, 0), (2, 0)]),
        ([[100], [200, 200, 200, 200, 200]], [(1, 2)]),
        ([[100], [1500], [100]], [(1, 0)]),
        ([[600], [600]], [(1, 0)]),
    ],
)
def test_pages_break_between_what_belongs_together(sections, expected) -> None:
    """A page holds 600; a section that fits on one is not divided, a longer one is divided between its blocks."""
    assert list(breaks(sections, 600.0)) == expected

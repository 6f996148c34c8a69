"""Where printed pages begin, so that what belongs together stands together."""

from collections.abc import Iterator, Sequence

from shipcalc.records import dataclass
from shipcalc.sheets.lettering import PIXELS_PER_UNIT, WIDEST_PIXELS_PER_UNIT
from shipcalc.sheets.writing import USUAL_MARGINS, Page, Paper

Block = tuple[int, int]  # first and last row of what should not be torn apart

# ISO 216 and ANSI/ASME Y14.1 (A): width and height in inches, upright.
_PAPER_INCHES = {"a4": (8.268, 11.693), "letter": (8.5, 11.0)}
_POINTS_PER_INCH, _PIXELS_PER_INCH = 72, 96
_SPARE = 0.985  # printers differ a little


@dataclass(frozen=True, slots=True)
class Room:
    """What a printed page has room for, counted at the size on the screen."""

    wide_px: float
    high_points: float


def page_room(paper: Paper, *, percent: int, landscape: bool = False) -> Room:
    """Return the room of a page that is printed at `percent`."""
    wide, high = _PAPER_INCHES[paper][:: -1 if landscape else 1]
    edges = USUAL_MARGINS
    share = _SPARE * 100 / percent
    return Room(
        wide_px=(wide - edges.left - edges.right) * _PIXELS_PER_INCH * share,
        high_points=(high - edges.top - edges.bottom) * _POINTS_PER_INCH * share,
    )


def between(starts: Sequence[int], after: int) -> list[Block]:
    """Return the block from each start to the next, the last one to before row `after`; without those that hold no row."""
    return [(first, end - 1) for first, end in zip(starts, [*starts[1:], after], strict=True) if first < end]


def flow(
    page: Page,
    columns: str,
    sections: Sequence[Sequence[Block]],
    *,
    percent: int,
    repeated: int = 0,
    landscape: bool = False,
) -> None:
    """Print `columns` ("A:F") at `percent` of their size, the same for all sheets of a workbook.

    Pages break between sections, or else between blocks; a section that fits on a page is not divided. `repeated` is the row
    that stands again at the head of every page.
    """
    wide_px = page.room_px(columns) * WIDEST_PIXELS_PER_UNIT / PIXELS_PER_UNIT
    room = page_room(page.book.paper, percent=percent, landscape=landscape)
    assert wide_px <= room.wide_px, f"{columns} of {page.name} are too wide for a page at {percent} %"
    heights = [[_height(page, block) for block in section] for section in sections]
    head = page.row_height(repeated) if repeated else 0.0
    page.print_on(page.book.paper, landscape=landscape, percent=percent)
    first, _, last = columns.partition(":")
    page.print_area(f"{first}1:{last}{max(block[1] for section in sections for block in section)}")
    if repeated:
        page.repeat_rows(repeated, repeated)
    for section, block in breaks(heights, room.high_points, head):
        page.page_break(sections[section][block][0] - 1)


def breaks(sections: Sequence[Sequence[float]], room: float, head: float = 0.0) -> Iterator[tuple[int, int]]:
    """Yield (section, block) of each block that begins a new page, given the heights; `head` is taken from later pages."""
    used = 0.0
    for number, section in enumerate(sections):
        whole = sum(section)
        if used and used + whole > room and whole <= room - head:
            yield number, 0
            used = head
        for place, height in enumerate(section):
            if used > head and used + height > room and (place or whole > room - head):
                yield number, place
                used = head
            used += height
            while used > room:  # a block longer than a page runs on
                used += head - room


def _height(page: Page, block: Block) -> float:
    return sum(page.row_height(row) for row in range(block[0], block[1] + 1))

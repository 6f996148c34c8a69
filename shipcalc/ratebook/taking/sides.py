"""Which columns of a table say where its rows go from and to."""

from collections.abc import Mapping

from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.traits import bare_words
from shipcalc.records import dataclass

PARTS = ("place", "city", "state", "zip", "zip_low", "zip_high", "zone", "country")


@dataclass(frozen=True, slots=True)
class Side:
    """The columns that say one end of a row, by part (city, ZIP …)."""

    columns: Mapping[str, tuple[BlockColumn, ...]]

    def __bool__(self) -> bool:
        return bool(self.columns)

    @property
    def ats(self) -> tuple[int, ...]:
        """Return where the columns stand."""
        return tuple(column.at for columns in self.columns.values() for column in columns)


@dataclass(frozen=True, slots=True)
class Sides:
    """The columns of both ends, and of lanes in one cell; `zips_unclear` where two columns of ZIPs may be a span or two ends."""

    start: Side
    end: Side
    lane: BlockColumn | None = None
    zips_unclear: bool = False


def sides_of(block: Block, around: Around) -> Sides:
    """Return which columns say where a row goes from and to."""
    lanes = block.of("lane")
    start, end = _side(block, "from_"), _side(block, "to_")
    bare = {part: block.of(part) for part in PARTS if block.of(part)}
    bare |= {part: block.of(part) for part in ("zip_low", "zip_high") if block.of(part)}
    ports = {"port": block.of("pol")} if block.of("pol") else {}
    ports_end = {"port": block.of("pod")} if block.of("pod") else {}
    if is_from_port_by_road(block):
        return Sides(Side(ports or ports_end), Side(end or bare))
    if ports or ports_end:
        return Sides(
            Side({**start, **ports}) if ports else Side(start), Side({**end, **ports_end}) if ports_end else Side(end)
        )
    if lanes:
        return Sides(Side({}), Side({}), lanes[0])
    zips_alone = set(start) == {"zip"} and set(end) == {"zip"} and _may_be_span(block, start["zip"][0], end["zip"][0])
    answered = around.answers.get("zips")
    if zips_alone and answered != "from and to":
        span = Side({"zip_low": start["zip"], "zip_high": end["zip"]})
        return Sides(Side({}), span, None, zips_unclear=not answered and not around.facts.start)
    if bare and not end:
        end = bare
    elif bare and not start and "port" not in bare:
        start = bare if set(bare) & {"city", "state", "zip", "place", "zip_low"} and not around.facts.start else {}
    return Sides(Side(start), Side(end))


def is_from_port_by_road(block: Block) -> bool:
    """Return whether a table has one column of ports and one of towns, codes or zones beyond: a road from the port."""
    pol, pod = bool(block.of("pol")), bool(block.of("pod"))
    beyond = ("to_city", "to_zip", "to_zone", "to_state", "to_country", "city", "zip", "zone", "state", "zip_low")
    if pod and not pol:
        return bool(block.of("to_place", *beyond)) and not block.of("mode", "container")
    return pol and not pod and bool(block.of(*beyond)) and not block.of("mode", "container")


def _may_be_span(block: Block, low: BlockColumn, high: BlockColumn) -> bool:
    """Return whether two columns headed "ZIP from" and "ZIP to" may be a span: no other word, and none from high to low."""
    words = set(bare_words(f"{low.header} {high.header}").split())
    if words - {"from", "to", "zip", "zips", "code", "zip3", "zip5", "prefix", "postal", "3"}:
        return False
    pairs = [(block.page.text(row, low.at), block.page.text(row, high.at)) for row in block.rows]
    told = [(first, last) for first, last in pairs if first.isdecimal() and last.isdecimal()]
    return bool(told) and all(len(first) == len(last) and first <= last for first, last in told)


def _side(block: Block, side: str) -> dict[str, tuple[BlockColumn, ...]]:
    return {part: found for part in PARTS if (found := block.of(f"{side}{part}"))}

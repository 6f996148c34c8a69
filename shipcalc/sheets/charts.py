"""Native charts in our look: quiet lying bars, no frame, no grid."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from shipcalc.sheets import look
from shipcalc.sheets.writing import Page

if TYPE_CHECKING:
    from openpyxl.chart import BarChart

# Light and dark in turn, so that the parts of a bar differ also in black and white.
TINTS = (look.ACCENT, "9DBABE", "5F7F84", "D9B48F", "8A8F94", "DDE0E3")


def put_bars(
    page: Page,
    anchor: str,
    *,
    labels: str,
    series: Sequence[tuple[str, str]],
    width_cm: float,
    height_cm: float,
    shown_as: str = look.WHOLE,
    most: float | None = None,
) -> None:
    """Draw lying bars, their parts one behind the other. `labels` and each series' (name, cells) are ranges of the page."""
    chart = _chart(page, labels, [cells for _, cells in series], [name for name, _ in series])
    chart.y_axis.scaling.min, chart.y_axis.scaling.max = 0, most
    chart.y_axis.numFmt.formatCode = shown_as
    if len(series) > 1:
        chart.legend.position, chart.legend.txPr = "b", _letters()
    else:
        chart.legend = None
    page.place_chart(anchor, chart, width_cm=width_cm, height_cm=height_cm)


def _chart(page: Page, labels: str, ranges: Sequence[str], names: Sequence[str]) -> "BarChart":
    """Return stacked lying bars, the first label on top, its values along the foot."""
    from openpyxl.chart import BarChart, Reference, Series
    from openpyxl.chart.data_source import NumFmt
    from openpyxl.chart.shapes import GraphicalProperties
    from openpyxl.drawing.line import LineProperties

    chart = BarChart()
    chart.type, chart.grouping, chart.overlap, chart.gapWidth = "bar", "stacked", 100, 55
    for number, (name, cells) in enumerate(zip(names, ranges, strict=True)):
        bars = Series(Reference(range_string=page.address(cells)), title=name)
        bars.graphicalProperties = GraphicalProperties(
            solidFill=TINTS[number % len(TINTS)], ln=LineProperties(solidFill=look.WHITE)
        )
        chart.series.append(bars)
    chart.set_categories(Reference(range_string=page.address(labels)))
    chart.x_axis.scaling.orientation = "maxMin"
    for axis, line in (
        (chart.x_axis, LineProperties(solidFill=look.RULE)),
        (chart.y_axis, LineProperties(noFill=True)),
    ):
        axis.delete = False
        axis.majorTickMark = "none"
        axis.txPr = _letters()
        axis.graphicalProperties = GraphicalProperties(ln=line)
    chart.y_axis.majorGridlines = None
    chart.y_axis.numFmt = NumFmt(formatCode="General", sourceLinked=False)
    chart.y_axis.crosses = "max"
    chart.graphical_properties = GraphicalProperties(noFill=True, ln=LineProperties(noFill=True))
    return chart


def _letters() -> Any:
    """Return the lettering of axes and legend: small and grey."""
    from openpyxl.chart.text import RichText
    from openpyxl.drawing.text import CharacterProperties, Font, Paragraph, ParagraphProperties

    letters = CharacterProperties(sz=900, b=False, solidFill=look.GREY, latin=Font(typeface=look.FONT))
    return RichText(p=[Paragraph(pPr=ParagraphProperties(defRPr=letters), endParaRPr=letters)])

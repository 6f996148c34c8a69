"""Native charts in our look: quiet lying bars, no frame, no grid."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from shipcalc.sheets import look

if TYPE_CHECKING:
    from openpyxl.chart import BarChart
    from openpyxl.worksheet.worksheet import Worksheet

# From dark to light, so that the parts of a bar differ also without colour.
TINTS = (look.ACCENT, "6E9AA0", "B9CDD0", "D9B48F", "8A8F94", "DDE0E3")


def bar_chart(
    sheet: "Worksheet",
    *,
    labels: str,
    series: Sequence[tuple[str, str]],
    title: str,
    stacked: bool,
    number_format: str,
) -> "BarChart":
    """Return a chart of lying bars whose labels and series are cell ranges of the sheet; the first label stands on top."""
    from openpyxl.chart import BarChart, Series
    from openpyxl.chart.shapes import GraphicalProperties
    from openpyxl.drawing.line import LineProperties

    chart = BarChart()
    chart.type = "bar"
    chart.grouping = "stacked" if stacked else "clustered"
    chart.overlap = 100 if stacked else 0
    chart.gapWidth = 60
    chart.title = _text(title, 1000) if title else None
    for number, (name, cells) in enumerate(series):
        bars = Series(_reference(sheet, cells), title=name)
        bars.graphicalProperties = GraphicalProperties(solidFill=TINTS[number % len(TINTS)])
        bars.graphicalProperties.line = LineProperties(solidFill=look.WHITE)
        chart.series.append(bars)
    chart.set_categories(_reference(sheet, labels))
    chart.x_axis.scaling.orientation = "maxMin"
    chart.x_axis.majorTickMark = chart.y_axis.majorTickMark = "none"
    chart.x_axis.delete = chart.y_axis.delete = False
    chart.x_axis.txPr = chart.y_axis.txPr = _letters()
    chart.x_axis.graphicalProperties = GraphicalProperties(ln=LineProperties(solidFill=look.RULE))
    chart.y_axis.graphicalProperties = GraphicalProperties(ln=LineProperties(noFill=True))
    chart.y_axis.majorGridlines = None
    chart.y_axis.number_format, chart.y_axis.numFmt.sourceLinked = number_format, False
    chart.y_axis.crosses = "max"
    if len(series) > 1:
        chart.legend.position, chart.legend.txPr = "b", _letters()
    else:
        chart.legend = None
    chart.graphical_properties = GraphicalProperties(noFill=True, ln=LineProperties(noFill=True))
    return chart


def _reference(sheet: "Worksheet", cells: str) -> Any:
    from openpyxl.chart import Reference
    from openpyxl.utils import absolute_coordinate

    return Reference(range_string=f"'{sheet.title}'!{absolute_coordinate(cells)}", worksheet=sheet)


def _letters() -> Any:
    """Return the lettering of axes and legend: small and grey."""
    from openpyxl.chart.text import RichText
    from openpyxl.drawing.text import Paragraph, ParagraphProperties

    return RichText(p=[Paragraph(pPr=ParagraphProperties(defRPr=_characters(900)), endParaRPr=_characters(900))])


def _text(words: str, hundredths_of_point: int) -> Any:
    """Return a chart title in our lettering."""
    from openpyxl.chart.text import RichText, Text
    from openpyxl.chart.title import Title
    from openpyxl.drawing.text import Paragraph, ParagraphProperties, RegularTextRun

    run = RegularTextRun(rPr=_characters(hundredths_of_point), t=words)
    paragraph = Paragraph(pPr=ParagraphProperties(defRPr=_characters(hundredths_of_point)), r=[run])
    return Title(tx=Text(rich=RichText(p=[paragraph])), overlay=False)


def _characters(hundredths_of_point: int) -> Any:
    from openpyxl.drawing.text import CharacterProperties, Font

    return CharacterProperties(sz=hundredths_of_point, b=False, solidFill=look.GREY, latin=Font(typeface=look.FONT))

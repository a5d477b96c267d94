"""Charts that redraw wherever the workbook is opened, and that can be told apart in black and white.

One idea: a line is known by its dashes and its markers first and by its colour last; axes carry words, and the
numbers behind a chart stand in cells beside it.
"""

from __future__ import annotations

from typing import Any, NamedTuple, Optional, Tuple

from openpyxl.chart import BarChart, Reference, ScatterChart, Series
from openpyxl.chart.label import DataLabelList
from openpyxl.chart.shapes import GraphicalProperties
from openpyxl.chart.text import RichText
from openpyxl.drawing.line import LineProperties
from openpyxl.drawing.text import CharacterProperties, Font, Paragraph, ParagraphProperties
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import styles


class Line(NamedTuple):
    """One line of a scatter chart: two ranges of a sheet, its name, and how it is drawn."""

    name: str
    across: str
    up: str
    dash: Optional[str] = "solid"
    marker: Optional[str] = None
    colour: str = styles.DEEP
    width: float = 1.75


Size = Tuple[float, float]
"""Width and height in centimetres."""


def scatter(sheet: Worksheet, at: str, title: str, across: str, up: str, lines: Tuple[Line, ...], size: Size,
            form: str = '[<=1]0.0%;""', across_form: str = "General") -> None:  # fmt: skip
    """A chart of lines over a measured quantity."""
    chart = ScatterChart()
    chart.style = 2
    chart.scatterStyle = "lineMarker"
    for line in lines:
        chart.series.append(_series(sheet, line))
    _frame(chart, title, size)
    _axis(chart.x_axis, across, across_form, "b")
    _axis(chart.y_axis, up, form, "l")
    chart.x_axis.majorGridlines = None
    chart.x_axis.scaling.min = 0
    sheet.add_chart(chart, at)


def bars(sheet: Worksheet, at: str, title: str, names: str, values: str, up: str, size: Size, form: str) -> None:
    """A chart of lying bars for shares of a whole, the first name at the top."""
    chart = BarChart()
    chart.type = "bar"
    chart.style = 2
    chart.gapWidth = 40
    series = Series(Reference(sheet, range_string=_there(sheet, values)), title=up)
    series.graphicalProperties = GraphicalProperties(solidFill=styles.DEEP)
    chart.series.append(series)
    chart.set_categories(Reference(sheet, range_string=_there(sheet, names)))
    _frame(chart, title, size)
    chart.legend = None
    _axis(chart.x_axis, None, "General", "l")
    _axis(chart.y_axis, up, form, "b")
    chart.y_axis.tickLblPos = "nextTo"
    series.dLbls = DataLabelList(showVal=True, showSerName=False, showCatName=False, showLegendKey=False)
    series.dLbls.numFmt = "0.0%;-0.0%;"
    series.dLbls.txPr = _words(900)
    chart.x_axis.scaling.orientation = "maxMin"
    chart.y_axis.scaling.min = 0
    chart.y_axis.scaling.max = 1
    chart.y_axis.crosses = "max"
    sheet.add_chart(chart, at)


def _series(sheet: Worksheet, line: Line) -> Series:
    across = Reference(sheet, range_string=_there(sheet, line.across))
    up = Reference(sheet, range_string=_there(sheet, line.up))
    series = Series(up, across, title=line.name)
    series.smooth = False
    if line.dash is None:
        series.graphicalProperties = GraphicalProperties(ln=LineProperties(noFill=True))
    else:
        drawn = LineProperties(solidFill=line.colour, prstDash=line.dash, w=int(line.width * 12700))
        series.graphicalProperties = GraphicalProperties(ln=drawn)
    series.marker.symbol = line.marker or "none"
    if line.marker:
        series.marker.size = 7
        series.marker.graphicalProperties = GraphicalProperties(solidFill=line.colour)
        series.marker.graphicalProperties.line = LineProperties(solidFill=line.colour, w=12700)
    return series


def _frame(chart: Any, title: str, size: Size) -> None:
    see_through(chart)
    chart.title = title
    chart.title.tx.rich.p[0].pPr = ParagraphProperties(defRPr=_letters(1200, bold=True))
    chart.title.overlay = False
    chart.width, chart.height = size
    chart.legend.position = "b"
    chart.legend.txPr = _words(900)


def see_through(chart: Any) -> None:
    """No ground: where there is nothing to draw, the cells behind say so in the middle of the empty chart."""
    chart.graphical_properties = GraphicalProperties(noFill=True, ln=LineProperties(solidFill=styles.LINE, w=9525))
    chart.plot_area.graphicalProperties = GraphicalProperties(noFill=True, ln=LineProperties(noFill=True))


def _axis(axis: Any, title: Optional[str], form: str, position: str) -> None:
    axis.delete = False
    axis.axPos = position
    axis.title = title
    axis.number_format = form
    axis.numFmt.sourceLinked = False
    axis.txPr = _words(900)
    axis.tickLblPos = "low"
    if title:
        axis.title.tx.rich.p[0].pPr = ParagraphProperties(defRPr=_letters(1000))
        axis.title.overlay = False
    if axis.majorGridlines is not None:
        light = LineProperties(solidFill=styles.LINE, w=6350)
        axis.majorGridlines.spPr = GraphicalProperties(ln=light)


def _letters(size: int, bold: bool = False) -> CharacterProperties:
    return CharacterProperties(sz=size, b=bold, solidFill=styles.INK, latin=Font(typeface=styles.FONT))


def _words(size: int) -> RichText:
    properties = ParagraphProperties(defRPr=_letters(size))
    return RichText(p=[Paragraph(pPr=properties, endParaRPr=CharacterProperties())])


def _there(sheet: Worksheet, cells: str) -> str:
    return f"'{sheet.title}'!{cells}"

"""A picture as SVG, drawn with matplotlib. It is loaded only when a report has a picture, and may be missing."""

from __future__ import annotations

import html
import io
import logging
import re
import warnings
from typing import TYPE_CHECKING, Any

from narrator.publish.shapes import BAND, HAIR, INK, PAPER, QUIET, WIDTH, Box, Shape, Sheet, Sign, Stroke, Words
from narrator.publish.steps import steps
from narrator.publish.strips import strips
from narrator.publish.text import inline

if TYPE_CHECKING:
    from narrator.report import Chart

_LAYOUTS = {"moisture": strips, "risers": steps}
_SPACE = ' xmlns="http://www.w3.org/2000/svg"'
_FORMS = {
    "diamond": ((0, 4.6), (4.6, 0), (0, -4.6), (-4.6, 0)),
    "square": ((-3.8, -3.8), (-3.8, 3.8), (3.8, 3.8), (3.8, -3.8)),
    "down": ((-4.4, 3.6), (4.4, 3.6), (0, -4.2)),
    "up": ((-4.8, -4), (4.8, -4), (0, 5)),
}


def svg(chart: Chart) -> str:
    """The chart as one SVG element: words as text in the reader's serif, no ids, nothing from elsewhere.

    Raises:
        ImportError: matplotlib is not installed.
        ValueError: nobody knows how to draw this kind of chart.
    """
    if chart["kind"] not in _LAYOUTS:
        raise ValueError(f"{chart['kind']!r} is no kind of chart: {', '.join(_LAYOUTS)}")
    sheet = _LAYOUTS[chart["kind"]](chart)
    inner = _drawn(sheet)
    title = html.escape(inline(chart["title"]))
    places = "; ".join(filter(None, (inline(row["label"]) for row in chart["rows"])))
    label = html.escape(f"{inline(chart['title'])}{': ' if places else ''}{places}")
    size = f'width="{WIDTH:g}" height="{sheet.height:g}" viewBox="0 0 {WIDTH:g} {sheet.height:g}"'
    return (
        f'<svg{_SPACE} {size} role="img" aria-label="{label}" stroke-linejoin="round">\n'
        f"<title>{title}</title>\n{inner}</svg>"
    )


def inside_html(drawn: str) -> str:
    """The SVG as an HTML page holds it: its own namespace goes without saying, and its greys follow the page's."""
    for name, colour in (("text", INK), ("quiet", QUIET), ("hair", HAIR), ("band", BAND), ("paper", PAPER)):
        drawn = drawn.replace(f": {colour}", f": var(--{name}, {colour})")
    return drawn.replace(_SPACE, "", 1)


def _drawn(sheet: Sheet) -> str:
    """The shapes as SVG, without the frame that the library puts around them."""
    logging.getLogger("matplotlib").setLevel(logging.ERROR)  # nothing about its cache folder among our notes
    import matplotlib
    from matplotlib.backends.backend_svg import FigureCanvasSVG
    from matplotlib.figure import Figure

    out = io.StringIO()
    with matplotlib.rc_context(), warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a letter that its own font lacks is no fault: the reader's font draws it
        matplotlib.rcdefaults()  # whatever settings lie in a folder of this machine
        matplotlib.rcParams.update({"svg.hashsalt": "narrator", "svg.fonttype": "none", "font.serif": []})
        figure = Figure(figsize=(WIDTH / 72, sheet.height / 72), dpi=72)
        figure.patch.set_visible(False)
        for shape in sheet.shapes:
            for artist in _artists(shape, sheet.height):
                artist.set_zorder(len(figure.artists))  # one after another, as they stand
                figure.add_artist(artist)
        FigureCanvasSVG(figure).print_svg(out, metadata={"Date": None, "Creator": None, "Format": None, "Type": None})
    body = re.sub(r"(?s)^.*?<svg[^>]*>|<metadata>.*?</metadata>|<defs>.*?</defs>|</svg>\s*$", "", out.getvalue())
    body = re.sub(r' id="[^"]*"| transform="rotate\(-0 [^"]*\)"', "", body)
    body = re.sub(r'(?<=<text style=")[^"]*', lambda match: _plain_style(match[0]), body)
    return re.sub(r"\s*\n\s*", "\n", re.sub(r"</?g>", "", body)).lstrip()


def _plain_style(style: str) -> str:
    """The style of a text in one order, its font taken apart: releases of the library differ in both."""
    parts = dict(each.split(": ", 1) for each in style.split("; "))
    *looks, size, family = parts.pop("font", "").split(" ") if "font" in parts else ("", "")
    for look in looks:
        parts["font-style" if look in ("italic", "oblique") else "font-weight"] = look
    parts |= {"font-size": size, "font-family": family} if size else {}
    return "; ".join(f"{name}: {value}" for name, value in sorted(parts.items()))


def _artists(shape: Shape, height: float) -> list[Any]:
    """A shape as the library's own, with `y` counted from the foot."""
    from matplotlib.lines import Line2D
    from matplotlib.patches import Rectangle
    from matplotlib.transforms import IdentityTransform

    plain: dict[str, Any] = {"transform": IdentityTransform()}
    y = height - shape.y
    if isinstance(shape, Box):
        edge: dict[str, Any] = {"edgecolor": shape.edge, "linewidth": 0.75} if shape.edge else {"edgecolor": "none"}
        corner = (shape.x, y - shape.height)
        return [Rectangle(corner, shape.width, shape.height, facecolor=shape.fill, **edge, **plain)]
    if isinstance(shape, Stroke):
        style = (0, (3.0, 2.5)) if shape.dashed else "solid"
        ends = ([shape.x, shape.to_x], [y, height - shape.to_y])
        return [Line2D(*ends, color=shape.colour, linewidth=shape.width, linestyle=style, **plain)]
    if isinstance(shape, Sign):
        return _sign(shape, y, plain)
    return [_words(shape, y, plain)]


def _sign(shape: Sign, y: float, plain: dict[str, Any]) -> list[Any]:
    from matplotlib.lines import Line2D
    from matplotlib.patches import Circle, Polygon

    if shape.form == "cross":
        ends = ([shape.x - 4, shape.x + 4], [y - 4, y + 4])
        return [Line2D(xs, ends[1], color=INK, linewidth=1.6, **plain) for xs in (ends[0], ends[0][::-1])]
    look = {"facecolor": INK if shape.form in ("dot", "up") else PAPER, "edgecolor": INK, "linewidth": 1.4, **plain}
    if shape.form in ("dot", "ring"):
        return [Circle((shape.x, y), 3.6, **look)]
    return [Polygon([(shape.x + x, y + up) for x, up in _FORMS[shape.form]], closed=True, **look)]


def _words(shape: Words, y: float, plain: dict[str, Any]) -> Any:
    import matplotlib
    from matplotlib.font_manager import FontProperties
    from matplotlib.text import Text

    # The library measures with a font of its own; the page names none but the reader's serif.
    font = FontProperties(
        family="serif",
        style="italic" if shape.italic else "normal",
        weight="bold" if shape.bold else "normal",
        size=shape.size,
        fname=f"{matplotlib.get_data_path()}/fonts/ttf/DejaVuSerif.ttf",
    )
    look = {"color": shape.colour, "ha": shape.align, "va": "baseline", "parse_math": False, **plain}
    return Text(shape.x, y, shape.text, fontproperties=font, **look)

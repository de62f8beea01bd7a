"""Graphs as PDF, curves and scales only: their words are set as texts. Only here is matplotlib."""

from __future__ import annotations

import io
import logging
from collections.abc import Sequence
from typing import Any

from keyseats.page import Graph

# Round the field there is room for ticks and for half a stroke. [pt]
PAD = 18.0
INK = "0.0"
# The grid: dots of ink rather than a grey, so that no printer loses it or screens it. A dot is as
# large as the scales are heavy, less a little, and stands every seventh place. [weight, dot]
DOT, APART = 0.85, 7.0
_SIDES = ("left", "bottom", "right", "top")
_STYLE: dict[Any, Any] = {
    "path.simplify": False,
    "axes.unicode_minus": False,
    "pdf.compression": 6,
    "pdf.fonttype": 42,
    "lines.solid_capstyle": "butt",
    "lines.dash_capstyle": "butt",
    "lines.solid_joinstyle": "round",
    "lines.scale_dashes": False,
}


def form_name(number: int) -> str:
    """Return the name under which a page calls for one of its graphs, counted from nought."""
    return f"Graph-{number + 1}"


def drawn(graphs: Sequence[Graph]) -> bytes:
    """Return a PDF with a page a graph, its field `PAD` from every edge.

    Parameters
    ----------
    graphs
        What to draw; whatever style the user has set up is not heeded.

    Returns
    -------
    bytes
        A PDF; the same for the same graphs, without a date.
    """
    # A cache of fonts that cannot be kept is no news for a user: no font is looked for.
    logging.getLogger("matplotlib").setLevel(logging.ERROR)
    import matplotlib
    from matplotlib.backends.backend_pdf import PdfPages

    out = io.BytesIO()
    unsaid = dict.fromkeys(("CreationDate", "Creator", "Producer"))
    with matplotlib.rc_context():
        matplotlib.rcdefaults()
        matplotlib.rcParams.update(_STYLE)
        with PdfPages(out, metadata=unsaid) as pages:
            for graph in graphs:
                pages.savefig(_figure(graph))
    return out.getvalue()


def _figure(graph: Graph) -> Any:
    from matplotlib.figure import Figure

    wide, high = graph.width + 2 * PAD, graph.height + 2 * PAD
    figure = Figure(figsize=(wide / 72, high / 72))
    axes: Any = figure.add_axes(
        (PAD / wide, PAD / high, graph.width / wide, graph.height / high), xmargin=0, ymargin=0
    )
    # No ground is laid, not even a clear one: what is seen through goes wrong in print shops.
    figure.patch.set_visible(False)
    axes.patch.set_visible(False)
    axes.set_axisbelow(True)
    for side in _SIDES:
        axes.spines[side].set_visible(False)
    for scale in graph.scales:
        _scale(axes, scale.side, scale.major, scale.minor, graph)
    axes.set_xlim(*graph.across)
    axes.set_ylim(*graph.upright)
    dot = graph.weight * DOT
    close = (0, (dot, dot * (APART - 1)))
    axes.grid(which="major", color=INK, linewidth=dot, linestyle=close)
    if graph.dots:
        apart = abs(graph.dots / (graph.across[1] - graph.across[0])) * graph.width
        axes.yaxis.grid(
            which="minor", color=INK, linewidth=dot, linestyle=(dot / 2, (dot, apart - dot))
        )
    for curve in graph.curves:
        axes.plot(
            curve.xs,
            curve.ys,
            color=INK,
            linewidth=curve.weight,
            linestyle=(0, curve.dash) if curve.dash else "-",
            clip_on=False,
            zorder=3,
        )
    return figure


def _scale(
    axes: Any, side: str, major: Sequence[float], minor: Sequence[float], graph: Graph
) -> None:
    """Set the ticks of one side, outside the field."""
    axis = axes.xaxis if side == "bottom" else axes.yaxis
    spine = axes.spines[side]
    spine.set_visible(True)
    spine.set_linewidth(graph.weight)
    axis.set_ticks(list(major))
    axis.set_ticks(list(minor), minor=True)
    hidden = {f"label{side}": False}
    for which, length in (("major", graph.tick), ("minor", graph.tick * 0.55)):
        axis.set_tick_params(
            which=which, direction="out", length=length, width=graph.weight, color=INK, **hidden
        )

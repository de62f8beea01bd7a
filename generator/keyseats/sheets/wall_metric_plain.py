"""Wall chart: metric plain keyseats by shaft, then every key, then the widths of the three fits."""

from __future__ import annotations

from collections.abc import Iterator

from keyseats import across_room
from keyseats.across_room import metric_plain as far
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.metric_every_key import every_key_page
from keyseats.plain_charts.metric_fits import fits_page
from keyseats.plain_charts.metric_keys import LAST_LISTED, SOURCES, keys, sheets
from keyseats.plain_charts.metric_zones import shafts_page
from keyseats.sheets import Sheet


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    if paper in across_room.PAPERS:
        yield from far.pages(tables, paper)
        return
    by_shaft, every = sheets(tables, LAST_LISTED), keys(tables)
    total = len(by_shaft) + 2
    for n, here in enumerate(by_shaft, 1):
        yield shafts_page(tables, paper, here, n, total)
    small = [key for here in by_shaft for key in here]
    yield every_key_page(tables, paper, every, small, (total - 1, total))
    yield fits_page(tables, paper, total, [key.row.width.value for key in every], SOURCES)


SHEETS = (
    Sheet(
        "wall-metric-plain",
        "wall chart",
        "Plain keyseats, metric: how deep and how wide",
        ("A4", "Letter", "A3", "Tabloid", *reversed(across_room.PAPERS)),
        pages,
        order=30,
    ),
)

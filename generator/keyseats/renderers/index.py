"""The index page of a printed set. The only module that imports jinja2."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

# The kinds of sheet, in the order of the page, and what a reader sees over them.
KINDS = {
    "wall chart": "wall charts",
    "graphs": "graphs",
    "key gauge": "key gauges",
    "pocket cards": "pocket cards and reckoners",
    "shaft sheets": "shaft sheets",
}


@dataclass(frozen=True)
class Card:
    """One file of the set as the index shows it."""

    name: str
    picture: str
    title: str
    kind: str
    paper: str
    distance_m: float
    pages: int


def index_page(cards: list[Card], number: str, date: str) -> bytes:
    """Return the index as one web page that needs nothing but the files beside it.

    Parameters
    ----------
    cards
        The files; they are grouped by kind and title, papers side by side, the nearest to read
        first.
    number, date
        The edition.
    """
    import jinja2

    template = (Path(__file__).parent / "index.html").read_text(encoding="utf-8")
    environment = jinja2.Environment(autoescape=True, undefined=jinja2.StrictUndefined)
    order = {kind: place for place, kind in enumerate(KINDS)}
    cards = sorted(
        cards, key=lambda c: (order.get(c.kind, len(order)), c.title, c.distance_m, c.name)
    )
    kinds = [
        (
            KINDS.get(kind, kind),
            [(title, list(same)) for title, same in groupby(found, lambda c: c.title)],
        )
        for kind, found in groupby(cards, key=lambda c: c.kind)
    ]
    page = environment.from_string(template).render(kinds=kinds, number=number, date=date)
    return (page + "\n").encode()

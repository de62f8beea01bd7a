"""The index page of a printed set. The only module that imports jinja2."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from pathlib import Path


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
        The files; they are grouped by title, papers side by side.
    number, date
        The edition.
    """
    import jinja2

    template = (Path(__file__).parent / "index.html").read_text(encoding="utf-8")
    environment = jinja2.Environment(autoescape=True, undefined=jinja2.StrictUndefined)
    kinds = ("wall chart", "graphs", "key gauge", "pocket cards", "shaft sheets")
    order = {kind: place for place, kind in enumerate(kinds)}
    cards = sorted(cards, key=lambda c: (order.get(c.kind, len(order)), c.title, c.name))
    groups = [(title, list(found)) for title, found in groupby(cards, key=lambda c: c.title)]
    page = environment.from_string(template).render(groups=groups, number=number, date=date)
    return (page + "\n").encode()

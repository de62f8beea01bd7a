"""Files proved one after the other: read, judged page by page, then among each other."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from keyseats.proof import legible, papers, placed, told
from keyseats.proof.facts import MM, Fault, File, Sheet

Tell = Callable[[int, int, str], None]


@dataclass(frozen=True)
class Row:
    """One page as the table shows it.

    Angles are in arc-minutes at 94 % scale, None where there is nothing of the kind; ``edge`` is
    the least white at the paper's edge, or at a card's. [mm]
    """

    file: str
    page: int
    paper: str
    metres: float
    characters: int
    figures: int
    least_figure: float | None
    least_word: float | None
    edge: float
    fonts: int
    headings: int
    tables: int
    drawings: int
    faults: int


@dataclass(frozen=True)
class Proof:
    """What was found: a row a page, and every fault."""

    files: tuple[str, ...]
    rows: tuple[Row, ...]
    faults: tuple[Fault, ...]


def prove(paths: Sequence[Path], tell: Tell | None = None) -> Proof:
    """Read and judge finished PDFs.

    Parameters
    ----------
    paths
        The files.
    tell
        Called before each file with how many are done, how many there are, and its name.
    """
    from keyseats.proof.reading import read

    rows: list[Row] = []
    faults: list[Fault] = []
    heads: list[File] = []
    for n, path in enumerate(paths):
        if tell is not None:
            tell(n, len(paths), path.name)
        file = read(path)
        heads.append(File(file.name, identity=file.identity))
        if file.unread:
            faults.append(Fault(file.name, 0, file.unread, "make it again"))
            continue
        faults += told.faults(file)
        for sheet in file.sheets:
            found = [
                *told.page_faults(file, sheet),
                *legible.faults(file, sheet),
                *placed.faults(file, sheet),
            ]
            faults += found
            rows.append(_row(file, sheet, len(found)))
    faults += told.shared_identities(heads)
    return Proof(tuple(path.name for path in paths), tuple(rows), tuple(faults))


def _row(file: File, sheet: Sheet, faults: int) -> Row:
    metres = legible.distance(sheet)
    cut = legible.cut_to(file, sheet)
    rest = [p for p in legible.words_of(sheet) if p not in cut]
    return Row(
        file.name,
        sheet.number,
        papers.paper(sheet.wide, sheet.high) or papers.told(sheet.wide, sheet.high),
        metres,
        len(sheet.text.replace(" ", "")),
        len(cut),
        min((legible.minutes(p, metres) for p in cut), default=None) if metres else None,
        min((legible.minutes(p, metres) for p in rest), default=None) if metres else None,
        placed.edge(sheet) / MM,
        len(sheet.fonts),
        sheet.tags.headings,
        sheet.tags.tables,
        sheet.tags.figures,
        faults,
    )

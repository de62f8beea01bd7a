"""Every fault of the tables, not the first: each with its place, its rule and its remedy."""

from __future__ import annotations

from keyseats.check.cells import check_cells, check_pairs
from keyseats.check.faults import Fault, Remark, Report
from keyseats.check.links import check_links
from keyseats.check.ranges import check_ranges
from keyseats.check.reading import Reading, read_table
from keyseats.check.recomputed import check_decimals, check_recomputed, read_quirks
from keyseats.check.schema import check_files, read_schema
from keyseats.check.sources import check_formulas, read_sources
from keyseats.faults import TableError
from keyseats.load import Tables

__all__ = ["Fault", "Remark", "Report", "check"]


def check(tables: Tables) -> Report:
    """Read every table and report every fault.

    Parameters
    ----------
    tables
        The tables; their files are read afresh, as far as they can be.

    Returns
    -------
    Report
        Faults in the order of files and lines, remarks, and the known quirks.
    """
    reading = Reading(tables.folder)
    read_schema(reading)
    read_sources(reading)
    check_formulas(reading)
    quirks = read_quirks(reading)
    check_files(reading)
    for name in reading.schema:
        table = read_table(reading, name)
        if table is not None:
            reading.tables[name] = table
    for table in reading.tables.values():
        check_cells(reading, table)
    for table in reading.tables.values():
        check_pairs(reading, table)
        check_links(reading, table)
        check_ranges(reading, table)
        check_decimals(reading, table)
    check_recomputed(reading, quirks)
    _edition(reading, tables)
    listed = [quirk for _, quirk in quirks]
    return Report(
        tuple(sorted(reading.faults, key=lambda f: (f.file, f.line))),
        tuple(sorted(reading.remarks, key=lambda r: (r.file, r.line))),
        tuple(q for q in listed if q.state == "settled"),
        tuple(q for q in listed if q.state != "settled"),
    )


def _edition(reading: Reading, tables: Tables) -> None:
    try:
        edition = tables.edition
    except TableError as wrong:
        says, _, remedy = str(wrong).partition("; ")
        reading.fault(
            "edition.toml",
            1,
            "",
            "readable",
            says.removeprefix("edition.toml: "),
            remedy or "put a readable copy in its place",
        )
        return
    for name, text in (("number", edition.number), ("date", edition.date)):
        if not text.strip():
            reading.fault("edition.toml", 1, name, "blank", "is blank", "say which edition this is")
        reading.unset("edition.toml", 1, name, text)

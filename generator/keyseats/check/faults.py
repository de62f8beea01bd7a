"""What a check finds: each fault with its place, its rule and its remedy."""

from __future__ import annotations

from dataclasses import dataclass

from keyseats.records import Quirk


@dataclass(frozen=True)
class Fault:
    """One fault in a table: where it is, which rule it breaks, and what would do."""

    file: str
    line: int
    column: str
    rule: str
    says: str
    remedy: str

    def __str__(self) -> str:
        """Return the fault in one line."""
        place = f"{self.file}, line {self.line}" + (f", {self.column}" if self.column else "")
        return f"{place} [{self.rule}]: {self.says}; {self.remedy}"


@dataclass(frozen=True)
class Remark:
    """Something that does no harm but is not as printed."""

    file: str
    line: int
    column: str
    says: str

    def __str__(self) -> str:
        """Return the remark in one line."""
        place = f"{self.file}, line {self.line}" + (f", {self.column}" if self.column else "")
        return f"{place}: {self.says}"


@dataclass(frozen=True)
class Report:
    """All that a check found.

    Parameters
    ----------
    faults
        Every fault, in the order of files and lines.
    remarks
        What is not as printed but does no harm.
    settled
        Figures that break their own rule and were read so in print.
    unsettled
        Figures that break their own rule and were not read.
    """

    faults: tuple[Fault, ...]
    remarks: tuple[Remark, ...]
    settled: tuple[Quirk, ...]
    unsettled: tuple[Quirk, ...]

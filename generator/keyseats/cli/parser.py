"""The words of the command line."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from typing import Any, NoReturn

from keyseats import __version__
from keyseats.faults import near, visible


class Parser(argparse.ArgumentParser):
    """A parser whose mistakes are one line, with the near words."""

    def error(self, message: str) -> NoReturn:
        """Say what was wrong in one line and leave with 2."""
        choice = re.search(r"invalid choice: '?([^' ]*)'? \(choose from (.*)\)", message)
        if choice:
            known = [w.strip(" '") for w in choice.group(2).split(",")]
            message = f"no such word: '{choice.group(1)}'; {near(choice.group(1), known)}"
        unknown = re.match(r"unrecognized arguments: (\S+)", message)
        if unknown:
            options = [o for a in self._actions for o in a.option_strings if o.startswith("--")]
            word = unknown.group(1).split("=")[0]
            message = f"'{unknown.group(1)}' is not understood; {near(word, options)}"
        sys.stderr.write(f"keyseats: {visible(' '.join(message.split()))}\n")
        raise SystemExit(2)


class CommandParser(Parser):
    """One command's parser, which names its own options where one is mistyped."""

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """Read a command's words; refuse what it does not know."""
        found, rest = super().parse_known_args(args, namespace)
        if rest:
            self.error(f"unrecognized arguments: {' '.join(rest)}")
        return found, rest


def make() -> Parser:
    """Return the parser of all commands."""
    parser = Parser(
        prog="keyseats",
        description="Printed keyseat references from curated tables: wall charts, pocket cards "
        "and shaft sheets, and every figure of one seat.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"keyseats {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", parser_class=CommandParser)
    commands.required = True

    def add(name: str, says: str) -> Parser:
        made: Parser = commands.add_parser(name, help=says, description=says, allow_abbrev=False)
        made.add_argument("--tables", metavar="DIR", help="folder of tables, if not the project's")
        return made

    build = add("build", "make what is stale of the printed set")
    build.add_argument("sheets", nargs="*", metavar="SHEET", help="sheets to make; all if none")
    build.add_argument("--paper", help="only for this paper, such as Letter or A4")
    build.add_argument("--shop", metavar="FILE", help="the shaft sheets of your own shop instead")
    build.add_argument("--output", metavar="DIR", default="output", help="where the files go")
    build.add_argument(
        "--dry-run", action="store_true", help="say what would be made; exit 1 if any"
    )

    shaft = add("shaft", "every figure of the seats that a shaft can have")
    shaft.add_argument(
        "length", metavar="LENGTH", help='nominal shaft, such as "7/8 in" or "22 mm"'
    )
    shaft.add_argument("--measured", metavar="LENGTH", help="the shaft as measured")
    shaft.add_argument("--bore", metavar="LENGTH", help="the hub's bore")
    shaft.add_argument("--key", metavar="KEY", help='one key, such as 608, "3/16 x 3/16", "8 x 7"')
    shaft.add_argument("--key-height", metavar="LENGTH", help="the key's height as measured")
    shaft.add_argument("--cutter-width", metavar="LENGTH", help="the cutter's width as measured")
    shaft.add_argument("--cutter-diameter", metavar="LENGTH", help="the cutter's diameter")
    shaft.add_argument("--neck", metavar="LENGTH", help="the cutter's neck as measured")
    shaft.add_argument("--end-mill", metavar="LENGTH", help="cut by an end mill of this diameter")
    shaft.add_argument("--paper-thickness", metavar="LENGTH", help="paper or feeler at the touch")
    shaft.add_argument("--tip", metavar="LENGTH", help="diameter of the edge finder's tip")
    shaft.add_argument("--tip-length", metavar="LENGTH", help="how far that tip reaches")
    shaft.add_argument("--collar", metavar="LENGTH", help="collar beside the cutter's free face")
    shaft.add_argument("--holder-radius", metavar="LENGTH", help="radius of the cutter's holder")
    shaft.add_argument(
        "--stand-off", metavar="LENGTH", help="from the cutter's near face to the holder"
    )
    shaft.add_argument("--shop", metavar="FILE", help="your own machine and cutters: shop.toml")
    shaft.add_argument("--material", help="what the shaft is made of, for the speed")
    shaft.add_argument("--fit", help="class 1, class 2; normal, close, loose, free")
    shaft.add_argument("--standard", help='another metric standard, such as "JIS B 1301"')
    shaft.add_argument("--family", action="append", help="look in this family too")
    shaft.add_argument("--all", action="store_true", help="print the other keys in full as well")
    shaft.add_argument("--json", action="store_true", help="print JSON")
    shaft.add_argument("--pdf", metavar="FILE", help="write the first choice's shaft sheet")
    shaft.add_argument("--card", metavar="FILE", help="write a card of the depths by measured size")
    shaft.add_argument("--paper", default=None, help="paper of the sheet or card: Letter or A4")

    inspect = add("inspect", "the verdict on a cut seat: exit 0 inside, 1 outside or undecided")
    inspect.add_argument("length", metavar="LENGTH", help="nominal shaft")
    inspect.add_argument("--key", metavar="KEY", required=True, help="the key that it is for")
    datum = inspect.add_mutually_exclusive_group(required=True)
    datum.add_argument("--from-crown", metavar="LENGTH", help="depth from crown as measured")
    datum.add_argument("--at-edge", metavar="LENGTH", help="depth at edge, before deburring")
    datum.add_argument("--opposite-side", metavar="LENGTH", help="floor to opposite side")
    datum.add_argument("--over-key", metavar="LENGTH", help="opposite side to top of seated key")
    inspect.add_argument("--measured", metavar="LENGTH", help="the shaft as measured")
    inspect.add_argument("--bore", metavar="LENGTH", help="the hub's bore")
    inspect.add_argument("--key-height", metavar="LENGTH", help="the key's height as measured")
    inspect.add_argument("--cutter-width", metavar="LENGTH", help="the seat's width as cut")
    inspect.add_argument("--end-mill", metavar="LENGTH", help="cut by an end mill of this diameter")
    inspect.add_argument("--fit", help="class 1, class 2; normal, close, loose, free")
    inspect.add_argument("--standard", help='another metric standard, such as "JIS B 1301"')
    inspect.add_argument("--family", action="append", help="look in this family too")
    inspect.add_argument("--json", action="store_true", help="print JSON")

    blocks = add("blocks", "the fewest gauge blocks of a set for a length")
    blocks.add_argument("length", metavar="LENGTH", help='such as "0.594 in" or "15.09 mm"')
    blocks.add_argument("--set", metavar="SET", help="such as inch-81, or a CSV file of sizes")
    blocks.add_argument("--exact", action="store_true", help="the length itself, not rounded")
    blocks.add_argument(
        "--place", metavar="LENGTH", help="round to this; 0.001 in or 0.01 mm if not given"
    )
    blocks.add_argument("--wear", action="store_true", help="wear blocks at both ends")
    blocks.add_argument("--json", action="store_true", help="print JSON")

    shop = add("shop", "print an example shop file, or what was understood of one")
    shop.add_argument("file", nargs="?", metavar="FILE", help="a shop file to read and tell back")
    shop.add_argument("--write", metavar="FILE", help="write the example here, over no other file")

    changes = add("changes", "what differs between two editions, and which pages have it")
    changes.add_argument("old", nargs="?", metavar="OLD", help="an edition; the last if none")
    changes.add_argument("new", nargs="?", metavar="NEW", help="an edition; the tables now if none")
    changes.add_argument("--json", action="store_true", help="print JSON")
    changes.add_argument("--notice", metavar="FILE", help="write a notice to pin beside the charts")
    changes.add_argument("--paper", default=None, help="paper of the notice: Letter or A4")

    current = add("current", "whether a page is current, from the code in its foot")
    current.add_argument("code", nargs="+", metavar="CODE", help="such as K7MP-3XW3")
    current.add_argument("--json", action="store_true", help="print JSON")

    edition = add("edition", "close an edition: check, number, build and archive as one step")
    edition.add_argument("number", metavar="NUMBER", help="the next number")
    edition.add_argument("--date", metavar="DATE", required=True, help="such as 2026-11-25")
    edition.add_argument("--output", metavar="DIR", default="output", help="where the files go")

    says = "the print-shop check of finished PDFs: exit 0 without fault, 1 with"
    proof = commands.add_parser("proof", help=says, description=says, allow_abbrev=False)
    proof.add_argument("files", nargs="*", metavar="FILE", help="PDFs; all of --output if none")
    proof.add_argument("--output", metavar="DIR", help="the folder of the set; output if not given")
    proof.add_argument("--json", action="store_true", help="print JSON")

    add("check", "read every table and report every fault")
    add("list", "what can be printed")

    tables = add("tables", "tables and computed grids as CSV or JSON; without either, their names")
    tables.add_argument("names", nargs="*", metavar="NAME", help="tables to write; all if none")
    form = tables.add_mutually_exclusive_group()
    form.add_argument("--csv", action="store_true", help="write CSV, one figure a line")
    form.add_argument("--json", action="store_true", help="write JSON")
    tables.add_argument(
        "--grid", action="append", help="a computed grid: arc-height, centring-travel or depths"
    )
    tables.add_argument("--key", metavar="KEY", help="the key whose depths are wanted")
    tables.add_argument("--output", metavar="FILE", help="write here, not on the screen")

    trace = add("trace", "where a figure comes from, and which pages print it")
    trace.add_argument(
        "figure", metavar="TABLE/ROW[/COLUMN]", help="such as inch_half_moon_seats/608"
    )
    return parser


def parse(argv: Sequence[str]) -> argparse.Namespace:
    """Read the words of a command line."""
    return make().parse_args(list(argv))

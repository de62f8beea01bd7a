"""The words of the command line."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Callable, Sequence
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


def _tables_folder(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--tables", metavar="DIR", help="folder of tables, if not the project's")


def _build(parser: argparse.ArgumentParser) -> None:
    _tables_folder(parser)
    parser.add_argument("sheets", nargs="*", metavar="SHEET", help="sheets to make; all if none")
    parser.add_argument("--paper", help="only for this paper, such as Letter or A4")
    parser.add_argument("--shop", metavar="FILE", help="the shaft sheets of your own shop instead")
    parser.add_argument("--output", metavar="DIR", default="output", help="where the files go")
    parser.add_argument(
        "--dry-run", action="store_true", help="say what would be made; exit 1 if any"
    )


def _shaft(parser: argparse.ArgumentParser) -> None:
    _tables_folder(parser)
    parser.add_argument(
        "length", metavar="LENGTH", help='nominal shaft, such as "7/8 in" or "22 mm"'
    )
    parser.add_argument("--measured", metavar="LENGTH", help="the shaft as measured")
    parser.add_argument("--bore", metavar="LENGTH", help="the hub's bore")
    parser.add_argument("--key", metavar="KEY", help='one key, such as 608, "3/16 x 3/16", "8 x 7"')
    parser.add_argument("--key-height", metavar="LENGTH", help="the key's height as measured")
    parser.add_argument("--cutter-width", metavar="LENGTH", help="the cutter's width as measured")
    parser.add_argument("--cutter-diameter", metavar="LENGTH", help="the cutter's diameter")
    parser.add_argument("--neck", metavar="LENGTH", help="the cutter's neck as measured")
    parser.add_argument("--end-mill", metavar="LENGTH", help="cut by an end mill of this diameter")
    parser.add_argument("--cutter", metavar="NAME", help="a cutter of your shop file, by its name")
    parser.add_argument("--paper-thickness", metavar="LENGTH", help="paper or feeler at the touch")
    parser.add_argument("--tip", metavar="LENGTH", help="diameter of the edge finder's tip")
    parser.add_argument("--tip-length", metavar="LENGTH", help="how far that tip reaches")
    parser.add_argument("--collar", metavar="LENGTH", help="collar beside the cutter's free face")
    parser.add_argument("--holder-radius", metavar="LENGTH", help="radius of the cutter's holder")
    parser.add_argument(
        "--stand-off", metavar="LENGTH", help="from the cutter's near face to the holder"
    )
    parser.add_argument("--shop", metavar="FILE", help="your own machine and cutters: shop.toml")
    parser.add_argument("--material", help="what the shaft is made of, for the speed")
    parser.add_argument("--fit", help="class 1, class 2; normal, close, loose, free")
    parser.add_argument("--standard", help='another metric standard, such as "JIS B 1301"')
    parser.add_argument("--family", action="append", help="look in this family too")
    parser.add_argument("--all", action="store_true", help="print the other keys in full as well")
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--pdf", metavar="FILE", help="write the first choice's shaft sheet")
    parser.add_argument(
        "--card", metavar="FILE", help="write a card of the depths by measured size"
    )
    parser.add_argument("--paper", default=None, help="paper of the sheet or card: Letter or A4")


def _inspect(parser: argparse.ArgumentParser) -> None:
    _tables_folder(parser)
    parser.add_argument("length", metavar="LENGTH", help="nominal shaft")
    parser.add_argument("--key", metavar="KEY", required=True, help="the key that it is for")
    datum = parser.add_mutually_exclusive_group(required=True)
    datum.add_argument("--from-crown", metavar="LENGTH", help="depth from crown as measured")
    datum.add_argument("--at-edge", metavar="LENGTH", help="depth at edge, before deburring")
    datum.add_argument("--opposite-side", metavar="LENGTH", help="floor to opposite side")
    datum.add_argument("--over-key", metavar="LENGTH", help="opposite side to top of seated key")
    parser.add_argument("--measured", metavar="LENGTH", help="the shaft as measured")
    parser.add_argument("--bore", metavar="LENGTH", help="the hub's bore")
    parser.add_argument("--key-height", metavar="LENGTH", help="the key's height as measured")
    parser.add_argument("--cutter-width", metavar="LENGTH", help="the seat's width as cut")
    parser.add_argument("--cutter-diameter", metavar="LENGTH", help="the cutter's diameter")
    parser.add_argument("--end-mill", metavar="LENGTH", help="cut by an end mill of this diameter")
    parser.add_argument("--shop", metavar="FILE", help="your own cutters: shop.toml")
    parser.add_argument("--cutter", metavar="NAME", help="a cutter of your shop file, by its name")
    parser.add_argument("--fit", help="class 1, class 2; normal, close, loose, free")
    parser.add_argument("--standard", help='another metric standard, such as "JIS B 1301"')
    parser.add_argument("--family", action="append", help="look in this family too")
    parser.add_argument("--json", action="store_true", help="print JSON")


def _blocks(parser: argparse.ArgumentParser) -> None:
    _tables_folder(parser)
    parser.add_argument("length", metavar="LENGTH", help='such as "0.594 in" or "15.09 mm"')
    box = parser.add_mutually_exclusive_group(required=True)
    box.add_argument("--set", metavar="SET", help="such as inch-81, or a CSV file of sizes")
    box.add_argument("--shop", metavar="FILE", help="the set of your shop file")
    parser.add_argument("--exact", action="store_true", help="the length itself, not rounded")
    parser.add_argument(
        "--place", metavar="LENGTH", help="round to this; 0.001 in or 0.01 mm if not given"
    )
    parser.add_argument("--wear", action="store_true", help="wear blocks at both ends")
    parser.add_argument("--json", action="store_true", help="print JSON")


def _shop(parser: argparse.ArgumentParser) -> None:
    _tables_folder(parser)
    parser.add_argument("file", nargs="?", metavar="FILE", help="a shop file to read and tell back")
    parser.add_argument(
        "--write", metavar="FILE", help="write the example here, over no other file"
    )


def _changes(parser: argparse.ArgumentParser) -> None:
    _tables_folder(parser)
    parser.add_argument("old", nargs="?", metavar="OLD", help="an edition; the last if none")
    parser.add_argument("new", nargs="?", metavar="NEW", help="an edition; the tables now if none")
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--notice", metavar="FILE", help="write a notice to pin beside the charts")
    parser.add_argument("--paper", default=None, help="paper of the notice: Letter or A4")


def _current(parser: argparse.ArgumentParser) -> None:
    _tables_folder(parser)
    parser.add_argument("code", nargs="+", metavar="CODE", help="such as K7MP-3XW3")
    parser.add_argument("--json", action="store_true", help="print JSON")


def _edition(parser: argparse.ArgumentParser) -> None:
    _tables_folder(parser)
    parser.add_argument("number", metavar="NUMBER", help="the next number")
    parser.add_argument("--date", metavar="DATE", required=True, help="such as 2026-11-25")
    parser.add_argument("--output", metavar="DIR", default="output", help="where the files go")


def _proof(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("files", nargs="*", metavar="FILE", help="PDFs; all of --output if none")
    parser.add_argument(
        "--output", metavar="DIR", help="the folder of the set; output if not given"
    )
    parser.add_argument("--json", action="store_true", help="print JSON")


def _tables(parser: argparse.ArgumentParser) -> None:
    _tables_folder(parser)
    parser.add_argument("names", nargs="*", metavar="NAME", help="tables to write; all if none")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--csv", action="store_true", help="write CSV, one figure a line")
    form.add_argument("--json", action="store_true", help="write JSON")
    parser.add_argument(
        "--grid", action="append", help="a computed grid: arc-height, centring-travel or depths"
    )
    parser.add_argument("--key", metavar="KEY", help="the key whose depths are wanted")
    parser.add_argument("--output", metavar="FILE", help="write here, not on the screen")


def _trace(parser: argparse.ArgumentParser) -> None:
    _tables_folder(parser)
    parser.add_argument(
        "figure", metavar="TABLE/ROW[/COLUMN]", help="such as inch_half_moon_seats/608"
    )


# What each command is for, and what gives its parser its words.
COMMANDS: dict[str, tuple[str, Callable[[argparse.ArgumentParser], None]]] = {
    "build": ("make what is stale of the printed set", _build),
    "shaft": ("every figure of the seats that a shaft can have", _shaft),
    "inspect": ("the verdict on a cut seat: exit 0 inside, 1 outside or undecided", _inspect),
    "blocks": ("the fewest gauge blocks of a set for a length", _blocks),
    "shop": ("print an example shop file, or what was understood of one", _shop),
    "changes": ("what differs between two editions, and which pages have it", _changes),
    "current": ("whether a page is current, from the code in its foot", _current),
    "edition": ("close an edition: check, number, build and archive as one step", _edition),
    "proof": ("the print-shop check of finished PDFs: exit 0 without fault, 1 with", _proof),
    "check": ("read every table and report every fault", _tables_folder),
    "list": ("what can be printed", _tables_folder),
    "tables": ("tables and computed grids as CSV or JSON; without either, their names", _tables),
    "trace": ("where a figure comes from, and which pages print it", _trace),
}


def make(named: str = "") -> Parser:
    """Return the parser of all commands, or of the one named: to know them all takes time.

    Parameters
    ----------
    named
        The command that was typed; a word that is none is answered with all of them known.
    """
    parser = Parser(
        prog="keyseats",
        description="Printed keyseat references from curated tables: wall charts, pocket cards "
        "and shaft sheets, and every figure of one seat.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"keyseats {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", parser_class=CommandParser)
    commands.required = True
    for name in [named] if named in COMMANDS else COMMANDS:
        says, fill = COMMANDS[name]
        fill(commands.add_parser(name, help=says, description=says, allow_abbrev=False))
    return parser


def parse(argv: Sequence[str]) -> argparse.Namespace:
    """Read the words of a command line."""
    words = list(argv)
    return make(words[0] if words else "").parse_args(words)

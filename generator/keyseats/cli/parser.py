"""The words of the command line."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from typing import Any, NoReturn

from keyseats import __version__
from keyseats.faults import near


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
        sys.stderr.write(f"keyseats: {' '.join(message.split())}\n")
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
    shaft.add_argument("--fit", help="class 1, class 2; normal, close, loose, free")
    shaft.add_argument("--standard", help='another metric standard, such as "JIS B 1301"')
    shaft.add_argument("--family", action="append", help="look in this family too")
    shaft.add_argument("--all", action="store_true", help="print the other keys in full as well")
    shaft.add_argument("--json", action="store_true", help="print JSON")
    shaft.add_argument("--pdf", metavar="FILE", help="write the first choice's shaft sheet")
    shaft.add_argument("--paper", default=None, help="paper of the sheet: Letter or A4")

    add("check", "read every table and report every fault")
    add("list", "what can be printed")
    trace = add("trace", "where a figure comes from, and which pages print it")
    trace.add_argument(
        "figure", metavar="TABLE/ROW[/COLUMN]", help="such as inch_half_moon_seats/608"
    )
    return parser


def parse(argv: Sequence[str]) -> argparse.Namespace:
    """Read the words of a command line."""
    return make().parse_args(list(argv))

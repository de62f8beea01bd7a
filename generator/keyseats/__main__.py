"""Start the command line."""

from __future__ import annotations

import importlib
import os
import sys
from collections.abc import Sequence

from keyseats.cli.parser import parse
from keyseats.faults import KeyseatError, visible


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command.

    Parameters
    ----------
    argv
        The words after ``keyseats``; those of the process if None.

    Returns
    -------
    int
        0; 1 for a fault in files or something stale; 2 for what was typed.
    """
    try:
        words = parse(sys.argv[1:] if argv is None else argv)
        command = importlib.import_module(f"keyseats.cli.{words.command}_command")
        code: int = command.run(words)
        sys.stdout.flush()
        return code
    except KeyseatError as fault:
        sys.stderr.write(f"keyseats: {visible(str(fault))}\n")
        return fault.exit_code
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except OSError as fault:
        where = f"{fault.filename}: " if fault.filename else ""
        says = visible(f"{where}{fault.strerror or fault}")
        sys.stderr.write(f"keyseats: {says}; what was whole before is still whole\n")
        return 1
    except KeyboardInterrupt:
        sys.stderr.write("keyseats: stopped; what was whole before is still whole\n")
        return 1


if __name__ == "__main__":
    raise SystemExit(main())

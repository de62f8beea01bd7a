"""What goes wrong, as one clear line: what, where, and what would do."""


def visible(text: str) -> str:
    """Return a text that cannot steer a terminal: what does not print is spelt out."""
    if text.isprintable():
        return text
    return "".join(
        c if c.isprintable() or c == "\n" else c.encode("unicode_escape").decode() for c in text
    )


class KeyseatError(Exception):
    """A fault that a user can mend; shown as one line, never as a traceback.

    Parameters
    ----------
    message
        What is wrong, where, and what would do, in one line.

    Attributes
    ----------
    exit_code
        What the command ends with: 1 for a fault in files, 2 for what was typed.
    """

    exit_code = 1


class TypedError(KeyseatError):
    """Something typed on the command line cannot be used."""

    exit_code = 2

    def __init__(self, message: str) -> None:
        # What was typed is told back: a line break in it must not break the line.
        line = " ".join(message.split())
        super().__init__(line if len(line) <= 600 else f"{line[:200]} ... {line[-300:]}")


class TableError(KeyseatError):
    """A table is missing, unreadable, or holds something that is not what its schema says."""


def near(word: str, known: list[str]) -> str:
    """Return a clause that names the known words nearest to a mistyped one, or all if few."""
    import difflib

    close = difflib.get_close_matches(word, known, n=3, cutoff=0.5)
    if close:
        return "did you mean " + " or ".join(close) + "?"
    if len(known) <= 24:
        return "known: " + ", ".join(known)
    return f"{len(known)} are known, such as " + ", ".join(known[:6])

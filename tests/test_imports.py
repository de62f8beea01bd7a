"""One direction: who may import whom, and which library enters by which door."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parents[1] / "generator" / "keyseats"
DOORS = {
    "reportlab": "renderers/pdf.py",
    "pikepdf": "renderers/finish.py",
    "pypdfium2": "renderers/preview.py",
    "jinja2": "renderers/index.py",
    "pint": "conversion.py",
    "pandas": "frames.py",
    "segno": "corrections/qr.py",
    "matplotlib": "renderers/graph.py",
}
# The proof reads finished files, anyone's, with the same two libraries: it shares no code with what
# made them, or it would only prove that the maker agrees with itself.
SECOND_DOORS = {"pikepdf": "proof/reading.py", "pypdfium2": "proof/reading.py"}
NOTHING_OF_OURS = ("geometry.py", "machining.py", "page.py", "records.py", "faults.py", "frozen.py")
HEAVY = ("pandas", "pint", "matplotlib", "numpy", "reportlab", "jinja2", "pikepdf", "pypdfium2")


def imported(path: Path) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            found.add(node.module or "")
    return found


def files() -> list[tuple[str, set[str]]]:
    return [(p.relative_to(PACKAGE).as_posix(), imported(p)) for p in sorted(PACKAGE.rglob("*.py"))]


def test_each_library_enters_by_one_door() -> None:
    for name, modules in files():
        for library, door in DOORS.items():
            if any(m == library or m.startswith(library + ".") for m in modules):
                assert name in (door, SECOND_DOORS.get(library)), f"{name} imports {library}"


def test_the_bottom_imports_nothing_of_ours() -> None:
    for name, modules in files():
        if name in NOTHING_OF_OURS:
            # Records are frozen as `keyseats.frozen` does it, which knows nothing of figures.
            modules = modules - {"keyseats.frozen"}
            assert not [m for m in modules if m.startswith("keyseats")], name


def test_renderers_know_only_the_page_model() -> None:
    allowed = {"keyseats.page", "keyseats.paths", "keyseats.typeface"}
    for name, modules in files():
        if name.startswith("renderers/"):
            ours = {m for m in modules if m.startswith("keyseats")}
            assert {m for m in ours if not m.startswith("keyseats.renderers.")} <= allowed, name


def test_nothing_below_the_build_imports_upward() -> None:
    upper = ("keyseats.renderers", "keyseats.build", "keyseats.cli", "keyseats.manifest")
    free = ("build.py", "building/", "cli/", "__main__.py", "renderers/", "manifest.py")
    for name, modules in files():
        if not name.startswith(free):
            assert not [m for m in modules if m.startswith(upper)], name


def test_the_proof_knows_no_models() -> None:
    allowed = {"keyseats.palette", "keyseats.typeface"}
    for name, modules in files():
        if name.startswith("proof/"):
            ours = {m for m in modules if m.startswith("keyseats")}
            assert {m for m in ours if not m.startswith("keyseats.proof")} <= allowed, name


def test_families_and_records_know_no_sheets() -> None:
    upper = ("keyseats.sheets", "keyseats.setting", "keyseats.frame", "keyseats.page")
    for name, modules in files():
        if name.startswith(
            ("families/", "seat.py", "standing.py", "load.py", "lookup.py", "check/")
        ):
            assert not [m for m in modules if m.startswith(upper)], name


@pytest.mark.parametrize(
    "words", [["shaft", "1 in"], ["shaft", "22 mm", "--json"], ["shaft", "7/8 in", "--key", "606"]]
)
def test_a_look_up_imports_nothing_heavy(words: list[str]) -> None:
    code = (
        "import sys; from keyseats.__main__ import main; "
        f"assert main({words!r}) == 0; "
        f"print([m for m in {HEAVY!r} if m in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONPATH": str(PACKAGE.parent)},
    )
    assert done.stderr.strip() == "[]"


def test_no_file_is_too_long() -> None:
    for path in [*PACKAGE.rglob("*.py"), *Path(__file__).parent.rglob("*.py")]:
        assert len(path.read_text(encoding="utf-8").splitlines()) <= 400, path.name


def test_the_widths_are_the_fonts_own() -> None:
    """The table of advance widths against the font files, as reportlab reads them."""
    import json

    from reportlab.pdfbase.ttfonts import TTFont

    from keyseats.typeface import width

    table = json.loads((PACKAGE / "fonts" / "advances.json").read_text(encoding="utf-8"))
    for style, name in (("regular", "DejaVuSans"), ("bold", "DejaVuSans-Bold")):
        font = TTFont(name + "-check", str(PACKAGE / "fonts" / f"{name}.ttf"))
        for character in table[style]:
            wide = width(character, 1000, style == "bold")
            assert abs(wide - font.stringWidth(character, 1000)) < 0.6, character

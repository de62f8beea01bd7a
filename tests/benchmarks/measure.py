"""One table of speeds, each as a ratio to something measured beside it in the same run.

P is the time of ``python -c pass``. C is the time of the same shaft sheets drawn by plain reportlab
canvas calls in a built-in font. ``docs/performance.md`` says how, and what is missed.

    python tests/benchmarks/measure.py            # some minutes
    python tests/benchmarks/measure.py --quick    # does it run; the figures mean little
"""

from __future__ import annotations

import argparse
import io
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import count, cycle, islice
from pathlib import Path
from statistics import median
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "generator"))

from keyseats.families.inch_plain import fraction_text  # noqa: E402
from keyseats.load import Tables  # noqa: E402
from keyseats.lookup import OF_UNIT, seats_for  # noqa: E402
from keyseats.page import Block, Document, Line, Page, Text  # noqa: E402
from keyseats.paths import tables_dir  # noqa: E402
from keyseats.seat import Work  # noqa: E402
from keyseats.set_up import set_up_for  # noqa: E402
from keyseats.shaft_sheet import sheet  # noqa: E402
from keyseats.sheets.shafts import INCH  # noqa: E402

# Bytecode is kept, as wherever a program is run twice.
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT / "generator")}
ENVIRONMENT.pop("PYTHONDONTWRITEBYTECODE", None)

Outline = tuple[list[tuple[str, list[float]]], float | None, float | None]
Plain = Text | Line | Outline
# What the installed command does.
PROGRAM = ["-c", "import sys; from keyseats.__main__ import main; sys.exit(main())"]
CHART = ["wall-metric-half-moon", "--paper", "A4"]
# A figure of one seat, put one way and the other; invented, and within the rules of the tables.
FIGURE = (
    "metric_half_moon_seats",
    "2 x 3.7 x 10,2,3.7,10,2.9,0.1,",
    "2 x 3.7 x 10,2,3.7,10,2.9,0.2,",
)


class Measured(NamedTuple):
    """One line of the table."""

    what: str
    measured: float
    unit: str
    target: float | None


def clock(cpu: bool) -> Callable[[], float]:
    """Return the clock to measure in this process by."""
    return time.process_time if cpu else time.perf_counter


def process(words: list[str], cpu: bool) -> float:
    """Return how long a Python process takes, or what it takes of a processor. [s]"""
    start = time.perf_counter()
    started = subprocess.Popen(
        [sys.executable, *words],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env=ENVIRONMENT,
    )
    _, status, used = os.wait4(started.pid, 0)
    started.returncode = os.waitstatus_to_exitcode(status)
    if started.returncode:
        raise SystemExit(f"{' '.join(words)}: exit {started.returncode}")
    return used.ru_utime + used.ru_stime if cpu else time.perf_counter() - start


def against_bare(
    words: list[str], rounds: int, cpu: bool, before: Callable[[], None] = lambda: None
) -> float:
    """Return the median ratio of a command to the ``python -c pass`` measured just before it."""
    before()
    process(words, cpu)
    ratios = []
    for _ in range(rounds):
        before()
        bare = process(["-c", "pass"], cpu)
        ratios.append(process(words, cpu) / bare)
    return median(ratios)


class Corrected:
    """A copy of the tables in which one figure is put one way and then the other."""

    def __init__(self, folder: Path, table: str, old: str, new: str) -> None:
        self._path = folder / f"{table}.csv"
        text = self._path.read_text(encoding="utf-8")
        if text.count(old) != 1:
            raise SystemExit(f"{table}.csv: '{old}' is there {text.count(old)} times")
        self._texts = cycle([text.replace(old, new), text])

    def __call__(self) -> None:
        """Put the figure the other way."""
        self._path.write_text(next(self._texts), encoding="utf-8")


def models(tables: Tables, number: int, first: int = 0) -> list[Page]:
    """Return shaft sheets, each of a shaft measured to another size."""
    found = []
    for n in islice(count(first), number):
        nominal = INCH[n // 2 % len(INCH)]
        work = Work("in", nominal, measured=nominal - Fraction(n % 20 + 1, 20000))
        seat = seats_for(tables, work, (OF_UNIT["in"][n % 2],))[0]
        page = sheet(tables, "Letter", set_up_for(tables, seat), f"{fraction_text(nominal)} in")
        found.append(replace(page, slug=f"{page.slug}-{n}"))
    return found


def document(pages: list[Page]) -> Document:
    """Return pages as one file."""
    return Document("bench.pdf", "Bench", "Bench", "Letter", tuple(pages))


def canvas_calls(pages: list[list[Plain]]) -> bytes:
    """Draw pages by plain canvas calls in the built-in Helvetica."""
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(612, 792), pageCompression=1, invariant=1)
    for page in pages:
        for mark in page:
            if isinstance(mark, Text):
                canvas.setFillGray(mark.grey)
                canvas.setFont("Helvetica-Bold" if mark.bold else "Helvetica", mark.size)
                draw = {
                    "start": canvas.drawString,
                    "end": canvas.drawRightString,
                    "middle": canvas.drawCentredString,
                }[mark.anchor]
                draw(mark.x, 792 - mark.y, mark.text)
            elif isinstance(mark, Line):
                canvas.setLineWidth(mark.width)
                canvas.setDash(list(mark.dash))
                canvas.line(mark.x1, 792 - mark.y1, mark.x2, 792 - mark.y2)
            else:
                _shape(canvas, *mark)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _shape(
    canvas: Any, pieces: list[tuple[str, list[float]]], fill: object, stroke: object
) -> None:
    path = canvas.beginPath()
    for kind, numbers in pieces:
        {"M": path.moveTo, "L": path.lineTo, "C": path.curveTo, "Z": path.close}[kind](*numbers)
    if fill is not None:
        canvas.setFillGray(fill)
    canvas.setLineWidth(stroke or 0)
    canvas.drawPath(path, stroke=int(stroke is not None), fill=int(fill is not None))


def plain_marks(page: Page) -> list[Plain]:
    """Return a page's marks ready for the calls; what the built-in font lacks is a "?"."""
    found: list[Plain] = []

    def walk(items: tuple[object, ...]) -> None:
        for item in items:
            if isinstance(item, Block):
                walk(item.items)
            elif isinstance(item, Text):
                text = item.text.encode("cp1252", "replace").decode("cp1252")
                found.append(replace(item, text=text))
            elif isinstance(item, Line):
                found.append(item)
            else:
                pieces = []
                for kind, *numbers in item.path:
                    flipped = [792 - n if i % 2 else n for i, n in enumerate(numbers)]
                    pieces.append((kind, flipped))
                found.append((pieces, item.fill, item.stroke))

    walk(page.blocks)
    return found


def warm(tables: Tables, rounds: int, batch: int, cpu: bool) -> tuple[float, float, float, float]:
    """Return ours over C, and of ours: the model, the drawing; and finishing over both."""
    from keyseats.renderers.finish import finish
    from keyseats.renderers.pdf import render

    now = clock(cpu)
    yardstick = [plain_marks(page) for page in models(tables, batch)]
    canvas_calls(yardstick[:2])
    finish(render(document(models(tables, 2))), document(models(tables, 2)))
    ratios, model, drawing, finishing = [], [], [], []
    for turn in range(rounds):
        start = now()
        canvas_calls(yardstick)
        calls = now() - start
        start = now()
        pages = models(tables, batch, turn)
        middle = now()
        raw = render(document(pages))
        end = now()
        finish(raw, document(pages))
        whole = now()
        ratios.append((end - start) / calls)
        model.append((middle - start) / calls)
        drawing.append((end - middle) / calls)
        finishing.append((whole - end) / (end - start))
    return median(ratios), median(model), median(drawing), median(finishing)


def grown(few: int, many: int, cpu: bool) -> tuple[float, float]:
    """Return cost a sheet in one file of many over one of few, and memory for each more. [kB]"""
    costs, peaks = [], []
    for number in (few, many):
        words = [sys.executable, __file__, "--one-file", str(number)] + (["--cpu"] if cpu else [])
        done = subprocess.run(words, capture_output=True, text=True, check=True, env=ENVIRONMENT)
        cost, peak = done.stdout.split()
        costs.append(float(cost))
        peaks.append(float(peak))
    return costs[1] / costs[0], (peaks[1] - peaks[0]) / (many - few)


def one_file(number: int, cpu: bool) -> None:
    """Print the cost of each sheet of one file, warm, and this process' peak memory. [s, kB]"""
    import resource

    from keyseats.renderers.pdf import render

    now, tables = clock(cpu), Tables(tables_dir())
    render(document(models(tables, 2)))
    start = now()
    render(document(models(tables, number)))
    cost = (now() - start) / number
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    kilobytes = peak / 1024 if sys.platform == "darwin" else peak
    sys.stdout.write(f"{cost} {kilobytes}\n")


def table(lines: list[Measured]) -> str:
    """Return the lines as a table."""
    out = ["| what | measured | target | |", "| --- | --- | --- | --- |"]
    for what, measured, unit, target in lines:
        aim = f"{target:g} {unit}".strip() if target is not None else ""
        verdict = "" if target is None else "met" if measured <= target else "missed"
        out.append(f"| {what} | {f'{measured:.2f} {unit}'.strip()} | {aim} | {verdict} |")
    return "\n".join(out)


def measure(
    rounds: int, batch: int, few: int, many: int, *, cpu: bool, whole: bool
) -> list[Measured]:
    """Return every line of the table."""
    lines = []
    with tempfile.TemporaryDirectory() as made:
        place = Path(made)
        tables = Path(shutil.copytree(tables_dir(), place / "tables"))
        build = [*PROGRAM, "build", "--tables", str(tables), "--output", str(place / "o")]
        shaft = [*PROGRAM, "shaft", "1 in"]
        lines.append(Measured("`keyseats shaft`", against_bare(shaft, rounds, cpu), "P", 6))
        chart, put = [*build, *CHART], Corrected(tables, *FIGURE)
        process(build if whole else chart, cpu)
        stands = against_bare(build if whole else chart, rounds, cpu)
        lines.append(Measured("build, nothing to do", stands, "P", 6))
        one = against_bare(chart, max(1, rounds // 2), cpu, put)
        lines.append(Measured("rebuild after a corrected figure, one file asked for", one, "P", 40))
        if whole:
            every = against_bare(build, max(1, rounds // 4), cpu, put)
            lines.append(Measured("the same, every file that prints it", every, "P", 40))
    known = Tables(tables_dir())
    ours, model, drawing, finishing = warm(known, max(1, rounds // 4), batch, cpu)
    lines.append(Measured(f"a shaft sheet, warm, {batch} in one file", ours, "C", 1.5))
    lines.append(Measured("- of that, its model", model, "C", None))
    lines.append(Measured("- of that, drawing it", drawing, "C", None))
    lines.append(Measured("tags and finishing, to model and drawing", finishing, "", None))
    growth, memory = grown(few, many, cpu)
    lines.append(Measured(f"cost a sheet, {many} in a file to {few}", growth, "", 1.2))
    lines.append(Measured(f"memory a sheet, {few} to {many}", memory, "kB", 50))
    return lines


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument(
        "--rounds", type=int, default=21, help="pairs of processes; a quarter of it for sheets"
    )
    parser.add_argument("--batch", type=int, default=100, help="shaft sheets in a file")
    parser.add_argument("--few", type=int, default=100)
    parser.add_argument("--many", type=int, default=2000)
    parser.add_argument("--cpu", action="store_true", help="processor time, for a busy machine")
    parser.add_argument("--quick", action="store_true", help="only whether it runs")
    parser.add_argument("--one-file", type=int, help=argparse.SUPPRESS)
    words = parser.parse_args()
    if words.one_file:
        one_file(words.one_file, words.cpu)
        return
    if words.quick:
        words.rounds, words.batch, words.few, words.many = 1, 2, 2, 4
    lines = measure(
        words.rounds, words.batch, words.few, words.many, cpu=words.cpu, whole=not words.quick
    )
    accelerated = "with" if _accelerated() else "without"
    by = "processor time" if words.cpu else "wall-clock time"
    python = sys.version.split()[0]
    last = f"Python {python}, {accelerated} reportlab's C accelerator; {by}"
    sys.stdout.write(f"{table(lines)}\n\n{last}\n")


def _accelerated() -> bool:
    from importlib.util import find_spec

    return find_spec("_rl_accel") is not None or find_spec("rl_accel") is not None


if __name__ == "__main__":
    main()

"""Twenty-six thousand wrong inputs: each is read or refused in one line, in time, in silence."""

from __future__ import annotations

import random
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from fuzz.mutations import SNIPPETS, mutated, refusals
from keyseats.block_sets import read_set
from keyseats.check import check
from keyseats.lengths import parse
from keyseats.load import Tables
from keyseats.shop import read_shop
from tables.planting import Bed

pytestmark = pytest.mark.slow

TABLES, CHECKS, LENGTHS, SHOPS, BLOCKS = 8000, 2000, 8000, 5000, 3000
KEPT = ("inch_half_moon_keys", "inch_half_moon_seats", "inch_half_moon_old_numbers")


@pytest.fixture(autouse=True)
def _silent(capfd: pytest.CaptureFixture[str]) -> Iterator[None]:
    yield
    assert capfd.readouterr() == ("", "")


def test_there_are_twenty_thousand() -> None:
    assert TABLES + CHECKS + LENGTHS + SHOPS + BLOCKS >= 20_000


def test_tables(tmp_path: Path, tables_folder: Path) -> None:
    """Any file of the tables, wrong, and all that can be asked of them."""
    folder = Path(shutil.copytree(tables_folder, tmp_path / "tables"))
    names = sorted(p.name for p in folder.iterdir() if p.is_file())
    whole = {name: (folder / name).read_bytes() for name in names}
    chance = random.Random(5)
    changed = ""

    def inputs() -> Iterator[bytes]:
        nonlocal changed
        for _ in range(TABLES):
            changed = chance.choice(names)
            yield mutated(whole[changed], chance)

    def use(data: bytes) -> None:
        path = folder / changed
        path.write_bytes(data)
        try:
            tables = Tables(folder)
            if changed == "schema.csv":
                for name in list(tables.schema)[:3]:
                    tables.rows(name)
            elif path.stem in tables.schema:
                for row in tables.rows(path.stem):
                    for column in tables.columns(path.stem):
                        if column.kind in ("length", "number"):
                            tables.figure(row, column)
            else:
                assert tables.sources is not None
                assert tables.quirks is not None
                assert tables.edition is not None
        finally:
            path.write_bytes(whole[changed])

    assert TABLES / 10 < refusals(inputs(), use) < TABLES


def small(bed: Bed) -> None:
    """Cut a copy of the tables down to three of them and a dozen rows."""
    for path in bed.folder.glob("*.csv"):
        if path.stem not in (*KEPT, "schema", "sources", "quirks"):
            path.unlink()
    for table in KEPT:
        bed.write(table, bed.read(table)[:12])
    schema = bed.read("schema")
    bed.write("schema", [schema[0], *(line for line in schema if line[0] in KEPT)])
    keys = {line[0] for line in bed.read(KEPT[0])}
    quirks = bed.read("quirks")
    bed.write("quirks", [quirks[0], *(q for q in quirks if q[0] in KEPT and q[1] in keys)])
    for table in KEPT[2:]:
        head, *lines = bed.read(table)
        bed.write(table, [head, *(line for line in lines if line[1] in keys)])


def test_checks(tmp_path: Path, tables_folder: Path) -> None:
    """Every fault of wrong tables is told, and telling is all that happens."""
    bed = Bed(Path(shutil.copytree(tables_folder, tmp_path / "tables")))
    small(bed)
    before = [f for f in bed.check().faults if f.file.split(".")[0] in KEPT]
    assert before == []
    names = sorted(p.name for p in bed.folder.iterdir() if p.is_file())
    whole = {name: (bed.folder / name).read_bytes() for name in names}
    chance = random.Random(7)
    faults = 0

    def inputs() -> Iterator[bytes]:
        for _ in range(CHECKS):
            for name in names:
                (bed.folder / name).write_bytes(whole[name])
            name = chance.choice(names)
            data = mutated(whole[name], chance)
            (bed.folder / name).write_bytes(data)
            yield data

    def use(data: bytes) -> None:
        nonlocal faults
        report = check(Tables(bed.folder))
        for said in (*report.faults, *report.remarks):
            assert "\n" not in str(said)
        faults += bool(report.faults)

    assert refusals(inputs(), use) == 0
    assert faults > CHECKS / 2


def test_lengths() -> None:
    """Lengths as nobody types them."""
    seeds = [b"7/8 in", b'1-7/16"', b"0.875in", b"22 mm", b"1 1/4 inch", "½ in".encode(), b"3 cm"]
    units = [b"in", b"mm", b"cm", b"yd", b"thou", b"m", b"kg", b"in**2", b"(in)", b"in*in", b"%"]
    parts = [b"0", b"1", b"7", b"/", b"-", b" ", b".", b"16", b"in", b"mm", b'"', b"'", b"e", b"_"]
    chance = random.Random(11)

    def inputs() -> Iterator[bytes]:
        for n in range(LENGTHS):
            if n % 3 == 0:
                yield mutated(chance.choice(seeds), chance)
            elif n % 3 == 1:
                yield b"".join(chance.choice(parts) for _ in range(chance.randint(0, 14)))
            else:
                number = chance.choice((b"1", b"0.5 ", b"3/4", chance.choice(SNIPPETS)))
                yield number + b"".join(chance.choice(units) for _ in range(chance.randint(1, 3)))

    refused = refusals(inputs(), lambda data: parse(data.decode("utf-8", "surrogateescape")))
    assert LENGTHS / 3 < refused < LENGTHS


def test_shop_files(tmp_path: Path) -> None:
    """A shop file, wrong."""
    from keyseats import shop_file

    example = (Path(shop_file.__file__).parent / "example.toml").read_bytes()
    bare = b"\n".join(x for x in example.splitlines() if not x.startswith(b"#"))
    path = tmp_path / "shop.toml"
    chance = random.Random(13)

    def inputs() -> Iterator[bytes]:
        for n in range(SHOPS):
            yield mutated((example, bare)[n % 2], chance)

    def use(data: bytes) -> None:
        path.write_bytes(data)
        read_shop(path)

    assert SHOPS / 3 < refusals(inputs(), use) < SHOPS


def test_gauge_block_files(tmp_path: Path, tables_folder: Path) -> None:
    """A list of gauge blocks, wrong."""
    rows = (tables_folder / "gauge_blocks.csv").read_bytes().splitlines(keepends=True)
    sizes = b"size,\n0.1001 in,\n0.1002 in,\n0.05 in,wear\n0.05 in,wear\n1 in,\n2 in,\n"
    metric = b"1 mm\n1.01 mm\n1.02 mm\n10 mm\n20 mm\n"
    seeds = [sizes, metric, b"".join(rows[:8])]
    path = tmp_path / "own.csv"
    chance = random.Random(17)

    def inputs() -> Iterator[bytes]:
        for _ in range(BLOCKS):
            yield mutated(chance.choice(seeds), chance)

    def use(data: bytes) -> None:
        path.write_bytes(data)
        read_set(path)

    assert BLOCKS / 3 < refusals(inputs(), use) < BLOCKS

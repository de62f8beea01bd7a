"""Renew the reference pictures: ``python tests/pictures/renew.py [NAME ...]``, all if none named.

Look at each page first: the pictures say what is right from then on.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from keyseats.build import file_name
from keyseats.sheets import find
from pdf.planting import printed
from pictures.rendering import REFERENCE, apart, opened, rendered, stored


def main(names: list[str]) -> int:
    """Renew the pictures named, and tell which changed."""
    known = {
        file_name(s.name, paper).removesuffix(".pdf"): (s.name, paper)
        for s in find()
        for paper in s.papers
    }
    unknown = [name for name in names if name not in known]
    if unknown:
        sys.stderr.write(f"no picture '{unknown[0]}'; known: {', '.join(sorted(known))}\n")
        return 2
    REFERENCE.mkdir(exist_ok=True)
    for name in names or sorted(known):
        path = REFERENCE / f"{name}.png"
        now = rendered(printed(*known[name]))
        if not path.is_file():
            says = "new"
        elif apart(opened(path), now).seen:
            says = "changed"
        else:
            # A picture that no one could tell from the old one is left, so that git shows none.
            continue
        path.write_bytes(stored(now))
        sys.stdout.write(f"{says}: {name}\n")
    for path in sorted(REFERENCE.glob("*.png")):
        if path.stem not in known:
            path.unlink()
            sys.stdout.write(f"removed: {path.stem}\n")
    total = sum(path.stat().st_size for path in REFERENCE.glob("*.png"))
    sys.stdout.write(f"{len(list(REFERENCE.glob('*.png')))} pictures, {total / 1000:.0f} kB\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))

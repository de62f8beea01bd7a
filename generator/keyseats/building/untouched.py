"""Whether a build has nothing to do, answered from hashes alone."""
# ruff: noqa: PTH118

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import Any

from keyseats import manifest
from keyseats.building import inputs
from keyseats.building.inputs import file_sha

PREVIEWS = "previews"
INDEX = "index.html"


def file_name(sheet: str, paper: str) -> str:
    """Return the name of a sheet's file on one paper."""
    return f"{sheet}-{paper.lower().replace(' ', '-')}.pdf"


def picture_name(name: str) -> str:
    """Return the name of the picture of a file."""
    return f"{PREVIEWS}/{name.removesuffix('.pdf')}.png"


def file_names(sheets: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, str]]:
    """Return sheet and paper of every file of a set by its name."""
    return {file_name(s, paper): (s, paper) for s, papers in sheets.items() for paper in papers}


def all_names(files: Mapping[str, Any]) -> set[str]:
    """Return every name that a build of some files writes."""
    return {*files, *(picture_name(name) for name in files), INDEX, manifest.NAME}


def nothing_to_do(
    tables: str | os.PathLike[str],
    output: str | os.PathLike[str],
    sheets: tuple[str, ...],
    paper: str,
) -> bool:
    """Return whether every file asked for is there, as written, from inputs unchanged.

    Parameters
    ----------
    tables, output
        The folders.
    sheets, paper
        What was asked for; blank for all.
    """
    made = manifest.raw(output)
    if not made:
        return False
    now = inputs.now(tables)
    if made["code"] != now.code:
        return False
    catalogue = {name: tuple(papers) for name, papers in made["sheets"].items()}
    files, planned = made["files"], file_names(catalogue)
    if not set(sheets) <= catalogue.keys() or not planned.keys() >= files.keys():
        return False
    wanted = [
        name
        for name, (sheet, on) in planned.items()
        if (not sheets or sheet in sheets) and (not paper or on.lower() == paper.lower())
    ]
    if not wanted or not all(name in files for name in wanted):
        return False
    whole = now.whole()
    if any(files[name]["inputs"] != whole for name in wanted):
        return False
    there = [(name, files[name]["written"]) for name in wanted]
    there += [(name, entry["written"]) for name, entry in made["derived"].items()]
    if any(not told or file_sha(os.path.join(output, name)) != told for name, told in there):
        return False
    from keyseats.building.placing import leftovers

    return not leftovers(output, all_names(planned))

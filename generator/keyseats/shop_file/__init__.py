"""The shop file: found in its text by line, read into a shop, told back in plain words."""

from pathlib import Path

EXAMPLE = Path(__file__).with_name("example.toml")

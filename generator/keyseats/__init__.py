"""Printed keyseat references: curated tables in, wall charts, cards and shaft sheets out."""

__version__ = "1.0.0"

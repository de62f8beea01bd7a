"""Graphs for where one would rather look than read: what they show, and how they are set."""

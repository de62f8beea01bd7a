"""Corrections: figures by id, page codes, the archive of editions, and what a change means."""

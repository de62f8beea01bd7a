"""The key families, one module each: what a standard tables, ready for `keyseats.seat`.

Each module has ``NAME``, ``UNIT``, ``STANDARDS`` (the default first), ``FITS`` (the default first),
``tabled(tables, work)`` for the keys of a shaft with the first choice marked, and
``every(tables, work)`` for all keys of the family.
"""

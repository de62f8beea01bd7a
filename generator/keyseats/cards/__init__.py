"""Faces of pocket cards, one module a subject; `keyseats.imposing` puts them on a sheet.

Each module has ``card(tables, size)``, which returns a front and a back in the card's own
coordinates, laid out for that size.
"""

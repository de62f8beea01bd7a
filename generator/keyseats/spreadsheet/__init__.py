"""What spreadsheet programs do to a table: undone where nothing was lost, else named.

Imported only when a file or a cell is not as it should be, so that a look-up does without.
"""

"""Wall charts for across the room, read at 2 m: the same type rule, fewer columns, more sheets.

The papers are twice as wide as Letter and A4, the distance is more than twice as long, so a sheet
has about a fifth less room in figure sizes. What is looked up before the work is left to the other
papers; what is set during the work stays.
"""

# The papers that these charts are laid out for; both are narrow in figure sizes.
PAPERS = ("ANSI C", "A2")

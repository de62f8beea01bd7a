"""Shop files with one fault each: the text, the line at fault, and words of the remedy."""

from __future__ import annotations

from pathlib import Path

# The line at fault ends with "# here".
SLIDE = '[[slide]]\nname = "cross"\ndirection = "across the spindle"\n'
DIAL = SLIDE + 'turn = "0.125 in"\ndivisions = 250\n'
DISC = '[[cutter]]\nname = "disc"\nkind = "disc"\ndiameter = "2 in"\n'
MILL = '[[cutter]]\nname = "mill"\nkind = "end mill"\ndiameter = "6 mm"\n'

REFUSED = {
    "a wrong key": ('heading = "A"\nmaterail = "brass" # here\n', "material"),
    "a wrong key in a slide": (DIAL + 'raeds = "diameter" # here\n', "reads"),
    "a wrong key in the second slide": (
        DIAL + '\n# remark\n[[slide]]\nname = "b"\ndirecton = "up and down" # here\n',
        "direction",
    ),
    "a wrong key in a cutter": (DISC + 'widht = "3/16 in" # here\n', "width"),
    "a wrong key in a slide within braces": (
        'slide = [\n  { name = "a", direction = "up and down" },\n'
        '  { name = "b", direktion = "across the spindle" }, # here\n]\n',
        "direction",
    ),
    "a top key under a slide": (SLIDE + 'heading = "Mill" # here\n', "above the first"),
    "a slide's key at the top": ('turn = "0.1 in" # here\n', "[[slide]]"),
    "a slide's key in a cutter": (DISC + 'turn = "0.1 in" # here\n', "[[slide]]"),
    "a cutter's key in a slide": (SLIDE + 'neck = "0.2 in" # here\n', "[[cutter]]"),
    "name at the top": ('name = "Mill" # here\n', "heading"),
    "a wrong unit": (SLIDE + 'turn = "0.125 kg" # here\ndivisions = 250\n', "in or mm"),
    "no unit": (SLIDE + 'turn = "0.125" # here\ndivisions = 250\n', "no unit"),
    "a bare number": (SLIDE + "turn = 0.125 # here\ndivisions = 250\n", '"0.125 in"'),
    "true for a length": ("tip = true # here\n", "not a length"),
    "a list for a length": ("tip = [1] # here\n", "not a length"),
    "a date for a length": ("tip = 2020-01-01 # here\n", "not a length"),
    "a number for a heading": ("heading = 7 # here\n", "quotes"),
    "an empty heading": ('heading = "  " # here\n', "leave the line out"),
    "a word for a count": (SLIDE + 'turn = "0.1 in"\ndivisions = "100" # here\n', "bare"),
    "true for a count": (SLIDE + 'turn = "0.1 in"\ndivisions = true # here\n', "not a count"),
    "no count": (SLIDE + 'turn = "0.1 in"\ndivisions = nan # here\n', "out of reason"),
    "an endless count": (SLIDE + 'turn = "0.1 in"\ndivisions = 1e999999999 # here\n', "reason"),
    "a count beyond decimals": (
        SLIDE + 'turn = "0.1 in"\ndivisions = 1e9999999999999999999999 # here\n',
        "reason",
    ),
    "a tiny count": (SLIDE + 'turn = "0.1 in"\ndivisions = 1e-999999 # here\n', "reason"),
    "no divisions at all": (SLIDE + 'turn = "0.1 in"\ndivisions = 0 # here\n', "reason"),
    "negative divisions": (SLIDE + 'turn = "0.1 in"\ndivisions = -100 # here\n', "reason"),
    "too many divisions": (SLIDE + 'turn = "0.1 in"\ndivisions = 1001 # here\n', "count them"),
    "too fine a count": (SLIDE + 'turn = "0.1 in"\ndivisions = 62.5001 # here\n', "three"),
    "a word for a flag": (DIAL + 'can_be_zeroed = "no" # here\n', "false"),
    "a negative turn": (
        SLIDE + 'turn = "-0.1 in" # here\ndivisions = 100\n',
        "above zero; measure again",
    ),
    "a turn of nothing": (
        SLIDE + 'turn = "0 in" # here\ndivisions = 100\n',
        "above zero; measure again",
    ),
    "an enormous turn": (SLIDE + 'turn = "40 in" # here\ndivisions = 100\n', "out of reason"),
    "a tiny turn": (SLIDE + 'turn = "0.01 mm" # here\ndivisions = 100\n', "out of reason"),
    "inches said for millimetres": ('deepest_pass = "0.5 in" # here\n', "look at the unit"),
    "millimetres said for inches": ('deepest_pass = "0.015 mm" # here\n', "look at the unit"),
    "a negative paper": ('paper_thickness = "-0.003 in" # here\n', "above zero; measure again"),
    "a thick paper": ('paper_thickness = "3 mm" # here\n', "out of reason"),
    "a tip of nothing": ('tip = "0 mm" # here\n', "above zero; measure again"),
    "a tip's length without a tip": ('tip_length = "10 mm" # here\n', "give the tip"),
    "an enormous holder": ('holder_radius = "900 mm" # here\n', "out of reason"),
    "an unknown direction": (
        '[[slide]]\nname = "a"\ndirection = "accross the spindle" # here\n',
        "across the spindle",
    ),
    "the other machine's direction": (
        '[[slide]]\nname = "a"\ndirection = "along the table" # here\n',
        "in a lathe's spindle",
    ),
    "a lathe's direction on a mill": (
        'spindle = "mill"\n[[slide]]\nname = "a"\ndirection = "along the spindle" # here\n',
        "along the table",
    ),
    "a number for a direction": ('[[slide]]\nname = "a"\ndirection = 1 # here\n', "not a word"),
    "one direction twice": (
        SLIDE + '\n[[slide]]\nname = "top"\ndirection = "Across the spindle" # here\n',
        "line 3",
    ),
    "one slide's name twice": (
        SLIDE + '[[slide]]\nname = "Cross" # here\ndirection = "up and down"\n',
        "line 2",
    ),
    "a slide without a name": ('[[slide]] # here\ndirection = "up and down"\n', "name"),
    "a slide without a direction": ('\n[[slide]] # here\nname = "a"\n', "direction"),
    "a turn without divisions": (SLIDE + 'turn = "0.1 in" # here\n', "divisions"),
    "divisions without a turn": (SLIDE + "divisions = 100 # here\n", "turn"),
    "a graduation without a dial": (SLIDE + 'graduation = "0.001 in" # here\n', "dial"),
    "a reading without a dial": (SLIDE + 'reads = "diameter" # here\n', "dial"),
    "a zero without a dial": (SLIDE + "can_be_zeroed = false # here\n", "dial"),
    "reads neither": (DIAL + 'reads = "radius" # here\n', "movement"),
    "a diameter dial with a movement's marks": (
        SLIDE + 'turn = "0.2 in"\ndivisions = 200\ngraduation = "0.001 in" # here\n'
        'reads = "diameter"\n',
        'would fit reads = "movement"',
    ),
    "a movement dial with a diameter's marks": (
        DIAL + 'reads = "movement"\ngraduation = "0.001 in" # here\n',
        'would fit reads = "diameter"',
    ),
    "marks that fit neither": (DIAL + 'graduation = "0.002 in" # here\n', "neither"),
    "marks in the wrong unit": (DIAL + 'graduation = "0.001 mm" # here\n', "neither"),
    "an unknown spindle": ('spindle = "drill" # here\n', "lathe"),
    "a mill's way to lie in a lathe": (
        'shaft_lies = "along the table" # here\n',
        "in a lathe's spindle",
    ),
    "an unknown paper": ('paper = "A44" # here\n', "A4"),
    "an unknown kind": (
        '[[cutter]]\nname = "a"\nkind = "dics" # here\ndiameter = "2 in"\n',
        "disc",
    ),
    "a disc without width": (DISC.replace("[[cutter]]", "[[cutter]] # here"), "width"),
    "a cutter without diameter": (
        '[[cutter]] # here\nname = "a"\nkind = "end mill"\n',
        "diameter",
    ),
    "a width on an end mill": (MILL + 'width = "6 mm" # here\n', "end mill"),
    "a neck on a disc": (DISC + 'width = "3/16 in"\nneck = "1/4 in" # here\n', "disc"),
    "a width over the diameter": (DISC + 'width = "2 in" # here\n', "not under"),
    "a collar as large as the disc": (
        DISC + 'width = "3/16 in"\ncollar = "50.8 mm" # here\n',
        "not under",
    ),
    "a fraction's stroke typed as a point": (
        DISC + 'width = "3.16 in" # here\n',
        "out of reason, which is 0.01 to 2 in",
    ),
    "a width just over what is in reason": (
        DISC.replace('"2 in"', '"12 in"') + 'width = "2.001 in" # here\n',
        "out of reason",
    ),
    "a mill just over what is in reason": (MILL.replace('"6 mm"', '"50.1 mm" # here'), "reason"),
    "an enormous cutter": (MILL.replace('"6 mm"', '"600 mm" # here'), "out of reason"),
    "one cutter's name twice": (
        MILL + MILL.replace('name = "mill"', 'name = "mill" # here'),
        "line 2",
    ),
    "shafts that are no list": ('shafts = "1 in" # here\n', "a list"),
    "a shaft without unit in a long list": (
        'shafts = [\n  "1 in", # first\n  "7/8", # here\n]\n',
        "no unit",
    ),
    "a number among the shafts": ('shafts = ["1 in",\n\n20, # here\n]\n', '"20 mm"'),
    "a shaft twice": ('shafts = [\n"1 in",\n"1.000 in", # here\n]\n', "twice"),
    "an enormous shaft": ('shafts = ["3 in", "90 in"] # here\n', "out of reason"),
    "too many shafts": (
        "shafts = [ # here\n" + "".join(f'"{n} mm",\n' for n in range(10, 51)) + "]\n",
        "too many",
    ),
    "too many cutters": (
        "".join(MILL.replace('"mill"', f'"mill {n}"') for n in range(60))
        + MILL.replace("[[cutter]]", "[[cutter]] # here"),
        "60 are allowed",
    ),
    "a slide that is a number": ("\nslide = [1] # here\n", "[[slide]]"),
    "a slide by dotted keys": ("slide.name = 'a' # here\n", "[[slide]]"),
    "one pair of brackets": ('\n[slide] # here\nname = "a"\n', "[[slide]]"),
    "one pair of brackets twice": ('[slide]\nname = "a"\n[slide] # here\n', "[[slide]]"),
    "a key twice": (
        'heading = "A"\ntip = "5 mm"\nheading = "B" # here\ntip_length = "5 mm"\n',
        "second",
    ),
    "a key twice at the end": ('heading = "A"\nheading = "B" # here', "second"),
    "no quotes": ("\n\nheading = Mill # here\n", 'heading = "Mill"'),
    "a length without quotes": (SLIDE + "turn = 0.125 in # here\n", 'turn = "0.125 in"'),
    "an inch mark in quotes": (SLIDE + 'turn = "1/8"" # here\n', "1/8 in"),
    "a quote left open": ('heading = "Mill # here\ntip = "5 mm"\n', "quote"),
    "no value": ("heading # here\n", "equals sign"),
    "a control character": ('heading = "Mill\\u0007" # here\n', "U+0007"),
    "a line break": ('heading = "Mill\\nShop" # here\n', "U+000A"),
    "writing turned about": ('heading = "Mill\\u202e" # here\n', "U+202E"),
    "a hard space in a length": ('tip = "5\\u00a0mm" # here\n', "U+00A0"),
    "letters that the pages lack": ('heading = "Mill \\u6c34" # here\n', "typeface"),
    "a long heading": (f'heading = "{"m" * 81}" # here\n', "shorten"),
    "a long name": (f'[[slide]]\nname = "{"m" * 41}" # here\ndirection = "up and down"\n', "40"),
    "an overlong line": (f"\n#{'m' * 300} # here\n", "long"),
    "an overlong number": (f"\ntip = {'9' * 5000} # here\n", "long"),
    "a large number": (f"\ntip = {'9' * 200} # here\n", "no unit"),
}


def put(folder: Path, text: str) -> Path:
    path = folder / "shop.toml"
    path.write_bytes(text.encode())
    return path


def line_of(text: str) -> int:
    return next(n for n, line in enumerate(text.split("\n"), 1) if "# here" in line)

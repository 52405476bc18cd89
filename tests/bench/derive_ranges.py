#!/usr/bin/env python3
"""What grammars/ranges.txt holds: between which lengths a measure of a kind may lie.

    derive_ranges.py              prints the table
    derive_ranges.py --check FILE says whether FILE is that table, byte for byte

Every soft bound is worked out from a published body measurement and an allowance, and the row says
which; so a bound cannot drift from its source. Whole numbers throughout: figures in millimetres,
bounds in micrometres.
"""
import sys

# ANSUR II: Gordon et al., 2012 Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007, 2014;
# percentiles of its public data (4082 men, 1986 women), all ages together, linear interpolation at
# rank (n - 1) p. Millimetres: 1st percentile, 99th percentile. Serving soldiers of working age, so
# the very small and the very large are fewer than among all people.
BODY = {
    "chest circumference": {"M": (873, 1276), "F": (784, 1160)},
    "waist circumference": {"M": (725, 1214), "F": (665, 1115)},
    "buttock circumference": {"M": (862, 1218), "F": (867, 1206)},
    "neck circumference": {"M": (346, 467), "F": (291, 384)},
    "biacromial breadth": {"M": (371, 463), "F": (322, 406)},
    "bideltoid breadth": {"M": (439, 593), "F": (388, 522)},
    "sleeve outseam": {"M": (523, 670), "F": (478, 611)},
    "sleeve length spine-wrist": {"M": (805, 990), "F": (719, 897)},
    "cervicale height": {"M": (1373, 1677), "F": (1263, 1533)},
    "waist height": {"M": (943, 1186), "F": (869, 1099)},
    "crotch height": {"M": (747, 960), "F": (685, 888)},
    "crotch length": {"M": (523, 739), "F": (527, 723)},
    "thigh circumference": {"M": (497, 774), "F": (495, 757)},
    "calf circumference": {"M": (330, 467), "F": (313, 452)},
    "ankle circumference": {"M": (198, 268), "F": (185, 255)},
    # Differences within the same person; the second of all people together.
    "waist height less crotch height": {"M": (161, 260), "F": (149, 248)},
    "cervicale height less crotch height": {"": (547, 748)},
}

# EN 13402-3, the largest lettered body girth: 5XL, women's bust 1550 to 1670. Hard bounds are ours:
# they have to hold what is made for children and for the largest letter.
LARGEST_GIRTH = 1670

UPPER = ["t shirt", "shirt", "blouse", "sweater", "cardigan", "jacket", "blazer", "waistcoat"]
LONG_SLEEVED = ["shirt", "sweater", "cardigan", "jacket", "blazer", "coat"]
LONG_LEGGED = ["trousers", "jeans"]
LEGGED = LONG_LEGGED + ["shorts"]


def figure(name, sex, percentile):
    value = BODY[name][sex][0 if percentile == 1 else 1]
    return value, f"{name} {sex} P{percentile} {value}".replace("  ", " ")


def adjusted(value, words, allowance):
    if allowance == 0:
        return value, words
    sign = "+" if allowance > 0 else "-"
    return value + allowance, f"{words} {sign} {abs(allowance)}"


def whole(name, sex, percentile, allowance=0):
    value, words = adjusted(*figure(name, sex, percentile), allowance)
    return value * 1000, words


def half(name, sex, percentile, ease=0):
    """Flat: half of the girth with its ease."""
    value, words = adjusted(*figure(name, sex, percentile), ease)
    return value * 500, f"({words}) / 2"


def half_stretched(name, sex, percentile):
    """Flat: half of a girth that the cloth, stretching, is 0.85 of."""
    value, words = figure(name, sex, percentile)
    return value * 425, f"{words} x 0.85 / 2"


def half_then(name, sex, percentile, allowance):
    value, words = figure(name, sex, percentile)
    sign = "+" if allowance > 0 else "-"
    return value * 500 + allowance * 1000, f"{words} / 2 {sign} {abs(allowance)}"


NONE = (None, None)

# Handbook ease is 40 to 150 mm (McCunn, Computer Aided Pattern Design; Central Washington
# University's costume text, chapter 16; Craft Yarn Council, from "very close" to "oversized"). Of
# the largest, what is worn over other things has 150 to 400 (from memory): 400 holds for all.
EASE_UPPER, EASE_LOWER = 400, 200

CHEST = (
    half_stretched("chest circumference", "F", 1),
    half("chest circumference", "M", 99, EASE_UPPER),
)
WAIST_UPPER = (
    half_stretched("waist circumference", "F", 1),
    half("waist circumference", "M", 99, EASE_UPPER),
)
WAIST_LOWER = (
    half_stretched("waist circumference", "F", 1),
    half("waist circumference", "M", 99, EASE_LOWER),
)
HIP_UPPER = (
    half_stretched("buttock circumference", "M", 1),
    half("buttock circumference", "M", 99, EASE_UPPER),
)
HIP_LOWER = (
    half_stretched("buttock circumference", "M", 1),
    half("buttock circumference", "M", 99, EASE_LOWER),
)
SHOULDER = (whole("biacromial breadth", "F", 1, -20), whole("bideltoid breadth", "M", 99, 60))
SLEEVE_LONG = (whole("sleeve outseam", "F", 1, -30), whole("sleeve outseam", "M", 99, 80))
SLEEVE_ANY = (NONE, SLEEVE_LONG[1])
NECK_TO_CROTCH = "cervicale height less crotch height"
TOP_LENGTH = (whole(NECK_TO_CROTCH, "", 1, -150), whole(NECK_TO_CROTCH, "", 99, 200))
COAT_LENGTH = (whole(NECK_TO_CROTCH, "", 1), whole("cervicale height", "M", 99))
DRESS_LENGTH = (whole(NECK_TO_CROTCH, "", 1), whole("cervicale height", "F", 99, 100))
RISE = "waist height less crotch height"
SKIRT_LENGTH = (whole(RISE, "F", 99), whole("waist height", "F", 99))
INSEAM_LONG = (whole("crotch height", "F", 1, -85), whole("crotch height", "M", 99, -10))
INSEAM_SHORT = (NONE, INSEAM_LONG[0])
OUTSEAM_LONG = (whole("waist height", "F", 1, -120), whole("waist height", "M", 99, 50))
OUTSEAM_SHORT = (whole(RISE, "F", 1), whole("waist height", "F", 1))
FRONT_RISE = (half_then("crotch length", "M", 1, -90), half_then("crotch length", "M", 99, 10))
BACK_RISE = (half_then("crotch length", "M", 1, -90), half_then("crotch length", "M", 99, 80))
THIGH = (half_stretched("thigh circumference", "F", 1), half("thigh circumference", "M", 99, 180))
LEG_LONG = (half("ankle circumference", "F", 1), half("calf circumference", "F", 99, 452))
LEG_SHORT = (
    half_stretched("calf circumference", "F", 1),
    half("thigh circumference", "M", 99, EASE_UPPER),
)
HEM_UPPER = (
    half_stretched("waist circumference", "F", 1),
    half("chest circumference", "M", 99, EASE_UPPER),
)
HEM_COAT = (HEM_UPPER[0], NONE)
HEM_ANY = (NONE, NONE)
COLLAR = (whole("neck circumference", "F", 1), whole("neck circumference", "M", 99, 60))

# Measure, kinds, hard bounds in millimetres, soft bounds, and why.
ROWS = [
    ("chest", ["any"], (150, 1100), CHEST, "stretched to loose"),
    ("waist", ["any"], (120, 1100), WAIST_UPPER, "dresses and coats: elastic to loose"),
    ("waist", LEGGED + ["skirt"], (120, 950), WAIST_LOWER, "elastic to easy"),
    ("hip", ["any"], (150, 1500), HIP_UPPER, "stretched to loose"),
    ("hip", LEGGED, (150, 1000), HIP_LOWER, "stretched to easy"),
    ("shoulder", ["any"], (120, 850), SHOULDER, "seams set in, to dropped"),
    ("sleeve", ["any"], (30, 950), SLEEVE_ANY, "short sleeves too; the longest over the hand"),
    ("sleeve", LONG_SLEEVED, (30, 950), SLEEVE_LONG, "long sleeves; the longest over the hand"),
    ("length", ["any"], (50, 3000), (NONE, NONE),
     "a tie, a scarf and a coat have nothing in common"),
    ("length", UPPER + ["all in one"], (150, 1600), TOP_LENGTH, "cropped, to below the seat"),
    ("length", ["coat"], (150, 2000), COAT_LENGTH, "over the seat, to the ground"),
    ("length", ["dress"], (150, 2000), DRESS_LENGTH, "over the seat, to the ground with heels"),
    ("length", ["skirt"], (100, 1400), SKIRT_LENGTH, "over the seat, to the ground"),
    ("length", ["belt"], (300, 2000), (NONE, NONE), "a child's to the largest"),
    ("length", ["scarf"], (200, 3500), (NONE, NONE), "a neckerchief to a long stole"),
    ("length", ["tie"], (250, 2000), (NONE, NONE), "a child's to the longest"),
    ("inseam", ["any"], (20, 1150), (NONE, INSEAM_LONG[1]), "down to the ground"),
    ("inseam", LONG_LEGGED, (20, 1150), INSEAM_LONG, "cropped, to just off the ground"),
    ("inseam", ["shorts"], (20, 1150), INSEAM_SHORT, "up to where trousers begin"),
    ("outseam", ["any"], (100, 1650), (OUTSEAM_SHORT[0], OUTSEAM_LONG[1]), "shorts to trousers"),
    ("outseam", LONG_LEGGED, (100, 1650), OUTSEAM_LONG, "cropped, to the ground from a high waist"),
    ("outseam", ["shorts"], (100, 1650), OUTSEAM_SHORT, "no leg at all, to where trousers begin"),
    ("front rise", ["any"], (100, 500), FRONT_RISE, "low to high"),
    ("back rise", ["any"], (100, 600), BACK_RISE, "low to high; the back is the longer"),
    ("thigh", ["any"], (80, 700), THIGH, "stretched to easy"),
    ("leg opening", ["any"], (50, 800), (LEG_LONG[0], LEG_SHORT[1]),
     "the narrowest trousers to the widest shorts"),
    ("leg opening", LONG_LEGGED, (50, 800), LEG_LONG,
     "an ankle, to flares twice as wide as the calf"),
    ("leg opening", ["shorts"], (50, 800), LEG_SHORT,
     "stretched over the calf, to loose over the thigh"),
    ("hem", ["any"], (100, 3000), HEM_ANY, "a full skirt is as wide as its cloth"),
    ("hem", UPPER, (100, 1500), HEM_UPPER, "waist stretched, to chest loose"),
    ("hem", ["coat"], (100, 3000), HEM_COAT, "waist stretched; coats may flare"),
    ("collar", ["any"], (200, 650), COLLAR, "closed, to loose"),
    # Nothing is sourced here for what is worn on feet and heads, carried or tied: hard bounds only,
    # from a baby's to what is hardly ever made larger.
    ("insole", ["any"], (70, 400), (NONE, NONE), "a baby's first shoe to the largest made"),
    ("outsole width", ["any"], (35, 180), (NONE, NONE), "a baby's to a broad boot"),
    ("heel", ["any"], (0, 250), (NONE, NONE), "none to a platform"),
    ("width", ["any"], (5, 2500), (NONE, NONE), "a belt and a shawl have nothing in common"),
    ("width", ["bag"], (50, 1200), (NONE, NONE), "a purse to a travelling bag"),
    ("width", ["belt"], (5, 200), (NONE, NONE), "a cord to a waspie"),
    ("width", ["tie"], (15, 250), (NONE, NONE), "a bolo's cord is no tie; a cravat is"),
    ("height", ["any"], (40, 1200), (NONE, NONE), "a purse to a kit bag"),
    ("depth", ["any"], (0, 700), (NONE, NONE), "a flat pouch to a travelling bag"),
    ("strap drop", ["any"], (20, 900), (NONE, NONE), "a handle to a strap worn across"),
    ("head round", ["any"], (300, 750), (NONE, NONE), "a newborn's to the largest made"),
    ("brim", ["any"], (5, 400), (NONE, NONE), "a turned edge to a cartwheel hat"),
    ("crown", ["any"], (30, 400), (NONE, NONE), "a skull cap to a top hat"),
]

HEAD = """\
# Ranges: measure | kind, or any | hard low | hard high | soft low | soft high | source.
#
# In whole micrometres: 1 cm is 10000, 1 in is 25400. Flat measures are flat, as they are said. A
# value outside the hard bounds is asked again; one outside the soft bounds is read back as a
# question. A soft bound may be left out: then nothing is asked on that side. A kind without a row of
# its own has the row of any.
#
# Written by tests/bench/derive_ranges.py; rows of your own can be added by hand. The sources are in
# millimetres. Soft bounds: percentiles (P1, P99) of men (M) and women (F) in ANSUR II (Gordon et al.,
# 2012 Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007), with an allowance: 0.85 of the
# girth for cloth that stretches, ease after the handbooks that the script names, and for style (how
# low a waist, how long a hem) what is customary in the trade. Hard bounds: our choice, wide enough for
# what is made for children, and for the largest letter of EN 13402-3 (5XL, a body girth of 1670).
# Soft bounds are for adults: nothing for children is sourced here, so children's wear is held to the
# hard bounds only.
"""


def rows():
    for measure, kinds, (hard_low, hard_high), (low, high), why in ROWS:
        low_um, low_words = low
        high_um, high_words = high
        assert (low_um or hard_low * 1000) >= hard_low * 1000, measure
        assert (high_um or hard_high * 1000) <= hard_high * 1000, measure
        assert low_um is None or high_um is None or low_um < high_um, measure
        if low_words is None and high_words is None:
            source = f"hard only: {why}"
        else:
            source = f"ANSUR II: {low_words or 'no low'}; {high_words or 'no high'}: {why}"
        for kind in kinds:
            columns = [measure, kind, hard_low * 1000, hard_high * 1000,
                       "" if low_um is None else low_um, "" if high_um is None else high_um]
            widths = [13, 10, 6, 7, 6, 7]
            cells = [f"{cell:<{width}}" if isinstance(cell, str) and cell else f"{cell:>{width}}"
                     for cell, width in zip(columns, widths)]
            yield " | ".join(cells + [source])


def table():
    # A chest of the largest letter, worn as loosely as any, has to be possible.
    assert 1100 >= (LARGEST_GIRTH + EASE_UPPER) / 2
    lines = []
    measure = None
    for row in rows():
        if row.split(" | ")[0] != measure:
            lines.append("")
        measure = row.split(" | ")[0]
        lines.append(row)
    return HEAD + "\n".join(lines) + "\n"


def main(arguments):
    if not arguments:
        sys.stdout.write(table())
        return 0
    if len(arguments) == 2 and arguments[0] == "--check":
        with open(arguments[1], encoding="utf-8") as file:
            if file.read() == table():
                return 0
        print(f"{arguments[1]} is not what derive_ranges.py writes: run it again", file=sys.stderr)
        return 1
    print(__doc__, file=sys.stderr)
    return 2


sys.exit(main(sys.argv[1:]))

"""What is said at a station, drawn at random as often as the trade says it.

Mostly measures, each of a length that its garment may have (the soft bounds of grammars/ranges.txt),
fractions mostly halves and quarters; then flaws, facts, labels and orders. One text in ten holds
several calls, three in a hundred take something back. How often what is said is common practice, no
source: some sixty garments a day with four to six measures each, a flaw or two on every other one.

A text may hold commas, where people halt for a moment: for the synthesiser, not for the transcript.
"""

import os
import re

import corpus

DIGITS = "one two three four five six seven eight nine".split()
TEENS = ("ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen "
         "nineteen").split()
TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()

SEVERAL = 0.10  # of all texts hold two or three calls
CORRECTED = 0.03  # take back what they just said
OTHER_NAME = 0.2  # of names are said in their other way, where they have one
MICROMETRES_AN_INCH = 25400


def rows_of(name):
    """The lines of one of the files in grammars/, in columns, without a weight at the front."""
    for line in open(os.path.join(corpus.TOP, "grammars", name)):
        line = re.sub(r"^/[0-9.]+/", "", line)
        if line.split("#")[0].strip():
            yield [cell.strip() for cell in line.split("#")[0].split("|")]


def list_of(name):
    """The names of one of the lists in grammars/."""
    return [row[0] for row in rows_of(name)]


def one_of(choose, name):
    """A name of a list, or another way to say it."""
    row = choose.choice(list(rows_of(name)))
    others = [other.strip() for other in row[1].split(",")] if len(row) > 1 and row[1] else []
    return choose.choice(others) if others and choose.random() < OTHER_NAME else row[0]


def weighted(choose, table):
    """One of the keys of a table of how often."""
    return choose.choices(list(table), list(table.values()))[0]


def below_hundred(value):
    if value < 10:
        return DIGITS[value - 1]
    if value < 20:
        return TEENS[value - 10]
    tens = TENS[value // 10 - 2]
    return tens if value % 10 == 0 else tens + " " + DIGITS[value % 10 - 1]


def below_thousand(choose, value):
    if value < 100:
        return below_hundred(value)
    hundreds, rest = divmod(value, 100)
    if rest == 0:
        return ("a" if hundreds == 1 else DIGITS[hundreds - 1]) + " hundred"
    if hundreds == 1 and choose.random() < 0.4:
        return "one " + ("oh " if rest < 10 else "") + below_hundred(rest)
    return (("a" if hundreds == 1 else DIGITS[hundreds - 1]) + " hundred"
            + choose.choice([" ", " and "]) + below_hundred(rest))


FRACTIONS = {"": 45, " and a half": 22, " and a quarter": 10, " and three quarters": 10,
             " and three eighths": 2, " and five eighths": 2, " and an eighth": 1,
             " and seven eighths": 1, " point five": 4, " point two five": 1.5,
             " point seven five": 1.5}
TENTHS = {"": 50, " point five": 40, " point two": 3, " point eight": 3, " point three": 2,
          " point seven": 2}


def length(choose, low=4, high=60):
    """A length between two whole numbers of inches; one in eight is said in centimetres."""
    if choose.random() < 0.12:
        value = choose.randint(round(low * 2.54), round(high * 2.54))
        return below_thousand(choose, value) + weighted(choose, TENTHS) + " centimetres"
    return (below_thousand(choose, choose.randint(low, high)) + weighted(choose, FRACTIONS)
            + weighted(choose, {"": 75, " inches": 25}))


def bounds_in(choose, measure):
    """Whole inches that a measure may have, for one of the kinds that have it."""
    rows = [row for row in rows_of("ranges.txt") if row[0] == measure]
    kinds = [row for row in rows if row[4] or row[5]] or rows
    if not kinds:
        return 4, 40
    row = choose.choice(kinds)
    low, high = (int(row[soft] or row[hard]) / MICROMETRES_AN_INCH for soft, hard in [(4, 2), (5, 3)])
    return max(2, round(low)), max(3, round(high))


def measure(choose):
    row = choose.choice(list(rows_of("measures.txt")))
    others = [other.strip() for other in row[1].split(",") if other.strip()]
    name = choose.choice(others) if others and choose.random() < OTHER_NAME else row[0]
    if choose.random() < 0.03:
        return name + " none"
    return name + " " + length(choose, *bounds_in(choose, row[0]))


def label(choose):
    """What bins and items are called."""
    digit = lambda: choose.choice(DIGITS + ["oh"])
    pair = lambda: below_hundred(choose.randint(10, 99))
    return choose.choice([
        lambda: " ".join(choose.choice(DIGITS) if i == 0 else digit() for i in range(3)),
        lambda: choose.choice(DIGITS) + " " + pair(),
        lambda: choose.choice(DIGITS) + " oh " + choose.choice(DIGITS),
        pair, lambda: pair() + " " + pair(),
        lambda: choose.choice(DIGITS) + " hundred"])()


SMALL_LENGTHS = ["half an inch", "a quarter inch", "three quarters of an inch", "one inch",
                 "two inches", "one and a half inches", "three centimetres"]


def flaw(choose):
    if choose.random() < 0.08:
        return "flaw none"
    words = ["flaw", weighted(choose, {"": 6, "small": 3, "large": 1}), one_of(choose, "flaws.txt"),
             choose.choice(SMALL_LENGTHS) if choose.random() < 0.08 else ""]
    if choose.random() < 0.8:
        part = one_of(choose, "parts.txt")
        side = weighted(choose, {"": 5, "left": 2, "right": 2, "front": 1, "back": 1})
        words += [part] if part in ("front", "back") else [side, part]
    return " ".join(word for word in words if word)


def colour(choose):
    rows = list(rows_of("colours.txt"))
    of_type = lambda kind: [row[0] for row in rows if (row[2] if len(row) > 2 else "") == kind]
    tint = lambda: choose.choice(of_type(""))
    return "colour " + choose.choice([
        tint, tint, lambda: choose.choice(of_type("shade")) + " " + tint(),
        lambda: tint() + " and " + tint(),
        lambda: tint() + " " + choose.choice(of_type("pattern"))])()


def size(choose):
    return "size " + choose.choice([
        lambda: one_of(choose, "tags.txt"), lambda: one_of(choose, "tags.txt"),
        lambda: below_hundred(2 * choose.randint(2, 28)),
        lambda: below_hundred(choose.randint(26, 44)) + " by "
        + below_hundred(choose.choice([28, 30, 32, 34, 36]))])()


def cloth(choose):
    fibres = choose.sample(["cotton", "wool", "polyester", "viscose", "linen", "elastane", "acrylic",
                            "polyamide", "silk", "nylon"] + list_of("fibres.txt"), 2)
    part = choose.choice([60, 65, 70, 80, 85, 90, 92, 95, 98, 55])
    percent = choose.choice(["", " percent"])
    return "cloth " + choose.choice([
        lambda: "a hundred percent " + fibres[0],
        lambda: f"{below_hundred(part)}{percent} {fibres[0]} {below_hundred(100 - part)}{percent} "
        + fibres[1]])()


def money(choose):
    pounds = below_hundred(choose.randint(3, 79))
    return choose.choice([
        lambda: pounds + " " + choose.choice(["fifty", "ninety nine", "ninety", "twenty five"]),
        lambda: pounds + " dollars",
        lambda: pounds + " oh " + choose.choice(DIGITS)])()


def weight(choose):
    return "weight " + choose.choice([
        lambda: below_thousand(choose, choose.randint(10, 95) * 10 + choose.choice([0, 5]))
        .replace("a hundred", "one hundred") + " grams",
        lambda: f"{choose.choice(DIGITS[1:4])} pounds {choose.choice(DIGITS[1:])} ounces"])()


def fact(choose):
    return weighted(choose, {
        lambda: size(choose): 25, lambda: colour(choose): 22, lambda: cloth(choose): 12,
        lambda: "maker " + one_of(choose, "makers.txt"): 10,
        lambda: "kind " + one_of(choose, "kinds.txt"): 20,
        lambda: "price " + money(choose): 12, lambda: "cost " + money(choose): 4,
        lambda: weight(choose): 6, lambda: "parcel " + one_of(choose, "parcels.txt"): 3,
        lambda: "route " + one_of(choose, "routes.txt"): 12,
        lambda: "pilling " + choose.choice(DIGITS[:5]): 3,
        lambda: "colour change " + choose.choice(DIGITS[:5]): 2,
        lambda: choose.choice(["maker", "colour", "kind", "size"]) + " other": 2,
        lambda: "keep bin " + label(choose): 2})()


def numbered(choose):
    return weighted(choose, {"item ": 4, "bin ": 6, "open item ": 1}) + label(choose)


ORDERS = {"next": 10, "previous": 3, "repeat": 3, "strike that": 5, "restore": 2, "read it all": 2,
          "what is missing": 3, "where am i": 2, "set aside": 3, "ask me": 2, "stop asking": 2,
          "pause": 2, "resume": 2, "help": 1, "note": 2, "keep nothing": 1}


def order(choose):
    if choose.random() < 0.12:
        return "strike " + choose.choice(list_of("measures.txt"))
    return weighted(choose, ORDERS)


SINGLE = {measure: 50, flaw: 13, fact: 16, numbered: 11, order: 10}
AMONG_SEVERAL = {measure: 75, flaw: 15, fact: 10}


def several(choose):
    parts = [weighted(choose, AMONG_SEVERAL)(choose) for _ in range(choose.choice([2, 2, 2, 3]))]
    return choose.choice([", ", " "]).join(parts)


def corrected(choose):
    """Something said, and said otherwise: "chest twenty one, no, twenty two"."""
    name, low, high = choose.choice([("chest", 16, 28), ("waist", 13, 26), ("sleeve", 18, 28),
                                     ("length", 20, 34), ("inseam", 26, 35)])
    said = choose.choice([
        lambda: (name + " ", [length(choose, low, high) for _ in range(8)]),
        lambda: (choose.choice(["bin ", "item "]), [label(choose) for _ in range(8)]),
        lambda: ("size ", [below_hundred(2 * choose.randint(2, 28)) for _ in range(8)])])()
    wrong = said[1][0]
    right = next((other for other in said[1] if other != wrong), "nine")
    return said[0] + wrong + ", no, " + right


def texts(choose, count):
    """(kind, text) of so many utterances."""
    for _ in range(count):
        dice = choose.random()
        if dice < SEVERAL:
            yield "several", several(choose)
        elif dice < SEVERAL + CORRECTED:
            yield "corrected", corrected(choose)
        else:
            make = weighted(choose, SINGLE)
            yield make.__name__, make(choose)


def calls(choose, count):
    """The words of so many utterances."""
    for _, text in texts(choose, count):
        yield text.replace(",", "")


SOUND_LIKE_CALLS = set("won to too for fore ate write rite know owe tu be bin knot nun holed sighs waste "
                       "sees".split())


def strays(choose, count):
    """(kind, text) of what people say that is no call: one to three words of prose, or a few in a row."""
    prose = [clip.words.split() for clip in corpus.load("librispeech-oog") if clip.words]
    words = sorted({word for said in prose for word in said} - SOUND_LIKE_CALLS)
    for _ in range(count):
        if choose.random() < 0.75:
            yield "stray", " ".join(choose.choices(words, k=choose.choice([1, 1, 2, 3])))
        else:
            said = choose.choice(prose)
            first = choose.randrange(max(1, len(said) - 6))
            yield "stray", " ".join(said[first:first + choose.randint(4, 8)])

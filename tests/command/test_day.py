"""A whole day, replayed: every record must end exactly as the day's script says.

The script, audio/day.script, has a line `#= ...` after each garment that tells what its record has
to be; see its head.
"""

import json
import os
import unittest

import station

SCRIPT = os.path.join(station.SOURCE, "audio", "day.script")
FACTS = ("maker", "colour", "size", "parcel")


def parts(text, between):
    return sorted(part.strip() for part in text.split(between) if part.strip())


def expected():
    """By number: bin, kind, route, state, readings, flaws, facts, and how many sounds are kept."""
    garments = {}
    with open(SCRIPT) as script:
        for line in script:
            columns = [column.strip() for column in line[2:].split("|")]
            if not line.startswith("#=") or not columns[0].isdigit():
                continue
            garments[columns[0]] = (*columns[1:5], parts(columns[5], ","), parts(columns[6], ";"),
                                    parts(columns[7], ";"), int(columns[8]))
    return garments


def fact_text(fact, value):
    fields = json.loads(value)
    return f"{fact} {'other' if fields.get('other') else fields.get('name')}"


class Day(station.WithFolder):
    def setUp(self):
        super().setUp()
        if not os.path.exists(station.RECORDINGS):
            self.skipTest("the package pocketsphinx-testdata is not installed")

    def written(self):
        garments = {}
        for item, *row in self.rows("day.db", "SELECT item, number, bin, kind, route, state"
                                              " FROM items"):
            readings = self.rows("day.db", "SELECT measure || ' ' || ifnull(value, 'none') FROM"
                                           f" readings WHERE item = {item}")
            flaws = self.rows("day.db", "SELECT size, flaw, side, face, part FROM flaws"
                                        f" WHERE item = {item}")
            facts = self.rows("day.db", f"SELECT fact, value FROM facts WHERE item = {item}")
            sounds = self.rows("day.db", "SELECT count(*) FROM note_sound JOIN call USING (call)"
                                         f" WHERE item = {item}")
            garments[row[0]] = (*[text or "" for text in row[1:]],
                                sorted(reading for reading, in readings),
                                sorted(" ".join(filter(None, flaw)) for flaw in flaws),
                                sorted(fact_text(*fact) for fact in facts), sounds[0][0])
        return garments

    def test_every_record_is_as_the_script_says(self):
        self.dictate("day", SCRIPT)
        shown = self.listen("day", "day.db", "--who", "Jasper").stdout
        asked = [line for line in shown.splitlines() if " doubted " in line or " refused " in line]
        want, have = expected(), self.written()
        self.assertGreaterEqual(len(want), 60)
        for number in want:
            with self.subTest(number=number):
                self.assertEqual(want[number], have.get(number), "\n".join(asked))
        self.assertEqual(sorted(want), sorted(have))
        with self.subTest("who"):
            who = [name for name, in self.rows("day.db", "SELECT DISTINCT who FROM calls"
                                                         " ORDER BY call")]
            self.assertEqual(["Jasper", "rosalind", "martin"], who)
        with self.subTest("a colleague and the radio"):
            # Of what was not for us there is no sound and there are no words.
            passed, = self.rows("day.db", "SELECT count(*) FROM passed_over")[0]
            self.assertGreaterEqual(passed, 3)


if __name__ == "__main__":
    unittest.main()

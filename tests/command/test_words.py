"""What may be said: the words looked over, the card, and the sheet."""

import os
import re
import unittest

import station


# Rules of numbers with their units, and of letters, of which the card gives examples.
NUMBERS = {"size", "age_or_height", "spelled", "minutes", "percent", "grade", "weight",
           "gram_number", "pound_number", "ounce_number", "ounces", "money", "units",
           "parted_units", "cents_units", "pence_units"}


def words_of_calls():
    """The words that the station's grammar writes out, but for numbers and lists."""
    path = os.path.join(os.environ["LAPEL_SOURCE"], "grammars", "station.gram")
    with open(path, encoding="utf-8") as file:
        calls = file.read().split("/* Numbers.")[0]
    calls = re.sub(r"/\*.*?\*/", " ", calls, flags=re.S)
    words = set()
    for name, rule in re.findall(r"<(\w+)> = ([^;]*);", calls):
        if name not in NUMBERS:
            words.update(re.findall(r"[a-z]+", re.sub(r"<\w+>|/[\d.]+/", " ", rule)))
    return words


class Words(station.WithFolder):
    def test_all_words_of_the_station_can_be_pronounced(self):
        station.lapel("words", "check")

    def test_a_word_that_nobody_can_say_is_named(self):
        grammar = self.write("a.gram", "#JSGF V1.0;\ngrammar a;\npublic <a> = chest | x9!;\n")
        told = station.lapel("words", "check", "--grammar", grammar, status=1).stderr
        self.assertIn("x9!", told)
        self.assertNotIn("chest", told)

    def test_a_word_of_ones_own_is_shown_as_it_will_be_heard(self):
        grammar = self.write("a.gram", "#JSGF V1.0;\ngrammar a;\npublic <a> = elmsworthy;\n")
        self.assertRegex(station.lapel("words", "check", "--grammar", grammar).stdout,
                         r"^elmsworthy +[A-Z]+( [A-Z]+)+\n$")
        words = self.write("a.dict", "elmsworthy EH L M Z W ER DH IY\n")
        self.assertEqual("", station.lapel("words", "check", "--grammar", grammar, "--words",
                                           words).stdout)

    def page(self, what, name):
        station.lapel("words", what, "--to", self.path(name))
        with open(self.path(name), "rb") as file:
            return file.read()

    def test_the_card_and_the_sheet_are_pages_that_do_not_change(self):
        for what in ["card", "sheet"]:
            first = self.page(what, "a.pdf")
            self.assertTrue(first.startswith(b"%PDF-"))
            self.assertEqual(first, self.page(what, "b.pdf"))

    def test_the_card_leaves_out_no_word_of_the_grammar(self):
        card = station.lapel("words", "card").stdout.lower()
        words = words_of_calls()
        self.assertIn("restore", words)
        self.assertGreater(len(words), 50)
        self.assertEqual(set(), words - set(re.findall("[a-z]+", card)))

    def test_a_page_that_cannot_be_written_is_told(self):
        for what in ["card", "sheet"]:
            self.assertIn("none/a.pdf", station.lapel("words", what, "--to",
                                                      self.path("none/a.pdf"), status=1).stderr)

    def test_nonsense_is_told(self):
        station.lapel("words", status=2)
        station.lapel("words", "sing", status=2)
        station.lapel("words", "sheet", status=2)


if __name__ == "__main__":
    unittest.main()

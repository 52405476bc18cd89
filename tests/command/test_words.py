"""What may be said: the words looked over, the card, and the sheet."""

import unittest

import station


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

    def test_a_page_that_cannot_be_written_is_told(self):
        for what in ["card", "sheet"]:
            self.assertIn("none/a.pdf", station.lapel("words", what, "--to",
                                                      self.path("none/a.pdf"), status=1).stderr)

    def test_nonsense_is_told(self):
        station.lapel("words", status=2)
        station.lapel("words", "sing", status=2)
        station.lapel("words", "card", status=2)


if __name__ == "__main__":
    unittest.main()

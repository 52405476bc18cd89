"""What a session keeps and asks that no single call shows: notes, doubts, numbers."""

import unittest

import station

VOICE = "voice rms\nroom -56\npause 1.9\n"


def seconds(flac):
    """How long a FLAC file is (RFC 9639, section 8.2: the stream information block)."""
    information = flac[8:8 + 34]
    rate = int.from_bytes(information[10:13], "big") >> 4
    count = int.from_bytes(information[13:18], "big") & (1 << 36) - 1
    return count / rate


class Conversation(station.WithFolder):
    def hold(self, script, *arguments, database="a.db"):
        self.dictate("a", VOICE + script)
        return self.listen("a", database, *arguments).stdout

    def readings(self):
        return self.rows("a.db", "SELECT measure, value FROM readings")

    def test_a_note_is_sound_until_the_pedal(self):
        shown = self.hold("voice rms 0.9\nsay item two oh nine\nsay note\n"
                          "say the lining was sewn by hand\nsay chest twenty\npress tap\n"
                          "say chest twenty one\n")
        self.assertIn("note kept for the desk", shown)
        notes = self.rows("a.db", "SELECT type, verdict, bytes FROM note_sound JOIN call"
                                  " USING (call)")
        self.assertEqual([("note", "taken")], [note[:2] for note in notes])
        self.assertTrue(4 < seconds(notes[0][2]) < 12, seconds(notes[0][2]))
        # What was said in the note is no call, and the tap that ended it was not "next".
        self.assertEqual([("chest", "21")], self.readings())
        self.assertEqual([("open",)], self.rows("a.db", "SELECT state FROM items"))

    def test_a_word_that_is_on_no_list_ends_by_itself(self):
        shown = self.hold("say item four oh one\nsay maker other\nsay elmsworth\nwait 2\n"
                          "say chest twenty one\n")
        self.assertIn("maker kept for the desk", shown)
        notes = self.rows("a.db", "SELECT type, bytes FROM note_sound JOIN call USING (call)")
        self.assertEqual(["maker"], [note[0] for note in notes])
        self.assertTrue(1.5 < seconds(notes[0][1]) < 6, seconds(notes[0][1]))
        self.assertEqual([("chest", "21")], self.readings())

    def test_a_note_is_kept_when_the_session_ends_in_it(self):
        self.hold("voice rms 0.9\nsay item two oh nine\nsay note\n"
                  "say the lining was sewn by hand\n")
        self.assertEqual([(1,)], self.rows("a.db", "SELECT count(*) FROM note_sound"))

    def test_what_no_garment_measures_is_asked_again(self):
        shown = self.hold("say item four oh one\nsay kind shirt\nsay chest fifty four\nwait 6\n"
                          "say chest twenty four\n")
        self.assertRegex(shown, r"doubted +chest fifty four")
        self.assertEqual([("chest", "24")], self.readings())

    def test_numbers_go_on_from_one_day_to_the_next(self):
        self.hold("say item four oh one\nsay kind shirt\npress tap\npress tap\n")
        shown = self.hold("say item four twenty three\nwait 6\nsay no\nsay item four oh two\n"
                          "say kind skirt\n")
        self.assertRegex(shown, r"doubted +item four twenty three")
        self.assertIn("next is four oh two", shown)
        self.assertEqual([("401",), ("402",)], self.rows("a.db", "SELECT number FROM items"))

    def test_a_number_that_was_struck_is_still_to_come(self):
        self.hold("say item four oh two\npress hold\nsay item four oh one\nsay kind shirt\n"
                  "press tap\npress tap\nsay item four oh two\nsay kind skirt\n")
        self.assertEqual([("401", "shirt"), ("402", "skirt")],
                         self.rows("a.db", "SELECT number, kind FROM items"))

    def test_who_said_what_is_with_the_calls(self):
        self.hold("say kind shirt\nsay hand over to rosalind\nsay chest twenty one\n", "--who",
                  "Jasper")
        self.assertEqual([("kind shirt", "Jasper"), ("hand over to rosalind", "Jasper"),
                          ("chest twenty one", "rosalind")],
                         self.rows("a.db", "SELECT text, who FROM calls"))


if __name__ == "__main__":
    unittest.main()

"""lapel hear: the fields of its objects, and what is said in each place of the conversation."""

import unittest

import station


class Hear(station.WithFolder):
    def say(self, words, voice="rms"):
        path = self.path(words.replace(" ", "-") + ".wav")
        station.lapel("say", words, "--voice", voice, "--to", path)
        return path

    def test_every_field_of_the_contract(self):
        sound, _ = self.dictate("one", "voice rms\nsay chest twenty one and a half\n")
        heard = station.hear(sound)
        self.assertEqual(1, len(heard))
        found = heard[0]
        self.assertEqual(sound, found["file"])
        for field in ["start_ms", "end_ms", "decided_ms"]:
            self.assertIsInstance(found[field], int)
        self.assertLess(found["start_ms"], found["end_ms"])
        self.assertLess(found["end_ms"], found["decided_ms"])
        self.assertAlmostEqual(1000, found["start_ms"], delta=60)
        self.assertEqual("silence", found["decided_by"])
        self.assertGreaterEqual(found["compute_ms"], 0)
        self.assertEqual("chest twenty one and a half", found["text"])
        self.assertIn(found["verdict"], ["taken", "doubted"])
        self.assertTrue(0 <= found["confidence"] <= 1)
        self.assertLessEqual(len(found["alternatives"]), 5)
        for other in found["alternatives"]:
            self.assertTrue(0 <= other["confidence"] <= 1)
            self.assertNotEqual(found["text"], other["text"])
        call = found["calls"][0]
        self.assertEqual(("measure", "chest", "21 1/2", "in", 546100),
                         (call["type"], call["measure"], call["value"], call["unit"], call["um"]))
        self.assertIn(call["verdict"], ["taken", "doubted"])
        self.assertTrue(0 <= call["confidence"] <= 1)

    def test_what_was_said_before_is_not_heard_again(self):
        said = ["hem thirty two", "heel eight and three eighths", "collar twenty nine",
                "depth twenty one and a half", "flaw none", "width thirty three inches",
                "sleeve twenty five and a half", "length forty eight centimetres"]
        for voice in ["rms", "kal16"]:
            sound, _ = self.dictate(voice, f"voice {voice}\npause 0.3\n"
                                    + "".join(f"say {words}\n" for words in said))
            self.assertEqual(" ".join(said),
                             " ".join(one["text"] for one in station.hear(sound)))

    def test_the_unit_of_the_settings(self):
        sound = self.say("waist forty one point five")
        settings = self.write("lapel.ini", "[units]\nlength = cm\n")
        call = station.hear("--whole", "--settings", settings, sound)[0]["calls"][0]
        self.assertEqual(("41.5", "cm", 415000), (call["value"], call["unit"], call["um"]))

    def test_a_bare_value_answers_what_was_asked(self):
        sound = self.say("twenty four and a half")
        call = station.hear("--whole", "--in", "asked:sleeve", sound)[0]["calls"][0]
        self.assertEqual(("measure", "sleeve", "24 1/2"),
                         (call["type"], call["measure"], call["value"]))

    def test_paused_only_resume_is_waited_for(self):
        resume = station.hear("--whole", "--in", "paused", self.say("resume"))[0]
        self.assertEqual("resume", resume["text"])
        other = station.hear("--whole", "--in", "paused", self.say("chest twenty one"))[0]
        self.assertNotEqual("taken", other["verdict"])

    def test_whole_files_have_one_line_each(self):
        sound, _ = self.dictate("two", "voice rms\nsay next\nwait 2\nsay repeat\n")
        self.assertEqual(2, len(station.hear(sound)))
        self.assertEqual(1, len(station.hear("--whole", sound)))

    def test_each_file_is_a_fresh_start(self):
        first, second = self.say("next"), self.say("chest nineteen")
        alone = station.hear("--whole", second)[0]
        after = station.hear("--whole", first, second)[1]
        for field in ["text", "verdict", "confidence", "alternatives"]:
            self.assertEqual(alone[field], after[field])


if __name__ == "__main__":
    unittest.main()

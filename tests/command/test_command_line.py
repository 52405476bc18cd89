"""The program from outside: help, exit status, and one clear sentence for each thing that is wrong."""

import os
import unittest

import station


class CommandLine(station.WithFolder):
    def test_help_and_version(self):
        self.assertIn("listen", station.lapel("--help").stdout)
        self.assertRegex(station.lapel("--version").stdout, r"^lapel \d+\.\d+\.\d+\n$")
        for command in ["hear", "listen", "say"]:
            self.assertIn("Usage: lapel " + command, station.lapel(command, "--help").stdout)

    def test_a_wrong_command_line_is_2_and_says_where_help_is(self):
        for arguments in [[], ["sing"], ["hear"], ["hear", "--in", "nowhere", "x.wav"],
                          ["hear", "--loudly", "x.wav"], ["listen"], ["say"],
                          ["say", "chest", "twenty", "--to", self.path("x.wav")],
                          ["hear", "--in", "asked:elbow width", "x.wav"]]:
            with self.subTest(arguments=arguments):
                done = station.lapel(*arguments, status=2)
                self.assertIn("--help", done.stderr)
                self.assertEqual("", done.stdout)

    def test_of_several_files_the_good_ones_are_done(self):
        good = self.path("good.wav")
        station.lapel("say", "next", "--to", good)
        cut = self.write("cut.wav", "")
        with open(good, "rb") as whole, open(cut, "wb") as part:
            part.write(whole.read()[:3000])
        done = station.lapel("hear", self.path("missing.wav"), cut, good, status=1)
        self.assertEqual(2, len(done.stderr.splitlines()))
        self.assertIn("missing.wav", done.stderr)
        self.assertIn("cut off", done.stderr)
        self.assertIn("good.wav", done.stdout)

    def test_settings_are_checked(self):
        sound = self.path("x.wav")
        station.lapel("say", "next", "--to", sound)
        for text, says in [("[units]\nlength = ells\n", "in or cm"),
                           ("[units]\nwidth = in\n", "no setting"),
                           ("[price]\ncurrency = QQQ\n", "ISO 4217"),
                           ("[pedal]\nkey = KEY_NOWHERE\n", "KEY_B"),
                           ("[sound]\nkeep_days = soon\n", "days"), ("nonsense\n", "line 1")]:
            with self.subTest(text=text):
                file = self.write("lapel.ini", text)
                done = station.lapel("hear", "--settings", file, sound, status=1)
                self.assertIn(says, done.stderr)
        station.lapel("hear", "--settings", self.path("none.ini"), sound, status=1)

    def test_a_callers_grammar_is_checked_before_it_is_used(self):
        sound = self.path("x.wav")
        station.lapel("say", "next", "--to", sound)
        head = "#JSGF V1.0;\ngrammar g;\n"
        doubling = "".join(f"<r{i}> = <r{i-1}> <r{i-1}>;\n" for i in range(1, 40))
        for text, says in [("", "line 1"), ("chest twenty", "line 1"),
                           (head + "public <a> = <b>;\n", "<b>"),
                           (head + "<a> = one;\n", "public"),
                           (head + "public <a> = one\n", "line"),
                           (head + "public <a> = (one;\n", "line"),
                           (head + "public <a> = x1y2;\n", "x1y2"),
                           (head + "<r0> = one;\n" + doubling + "public <a> = <r39>;\n",
                            "explodes")]:
            with self.subTest(text=text[:60]):
                file = self.write("own.gram", text)
                done = station.lapel("hear", "--grammar", file, sound, status=1)
                self.assertIn(says, done.stderr)
                self.assertEqual(1, len(done.stderr.splitlines()))

    def test_eighteen_nested_repeats_are_no_trouble(self):
        sound = self.path("x.wav")
        station.lapel("say", "one", "--to", sound)
        file = self.write("own.gram", "#JSGF V1.0;\ngrammar g;\npublic <a> = " + "(" * 18 + "one" +
                          ")+" * 18 + ";\n")
        station.lapel("hear", "--whole", "--grammar", file, sound)

    def test_words_of_ones_own_and_words_worked_out(self):
        sound = self.path("x.wav")
        station.lapel("say", "hallowick", "--to", sound)
        grammar = self.write("own.gram", "#JSGF V1.0;\ngrammar g;\n"
                             "public <a> = hallowick | quorlsby | thrandle;\n")
        heard = station.hear("--whole", "--grammar", grammar, sound)
        self.assertEqual("hallowick", heard[0]["text"])
        words = self.write("own.dict", "quorlsby HH AE L OW W IH K\nhallowick B IY\n")
        heard = station.hear("--whole", "--grammar", grammar, "--words", words, sound)
        self.assertEqual("quorlsby", heard[0]["text"])
        bad = self.write("bad.dict", "quorlsby HH QX\n")
        done = station.lapel("hear", "--grammar", grammar, "--words", bad, sound, status=1)
        self.assertIn("bad.dict", done.stderr)

    def test_a_silent_file_gives_no_line_unless_it_is_taken_whole(self):
        self.dictate("silent", "room -70\nwait 3\n")
        self.assertEqual([], station.hear(self.path("silent.wav")))
        self.assertEqual(1, len(station.hear("--whole", self.path("silent.wav"))))

    def test_trouble_with_the_records_is_told(self):
        self.dictate("short", "voice rms\nsay next\n")
        not_a_database = self.write("notes.txt", "chest twenty one\n" * 100)
        done = station.lapel("listen", "--sound", self.path("short.wav"), "--db", not_a_database,
                             status=1)
        self.assertIn("notes.txt", done.stderr)
        self.assertEqual("chest twenty one\n" * 100, self.content("notes.txt").decode())
        done = station.lapel("listen", "--sound", self.path("short.wav"), "--db",
                             self.path("no/such/folder.db"), status=1)
        self.assertIn("folder.db", done.stderr)
        presses = self.write("presses", "2.0 KEY_B 1\n1.0 KEY_B 0\n")
        done = station.lapel("listen", "--sound", self.path("short.wav"), "--db",
                             self.path("x.db"), "--presses", presses, status=1)
        self.assertIn("line 2", done.stderr)

    def test_only_the_owner_reads_the_records(self):
        self.dictate("short", "voice rms\nsay item four oh one\n")
        self.listen("short", "records.db")
        self.assertEqual(0o600, os.stat(self.path("records.db")).st_mode & 0o777)


if __name__ == "__main__":
    unittest.main()

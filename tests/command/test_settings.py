"""The settings: one file, what was remembered, and where each value came from."""

import os
import unittest
import wave

import station


class Settings(station.WithFolder):
    def shown(self, *arguments):
        """Each setting's value and origin, as `lapel settings` prints them."""
        section, values = "", {}
        lines = station.lapel("settings", *arguments).stdout.splitlines()
        for line, after in zip(lines, lines[1:] + [""]):
            if line.startswith("["):
                section = line.strip("[]")
            elif " = " in line or line.endswith(" ="):
                key, _, value = line.removeprefix("# ").partition(" =")
                values[f"{section}.{key}"] = (value.strip(), after.removeprefix("#   "))
        return values

    def remember(self, text):
        os.makedirs(self.path("state/lapel"), exist_ok=True)
        self.write("state/lapel/remembered.ini", text)

    def silence(self, name, seconds):
        with wave.open(self.path(name), "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(16000)
            file.writeframes(bytes(2 * 16000 * seconds))

    def test_without_a_file_all_is_built_in(self):
        values = self.shown()
        self.assertEqual({"built in"}, {origin for _, origin in values.values()})
        self.assertEqual("in", values["units.length"][0])
        self.assertEqual("KEY_B", values["pedal.key"][0])
        self.assertEqual("", values["sound.headset"][0])

    def test_each_value_says_the_line_it_came_from(self):
        file = self.write("a.ini", "# mine\n[units]\nlength = cm   # as we measure\n\n[voice]\n"
                          "speed = 1.25\nloudness = -6\n[pedal]\n"
                          "key = KEY_A:strike KEY_B:next KEY_C:repeat\ndevice = 1209:0001\n")
        values = self.shown("--settings", file)
        self.assertEqual(("cm", f"from {file}, line 3"), values["units.length"])
        self.assertEqual(("1.25", f"from {file}, line 6"), values["voice.speed"])
        self.assertEqual(("-6", f"from {file}, line 7"), values["voice.loudness"])
        self.assertEqual(("KEY_A:strike KEY_B:next KEY_C:repeat", f"from {file}, line 9"),
                         values["pedal.key"])
        self.assertEqual("built in", values["price.currency"][1])

    def test_what_a_sale_costs_is_shown_as_it_was_written(self):
        file = self.write("a.ini", "[price]\nfee = 12.50\nfee_fixed = 30\nfee_on_postage = yes\n"
                          "postage = included\ncurrency = JPY\n[mending]\nhour = 1200\n"
                          "[doubts]\nrepeats = 0\n")
        values = self.shown("--settings", file)
        self.assertEqual(["12.50", "30", "yes", "included", "1200", "0"],
                         [values[key][0] for key in (
                             "price.fee", "price.fee_fixed", "price.fee_on_postage",
                             "price.postage", "mending.hour", "doubts.repeats")])
        self.assertEqual(f"from {file}, line 8", values["mending.hour"][1])

    def test_the_users_file_is_found_where_it_belongs(self):
        os.mkdir(self.path("lapel"))
        file = self.write("lapel/lapel.ini", "[voice]\nspeed = 1.5\n")
        self.assertEqual(("1.5", f"from {file}, line 2"), self.shown()["voice.speed"])

    def test_the_older_name_of_a_key_is_understood(self):
        file = self.write("a.ini", "[voice]\nrate = 0.8\n")
        self.assertEqual("0.8", self.shown("--settings", file)["voice.speed"][0])

    def test_what_is_printed_is_such_a_file(self):
        printed = station.lapel("settings").stdout
        again = self.shown("--settings", self.write("b.ini", printed))
        self.assertEqual({key: value for key, (value, _) in self.shown().items()},
                         {key: value for key, (value, _) in again.items()})

    def test_a_remembered_headset_gives_way_to_the_file(self):
        self.remember("[sound]\nheadset = Quernby\n")
        self.assertEqual(("Quernby", "remembered: given on the command line before"),
                         self.shown()["sound.headset"])
        file = self.write("a.ini", "[sound]\nheadset = Marlock\n")
        self.assertEqual(("Marlock", f"from {file}, line 2"),
                         self.shown("--settings", file)["sound.headset"])

    def test_what_was_remembered_in_a_way_that_is_not_understood_is_forgotten(self):
        self.remember("[sound]\nheadset = Quernby\n[nonsense]\n=\n")
        self.assertEqual("built in", self.shown()["sound.headset"][1])

    def test_a_wrong_value_names_the_line_and_what_is_allowed(self):
        for text, line, allowed in [("[voice]\n\nspeed = 3\n", 3, "0.5 to 2.0"),
                                    ("[voice]\nloudness = 3\n", 2, "-40 to 0"),
                                    ("[pedal]\nkey = KEY_B KEY_B\n", 2, "KEY_B"),
                                    ("[pedal]\nkey = KEY_A:dance\n", 2, "KEY_A:strike"),
                                    ("[pace]\nothers = maybe\n", 2, "yes or no"),
                                    ("[price]\nfee = 101\n", 2, "0 to 100"),
                                    ("[price]\nfee_on_postage = some\n", 2, "no or yes"),
                                    ("[price]\npostage = free\n", 2, "extra or included"),
                                    ("[price]\n\nfee_fixed = 0.305\n", 3, "amount of USD"),
                                    ("[price]\nfee_fixed = 0.30\ncurrency = JPY\n", 2, "JPY"),
                                    ("[mending]\nhour = twelve\n", 2, "an amount of USD"),
                                    ("[doubts]\nrepeats = 10\n", 2, "0 to 9"),
                                    ("[sound]\nheadset =\n", 2, "a name")]:
            with self.subTest(text=text):
                file = self.write("a.ini", text)
                said = station.lapel("settings", "--settings", file, status=1).stderr
                self.assertIn(f"{file}, line {line}:", said)
                self.assertIn(allowed, said)

    def test_a_folder_is_no_file_of_settings(self):
        self.assertIn(self.folder,
                      station.lapel("settings", "--settings", self.folder, status=1).stderr)

    def test_three_switches_work_in_a_session_from_files(self):
        file = self.write("a.ini", "[pedal]\nkey = KEY_A:strike KEY_B:next KEY_C:repeat\n")
        self.silence("s.wav", 4)
        presses = self.write("presses", "1 KEY_C 1\n1.1 KEY_C 0\n2 KEY_A 1\n2.1 KEY_A 0\n")
        said = station.lapel("listen", "--settings", file, "--sound", self.path("s.wav"),
                             "--presses", presses, "--db", self.path("a.db")).stdout
        self.assertIn("nothing was said yet", said)
        self.assertEqual([("double tap",), ("hold",)],
                         self.rows("a.db", "SELECT text FROM calls ORDER BY call"))


if __name__ == "__main__":
    unittest.main()

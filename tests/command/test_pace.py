"""How the work goes: of all together, and of one person for that person alone."""

import unittest
import wave

import station


class Pace(station.WithFolder):
    def setUp(self):
        super().setUp()
        with wave.open(self.path("a.wav"), "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(16000)
            file.writeframes(bytes(2 * 16000 * 3))
        self.write("presses", "1 KEY_B 1\n1.1 KEY_B 0\n")
        for who in ("Ann", "Bo"):
            station.lapel("listen", "--sound", self.path("a.wav"), "--presses",
                          self.path("presses"), "--db", self.path("a.db"), "--who", who)

    def pace(self, *arguments, status=0):
        return station.lapel("pace", "--db", self.path("a.db"), *arguments, status=status)

    def calls(self, shown):
        return sum(int(line.split()[4]) for line in shown.stdout.splitlines()
                   if line[:2] == "20")

    def test_all_together_are_shown_with_a_caution(self):
        shown = self.pace()
        self.assertEqual(2, self.calls(shown))
        self.assertIn("regulated", shown.stdout)

    def test_of_one_person_only_to_that_person(self):
        refused = self.pace("--who", "Ann", status=1)
        self.assertEqual("", refused.stdout)
        self.assertIn("[person] name", refused.stderr)
        file = self.write("a.ini", "[person]\nname = Ann\n")
        shown = self.pace("--who", "ann", "--settings", file, status=0)
        self.assertIn("regulated", shown.stdout)
        self.assertEqual(1, self.calls(self.pace("--who", "Ann", "--settings", file)))
        self.pace("--who", "Bo", "--settings", file, status=1)

    def test_of_others_where_the_settings_say_so(self):
        file = self.write("a.ini", "[pace]\nothers = yes\n")
        self.assertEqual(1, self.calls(self.pace("--who", "Bo", "--settings", file)))

    def test_nonsense(self):
        self.pace("--days", "0", status=2)
        self.pace("--days", "ten", status=2)
        self.pace("today", status=2)
        station.lapel("pace", status=2)
        station.lapel("pace", "--db", self.path("none.db"), status=1)
        station.lapel("pace", "--db", self.write("no.db", "no database at all" * 100), status=1)


if __name__ == "__main__":
    unittest.main()

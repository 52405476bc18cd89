"""What is made of all records at once, from outside: lapel takings and lapel routes."""

import csv
import io
import os
import unittest

import station

RACK = """number,bin,kind,route,state,maker,cost,price,weight,group,care,mending,chest,part,other measures
1301,12,shirt,sale,done,Hallowick,2.00,12.49,310,,"wash thirty, do not bleach",,20.5,,
1302,14,jeans,mending,done,Marlock,3,18.50,,women,,"new zip 30 minutes, fix hem 10 minutes, materials 4.50 USD",,,
1303,11,coat,mending,set aside,Quernby Mill,,6.00,,,,"mend lining 90 minutes",,,
1304,,set,,open,,,,,,,,,"jacket, trousers","jacket chest 21 1/2 in; trousers waist 40.5 cm"
1305,12,hat,sale,done,,,5.00 EUR,,children,,,,,
"""
SETTINGS = """[price]
fee = 10
fee_fixed = 0.30
postage = included
[mending]
hour = 12.00
[lists]
bins = bins.txt
"""


class Lists(station.WithFolder):
    def setUp(self):
        super().setUp()
        os.environ["TZ"] = "UTC"
        self.db = self.path("rack.db")
        self.write("bins.txt", "14\n11\n12\n")
        self.settings = self.write("lapel.ini", SETTINGS)
        station.lapel("import", self.write("rack.csv", RACK), "--db", self.db,
                      "--settings", self.settings)

    def table(self, *arguments):
        text = station.lapel("takings", "--db", self.db, "--settings", self.settings,
                             *arguments).stdout
        return list(csv.DictReader(io.StringIO(text)))

    def test_what_an_item_leaves_in_hand(self):
        shirt, jeans, coat, hat = self.table()
        self.assertEqual(["1301", "shirt", "USD", "12.49", "1.55", "2.00", "0.00", "0.00", "8.94",
                          "postage"], list(shirt.values())[1:])
        # 18.50 less 1.85 and 0.30, 3.00, and 4.50 with forty minutes at 12.00 an hour
        self.assertEqual(["1302", "jeans", "USD", "18.50", "2.15", "3.00", "0.00", "12.50",
                          "0.85", "postage"], list(jeans.values())[1:])
        self.assertEqual(("18.00", "-12.90", "cost, postage"),
                         (coat["mending"], coat["left"], coat["unknown"]))
        self.assertEqual(("EUR", "5.00"), (hat["currency"], hat["price"]))

    def test_what_a_day_leaves_in_hand(self):
        euros, dollars = self.table("--by", "day")
        self.assertRegex(dollars["day"], r"^\d{4}-\d\d-\d\d$")
        self.assertEqual(["3", "USD", "36.99", "4.60", "5.00", "0.00", "30.50", "-3.11",
                          "cost of 1, postage of 3"], list(dollars.values())[1:])
        self.assertEqual(("1", "EUR"), (euros["items"], euros["currency"]))

    def test_a_list_for_each_route_in_walking_order(self):
        text = station.lapel("routes", "--db", self.db, "--settings", self.settings).stdout
        self.assertEqual(
            "sale: 2 items\n"
            "  1301    bin 12  shirt, Hallowick\n"
            "  1305    bin 12  hat\n"
            "\n"
            "mending: 2 items, 130 minutes\n"
            "  1302    bin 14  jeans, Marlock: new zip 30 minutes, fix hem 10 minutes, materials "
            "4.50 USD; 40 minutes in all; leaves 6.00 USD\n"
            "  1303    bin 11  (set aside)  coat, Quernby Mill: mend lining 90 minutes; not worth "
            "it: 12.00 USD short\n"
            "\n"
            "without a route: 1 item\n"
            "  1304    (still open)  set\n", text)
        text = station.lapel("routes", "--db", self.db, "--route", "mending").stdout
        self.assertTrue(text.startswith("mending: 2 items"))
        self.assertNotIn("sale", text)

    def test_what_is_new_comes_back_from_the_table(self):
        for name in "one.csv", "two.csv":
            with open(self.path(name), "w") as file:
                file.write(station.lapel("export", "--db", self.db, "--as", "csv").stdout)
            self.db = self.path(name + ".db")
            station.lapel("import", self.path(name), "--db", self.db)
        self.assertEqual(self.content("one.csv"), self.content("two.csv"))
        rows = list(csv.DictReader(io.StringIO(self.content("two.csv").decode())))
        self.assertEqual(("wash thirty, do not bleach", "women", "jacket, trousers"),
                         (rows[0]["care"], rows[1]["group"], rows[3]["part"]))
        self.assertEqual("jacket chest 21 1/2 in; trousers waist 40.5 cm",
                         rows[3]["other measures"])
        self.assertEqual("new zip 30 minutes, fix hem 10 minutes, materials 4.50 USD",
                         rows[1]["mending"])

    def test_wrong_use_is_told(self):
        for arguments in ([], ["--db", self.db, "extra"], ["--db", self.db, "--by", "week"]):
            station.lapel("takings", *arguments, status=2)
        station.lapel("routes", status=2)
        for command in "takings", "routes":
            done = station.lapel(command, "--db", self.path("none.db"), status=1)
            self.assertIn("cannot be read", done.stderr)
            self.assertFalse(os.path.exists(self.path("none.db")))
        done = station.lapel("routes", "--db", self.db, "--route", "nowhere", status=1)
        self.assertIn("is no route", done.stderr)
        for text, says in (("[price]\nfee = 101\n", "percent from 0 to 100"),
                           ("[mending]\nhour = twelve\n", "an amount of USD"),
                           ("[price]\npostage = free\n", "extra or included"),
                           ("[doubts]\nrepeats = 10\n", "from 0 to 9")):
            done = station.lapel("takings", "--db", self.db, "--settings",
                                 self.write("wrong.ini", text), status=1)
            self.assertIn(says, done.stderr)


if __name__ == "__main__":
    unittest.main()

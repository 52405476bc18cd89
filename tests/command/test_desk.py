"""The desk from outside: its one line, its end, its export; and a word that was learnt is heard."""

import http.client
import json
import os
import re
import signal
import sqlite3
import subprocess
import tempfile
import unittest
import urllib.parse

LAPEL = os.environ["LAPEL"]
ROWS = ("number,bin,kind,maker,chest,length,sleeve,collar\r\n"
        "401,14,shirt,marlock,21 1/2,29,24,15 1/2\r\n"
        "402,14,shirt,hallowick,21,29,,\r\n")


class Desk:
    opened = []

    def __init__(self, db, *more, env=None):
        self.process = subprocess.Popen([LAPEL, "desk", "--db", db, *more], text=True, env=env,
                                        stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        self.opened.append(self.process)
        self.line = self.process.stdout.readline()
        self.address = urllib.parse.urlparse(self.line.strip())

    def ask(self, path, body=None, **headers):
        key = urllib.parse.parse_qs(self.address.query)["key"][0]
        headers = {"Cookie": f"lapel-{self.address.port}={key}", **headers}
        if body is not None:
            headers.update({"Content-Type": "application/json",
                            "Origin": f"http://{self.address.netloc}"})
            body = json.dumps(body)
        connection = http.client.HTTPConnection(self.address.netloc, timeout=20)
        connection.request("GET" if body is None else "POST", path, body, headers)
        response = connection.getresponse()
        answer = response.read()
        connection.close()
        return response.status, answer

    def follow(self):
        key = urllib.parse.parse_qs(self.address.query)["key"][0]
        connection = http.client.HTTPConnection(self.address.netloc, timeout=20)
        connection.request("GET", "/events", headers={
            "Cookie": f"lapel-{self.address.port}={key}"})
        return connection.getresponse()

    def end(self, how=signal.SIGTERM):
        self.process.send_signal(how)
        rest = self.process.communicate(timeout=20)
        return self.process.returncode, rest


class TestDesk(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.db = os.path.join(self.folder.name, "tidewrack.db")
        rows = os.path.join(self.folder.name, "rows.csv")
        with open(rows, "w", newline="") as file:
            file.write(ROWS)
        subprocess.run([LAPEL, "import", rows, "--db", self.db], check=True, capture_output=True)
        self.env = dict(os.environ, XDG_CONFIG_HOME=os.path.join(self.folder.name, "config"))

    def tearDown(self):
        for process in Desk.opened:  # of a test that failed
            if process.returncode is None:
                process.kill()
                process.communicate()
        Desk.opened.clear()
        self.folder.cleanup()

    def test_one_line_and_a_clean_end(self):
        for how in (signal.SIGTERM, signal.SIGINT):
            desk = Desk(self.db)
            self.assertRegex(desk.line, r"^http://127\.0\.0\.1:\d+/\?key=[0-9a-f]{32}\n$")
            self.assertEqual(desk.ask("/queue")[0], 200)
            self.assertEqual(desk.end(how), (0, ("", "")))
        check = sqlite3.connect(self.db)
        self.assertEqual(check.execute("PRAGMA integrity_check").fetchone()[0], "ok")

    def test_the_key_is_a_new_one_each_time(self):
        keys = set()
        for _ in range(2):
            desk = Desk(self.db)
            keys.add(desk.address.query)
            self.assertEqual(desk.end()[0], 0)
        self.assertEqual(len(keys), 2)

    def test_two_desks_and_a_port_in_use(self):
        one = Desk(self.db)
        other = Desk(self.db)
        self.assertNotEqual(one.address.port, other.address.port)
        third = subprocess.run([LAPEL, "desk", "--db", self.db, "--port", str(one.address.port)],
                               capture_output=True, text=True, timeout=60)
        self.assertEqual((third.returncode, third.stdout), (1, ""))
        self.assertIn("cannot be listened on", third.stderr)
        # What one writes, the other knows.
        one.ask("/api/edit", {"item": 1, "field": "maker", "value": "Gull", "expect":
                              self.entry(one, 1, "maker"), "who": "mara"})
        self.assertIn(b"Gull", other.ask("/api/item/1")[1])
        self.assertIn(b'"item":1', other.ask("/api/search?q=gull")[1])
        # And both tell their pages.
        events = [desk.follow() for desk in (one, other)]
        one.ask("/api/looked", {"item": 2})
        for told in events:
            while not re.search(rb"[[,]2[],]", line := told.readline()):
                self.assertNotEqual(line, b"")
            told.close()
        self.assertEqual((one.end()[0], other.end()[0]), (0, 0))

    def entry(self, desk, item, name):
        fields = json.loads(desk.ask(f"/api/item/{item}")[1])["fields"]
        return next(field["entry"] for field in fields if field["field"] == name)

    def test_a_correction_is_handed_on(self):
        desk = Desk(self.db, env=self.env)
        status, _ = desk.ask("/api/edit", {"item": 1, "field": "measure:chest", "value": "22",
                                           "expect": self.entry(desk, 1, "measure:chest")})
        self.assertEqual(status, 200)
        status, table = desk.ask("/export?as=csv")
        whole = subprocess.run([LAPEL, "export", "--db", self.db, "--as", "csv"],
                               capture_output=True, check=True).stdout
        self.assertEqual((status, table), (200, whole))
        self.assertIn(b",22,558800,", table)
        self.assertEqual(desk.end()[0], 0)
        source = sqlite3.connect(self.db).execute(
            "SELECT source FROM calls ORDER BY call DESC LIMIT 1").fetchone()[0]
        self.assertEqual(source, "desk")

    def test_a_write_up_is_the_one_that_is_handed_on(self):
        desk = Desk(self.db, env=self.env)
        text = json.loads(desk.ask("/api/item/1")[1])["text"]
        whole = subprocess.run([LAPEL, "export", "--db", self.db, "--as", "text"],
                               capture_output=True, check=True, text=True).stdout
        self.assertIn(text.strip(), whole)
        self.assertIn("hest: straight across", text)  # how it was taken
        self.assertEqual(desk.end()[0], 0)

    def test_what_is_missing_comes_first(self):
        desk = Desk(self.db)
        rows = json.loads(desk.ask("/api/queue")[1])["rows"]
        self.assertEqual([(row["number"], row["reason"]) for row in rows],
                         [("402", "missing"), ("401", "rest")])
        self.assertEqual(desk.end()[0], 0)

    def test_learnt_words_are_checked_as_others_are(self):
        lists = os.path.join(self.env["XDG_CONFIG_HOME"], "lapel", "lists")
        os.makedirs(lists)
        with open(os.path.join(lists, "makers.txt"), "w") as file:
            file.write("gull and sons\n")
        done = subprocess.run([LAPEL, "words", "check"], env=self.env, capture_output=True)
        self.assertEqual(done.returncode, 0, done.stderr)
        with open(os.path.join(lists, "makers.txt"), "a") as file:
            file.write("g&s\n")
        done = subprocess.run([LAPEL, "words", "check"], env=self.env, capture_output=True)
        self.assertEqual(done.returncode, 1)
        self.assertIn(b"makers.txt", done.stderr)

    def test_wrong_use(self):
        for arguments, status, says in (
                (["desk"], 2, "--db FILE is missing"),
                (["desk", "--db", self.db, "--port", "x"], 2, "is no port"),
                (["desk", "--db", self.db, "--port", "70000"], 2, "is no port"),
                (["desk", "--db", self.db, "again"], 2, "one word too many"),
                (["desk", "--db", self.db, "--listen", "tide.example"], 1, "no address"),
                (["desk", "--db", self.db + ".not"], 1, "cannot be read"),
                (["desk", "--db", os.path.join(self.folder.name, "rows.csv")], 1,
                 "is not a database of lapel")):
            done = subprocess.run([LAPEL, *arguments], capture_output=True, text=True, timeout=60)
            self.assertEqual(done.returncode, status, (arguments, done.stderr))
            self.assertIn(says, done.stderr)
            self.assertEqual(done.stdout, "")
        self.assertFalse(os.path.exists(self.db + ".not"))


if __name__ == "__main__":
    unittest.main()

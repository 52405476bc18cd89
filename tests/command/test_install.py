"""What `meson install` puts in place: everything, and it runs from there."""

import os
import re
import shutil
import subprocess
import tempfile
import unittest

BUILD = os.environ["LAPEL_BUILD"]
FILES = ["bin/lapel", "share/man/man1/lapel.1", "share/man/man5/lapel-settings.5",
         "share/bash-completion/completions/lapel", "lib/udev/rules.d/70-lapel.rules",
         "lib/systemd/user/lapel.service", "share/lapel/grammars/station.gram",
         "share/lapel/audio/cues.txt"]


class Install(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.scratch = tempfile.TemporaryDirectory(prefix="lapel-install-")
        subprocess.run(["meson", "install", "-C", BUILD, "--no-rebuild", "--quiet", "--destdir",
                        cls.scratch.name], check=True, capture_output=True)
        prefixes = [folder for folder, _, names in os.walk(cls.scratch.name)
                    if os.path.basename(folder) == "bin" and "lapel" in names]
        cls.prefix = os.path.dirname(prefixes[0])

    @classmethod
    def tearDownClass(cls):
        cls.scratch.cleanup()

    def path(self, name):
        return os.path.join(self.prefix, name)

    def test_everything_is_in_its_place(self):
        self.assertEqual([], [name for name in FILES if not os.path.exists(self.path(name))])

    def test_the_installed_program_hears_what_it_says(self):
        sound = os.path.join(self.scratch.name, "a.wav")
        environment = dict(os.environ, XDG_CONFIG_HOME=self.scratch.name)
        subprocess.run([self.path("bin/lapel"), "say", "next", "--to", sound], check=True,
                       env=environment, cwd="/")
        heard = subprocess.run([self.path("bin/lapel"), "hear", "--whole", sound], check=True,
                               env=environment, cwd="/", capture_output=True, text=True)
        self.assertIn('"text"', heard.stdout)

    def test_the_unit_starts_the_program(self):
        with open(self.path("lib/systemd/user/lapel.service")) as file:
            unit = file.read()
        self.assertNotIn("@", unit)
        self.assertIn("/bin/lapel listen --db", unit)
        if shutil.which("systemd-analyze"):
            checked = subprocess.run(["systemd-analyze", "verify", "--user", "--man=no",
                                      self.unit_here(unit)], capture_output=True, text=True,
                                     env=dict(os.environ, XDG_RUNTIME_DIR=self.scratch.name))
            self.assertNotRegex(checked.stdout + checked.stderr, "lapel.service")

    def unit_here(self, unit):
        """The unit as if what was installed were where it belongs."""
        path = os.path.join(self.scratch.name, "lapel.service")
        with open(path, "w") as file:
            file.write(re.sub(r"(?m)^ExecStart=\S+", f"ExecStart={self.path('bin/lapel')}", unit))
        return path

    @unittest.skipUnless(shutil.which("udevadm"), "there is no udevadm")
    def test_the_rule_is_one(self):
        checked = subprocess.run(["udevadm", "verify", self.path("lib/udev/rules.d/70-lapel.rules")],
                                 capture_output=True, text=True)
        if "Unknown" not in checked.stderr:  # an older udevadm cannot verify
            self.assertEqual(0, checked.returncode, checked.stderr)

    @unittest.skipUnless(shutil.which("mandoc") or shutil.which("man"), "there is no man")
    def test_the_manuals_have_no_fault(self):
        for name in FILES[1:3]:
            command = (["mandoc", "-T", "lint", "-W", "warning"] if shutil.which("mandoc")
                       else ["man", "--warnings", "-E", "UTF-8", "-l", "-Tutf8", "-Z"])
            checked = subprocess.run(command + [self.path(name)], capture_output=True, text=True)
            self.assertEqual("", checked.stderr.strip(), name)

    def test_the_manual_has_every_command(self):
        with open(self.path("share/man/man1/lapel.1")) as file:
            manual = file.read()
        listed = subprocess.run([self.path("bin/lapel"), "--help"], capture_output=True, text=True)
        for line in listed.stdout.split("Commands:\n")[1].split("\n\n")[0].splitlines():
            self.assertIn(".It Cm " + line.split()[0], manual)

    def test_the_manual_has_every_setting(self):
        with open(self.path("share/man/man5/lapel-settings.5")) as file:
            manual = file.read()
        printed = subprocess.run([self.path("bin/lapel"), "settings"], capture_output=True,
                                 text=True, env=dict(os.environ,
                                                     XDG_CONFIG_HOME=self.scratch.name)).stdout
        for line in printed.splitlines():
            if " = " in line and not line.startswith("#   "):
                self.assertIn(".It Ic " + line.lstrip("# ").split(" = ")[0] + " ", manual)

    @unittest.skipUnless(shutil.which("bash"), "there is no bash")
    def test_completion_offers_commands_and_options(self):
        def complete(*words):
            quoted = " ".join(f"'{word}'" for word in words)
            script = (f"source '{self.path('share/bash-completion/completions/lapel')}';"
                      f" COMP_WORDS=({quoted}); COMP_CWORD={len(words) - 1};"
                      f" _lapel '{words[0]}'; printf '%s\\n' \"${{COMPREPLY[@]}}\"")
            return subprocess.run(["bash", "-c", script], capture_output=True, text=True,
                                  check=True).stdout.split()
        program = self.path("bin/lapel")
        self.assertIn("soundcheck", complete(program, "so"))
        self.assertIn("--spoken", complete(program, "listen", "--s"))
        self.assertIn("--who", complete(program, "pace", "--"))
        self.assertEqual(["jsonld"], complete(program, "export", "--as", "j"))
        self.assertEqual(["rms"], complete(program, "say", "--voice", "r"))


if __name__ == "__main__":
    unittest.main()

# SPDX-License-Identifier: MIT
"""What stands in files never steers the terminal, through the binary named by the environment variable HATRING."""
import json
import os
import subprocess
import unittest

from cli_case import BAD_INPUT, CONFIGS, DEMO, QUICK, RAN, CliTest, hatring, shown_on_terminal

LOG = CONFIGS / "logs" / "tern_hollow.csv"
# Clears the screen, sets the title, the same as one byte and as UTF-8 of one character, erases, turns the line round.
NASTY = ["\x1b[2J", "\x1b]0;owned\x07", "\u009b2J", "\x08\x08", "\x7f", "\u202egnp", "\u2066x"]


def obeyed(text):
    """Characters that a terminal would not show, but for the colours of our own tables."""
    return [c for c in text if (ord(c) < 32 and c not in "\n\t") or 127 <= ord(c) < 160 or 0x202a <= ord(c) <= 0x202e
            or 0x2066 <= ord(c) <= 0x2069]


class Terminal(CliTest):
    def assert_plain(self, result, codes):
        self.assertIn(result.returncode, codes, result.stdout + result.stderr)
        self.assertEqual(obeyed(result.stdout + result.stderr), [])
        self.assertIn("?", result.stdout + result.stderr)

    def log_with(self, title):
        path = self.folder / "log.csv"
        path.write_bytes(LOG.read_bytes().replace(b"Brake Pressure (bar)", b"brake " + title))
        return path

    def test_titles_of_a_log(self):
        for text in NASTY:
            with self.subTest(text=text):
                log = self.log_with(b"A" + text.encode())
                self.assert_plain(hatring("trace", log, cwd=self.folder), RAN)
                self.assert_plain(hatring("trace", log, "--column", "speed=nothing", cwd=self.folder), (BAD_INPUT,))

    def test_bytes_that_are_no_text(self):
        result = subprocess.run([os.environ["HATRING"], "trace", self.log_with(b"A\x9b2J\xff\xe2\x80")], cwd=self.folder,
                                capture_output=True, stdin=subprocess.DEVNULL, check=False)
        self.assertIn(result.returncode, RAN, result.stderr)
        self.assertIn("A?2J???", result.stdout.decode())  # decode() throws on what is no UTF-8

    def test_letters_of_all_scripts_are_shown(self):
        self.assertIn("Å°C τ 温度 🙂", hatring("trace", self.log_with("Å°C τ 温度 🙂".encode()), cwd=self.folder).stdout)

    def test_names_in_configs(self):
        for text in NASTY:
            with self.subTest(text=text):
                config = self.folder / "config.yaml"
                config.write_text(f"include: {DEMO}\nname: \"a{text}\"\n")
                self.assert_plain(hatring("simulate", config, *QUICK, "--allow-include", CONFIGS, cwd=self.folder),
                                  (*RAN, BAD_INPUT))
                config.write_text(f"include: {DEMO}\n\"a{text}\": 1\n")
                self.assert_plain(hatring("simulate", config, "--allow-include", CONFIGS, cwd=self.folder), (BAD_INPUT,))

    def test_words_of_the_command_line(self):
        for args in (["simulate", "no\x1b[2J.yaml"], ["simul\x1b[2J"], ["simulate", DEMO, "--no\x1b[2J"],
                     ["simulate", DEMO, "--set", "car.ma\x1b[2J=1"], ["simulate", DEMO, "--mesh", "\x1b[2J"]):
            with self.subTest(args=args):
                self.assert_plain(hatring(*args, cwd=self.folder), (BAD_INPUT,))

    def test_json_keeps_them_escaped(self):
        for text in NASTY:
            with self.subTest(text=text):
                out = hatring("trace", self.log_with(b"A" + text.encode()), "--json", cwd=self.folder).stdout
                self.assertEqual(obeyed(out), [])
                choices = [guess["choice"] for guess in json.loads(out)["guesses"]]
                self.assertIn(f"column `brake A{text}`", choices)

    def test_a_terminal_with_colours(self):
        config = self.folder / "config.yaml"
        config.write_text(f"include: {DEMO}\nname: \"A\u009b2J\"\n")
        code, shown = shown_on_terminal("simulate", config, *QUICK, "--allow-include", CONFIGS, cwd=self.folder,
                                        NO_COLOR="")
        self.assertIn(code, RAN)
        self.assertIn(b"\x1b[1m", shown)
        self.assertIn(b"A?2J", shown)


if __name__ == "__main__":
    unittest.main()

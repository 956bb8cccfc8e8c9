# SPDX-License-Identifier: MIT
"""What `cmake --install` puts in place, used as another project or a shell would use it.

Environment: BUILD, a build folder in which everything is built. test_install.py [Class.name] runs all or one.
"""
import json
import os
import pathlib
import re
import shutil
import subprocess
import tempfile
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
DEMO = ROOT / "configs" / "demo.yaml"
QUICK = ("--mesh", "lump", "--no-report", "--no-band", "--json")


def run(*args, **options):
    result = subprocess.run([*map(str, args)], stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=280,
                            check=False, **options)
    if result.returncode not in (0, 1):
        raise AssertionError(f"{args}: exit code {result.returncode}\n{result.stdout}{result.stderr}")
    return result


class Installed(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        folder = tempfile.TemporaryDirectory()
        cls.addClassCleanup(folder.cleanup)
        cls.folder = pathlib.Path(folder.name)
        cls.prefix = cls.folder / "prefix"
        run("cmake", "--install", os.environ["BUILD"], "--prefix", cls.prefix)
        cls.binary = cls.prefix / "bin" / "hatring"

    def installed(self, pattern):
        found = list(self.prefix.glob(pattern))
        self.assertEqual(len(found), 1, pattern)
        return found[0]

    def commands(self):
        """Each command with the names of its options, as --help shows them."""
        listing = run(self.binary, "--help").stdout.split("Subcommands:")[1]
        names = re.findall(r"^  ([a-z]+)\b", listing, re.MULTILINE)
        self.assertGreaterEqual(len(names), 6)
        for name in names:
            options = re.findall(r"^ +(?:-\w,)?(--[a-z-]+)", run(self.binary, name, "--help").stdout, re.MULTILINE)
            self.assertIn("--help", options)
            yield name, options

    def test_a_project_that_embeds_the_library(self):
        build = self.folder / "build"
        # A copy, so that nothing of the source tree is in reach but through the prefix.
        example = shutil.copytree(ROOT / "docs" / "examples" / "embed", self.folder / "embed")
        run("cmake", "-S", example, "-B", build, "-G", "Ninja", f"-DCMAKE_PREFIX_PATH={self.prefix}",
            "-DCMAKE_BUILD_TYPE=Release", f"-DCMAKE_CXX_COMPILER={os.environ.get('CXX') or 'c++'}")
        run("cmake", "--build", build)
        embedded = run(build / "embed", DEMO).stdout
        answers = json.loads(run(self.binary, "simulate", DEMO, "--json", "--no-report", "--no-band",
                                 cwd=self.folder).stdout)
        peak = answers["peaks"]["front"]["ring_mean"]
        self.assertIn(f"front ring: {peak['value']:.1f} K at {peak['time']:.1f} s", embedded)
        self.assertEqual(embedded.count("over the limit"),
                         sum(v["level"] == "over the limit" for v in answers["verdicts"]))

    def test_no_path_of_the_source_tree_is_installed(self):
        files = list(self.prefix.glob("lib*/**/cmake/hatring/*.cmake"))
        self.assertGreaterEqual(len(files), 4)
        for file in files:
            self.assertNotIn(str(ROOT), file.read_text(), file.name)

    def test_installed_configs_run(self):
        demo = self.installed("share/hatring/configs/demo.yaml")
        run(self.binary, "simulate", demo, *QUICK, cwd=self.folder)

    def test_man_page_and_completions_know_every_option(self):
        man = self.installed("share/man/man1/hatring.1").read_text().replace("\\-", "-")
        pages = {"man": re.sub(r"\\f[BIR]", "", man),
                 "bash": self.installed("share/bash-completion/completions/hatring").read_text(),
                 "zsh": self.installed("share/zsh/site-functions/_hatring").read_text()}
        heading = {"man": r"^\.SS {}$(.*?)^\.S[SH]", "bash": r"^    {}\)$(.*?)^      esac",
                   "zsh": r"^    {}\)$(.*?)^      ;;"}
        for command, options in self.commands():
            for page, text in pages.items():
                part = re.search(heading[page].format(command), text, re.MULTILINE | re.DOTALL)
                self.assertIsNotNone(part, f"{page}: {command}")
                for option in options:
                    self.assertRegex(part[1], rf"(?<![\w-]){option}(?![\w-])", f"{page}: {command}")

    def test_man_page_is_clean_roff(self):
        if shutil.which("groff") is None:
            self.skipTest("no groff on this machine")
        result = run("groff", "-man", "-ww", "-z", self.installed("share/man/man1/hatring.1"))
        self.assertEqual(result.stdout + result.stderr, "")

    def complete(self, *words):
        """What the Tab key offers after the words, the last of which is being typed."""
        file = self.installed("share/bash-completion/completions/hatring")
        script = ('source "$1"; shift; COMP_WORDS=(hatring "$@"); COMP_CWORD=$#; _hatring; '
                  'printf "%s\\n" "${COMPREPLY[@]}"')
        return run("bash", "-c", script, "bash", file, *words, cwd=ROOT / "configs").stdout.split()

    def test_bash_completes(self):
        self.assertEqual(self.complete("sim"), ["simulate"])
        self.assertEqual(self.complete("simulate", "--me"), ["--mesh"])
        self.assertEqual(self.complete("simulate", "--mesh", "s"), ["standard"])
        self.assertEqual(self.complete("simulate", "--units", "=", "u"), ["us"])
        self.assertIn("demo.yaml", self.complete("simulate", "de"))
        self.assertEqual(self.complete("simulate", "--out", "rot"), ["rotors"])
        self.assertEqual(self.complete("trace", "logs/"), ["logs/tern_hollow.csv"])

    def test_zsh_reads_its_completion(self):
        if shutil.which("zsh") is None:
            self.skipTest("no zsh on this machine")
        run("zsh", "-n", self.installed("share/zsh/site-functions/_hatring"))


if __name__ == "__main__":
    unittest.main()

# SPDX-License-Identifier: MIT
"""The documents hang together: every link leads somewhere, and the index leads to every page."""
import pathlib
import re
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").rglob("*.md"))]


def links(page):
    """Files that a page links to or shows."""
    for target in re.findall(r"\]\(([^)#\s]+)[^)]*\)", page.read_text()):
        if not re.match(r"[a-z]+:", target):
            yield (page.parent / target).resolve()


class Links(unittest.TestCase):
    def test_every_link_leads_somewhere(self):
        for page in PAGES:
            for target in links(page):
                self.assertTrue(target.exists(), f"{page.relative_to(ROOT)}: {target}")

    def test_the_index_leads_to_every_page(self):
        listed = set(links(ROOT / "docs" / "README.md"))
        for page in PAGES[2:]:
            if page.name != "README.md":
                self.assertIn(page, listed, "docs/README.md does not lead to it")


if __name__ == "__main__":
    unittest.main()

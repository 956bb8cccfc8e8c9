# SPDX-License-Identifier: MIT
"""The checks of the tree themselves: each rule is broken once."""
import pathlib
import tempfile
import unittest

import check_rooms
import check_tree


class Rooms(unittest.TestCase):
    def test_what_each_room_must_not_include(self):
        for room, line in [
            ("models", '#include "sim/session/case.hpp"'),
            ("models", "#include <fmt/format.h>"),
            ("models", "#include <chrono>"),
            ("models", "#include <boost/math/tools/roots.hpp>"),
            ("sim/session", '#include "sim/network/network.hpp"'),
            ("sim/network", '#include "sim/solve/stepper.hpp"'),
            ("sim/solve", '#include "sim/answer/history.hpp"'),
            ("sim/study", '#include "sim/answer/run.hpp"'),
            ("sim/answer", '#include "sim/io/reader.hpp"'),
            ("sim/io", '#include "tools/report/page.hpp"'),
            ("sim/answer", "#include <thread>"),
            ("sim/session", "  #  include <filesystem>"),
            ("sim/solve", "#include <unistd.h>"),
            ("sim/network", "#include <yaml-cpp/yaml.h>"),
            ("tools", "#include <H5Cpp.h>"),
            ("tools", "#include <udunits2.h>"),
            ("tools", '#include "tests/models/smoothness.hpp"'),
            ("sim/solve", '#include "stepper.hpp"'),
            ("sim/session", 'const char* home = std::getenv("HOME");'),
        ]:
            with self.subTest(room=room, line=line):
                self.assertIsNotNone(check_rooms.complaint(room, line))

    def test_what_each_room_may_include(self):
        for room, line in [
            ("models", "#include <cmath>"),
            ("models", "#include <Eigen/Core>"),
            ("sim/answer", '#include "sim/solve/integrate.hpp"'),
            ("sim/answer", '#include "sim/study/design.hpp"'),
            ("sim/solve", "#include <boost/numeric/odeint.hpp>"),
            ("sim/solve", "#include <chrono>"),
            ("sim/io", "#include <fstream>"),
            ("sim/io", "#include <H5Cpp.h>"),
            ("tools", '#include "sim/io/read_case.hpp"'),
            ("tools", "#include <unistd.h>"),
            ("tools/bench", '#include "tests/sim/network/track_case.hpp"'),
            ("models", "// getenv is nothing for this room"),
        ]:
            with self.subTest(room=room, line=line):
                self.assertIsNone(check_rooms.complaint(room, line))

    def test_a_complaint_names_file_and_line(self):
        with tempfile.TemporaryDirectory() as folder:
            root = pathlib.Path(folder)
            (root / "models").mkdir()
            (root / "models" / "air.cpp").write_text("\n#include <thread>\n")
            self.assertEqual([c.split(" ")[0] for c in check_rooms.complaints(root)], ["models/air.cpp:2:"])


class Tree(unittest.TestCase):
    def test_stray_entries_and_long_files(self):
        with tempfile.TemporaryDirectory() as folder:
            root = pathlib.Path(folder)
            (root / "models").mkdir()
            (root / "models" / "long.cpp").write_text("//\n" * (check_tree.LONGEST + 1))
            (root / "models" / "short.cpp").write_text("//\n" * check_tree.LONGEST)
            names = [".gitignore", "LICENSE", "models/long.cpp", "models/short.cpp", "notes.txt"]
            found = check_tree.complaints(root, names)
            self.assertEqual([c.split(":")[0] for c in found], ["notes.txt", "models/long.cpp"])


if __name__ == "__main__":
    unittest.main()

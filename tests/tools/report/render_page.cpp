// SPDX-License-Identifier: MIT
// render_page RUN.json PAGE.html: puts a run into the report page, for the browser test.
#include <fstream>
#include <iostream>

#include "tools/report/page.hpp"

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "usage: render_page RUN.json PAGE.html\n";
    return 2;
  }
  if (!hatring::tools::report_available()) {
    std::cerr << "this build has no report page\n";
    return 77;
  }
  std::ifstream in(argv[1]);
  std::ofstream out(argv[2]);
  out << hatring::tools::render_report(nlohmann::json::parse(in));
  return out.flush() ? 0 : 1;
}

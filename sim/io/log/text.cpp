// SPDX-License-Identifier: MIT
#include "sim/io/log/text.hpp"

#include <csv.h>
#include <fmt/format.h>
#include <iconv.h>

#include <fstream>
#include <memory>
#include <sstream>

#include "sim/io/config_error.hpp"

namespace hatring::io {
namespace {

[[noreturn]] void refuse(const std::string& name, std::string message, std::string hint = {}) {
  throw ConfigError({Diagnostic{.file = name,
                                .line = 0,
                                .column = 0,
                                .key_path = {},
                                .message = std::move(message),
                                .hint = std::move(hint),
                                .excerpt = {},
                                .notes = {}}});
}

std::string from_utf16(const std::string& bytes, const std::string& name) {
  void* const converter = iconv_open("UTF-8", "UTF-16");
  // NOLINTNEXTLINE(performance-no-int-to-ptr): the error value that POSIX names
  if (converter == reinterpret_cast<iconv_t>(-1)) refuse(name, "found UTF-16 text, which this machine cannot convert");
  std::string in = bytes, out(2 * bytes.size() + 4, '\0');
  char *from = in.data(), *to = out.data();
  std::size_t left = in.size(), room = out.size();
  const std::size_t done = iconv(converter, &from, &left, &to, &room);
  iconv_close(converter);
  if (done == static_cast<std::size_t>(-1))
    refuse(name, "found broken UTF-16 text", "save the log as CSV in UTF-8 and try again");
  out.resize(out.size() - room);
  return out;
}

std::string with_plain_line_ends(const std::string& text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\r')
      out += text[i];
    else if (i + 1 == text.size() || text[i + 1] != '\n')
      out += '\n';
  }
  return out;
}

struct FreeParser {
  void operator()(csv_parser* parser) const {
    csv_free(parser);
    delete parser;
  }
};

extern "C" void hatring_log_cell(void* text, std::size_t length, void* cells) {
  auto& row = *static_cast<std::vector<std::string>*>(cells);
  if (row.size() <= kMostLogColumns) row.emplace_back(static_cast<const char*>(text), length);
}

}  // namespace

std::string as_log_text(std::string bytes, const std::string& name) {
  if (bytes.starts_with("\xff\xfe") || bytes.starts_with("\xfe\xff")) bytes = from_utf16(bytes, name);
  if (bytes.starts_with("\xef\xbb\xbf")) bytes.erase(0, 3);
  if (bytes.find_first_not_of(" \t\r\n") == std::string::npos)
    refuse(name, "the file is empty, expected a table with a line of column names");
  if (bytes.find('\0') != std::string::npos)
    refuse(name, "found bytes that are no text, expected a table as text (CSV)",
           "export the log as CSV from the logger's own program");
  return with_plain_line_ends(bytes);
}

std::string read_log_text(const std::filesystem::path& file) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(file, error)) refuse(file.string(), "there is no such file");
  if (std::filesystem::file_size(file, error) > kLargestLog)
    refuse(file.string(), fmt::format("the file is larger than {} MB, more than is read", kLargestLog >> 20U),
           "export fewer columns or one session");
  std::ifstream in(file, std::ios::binary);
  std::ostringstream bytes;
  if (!in || !(bytes << in.rdbuf())) refuse(file.string(), "the file cannot be read, or is empty");
  return as_log_text(std::move(bytes).str(), file.string());
}

std::vector<LogRow> split_rows(std::string_view text, char separator, std::size_t most_rows) {
  const std::unique_ptr<csv_parser, FreeParser> parser(new csv_parser);
  if (csv_init(parser.get(), 0) != 0) throw std::bad_alloc();
  csv_set_delim(parser.get(), static_cast<unsigned char>(separator));
  std::vector<LogRow> rows;
  std::size_t line = 0, cells = 0;
  while (!text.empty() && rows.size() < most_rows && cells <= kMostLogCells) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    LogRow row{.line = ++line, .cells = {}};
    if (csv_parse(parser.get(), text.data(), end, hatring_log_cell, nullptr, &row.cells) != end ||
        csv_fini(parser.get(), hatring_log_cell, nullptr, &row.cells) != 0)
      throw std::bad_alloc();  // the only way it fails when it is not strict
    cells += row.cells.size();
    if (!row.cells.empty()) rows.push_back(std::move(row));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return rows;
}

}  // namespace hatring::io

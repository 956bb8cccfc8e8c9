// SPDX-License-Identifier: MIT
#include "sim/io/units.hpp"

#include <fmt/format.h>
#include <udunits2.h>

#include <charconv>
#include <cmath>
#include <map>
#include <memory>
#include <mutex>
#include <optional>

#include "sim/io/nearest.hpp"
#include "sim/io/unit_alias.hpp"

namespace hatring::io {
namespace {

struct FreeUnit {
  void operator()(ut_unit* unit) const { ut_free(unit); }
};
struct FreeConverter {
  void operator()(cv_converter* converter) const { cv_free(converter); }
};
using Unit = std::unique_ptr<ut_unit, FreeUnit>;
using Converter = std::unique_ptr<cv_converter, FreeConverter>;

//! The unit database. UDUNITS keeps global state, so one lock guards every call.
class Database {
 public:
  static Database& instance() {
    static Database database;
    return database;
  }

  std::mutex& lock() { return mutex_; }
  //! Of units that were asked for before, by what was written: parsing one costs more than all the rest of a reading.
  std::map<std::pair<std::string, Quantity>, Converter>& known() { return known_; }
  [[nodiscard]] Unit parse(const std::string& text) const { return Unit(ut_parse(system_, text.c_str(), UT_UTF8)); }
  [[nodiscard]] const ut_unit* si(Quantity kind) const { return si_[static_cast<std::size_t>(kind)].get(); }

  //! Same dimensions. (ut_are_convertible also says yes to a unit and its reciprocal: s and Hz.)
  [[nodiscard]] static bool alike(const ut_unit* a, const ut_unit* b) {
    const Unit ratio(ut_divide(a, b));
    return ratio != nullptr && ut_is_dimensionless(ratio.get()) != 0;
  }
  //! Kind of a unit, for messages; nothing when it is none that configs use.
  [[nodiscard]] std::optional<Quantity> kind_of(const ut_unit* unit) const {
    for (std::size_t i = 1; i < si_.size(); ++i)  // 0 is the plain number
      if (alike(unit, si_[i].get())) return static_cast<Quantity>(i);
    return std::nullopt;
  }

 private:
  Database() {
    ut_set_error_message_handler(ut_ignore);
    system_ = ut_read_xml(nullptr);
    if (system_ == nullptr)
      throw UnitError("the unit database of UDUNITS-2 cannot be read", "install the package libudunits2-data");
    for (std::size_t i = 0; i < kQuantityKinds; ++i)
      si_.push_back(parse(std::string(si_unit(static_cast<Quantity>(i)))));
  }

  std::mutex mutex_;
  ut_system* system_ = nullptr;  // lives as long as the program
  std::vector<Unit> si_;
  std::map<std::pair<std::string, Quantity>, Converter> known_;
};

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t\r\n";
  const std::size_t begin = text.find_first_not_of(kBlank);
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(kBlank) - begin + 1);
}

//! The number at the front of `text`, which is moved past it.
std::optional<double> take_number(std::string_view& text) {
  std::string_view rest = text;
  if (!rest.empty() && rest.front() == '+') rest.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
  if (error != std::errc() || !std::isfinite(value)) return std::nullopt;
  text = rest.substr(static_cast<std::size_t>(end - rest.data()));
  return value;
}

//! m:ss, m:ss.s and h:mm:ss.
std::optional<double> clock_time(std::string_view text) {
  const auto part = [](std::string_view field, bool last, double& value) {
    if (field.empty() || field.find_first_not_of(last ? "0123456789." : "0123456789") != std::string_view::npos)
      return false;
    const auto [end, error] = std::from_chars(field.data(), field.data() + field.size(), value);
    return error == std::errc() && end == field.data() + field.size();
  };
  double total = 0;
  int fields = 0;
  while (true) {
    const std::size_t colon = text.find(':');
    const bool last = colon == std::string_view::npos;
    double value = 0;
    if (!part(text.substr(0, colon), last, value)) return std::nullopt;
    if (fields > 0 && value >= 60) return std::nullopt;
    total = total * 60 + value;
    ++fields;
    if (last) break;
    text.remove_prefix(colon + 1);
  }
  if (fields < 2 || fields > 3) return std::nullopt;
  return total;
}

//! `number unit` with the unit that was probably meant.
std::string did_you_mean(std::string_view number, std::string_view unit) {
  return fmt::format("did you mean `{} {}`?", trimmed(number), unit);
}

//! Weight and mass, minutes and metres: the slips of the workshop.
std::string_view slip(Quantity wanted, std::string_view unit) {
  if (wanted == Quantity::force) return unit == "lb" || unit == "lbs" ? "lbf" : unit == "kg" ? "kgf" : "";
  if (wanted == Quantity::mass) return unit == "lbf" ? "lb" : unit == "kgf" ? "kg" : "";
  if (wanted == Quantity::time) return unit == "m" ? "min" : "";
  return "";
}

//! A parsed unit together with what messages need.
struct Request {
  std::string_view number, unit;  //!< as written
  Quantity kind;
  [[nodiscard]] std::string found() const {
    return number.empty() ? fmt::format("\"{}\"", unit) : fmt::format("\"{} {}\"", number, unit);
  }
};

[[noreturn]] void unknown_unit(const Request& request) {
  const std::vector<std::string>& usual = usual_units(request.kind);
  const std::string meant = nearest(request.unit, usual);
  throw UnitError(fmt::format("found {}, expected {} with a unit such as {} (`{}` is not a unit known here)",
                              request.found(), name_of(request.kind), usual.front(), request.unit),
                  meant.empty() ? "" : did_you_mean(request.number, meant));
}

Converter make_converter(const Request& request) {
  Database& database = Database::instance();
  const std::string settled = settle_unit(request.unit, request.kind);
  if (settled.empty()) unknown_unit(request);
  Unit unit = database.parse(settled);
  if (unit == nullptr) {
    // Perhaps only a kind of its own reads it (degrees in a field that is not about temperature): name that kind.
    const std::string degrees = settle_unit(request.unit, Quantity::temperature);
    unit = database.parse(degrees);
    if (unit == nullptr) unknown_unit(request);
  }
  if (!Database::alike(unit.get(), database.si(request.kind))) {
    const std::optional<Quantity> other = database.kind_of(unit.get());
    const std::string_view meant = slip(request.kind, request.unit);
    throw UnitError(fmt::format("found {} ({}), expected {} such as {}", request.found(),
                                other ? name_of(*other) : "a unit of another kind", name_of(request.kind),
                                usual_units(request.kind).front()),
                    meant.empty() ? "" : did_you_mean(request.number, meant));
  }
  return Converter(ut_get_converter(unit.get(), const_cast<ut_unit*>(database.si(request.kind))));
}

//! To be called and used under the lock.
const cv_converter* converter(const Request& request) {
  auto& known = Database::instance().known();
  const std::pair<std::string, Quantity> key(request.unit, request.kind);
  auto found = known.find(key);
  if (found == known.end()) found = known.emplace(key, make_converter(request)).first;
  return found->second.get();
}

double convert(double value, const Request& request) {
  const std::lock_guard guard(Database::instance().lock());
  return cv_convert_double(converter(request), value);
}

// No value with its unit is that long, and messages repeat what they found.
void refuse_essay(std::string_view text, std::string_view expected) {
  constexpr std::size_t kLongest = 200;
  if (text.size() > kLongest)
    throw UnitError(fmt::format("found a text of {} characters, expected {}", text.size(), expected), "");
}

void check_temperature(double kelvin, std::string_view text) {
  if (kelvin < 0) throw UnitError(fmt::format("found \"{}\", which lies below absolute zero", text), "");
}

[[noreturn]] void not_a_number(std::string_view text, Quantity kind) {
  throw UnitError(kind == Quantity::number ? fmt::format("found \"{}\", expected a plain number", text)
                                           : fmt::format("found \"{}\", expected {} such as `{} {}`", text,
                                                         name_of(kind), 1, usual_units(kind).front()),
                  "");
}

}  // namespace

double parse_quantity(std::string_view text, Quantity kind) {
  const std::string_view whole = trimmed(text);
  refuse_essay(whole, name_of(kind));
  if (kind == Quantity::time)
    if (const std::optional<double> clock = clock_time(whole)) return *clock;
  std::string_view rest = whole;
  const std::optional<double> number = take_number(rest);
  if (!number) not_a_number(whole, kind);
  const std::string_view written = whole.substr(0, whole.size() - rest.size());
  if (rest.size() > 1 && rest[0] == ',' && rest[1] >= '0' && rest[1] <= '9')
    throw UnitError(fmt::format("found \"{}\" with a decimal comma, expected a decimal point", whole),
                    fmt::format("did you mean `{}.{}`?", written, rest.substr(1)));
  const std::string_view unit = trimmed(rest);
  if (kind == Quantity::number) {
    if (unit.empty()) return *number;
    if (unit == "%" || unit == "percent") return *number / 100;
    throw UnitError(fmt::format("found \"{}\", expected a plain number (or %)", whole), "");
  }
  if (unit.empty())
    throw UnitError(fmt::format("found \"{}\" without a unit, expected {}", whole, name_of(kind)),
                    did_you_mean(written, usual_units(kind).front()));
  const double value = convert(*number, {written, unit, kind});
  if (kind == Quantity::temperature) check_temperature(value, whole);
  return value;
}

double parse_number(std::string_view text) {
  refuse_essay(text, name_of(Quantity::number));
  std::string_view rest = trimmed(text);
  const std::optional<double> number = take_number(rest);
  if (!number || !rest.empty()) {
    if (number && rest.size() > 1 && rest[0] == ',')
      throw UnitError(fmt::format("found \"{}\" with a decimal comma, expected a decimal point", text), "");
    not_a_number(trimmed(text), Quantity::number);
  }
  return *number;
}

void read_units() {
  (void)Database::instance();
}

void convert_to_si(std::span<double> values, std::string_view unit, Quantity kind) {
  refuse_essay(unit, "a unit");
  if (kind == Quantity::number) {
    if (unit == "%")
      for (double& value : values) value /= 100;
    else if (!unit.empty() && unit != "1")
      throw UnitError(fmt::format("found the unit \"{}\", expected none (or %)", unit), "");
    return;
  }
  const std::lock_guard guard(Database::instance().lock());
  cv_convert_doubles(converter({{}, trimmed(unit), kind}), values.data(), values.size(), values.data());
  if (kind == Quantity::temperature)
    for (const double value : values)
      if (value < 0) throw UnitError("found a temperature below absolute zero", "");
}

}  // namespace hatring::io

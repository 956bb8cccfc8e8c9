// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <memory>

#include "sim/io/read_car.hpp"
#include "sim/io/trace_file.hpp"
#include "sim/io/units.hpp"
#include "sim/session/error.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/output_files.hpp"
#include "tools/cli/terminal.hpp"
#include "tools/cli/trace_report.hpp"
#include "tools/report/page.hpp"

namespace hatring::tools {
namespace {

struct TraceOptions {
  std::filesystem::path log, out, car, against;
  std::optional<int> against_lap;
  io::LogOptions reading;
  std::optional<double> mass;
  UnitSystem units = UnitSystem::si;
  bool json = false, quiet = false, no_report = false;
};

// Without a car nothing is known of drag and engine: slowing less than this may be a lifted throttle (common practice,
// no source) [g].
constexpr double kCoasting = 0.15;

// Laps of one track differ less in length than this, whatever their lines and sensors (ours, no source) [-].
constexpr double kMostUnlike = 0.15;

// "speed=NAME" into a map by role.
void put(std::map<io::LogRole, std::string>& into, const char* option, const std::string& text) {
  const std::size_t equals = text.find('=');
  const std::string name = text.substr(0, equals);
  for (const io::LogRole role : io::kLogRoles)
    if (name == io::name_of(role) && equals != std::string::npos && equals + 1 < text.size()) {
      into[role] = text.substr(equals + 1);
      return;
    }
  std::string roles;
  for (const io::LogRole role : io::kLogRoles)
    roles += fmt::format("{}{}", roles.empty() ? "" : ", ", io::name_of(role));
  throw CLI::ValidationError(
      fmt::format("--{}: found \"{}\", expected WHAT=VALUE with WHAT one of {}", option, text, roles));
}

io::LatLon read_place(const std::string& text) {
  io::LatLon place;
  const char *begin = text.data(), *const end = begin + text.size();
  const auto first = std::from_chars(begin, end, place.latitude);
  if (first.ec == std::errc() && first.ptr != end && *first.ptr == ',') {
    begin = first.ptr + 1;
    while (begin != end && *begin == ' ') ++begin;
    const auto second = std::from_chars(begin, end, place.longitude);
    if (second.ec == std::errc() && second.ptr == end && io::is_place(place.latitude, place.longitude)) return place;
  }
  throw CLI::ValidationError(
      fmt::format("--start-line: found \"{}\", expected latitude,longitude in degrees such as 51.2345,-1.2345", text));
}

// Another log, another lap of the same one, or a trace file.
std::optional<OtherLap> read_other(const TraceOptions& options, const std::optional<session::Case>& car,
                                   const BrakingZones& zones) {
  if (options.against.empty() && !options.against_lap) return std::nullopt;
  const std::filesystem::path& file = options.against.empty() ? options.log : options.against;
  session::Trace trace;
  std::string name = file.filename().string();
  if (const auto extension = file.extension(); extension == ".yaml" || extension == ".yml") {
    trace = io::read_trace_file(file);
  } else {
    io::LogOptions reading = options.reading;
    reading.laps.lap = options.against_lap;
    io::LogReading log = io::read_log(file, reading);
    if (log.laps.chosen) name += fmt::format(", lap {}", log.laps.laps[*log.laps.chosen].number);
    trace = std::move(log.trace);
  }
  OtherLap other{.name = name, .zones = braking_zones(trace, car, options.mass), .against = {}};
  for (const BrakingZones* z : std::initializer_list<const BrakingZones*>{&zones, &other.zones})
    if (!z->drive)
      throw session::CaseError(fmt::format("{}: cannot be driven, so there is nothing to compare: {}",
                                           z == &zones ? options.log.filename().string() : name, z->failure));
  if (std::abs(zones.distance / other.zones.distance - 1) > kMostUnlike)
    throw session::CaseError(fmt::format(
        "--against: found {:.0f} m here and {:.0f} m in {}, expected two laps of one track; choose laps with --lap and "
        "--against-lap",
        zones.distance, other.zones.distance, name));
  other.against = answer::against(*zones.drive, *other.zones.drive);
  return other;
}

int trace(const TraceOptions& options) {
  const io::LogReading reading = io::read_log(options.log, options.reading);
  std::optional<session::Case> car;
  if (!options.car.empty()) car = io::read_car(options.car);
  const BrakingZones zones = braking_zones(reading.trace, car, options.mass);
  const std::optional<OtherLap> other = read_other(options, car, zones);
  const std::filesystem::path out =
      options.out.empty() ? std::filesystem::path(options.log.stem().string() + "-trace.yaml") : options.out;
  make_folder(out.parent_path());
  write_file(out, io::trace_yaml(reading));
  const bool report = !options.no_report && report_available();
  const std::filesystem::path page = std::filesystem::path(out).replace_extension(".html");
  if (report) write_file(page, render_report(trace_page(reading, zones, other, timestamp())));
  if (options.json) {
    nlohmann::json answer = trace_json(reading, zones);
    if (other) answer["against"] = against_json(zones, *other);
    answer["written"] = out.string();
    print_json(answer);
  } else if (!options.quiet) {
    const DisplayUnits units(options.units);
    print_text(fmt::format("{}{}written: {}{}\n", trace_text(reading, zones, units),
                           other ? against_text(zones, *other, units) : "", out.string(),
                           report ? ", " + page.string() : ""));
  }
  return kWithinLimits;
}

// One word of a few.
template <class T>
void add_choice(CLI::App& command, const char* name, const std::map<std::string, T>& words, const char* doc,
                std::function<void(T)> take) {
  command
      .add_option_function<std::string>(
          name, [words, take](const std::string& word) { take(words.at(word)); }, doc)
      ->check(CLI::IsMember(words))
      ->type_name("NAME");
}

}  // namespace

BrakingZones braking_zones(const session::Trace& trace, const std::optional<session::Case>& car,
                           std::optional<double> mass) {
  session::Case c = car.value_or(session::Case{});
  BrakingZones out;
  if (car) {
    out.basis = BrakingZones::Basis::car;
    if (mass) c.car.mass = *mass;
  } else {
    out.basis = mass ? BrakingZones::Basis::mass : BrakingZones::Basis::kilogram;
    c.car.mass = mass.value_or(1);
    c.car.rotating_factor = 1;
    c.car.drag_area = c.car.rolling_resistance = c.car.engine_drag = c.car.tyre_slip_share = 0;
    c.brakes.dead_band = kCoasting;
  }
  c.traces = {trace};
  if (!car) c.traces[0].grade.clear();  // the speed alone
  c.session = {session::DriveStep{}};
  try {
    const session::Drive drive(c);
    out.brakings = drive.brakings();
    for (const session::Braking& b : out.brakings) out.energy += b.brake;
    out.styles = answer::braking_styles(drive);
    out.duration = drive.duration();
    out.distance = drive.distance(drive.duration());
    out.drive = drive;
  } catch (const session::CaseError& e) {
    out.failure = e.what();
  }
  return out;
}

void add_trace(CLI::App& program, Action& action) {
  CLI::App& command =
      *program.add_subcommand("trace", "Turn a logger's file into a speed trace, showing every guess it made");
  const auto o = std::make_shared<TraceOptions>();
  command.add_option("log", o->log, "Logger file (CSV)")->required()->type_name("LOG.csv");
  command.add_option("-o,--out", o->out, "Trace file to write; default ./STEM-trace.yaml")->type_name("TRACE.yaml");
  const auto pairs = [&command](const char* name, std::map<io::LogRole, std::string>& into, const char* doc) {
    const char* bare = name + 2;
    command
        .add_option_function<std::vector<std::string>>(
            name,
            [&into, bare](const std::vector<std::string>& all) {
              for (const std::string& one : all) put(into, bare, one);
            },
            doc)
        ->type_name("WHAT=VALUE")
        ->allow_extra_args(false);
  };
  pairs("--column", o->reading.columns,
        "Which column is the time, distance, speed, lap, latitude, longitude, altitude or brake, by its title, its "
        "number from 1, or `none`: --column speed=\"GPS Speed\"; may be repeated");
  pairs("--unit", o->reading.units,
        "Its unit, with a factor if need be: --unit speed=mph, --unit speed=\"0.2778 km/h\"; may be repeated");
  add_choice<char>(command, "--separator", {{"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}}, "What parts the cells",
                   [o](char c) { o->reading.separator = c; });
  add_choice<char>(command, "--decimal", {{"point", '.'}, {"comma", ','}}, "Decimal mark of the numbers",
                   [o](char c) { o->reading.decimal = c; });
  using io::LapCut;
  add_choice<LapCut>(command, "--laps",
                     {{"column", LapCut::column},
                      {"clock", LapCut::clock},
                      {"line", LapCut::line},
                      {"pattern", LapCut::pattern},
                      {"none", LapCut::none}},
                     "Cut laps by the lap column, where the clock begins again, at a place of the positions, by the "
                     "repeated speed, or not at all",
                     [o](LapCut cut) { o->reading.laps.cut = cut; });
  command
      .add_option_function<std::string>(
          "--start-line", [o](const std::string& text) { o->reading.laps.start_line = read_place(text); },
          "Cut laps where the car passes this place, in degrees")
      ->type_name("LAT,LON");
  auto* lap =
      command.add_option("--lap", o->reading.laps.lap, "Write this lap instead of the typical one")->type_name("N");
  command.add_flag("--whole", o->reading.laps.whole, "Write the whole log instead of one lap")->excludes(lap);
  command.add_option("--car", o->car, "File with a key `car:`: brakings as heat of this car's brakes")
      ->type_name("CAR.yaml");
  command
      .add_option_function<std::string>(
          "--mass",
          [o](const std::string& text) {
            try {
              o->mass = io::parse_quantity(text, io::Quantity::mass);
            } catch (const io::UnitError& e) {
              throw CLI::ValidationError(fmt::format("--mass: {} {}", e.what(), e.hint()));
            }
            if (!(*o->mass > 0)) throw CLI::ValidationError("--mass: expected more than 0 kg");
          },
          "Mass with driver and fuel, with unit: brakings as energy of this mass")
      ->type_name("MASS");
  command
      .add_option("--against", o->against,
                  "Compare with another log, read in the same way, or with a trace file (.yaml)")
      ->type_name("OTHER");
  command
      .add_option("--against-lap", o->against_lap, "Its lap, instead of the typical one; without --against of LOG.csv")
      ->type_name("N");
  add_units_option(command, o->units);
  command.add_flag("--json", o->json, "Print one JSON object (SI units) and nothing else");
  command.add_flag("--quiet", o->quiet, "Print nothing but errors");
  command.add_flag("--no-report", o->no_report, "Leave the page beside the trace file out");
  command.callback([o, &action] { action = {[o] { return trace(*o); }}; });
}

}  // namespace hatring::tools

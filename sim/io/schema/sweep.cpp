// SPDX-License-Identifier: MIT
#include "sim/io/sweep/input.hpp"

namespace hatring::io {

const Section<SweepInput>& sweep_section() {
  static const Section<SweepInput> section = [] {
    Section<SweepInput> s(
        "Many runs of the session with changed values, for `hatring sweep`; other commands leave it aside.");
    s.custom(
         "vary", "a map of keys to what they are set to",
         [](Reader&, const NodePtr& node, SweepInput& in) { in.vary = node; },
         {.doc = "Each key as for `--set`, several with commas between them for one value in all; or `variant` (or "
                 "`variant.` and a word of your own) for files that are merged over the session, `none` for the "
                 "session as it is. To each: a list of values, a map of names to values, or `range(from, to, count)`, "
                 "`uniform(low, high)`, `normal(mean, deviation)`, `triangular(low, likely, high)`, `band(low, "
                 "likely, high)` (half of the values on either side of likely), in the units that the key takes.",
          .optional = true})
        .choice(
            "design", &SweepInput::design,
            std::vector<std::pair<std::string, study::DesignKind>>{{"factorial", study::DesignKind::factorial},
                                                                   {"latin", study::DesignKind::latin},
                                                                   {"sobol", study::DesignKind::sobol}},
            {.doc =
                 "Which combinations are run: `factorial` all of them, `latin` a Latin hypercube, `sobol` the Sobol' "
                 "sequence.",
             .fallback = "factorial where every parameter has values or a range and `runs` is left out, else latin",
             .reason = "all there is, as long as that is finite",
             .optional = true})
        .custom(
            "runs", "a whole number",
            [](Reader& reader, const NodePtr& node, SweepInput& in) { in.runs = reader.integer(*node, runs_range()); },
            {.doc = "Number of runs; a factorial design has its own.",
             .fallback = "100",
             .reason = "the extremes of five parameters show, judgement",
             .optional = true},
            runs_range())
        .integer("seed", &SweepInput::seed,
                 {.doc = "Another seed, another sample of the same kind; 0 leaves the Sobol' sequence as it is.",
                  .fallback = "1",
                  .reason = "any number will do",
                  .from = "0",
                  .to = "1000000000"});
    return s;
  }();
  return section;
}

const Range& runs_range() {
  static const Range range = make_range(Quantity::number, "", "1", "100000000", "");
  return range;
}

}  // namespace hatring::io

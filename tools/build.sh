# SPDX-License-Identifier: MIT
# shellcheck shell=bash
# Sourced by tools/demo, tools/check and .ci/run, which stand at the top of the source tree then.

# configure_and_build DIR [CMAKE OPTION...] [-- TARGET...]: builds everything where no target is named.
configure_and_build() {
  local dir=$1 options=() targets=()
  shift
  while (($#)) && [[ $1 != -- ]]; do
    options+=("$1")
    shift
  done
  (($# > 1)) && targets=(--target "${@:2}")
  if command -v ccache >/dev/null; then options+=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache); fi
  cmake -S . -B "$dir" -G Ninja "${options[@]}" && cmake --build "$dir" "${targets[@]}"
}

# clang_build DIR [CMAKE OPTION...] [-- TARGET...]: by the second compiler, for its sanitizers. Several sources in one, which
# halves the time; .ci/run has each for itself read by the analyser.
clang_build() {
  configure_and_build "$1" -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=Debug -DCMAKE_UNITY_BUILD=ON \
    '-DCMAKE_CXX_FLAGS_DEBUG=-O1 -g1 -D_GLIBCXX_ASSERTIONS' "${@:2}"
}

# shellcheck disable=SC2034  # the three counts are for the caller
# run_tests DIR [CTEST OPTION...]: sets passed, failed and skipped; a test that could not be started has failed.
run_tests() {
  local dir=$1 junit
  shift
  junit=$(cd "$dir" && pwd)/junit.xml
  rm -f "$junit"
  ctest --test-dir "$dir" --parallel 2 --output-on-failure --no-tests=error --output-junit "$junit" "$@" || true
  touch "$junit" # ctest itself broke down: no test ran
  local all
  all=$(grep -c '<testcase ' "$junit") || true
  passed=$(grep -c '<testcase .* status="run"' "$junit") || true
  skipped=$(grep -cE '<testcase .* status="disabled"|<skipped message="SKIP_' "$junit") || true
  failed=$((all - passed - skipped))
}

# closing_line PASSED FAILED SKIPPED: prints it and says whether all is well; nothing passed is not well.
closing_line() {
  if (($3)); then
    echo "$1 passed, $2 failed, $3 skipped"
  else
    echo "$1 passed, $2 failed"
  fi
  (($1 > 0 && $2 == 0))
}

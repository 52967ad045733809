#!/usr/bin/env bash
# Runs the benchmarks of a build and prints one table of figures in Markdown.
# usage: tests/benchmarks/table.sh BUILD_DIR
set -euo pipefail
(($# == 1)) || { echo "usage: $0 BUILD_DIR" >&2; exit 2; }
programs=$1/tests/benchmarks
models=$(dirname "$0")/../../models
results=$(mktemp -d)
trap 'rm -r "$results"' EXIT
for program in square_work_benchmark piece_benchmark layout_benchmark; do
  [[ -x $programs/$program ]] || {
    echo "$0: no $programs/$program; configure with -DDRYFIT_BENCHMARKS=ON and build" >&2
    exit 2
  }
done

run() { # run PROGRAM FILTER: appends "NAME TIME_IN_MS [PEAK_MB]" of every median to the figures
  "$programs/$1" --benchmark_filter="$2" --benchmark_format=json \
    --benchmark_report_aggregates_only=true "${@:3}" 2>/dev/null | collect
}
collect() {
  awk -F'": *' '
    function flush() {
      if (name ~ /_median$/) {
        sub(/_median$/, "", name)
        sub(/\/(iterations|repeats|process_time|min_time).*/, "", name)
        print name, time * (unit == "us" ? 1e-3 : unit == "ns" ? 1e-6 : unit == "s" ? 1e3 : 1), \
          peak == "" ? "-" : peak, off
      }
      name = ""; peak = ""; value = ""; off = ""
    }
    /"name":/      { flush(); gsub(/[",]/, "", $2); name = $2 }
    /"cpu_time":/  { time = $2 + 0 }
    /"time_unit":/ { gsub(/[",]/, "", $2); unit = $2 }
    /"peak_MB":/   { peak = $2 + 0 }
    /"off":/       { off = $2 + 0 }
    END            { flush() }' >>"$results/figures"
}

run square_work_benchmark '^(oneLibraryCut|squareWorkWithShape|squareWorkAlone)$' \
  --benchmark_repetitions=9
run piece_benchmark '^(cupboard|dowelled|copies|answer)'
run piece_benchmark '^batchByAllPairs'
run piece_benchmark '^batchChecks'
# Each size in a process of its own, so that its peak memory is its own.
for size in 10 100 1000 10000; do run piece_benchmark "^batch/$size/"; done
run layout_benchmark '.' --benchmark_repetitions=3
screen=()
[[ -n ${DISPLAY:-} ]] || screen=(xvfb-run -a -s "-screen 0 1280x1024x24")
window() { # window ARGUMENTS: the window's own times
  if [[ -x $programs/viewer_benchmark ]] &&
    "${screen[@]}" "$programs/viewer_benchmark" "$@" >"$results/viewer" 2>/dev/null; then
    collect <"$results/viewer"
  fi
}
window cupboard "$models/periodicals-cupboard.dryfit"
window rack

echo "Measured on $(date +%F): $(nproc) cores, $(awk -F': ' '/model name/ { print $2; exit }' \
  /proc/cpuinfo), $(awk '/MemTotal/ { printf "%.0f GB", $2 / 1048576 }' /proc/meminfo) of memory; $(cut -d' ' -f1 /proc/loadavg) tasks at work on it, this one among them."
awk '
  { ms[$1] = $2; peak[$1] = $3; off[$1] = $4 }
  function text(t) {
    return t < 1 ? sprintf("%.3f ms", t) : t < 100 ? sprintf("%.1f ms", t) \
         : t < 10000 ? sprintf("%.0f ms", t) : sprintf("%.1f s", t / 1000)
  }
  function factor(of, base) { return sprintf("%.3g times", ms[base] / ms[of]) }
  function row(work, target, of, base, whatBase) {
    if (!(of in ms)) { printf "| %s | %s | not measured | | |\n", work, target; return }
    if (base == "") { printf "| %s | %s | %s | | |\n", work, target, text(ms[of]); return }
    printf "| %s | %s | %s | %s (%s) | %s |\n", work, target, text(ms[of]), text(ms[base]), whatBase,
      factor(of, base)
  }
  # A published problem: how long it took, how far from the best known it ended, and a simple rule.
  function problem(work, of, base, whatBase) {
    if (!(of in ms) || off[of] == "") { printf "| %s | within 1 %%, under 2 s | not measured | | |\n", work; return }
    printf "| %s | within 1 %%, under 2 s | %s, %.3g %% off the best known | %s, %.3g %% off (%s) | |\n", work,
      text(ms[of]), off[of], text(ms[base]), off[base], whatBase
  }
  # Slope of the best line through the logarithms of sizes and times.
  function exponent(name, sizes,   n, i, s, x, y, sx, sy, sxx, sxy) {
    n = split(sizes, s, " ")
    for (i = 1; i <= n; ++i) {
      if (!((name "/" s[i]) in ms)) return "not measured"
      x = log(s[i]); y = log(ms[name "/" s[i]])
      sx += x; sy += y; sxx += x * x; sxy += x * y
    }
    return sprintf("n^%.2f", (n * sxy - sx * sy) / (n * sxx - sx * sx))
  }
  function times(name, sizes,   n, i, s, out) {
    n = split(sizes, s, " ")
    for (i = 1; i <= n; ++i) out = out (i > 1 ? ", " : "") text(ms[name "/" s[i]])
    return out
  }
  END {
    print ""
    print "| work | target | reached (median) | baseline, same run (median) | ratio |"
    print "|---|---|---|---|---|"
    row("a part with six square cuts, faces merged", "100 times faster", "squareWorkAlone",
        "oneLibraryCut", "one library cut with all tools, faces not merged")
    row("the same, with the geometry library'"'"'s shape made", "", "squareWorkWithShape",
        "oneLibraryCut", "the same")
    row("periodicals cupboard, cold: numbers, solids, all checks", "under 50 ms, 20 times faster", "cupboardCold",
        "cupboardByGeneralCuts", "library cuts part by part, nothing checked")
    row("periodicals cupboard, the cherry measured anew: all again", "under 10 ms, 100 times faster",
        "cupboardSizeChanged", "cupboardByAllPairs", "library cuts, and commons of all pairs")
    row("8 dowelled shelves, cold: the same with round holes", "", "dowelledCold",
        "dowelledByGeneralCuts", "library cuts part by part, nothing checked")
    row("200 copies of a stile and rail, read and cold", "as 200 written out", "copiesCold",
        "copiesWrittenOut", "the same written out part by part")
    row("an answer of the sideboard changed: bounds, numbers, solids, all checks", "under 100 ms", "answerChanged",
        "answerCold", "nothing kept from before")
    big = "100 1000 10000"
    printf "| checks of 100, 1 000, 10 000 parts | no faster than n^1.15 | %s: %s | %s (commons of all pairs, 10 to 40 parts) | |\n",
      exponent("batchChecks", big), times("batchChecks", big), exponent("batchByAllPairs", "10 20 40")
    printf "| numbers, solids and checks of the same | no faster than n^1.15 | %s: %s | | |\n",
      exponent("batch", big), times("batch", big)
    printf "| peak memory for 10, 100, 1 000, 10 000 parts | | %.0f, %.0f, %.0f, %.0f MB | | |\n",
      peak["batch/10"], peak["batch/100"], peak["batch/1000"], peak["batch/10000"]
    problem("sheet layouts, published instances: gcut2", "guillotine/gcut2", "guillotineByShelves/gcut2", "shelves")
    problem("sheet layouts, published instances: gcut13", "guillotine/gcut13", "guillotineByShelves/gcut13", "shelves")
    problem("sheet layouts, published instances: cgcut1", "limited", "limitedByShelves", "shelves")
    problem("bars, 20 published triplet instances together", "bars", "barsFirstFit", "first fit, longest first")
    if ("wholeJob" in ms) printf "| 50 carcass parts on sheets, whole layout | | %s, at most %.3g %% above the least | | |\n", text(ms["wholeJob"]), off["wholeJob"]
    if ("boardJobs" in ms) printf "| twelve random jobs from random boards, cost above the lower bound | | %s, at most %.3g %% above | %s, %.3g %% above (longest first on the cheapest wood) | |\n", text(ms["boardJobs"]), off["boardJobs"], text(ms["boardJobsByLongestFirst"]), off["boardJobsByLongestFirst"]
    row("bench window: a changed number on the screen", "under 100 ms", "changedNumber", "openedAnew", "opened anew")
    row("bench window: first picture after the start", "under 2 s", "firstPicture", "", "")
    row("301 parts and 580 joints: a changed number on the screen", "under 100 ms", "changedNumber300", "openedAnew300", "opened anew")
    row("the same: a face moved", "under 100 ms", "movedFace300", "openedAnew300", "the same")
    row("the same: the part under the pointer lit", "under 16 ms", "picked300", "", "")
    row("the same: the ghost of a new part at the face under the pointer", "under 33 ms", "ghostMoved300", "", "")
    row("the same: first picture after the start", "under 2 s", "firstPicture300", "", "")
  }' "$results/figures"

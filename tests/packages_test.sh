#!/usr/bin/env bash
# Holds packaging/packages.txt to what is really used: every system file that the build in BUILD_DIR read
# (headers, CMake files, libraries), and every program that the scripts call, comes from a package of the
# list, from one that such a package depends on, or from the least Debian system. The two programs must
# get along with what the demo installs, and so must the demo itself.
# usage: tests/packages_test.sh BUILD_DIR [--gaps PACKAGE...]
#   --gaps: leave out one of these after the other, and expect that every time something is found missing
# Exit status: 0 fine, 1 not, 77 no Debian system or no Ninja build here, so nothing can be said.
set -euo pipefail
export LC_ALL=C
cd "$(dirname "$0")/.."
(($# >= 1)) || { echo "usage: $0 BUILD_DIR [--gaps PACKAGE...]" >&2; exit 2; }
readonly build=$1
shift
source packaging/packages.sh

for needed in dpkg-query ninja; do
  command -v "$needed" >/dev/null || { echo "skipped: no $needed on this system"; exit 77; }
done
[[ -f $build/build.ninja ]] || { echo "skipped: $build was not made by Ninja"; exit 77; }

readonly scratch=$(mktemp -d)
trap 'rm -r "$scratch"' EXIT

# Paths without "..", and by /usr where dpkg's records, or a program, say /lib, /bin and so on, which are
# links into it. Other links stay: libtbb.so is the development package's link to another's library.
by_usr() { sed -E 's,^/(bin|sbin|lib|lib32|lib64|libx32)/,/usr&,'; }
canonical() { xargs -r -d '\n' realpath -s -m -- | by_usr | sort -u; }

# The system files among them: not the tree's own, nor what the build made.
system_files() {
  awk -v tree="$PWD/" -v build="$(realpath "$build")/" '
    /^\// && index($0, tree) != 1 && index($0, build) != 1' | canonical
}

# --- What was used -------------------------------------------------------------------------------

# headers_read PATTERN: what the objects whose names match it were made of, as the compiler told Ninja.
headers_read() {
  ninja -C "$build" -t deps | awk -v pattern="$1" '
    /^[^ ]/ { wanted = $0 ~ pattern && /VALID/ }
    wanted && /^ / { print $1 }' | sort -u | system_files
}

# libraries_linked PATTERN: what programs were linked with, named by path or found by the compiler.
libraries_linked() {
  awk -v pattern="$1" '
    /^build / { wanted = $2 ~ pattern && /_EXECUTABLE_LINKER__/ }
    wanted && /LINK_LIBRARIES =/ { for (i = 3; i <= NF; ++i) print $i }' "$build/build.ninja" |
    sort -u >"$scratch/words"
  grep '^/' "$scratch/words" || true
  local name path
  sed -n 's/^-l//p' "$scratch/words" | while read -r name; do
    path=$(c++ -print-file-name="lib$name.so")
    [[ $path == /* ]] || path=$(c++ -print-file-name="lib$name.a")
    [[ $path == /* ]] && echo "$path" || echo "/lib$name"
  done
  for name in libstdc++.so crt1.o libc.so libm.so; do c++ -print-file-name=$name; done
}

# The programs that the build itself starts.
build_tools() {
  sed -nE 's,^(CMAKE_CXX_COMPILER|CMAKE_MAKE_PROGRAM|PKG_CONFIG_EXECUTABLE|CCACHE|XVFB_RUN):.*=.*/,,p' \
    "$build/CMakeCache.txt"
}

# The CMake files that the configuration read, packages' own among them.
cmake_files_read() {
  grep -A 1 '^build build.ninja' "$build/build.ninja" | tr ' ' '\n' | grep '\.cmake' || true
}

# of_demo: the words that `workshop demo` comes to, from one of our functions to the next.
of_demo() {
  awk '
    { calls[$1] = calls[$1] " " $2 }
    END {
      todo["demo"]; todo["main"]
      do {
        more = 0
        for (f in todo) if (!(f in done)) {
          done[f]; n = split(calls[f], called, " ")
          for (i = 1; i <= n; ++i)
            if (called[i] in calls) { if (f != "main") { todo[called[i]]; more = 1 } }
            else print called[i]
        }
      } while (more)
    }' "$1" | sort -u
}

# --- What the list brings ------------------------------------------------------------------------

# with_dependencies: the installed packages that those on standard input need, themselves among them:
# no recommendations, and of alternatives the first that is installed. The least system comes with it:
# essential packages, apt, and what these need.
with_dependencies() {
  awk -F '\t' '
    FNR == NR { wanted[$1]; next }
    {
      installed[$1]; needs[$1] = $3 ", " $4
      n = split($2, given, /, */)
      for (i = 1; i <= n; ++i) { sub(/ .*/, "", given[i]); givers[given[i]] = givers[given[i]] " " $1 }
      if ($5 == "yes" || $1 == "apt") wanted[$1]
    }
    function take(name,   n, i, all) {
      if (name in installed) { wanted[name]; return 1 }
      n = split(givers[name], all, " ")
      for (i = 1; i <= n; ++i) wanted[all[i]]
      return n
    }
    END {
      do {
        more = 0
        for (p in wanted) if (!(p in done)) {
          done[p]; more = 1
          n = split(needs[p], all, /, */)
          for (i = 1; i <= n; ++i) {
            m = split(all[i], ways, / *\| */)
            for (j = 1; j <= m; ++j) { sub(/[ :(].*/, "", ways[j]); if (take(ways[j])) break }
          }
        }
      } while (more)
      for (p in wanted) if (p in installed) print p
    }' - "$scratch/installed"
}

# owners FILE...: "PATH PACKAGE" for each path in these files, "PATH ?" where no package has it. What
# dpkg's lists do not know by this name (an alternative, say) counts as what it leads to, and is left to
# dpkg's own search, which knows of diversions.
owners() {
  sort -u "$@" >"$scratch/used"
  awk '
    FILENAME == used { wanted[$0]; next }
    FNR == 1 { package = FILENAME; sub(/.*\//, "", package); sub(/(:[a-z0-9]+)?\.list$/, "", package) }
    { sub(/^\/(bin|sbin|lib|lib32|lib64|libx32)\//, "/usr&") }
    $0 in wanted { print $0, package; found[$0] }
    END { for (path in wanted) if (!(path in found)) print path, "?" }
  ' used="$scratch/used" "$scratch/used" /var/lib/dpkg/info/*.list >"$scratch/owned"
  local path
  grep -v ' ?$' "$scratch/owned" || true
  sed -n 's/ ?$//p' "$scratch/owned" | while read -r path; do
    printf '%s ' "$path"
    [[ $path == /* ]] || { echo "$path"; continue; }
    { dpkg-query -S "$(realpath -m "$path")" 2>/dev/null || echo '?:'; } | sed -n '1s/[:,].*//p'
  done
}

# brought_by HEADING...: all packages that the list brings for these, installed here or not.
brought_by() {
  packages_of "$@" | grep -v -x -F -e "${left_out:-}" >"$scratch/asked"
  cat "$scratch/asked"
  with_dependencies <"$scratch/asked"
}

# judge WHAT FILES HEADING...: says what is missing; false if something is.
judge() {
  local what=$1 files=$2 count
  shift 2
  brought_by "$@" >"$scratch/brought"
  awk '
    FILENAME == ARGV[1] { brought[$1]; next }
    FILENAME == ARGV[2] { if ($2 in brought) fine[$1]; owner[$1] = $2; next }
    !($1 in fine) { print "  " $1 " (" ($1 in owner ? owner[$1] : "?") ")" }
  ' "$scratch/brought" "$scratch/owners" "$files" >"$scratch/missing"
  count=$(wc -l <"$scratch/missing")
  ((count)) || return 0
  echo "packaging/packages.txt: $count files of $what come from no package under [$*]:"
  head -n 5 "$scratch/missing"
  return 1
}

judge_all() {
  local fine=0
  judge "what the programs are built from" "$scratch/program_files" run build || fine=1
  judge "what the tests are built from" "$scratch/all_files" run screen build test || fine=1
  judge "the demo's commands" "$scratch/demo_commands" run screen build || fine=1
  judge "the scripts' commands" "$scratch/commands" "${all[@]}" || fine=1
  return $fine
}

dpkg-query -W -f='${db:Status-Abbrev}\t${Package}\t${Provides}\t${Depends}\t${Pre-Depends}\t${Essential}\n' |
  sed -n 's/^.i.\t//p' >"$scratch/installed"

readonly programs='^(export|viewer)/dryfit(-bench)?:$'
{ headers_read '^(kernel|joinery|export|viewer)/'; libraries_linked "$programs" | system_files; } |
  sort -u >"$scratch/program_files"
{ headers_read .; { libraries_linked .; cmake_files_read; } | system_files; } |
  sort -u >"$scratch/all_files"

# Words that are our own functions or the shell's. What is left is a program of the system here (not one
# that someone put beside them), or must bear the name of a package that this machine does without.
readonly scripts=(workshop packaging/*.sh tests/benchmarks/table.sh)
awk -f tests/support/commands_called.awk "${scripts[@]}" | sort -u >"$scratch/calls"
readonly all=(run screen build test package fresh)
packages_of "${all[@]}" >"$scratch/listed"
{ compgen -b; compgen -k; sed -n 's/^\([a-z_]*\)().*/\1/p' "${scripts[@]}"; } | sort -u >"$scratch/own"
commands_of() {
  local word path
  comm -23 - "$scratch/own" | while read -r word; do
    if path=$(PATH=/usr/sbin:/usr/bin:/sbin:/bin type -P "$word"); then
      echo "$path"
    else
      echo "$word"
    fi
  done | sort -u
}
{ of_demo "$scratch/calls"; build_tools | grep -v -x -e ccache -e xvfb-run; } | sort -u |
  commands_of >"$scratch/demo_commands"
{ awk '{ print $2 }' "$scratch/calls"; build_tools; } | sort -u | commands_of >"$scratch/commands"

owners "$scratch"/{program_files,all_files,demo_commands,commands} >"$scratch/owners"

for part in program_files all_files demo_commands commands; do
  count=$(wc -l <"$scratch/$part")
  echo "$part: $count"
  ((count > 5)) || { echo "packages_test: found next to nothing used; is everything built?"; exit 1; }
done

if [[ ${1:-} != --gaps ]]; then
  judge_all
  exit
fi
shift
failed=0
for left_out in "$@"; do
  grep -q -x -F -e "$left_out" "$scratch/listed" || {
    echo "packages_test: $left_out is not in the list"
    failed=1
  }
  if judge_all >/dev/null; then
    echo "without $left_out nothing was missed"
    failed=1
  fi
done
exit $failed

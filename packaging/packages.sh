# Reads and installs packaging/packages.txt. Sourced by the `workshop` script and by the test `packages`.

packages_of() { # packages_of HEADING...: the packages under these headings, one a line
  local heading
  for heading in "$@"; do
    awk -v heading="[$heading]" '
      /^\[/ { inside = $1 == heading; found = found || inside; next }
      inside && NF && !/^#/ { print $1 }
      END { exit !found }' packaging/packages.txt || {
      echo "packaging/packages.txt: no heading [$heading]" >&2
      return 2
    }
  done
}

install_packages() { # install_packages HEADING...
  local wanted missing=() root=() p
  wanted=$(packages_of "$@")
  command -v dpkg-query >/dev/null || {
    echo "workshop: this script installs Debian 12 packages; here install by hand:" $wanted >&2
    return 0
  }
  for p in $wanted; do
    dpkg-query -W -f='${Status}' "$p" 2>/dev/null | grep -q 'ok installed' || missing+=("$p")
  done
  ((${#missing[@]})) || return 0
  echo "workshop: installing ${missing[*]}"
  if ((EUID != 0)); then
    command -v sudo >/dev/null || {
      echo "workshop: needs root to install packages; install them as root, or install sudo" >&2
      return 2
    }
    root=(sudo)
  fi
  "${root[@]}" apt-get update -q
  "${root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends \
    "${missing[@]}"
}

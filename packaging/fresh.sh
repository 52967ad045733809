# Tries the committed tree on a bare Debian 12 in a scratch folder, and its .deb on a second one. Sourced
# by the `workshop` script. Each command runs in a mount and process namespace of its own, so that nothing
# stays mounted or running however it ends.

inside() { # inside ROOT SCRIPT [WORDS...]: runs a line of shell in that root, WORDS as $1, $2, ...
  local root=$1 script=$2
  shift 2
  unshare --mount --pid --fork --kill-child --propagation private bash -euc '
    mount -t proc proc "$1/proc"
    mount -t tmpfs tmpfs "$1/dev/shm"
    root=$1
    shift
    exec chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LANG=C.UTF-8 \
      ${http_proxy:+http_proxy="$http_proxy"} ${https_proxy:+https_proxy="$https_proxy"} \
      bash -euc "$@"' inside "$root" "$script" inside "$@"
}

# The bare system fetches packages from where this machine does, by the same keys and settings.
bare_system() { # bare_system TARBALL
  local sources=() file
  for file in /etc/apt/sources.list /etc/apt/sources.list.d/*.{list,sources}; do
    [[ ! -s $file ]] || sources+=("$file")
  done
  mmdebstrap --quiet --variant=minbase \
    --aptopt="$(apt-config dump | grep -E '^Acquire::(https?|Check|Retries|Force|Languages)[^ ]* "..*";$')" \
    --setup-hook='mkdir -p "$1/etc/apt" "$1/usr/share/keyrings"' \
    --setup-hook='for settings in auth.conf auth.conf.d keyrings trusted.gpg.d; do
      [ ! -e "/etc/apt/$settings" ] || cp -a "/etc/apt/$settings" "$1/etc/apt/"; done' \
    --setup-hook='cp -an /usr/share/keyrings/. "$1/usr/share/keyrings/"' \
    bookworm "$1" "${sources[@]}"
}

unpack() { # unpack TARBALL ROOT
  mkdir "$2"
  tar -C "$2" -xf "$1"
  cp /etc/resolv.conf "$2/etc/"
}

# What a joiner does with the package: installs it, and as an ordinary user checks and draws a demo piece
# and opens the window once. The display comes last: the programs are first tried without its packages.
try_package() { # try_package ROOT DEB
  local root=$1 deb
  deb=$(basename "$2")
  cp "$2" "$root/tmp/"
  inside "$root" 'apt-get update -q
    DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "/tmp/$1"
    useradd --create-home joiner' "$deb"
  told "the package is installed"
  inside "$root" 'su - joiner -c "
    set -e
    dryfit check /usr/share/dryfit/models/$1.dryfit
    dryfit draw /usr/share/dryfit/models/$1.dryfit -o drawings
    ls drawings
    dryfit-bench --help"' "$piece"
  told "the installed program checked and drew $piece"
  inside "$root" 'DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "$@"' \
    $(packages_of screen)
  inside "$root" 'su - joiner -c "
    set -e
    xvfb-run -a -s \"-screen 0 1280x1024x24\" \
      dryfit-bench /usr/share/dryfit/models/$1.dryfit --picture piece.png
    status=0
    timeout 20 xvfb-run -a -s \"-screen 0 1280x1024x24\" \
      dryfit-bench /usr/share/dryfit/models/$1.dryfit || status=\$?
    test \$status = 124"' "$piece"
  mkdir -p out
  cp "$root/home/joiner/piece.png" out/fresh.png
  told "the installed window stayed open until it was closed; its picture is out/fresh.png"
}

fresh() { # fresh [demo] [test] [package]
  local steps=("$@") step scratch
  ((${#steps[@]})) || steps=(demo test package)
  for step in "${steps[@]}"; do
    [[ $step =~ ^(demo|test|package)$ ]] || { usage >&2; return 2; }
  done
  ((EUID == 0)) || { echo "workshop: fresh makes a system of its own; run it as root" >&2; return 2; }
  install_packages fresh
  git rev-parse HEAD >/dev/null || {
    echo "workshop: fresh tries the committed tree; run it in a checkout" >&2
    return 2
  }
  scratch=$(mktemp -d "${TMPDIR:-/var/tmp}/dryfit-fresh.XXXXXX")
  trap "rm -rf --one-file-system '$scratch'" EXIT
  bare_system "$scratch/bare.tar"
  unpack "$scratch/bare.tar" "$scratch/first"
  mkdir "$scratch/first/dryfit"
  git archive HEAD | tar -C "$scratch/first/dryfit" -xf -
  told "a bare system is there, with the committed tree and without its history"
  for step in "${steps[@]}"; do
    told "starts: $step"
    inside "$scratch/first" 'cd /dryfit && ./workshop "$1"' "$step"
    told "done: $step"
  done
  if [[ " ${steps[*]} " == *" package "* ]]; then
    unpack "$scratch/bare.tar" "$scratch/second"
    try_package "$scratch/second" "$scratch"/first/dryfit/out/dryfit_*.deb
  fi
}

#!/bin/sh
# Sees that commands of the system are there: tools/system.sh COMMAND[,COMMAND...]=PACKAGE...
# Any one of the commands will do. Where none is there, root gets the Debian package installed;
# anyone else is told the one line to run (exit 2). With no COMMAND ("=PACKAGE") the package is
# wanted without a look.
set -eu

# Debian keeps the commands of its database server off the PATH.
for folder in /usr/lib/postgresql/*/bin; do
  PATH="$PATH:$folder"
done

any_of() {
  for name in $(echo "$1" | tr , ' '); do
    ! command -v "$name" >/dev/null 2>&1 || return 0
  done
  return 1
}

wanted=
for pair in "$@"; do
  any_of "${pair%%=*}" || wanted="$wanted ${pair#*=}"
done
[ -n "$wanted" ] || exit 0

if ! command -v apt-get >/dev/null 2>&1; then
  echo "Install these with your system's package manager (Debian names):$wanted" >&2
  exit 2
fi
if [ "$(id -u)" -ne 0 ]; then
  echo "Run this once, then again what you ran: sudo apt-get update && sudo apt-get install -y$wanted" >&2
  exit 2
fi
log=$(mktemp)
trap 'rm -f "$log"' EXIT
echo "Installing$wanted ..."
export DEBIAN_FRONTEND=noninteractive
# shellcheck disable=SC2086  # package names are meant to be split
if ! { apt-get update && apt-get install -y --no-install-recommends $wanted; } >"$log" 2>&1; then
  tail -n 5 "$log" >&2
  echo "Could not install$wanted" >&2
  case "$wanted " in
  *" chromium "*)
    echo "Where chromium comes as a snap alone, as on Ubuntu, put a browser of its family on the" \
      "PATH yourself: chromium, chromium-browser or google-chrome" >&2
    ;;
  esac
  exit 2
fi

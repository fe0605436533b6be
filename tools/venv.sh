#!/bin/sh
# Makes .venv where there is none and fills it: tools/venv.sh LOCK
# Every package comes by hash from LOCK; then the project itself, editable, with the build
# backend of the lock. uv does it when it is on PATH, else pip.
set -eu

lock=$1
venv=.venv
python=$venv/bin/python
here=$(dirname "$0")
export UV_PYTHON_DOWNLOADS=never PIP_DISABLE_PIP_VERSION_CHECK=1

new_enough() {
  "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1
}

find_python() {
  for name in ${PY:-python3 python3.14 python3.13 python3.12 python3.11}; do
    if new_enough "$name"; then
      echo "$name"
      return
    fi
  done
  echo "Python 3.11 or newer is needed, and ${PY:-python3} is" \
    "$("${PY:-python3}" -V 2>/dev/null || echo not there). Name another: make PY=/path/to/python3" >&2
  exit 2
}

make_venv() {
  base=$(find_python)
  rm -rf "$venv"
  echo "Making $venv with $("$base" -V) ..."
  if command -v uv >/dev/null 2>&1; then
    uv venv -q --python "$(command -v "$base")" "$venv"
    return
  fi
  # Debian and Ubuntu keep ensurepip apart, in pythonX.Y-venv.
  if ! "$base" -c 'import ensurepip' 2>/dev/null; then
    "$here/system.sh" "=$("$base" -c 'import sys; print("python%d.%d-venv" % sys.version_info[:2])')"
  fi
  "$base" -m venv "$venv"
}

usable() {
  new_enough "$python" || return 1
  command -v uv >/dev/null 2>&1 || "$python" -m pip --version >/dev/null 2>&1
}

usable || make_venv

echo "Installing $lock ..."
if command -v uv >/dev/null 2>&1; then
  uv pip install -q --python "$python" --require-hashes -r "$lock"
  uv pip install -q --python "$python" --no-deps --no-build-isolation -e .
else
  "$python" -m pip install -qq --require-hashes -r "$lock"
  "$python" -m pip install -qq --no-deps --no-build-isolation -e .
fi

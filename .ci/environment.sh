# Sourced by examples/build and tests/run: what both need to set up a machine.
# Both run from the top of the checkout, under `set -eu`.

# Install Debian packages that are missing. Elsewhere, say what is wanted and go on.
debian_packages() {
    if ! command -v apt-get >/dev/null 2>&1; then
        return 0
    fi
    missing=
    for package in "$@"; do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
            missing="$missing $package"
    done
    if [ -n "$missing" ]; then
        as_root=
        [ "$(id -u)" -eq 0 ] || as_root=sudo
        echo "installing from Debian's packages:$missing"
        $as_root apt-get update -qq
        # shellcheck disable=SC2086 # one word a package
        DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq $missing >/dev/null
    fi
}

# Print the newest Python this machine has, if it is new enough for matrixgen.
newest_python() {
    for name in python3.14 python3.13 python3.12 python3.11 python3; do
        if command -v "$name" >/dev/null 2>&1 &&
            "$name" -c 'import sys, venv, ensurepip; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            echo "$name"
            return 0
        fi
    done
    return 1
}

# Install the headers of Debian's own Python, if that is the newest one: a package is compiled with them.
python_headers() {
    if python=$(newest_python) && ! "$python" -c '
import pathlib, sys, sysconfig
sys.exit(not pathlib.Path(sysconfig.get_paths()["include"], "Python.h").is_file())' 2>/dev/null; then
        debian_packages python3-dev
    fi
}

# Make .venv, or bring it up to date, with matrixgen and the extra named by $1.
virtual_environment() {
    if ! python=$(newest_python); then
        debian_packages python3 python3-venv
        python=$(newest_python) || {
            echo "Python 3.11 or newer, with its venv module, is needed and was not found" >&2
            exit 2
        }
    fi
    [ -x .venv/bin/python ] || "$python" -m venv .venv
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --editable ".[$1]"
}

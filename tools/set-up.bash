# Makes .venv/ from the hashed lock, once. `set_up run` is what the demo needs, `set_up dev` what
# the tests need besides.
# shellcheck shell=bash

set_up() {
    local kind=$1
    lock_is_in "$kind" || install_lock "$kind"
    package_is_in || install_package
}

# The browser that the tests click in, what tells it whom to trust (certutil), and what judges
# certificates beside it. Root with apt gets them; anybody else gets one sentence.
set_up_browser() {
    find_missing
    [ ${#missing[@]} = 0 ] && return
    if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
        say "Installing ${missing[*]} with apt-get (once) ..."
        apt-get update -qq >&2
        DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends "${missing[@]}" >&2
        find_missing
    fi
    [ ${#missing[@]} = 0 ] ||
        stop "The tests need what is not here (${missing[*]}): $(how_to_get "${missing[@]}"), then call again."
}

# Sets $missing to packages.
find_missing() {
    missing=()
    command -v chromium >/dev/null || missing+=(chromium)
    command -v certutil >/dev/null || missing+=(libnss3-tools)
    command -v openssl >/dev/null || missing+=(openssl)
}

# The stamp is written last, so a .venv that was interrupted has none and is made again. The folder
# belongs to it because an environment cannot be moved; dev.txt holds all that run.txt holds.
lock_is_in() {
    local kind
    for kind in "$1" dev; do
        if [ "$(cat ".venv/lock-$kind" 2>/dev/null)" = "$(lock_stamp "$kind")" ] &&
            "$python" -c 'import pip, click' 2>/dev/null; then
            return 0
        fi
    done
    return 1
}

lock_stamp() {
    echo "$PWD $(cksum <"requirements/$1.txt")"
}

package_is_in() {
    [ "$(cat .venv/package 2>/dev/null)" = "$(cksum <pyproject.toml)" ] &&
        "$python" -c 'import throwbench' 2>/dev/null
}

# The wheels are kept, so that the wheel check can make a second environment without a network.
install_lock() {
    local kind=$1
    if ! lock_is_in run; then
        find_or_install_python
        say "Making .venv/ with $found (once; this takes a minute or two) ..."
        rm -rf .venv
        "$found" -m venv .venv
    fi
    "$python" -m pip download --quiet --quiet --require-hashes --only-binary=:all: --dest .venv/wheels \
        --requirement "requirements/$kind.txt" ||
        stop "The packages of requirements/$kind.txt did not all arrive (see above); the first call needs a network that reaches a Python package index: see to that and call again."
    install_from_kept_wheels "$python" --require-hashes --requirement "requirements/$kind.txt"
    lock_stamp "$kind" >".venv/lock-$kind"
}

install_package() {
    install_from_kept_wheels "$python" --no-deps --no-build-isolation --editable .
    cksum <pyproject.toml >.venv/package
}

install_from_kept_wheels() {
    local interpreter=$1
    shift
    "$interpreter" -m pip install --quiet --disable-pip-version-check --root-user-action=ignore \
        --no-index --find-links .venv/wheels "$@"
}

# Sets $found. Root with apt gets what is missing; anybody else gets one sentence.
find_or_install_python() {
    find_python && return
    if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
        say "Installing python3 and python3-venv with apt-get ..."
        apt-get update -qq >&2
        DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends \
            python3 python3-venv >&2
        find_python && return
    fi
    say_what_python_lacks
}

find_python() {
    for found in python3.11 python3 python3.12 python3.13 python3.14; do
        is_new_enough "$found" && can_make_environments "$found" && return
    done
    return 1
}

is_new_enough() {
    "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null
}

# Debian ships python3 without ensurepip; asking first is kinder than failing half-way.
can_make_environments() {
    "$1" -c 'import ensurepip, venv' 2>/dev/null
}

say_what_python_lacks() {
    local version
    version=$(python3 -c 'import platform; print(platform.python_version())' 2>/dev/null) || version=
    if [ -z "$version" ]; then
        stop "There is no Python here; Throwbench needs 3.11 or newer with venv: $(how_to_get python3 python3-venv), then call again."
    elif ! is_new_enough python3; then
        stop "The python3 here is $version; Throwbench needs 3.11 or newer with venv: install a newer Python (Debian 12 and later have one as python3 and python3-venv), then call again."
    fi
    stop "The python3 here is $version but cannot make environments; that needs the package python3-venv: $(how_to_get python3-venv), then call again."
}

how_to_get() {
    if command -v apt-get >/dev/null; then
        echo "as root, call \`apt-get install $*\`"
    else
        echo "install it by your system's own means"
    fi
}

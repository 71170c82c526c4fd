# Builds the wheel, installs it with the hashed lock away from the checkout, and runs the installed
# command there on the example files that the wheel carries.
# shellcheck shell=bash

wheel_check() {
    echo "The wheel, away from the checkout:"
    away=$(mktemp -d)
    trap 'rm -rf "$away"' EXIT
    build_wheel
    install_wheel
    run_installed
    echo "The wheel holds every file of the package, installs from the lock and gives its verdict."
}

# A copy is built: setuptools leaves a build folder, and its old files get into the next wheel.
build_wheel() {
    mkdir "$away/source"
    cp -R pyproject.toml README.md LICENSE src "$away/source"
    rm -rf "$away"/source/src/*.egg-info
    if ! "$python" -m build --wheel --no-isolation --outdir "$away" "$away/source" &>"$away/log"; then
        cat "$away/log"
        return 1
    fi
    "$python" tools/wheel_contents.py src "$away"/throwbench-*.whl
}

install_wheel() {
    "$python" -m venv "$away/venv"
    install_from_kept_wheels "$away/venv/bin/python" --require-hashes \
        --requirement requirements/run.txt
    install_from_kept_wheels "$away/venv/bin/python" --no-deps "$away"/throwbench-*.whl
}

run_installed() {
    local example name
    example=$(cd "$away" && venv/bin/python -I -c \
        'import importlib.resources as r; print(r.files("throwbench") / "demo" / "example")')
    if [[ $example != "$away"/venv/* ]]; then
        echo "The installed throwbench was found at $example, not in the new environment."
        return 1
    fi
    mkdir "$away/elsewhere"
    if ! (cd "$away/elsewhere" && verdict_on_example ../venv/bin/throwbench "$example" out) \
        &>"$away/log"; then
        cat "$away/log"
        return 1
    fi
    for name in verdict.pdf verdict.png verdict.csv; do
        if [ ! -s "$away/elsewhere/out/$name" ]; then
            echo "The installed throwbench left no $name."
            return 1
        fi
    done
    if ! (cd "$away/elsewhere" && ../venv/bin/throwbench demo demo --no-serve) &>"$away/log"; then
        cat "$away/log"
        return 1
    fi
}

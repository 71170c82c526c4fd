# How the scripts speak: progress on standard error, and one sentence when they stop.
# shellcheck shell=bash

say() {
    printf '%s\n' "$*" >&2
}

# 2 means: nothing is wrong with Throwbench, something has to be done or typed differently first.
stop() {
    say "$*"
    exit 2
}

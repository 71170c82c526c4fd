# Proves ./run demo and ./run test on a bare Debian 12: in one box for root, in another for an
# ordinary user. What is proved is the last commit.
# shellcheck shell=bash

source tools/box.bash

prove_bare() {
    [ "$(id -u)" = 0 ] || stop "bare makes file systems and mounts, which only root may: call it as root."
    command -v debootstrap >/dev/null || install_debootstrap
    mkdir -p out
    log=$here/out/bare.log
    boxes=$(mktemp -d)
    trap 'leave_boxes "$boxes"' EXIT
    echo "What is proved: $(git log -1 --format='%h %s')" | tee "$log"
    make_boxes
    prove_as_root
    prove_as_user
    echo "Both commands pass in a bare Debian 12, as root and as an ordinary user; see out/bare.log."
}

install_debootstrap() {
    command -v apt-get >/dev/null ||
        stop "bare needs debootstrap, and there is no apt-get here to install it: call it on a Debian."
    apt-get update -qq >&2
    DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends debootstrap >&2
}

make_boxes() {
    say "Making a bare Debian 12 with debootstrap ..."
    make_box "$boxes/root" &>>"$log"
    cp -a "$boxes/root" "$boxes/user"
    chroot "$boxes/user" useradd --create-home maker
    root_checkout=/srv/throwbench
    user_checkout="/home/maker/my candles/throwbench"
    put_checkout "$boxes/root$root_checkout"
    put_checkout "$boxes/user$user_checkout"
    chroot "$boxes/user" chown -R maker: /home/maker
}

put_checkout() {
    mkdir -p "$1"
    git archive HEAD | tar -x -C "$1"
}

# prove WHAT CODE BOX USER [--net] COMMAND: the command must end with CODE; its words go to the log.
prove() {
    local what=$1 code=$2 begun=$SECONDS got=0
    shift 2
    printf '\n=== %s\n' "$what" >>"$log"
    inside "$@" >"$boxes/words" 2>&1 || got=$?
    cat "$boxes/words" >>"$log"
    if [ "$got" != "$code" ]; then
        tail -n 30 "$boxes/words"
        echo "NOT proved: $what (ended with $got, not with $code)" | tee -a "$log"
        return 1
    fi
    echo "proved: $what ($((SECONDS - begun)) s)" | tee -a "$log"
}

prove_as_root() {
    local box=$boxes/root at="cd $root_checkout"
    prove "root, bare: ./run demo installs what is missing and gives the verdict" \
        0 "$box" root "$at && ./run demo --no-serve && $(demo_exists)"
    prove "root: the second ./run demo needs no network" \
        0 "$box" root --net "$at && ./run demo --no-serve"
    prove "root: ./run test" 0 "$box" root "$at && CI=true ./run test"
    say_tests
}

prove_as_user() {
    local box=$boxes/user at="cd '$user_checkout'"
    prove "user, bare: ./run demo answers with one sentence, exit 2" 2 "$box" maker "$at && ./run demo"
    one_sentence_naming "apt-get install python3 python3-venv"
    prove "root installs python3 only" 0 "$box" root "apt-get update && apt-get install -y --no-install-recommends python3"
    prove "user, no venv: ./run test answers with one sentence, exit 2" 2 "$box" maker "$at && ./run test"
    one_sentence_naming "apt-get install python3-venv"
    prove "root installs python3-venv" 0 "$box" root "apt-get install -y --no-install-recommends python3-venv"
    prove "user, interrupted in the middle of the set-up" \
        124 "$box" maker "$at && timeout 8 ./run demo --no-serve"
    prove "user: ./run demo from another folder makes the half-made .venv again" \
        0 "$box" maker "cd / && '$user_checkout/run' demo --no-serve && $at && $(demo_exists)"
    prove "user, no browser: ./run test answers with one sentence, exit 2" 2 "$box" maker "$at && ./run test"
    one_sentence_naming "apt-get install chromium libnss3-tools openssl"
    prove "root installs chromium and what judges certificates" \
        0 "$box" root "apt-get install -y --no-install-recommends chromium libnss3-tools openssl"
    prove "user: ./run test" 0 "$box" maker "$at && ./run test"
    say_tests
    prove "user: ./run test needs no network the second time" 0 "$box" maker --net "$at && ./run test"
}

demo_exists() {
    echo "test -s out/demo/workshop.sqlite3"
}

say_tests() {
    grep -E '^=+ .* (passed|failed).* =+$' "$boxes/words" | tail -n 1
}

one_sentence_naming() {
    if [ "$(wc -l <"$boxes/words")" != 1 ] || ! grep -qF "$1" "$boxes/words"; then
        echo "NOT proved: one sentence that names \`$1\`:" | tee -a "$log"
        cat "$boxes/words"
        return 1
    fi
    cat "$boxes/words"
}

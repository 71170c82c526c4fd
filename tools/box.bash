# A box: a Debian 12 with nothing in it but what every Debian has, made by debootstrap. It borrows
# this machine's way to the package registries at the time of the call, and nothing else.
# shellcheck shell=bash

make_box() {
    unshare --mount debootstrap --variant=minbase bookworm "$1" "$(debian_mirror)"
    lend_ways_to_registries "$1"
}

debian_mirror() {
    apt-get indextargets --format '$(CODENAME) $(SITE)' | sed -n 's/^bookworm //p' | head -n 1
}

# Copies settings and certificates; folders of packages that the settings name are mounted later.
lend_ways_to_registries() {
    local box=$1
    mkdir -p "$box/etc/xdg/pip" "$box/etc/ssl"
    rm -rf "$box/etc/apt/sources.list" "$box/etc/apt/sources.list.d"
    cp -a /etc/apt/sources.list* /etc/apt/apt.conf.d /etc/apt/trusted.gpg.d "$box/etc/apt/"
    cp -L /etc/resolv.conf /etc/hosts "$box/etc/"
    cp -rL /etc/ssl/certs "$box/etc/ssl/"
    cp -rT /usr/local/share/ca-certificates "$box/usr/local/share/ca-certificates"
    [ ! -f /etc/pip.conf ] || cp /etc/pip.conf "$box/etc/pip.conf"
    [ ! -f ~/.config/pip/pip.conf ] || cp ~/.config/pip/pip.conf "$box/etc/xdg/pip/pip.conf"
    mapfile -t lent_words < <(env | grep -iE '^(PIP_|SSL_CERT_|REQUESTS_CA|CURL_CA|(https?|no|all)_proxy=)')
    mapfile -t lent_folders < <({ cat "$box"/etc{,/xdg/pip}/pip.conf 2>/dev/null; printf '%s\n' "${lent_words[@]}"; } |
        grep -oE '(^|file://|[ =])/[^ ,]+' | sed -E 's,^(file://|[ =]),,' | package_folders)
}

# An index keeps its files beside its folder "simple", so it is lent from one above.
package_folders() {
    local folder
    while read -r folder; do
        folder=${folder%/simple}
        [[ ! -d $folder || $folder == /etc/* ]] || echo "$folder"
    done | sort -u
}

# inside BOX USER [--net] COMMAND: its processes and mounts are its own and end with it; with --net
# it has no network.
inside() {
    local box=$1 user=$2 apart=()
    shift 2
    if [ "$1" = --net ]; then
        apart=(--net)
        shift
    fi
    # shellcheck disable=SC2016  # for the inner shell
    unshare --mount --pid --fork --kill-child "${apart[@]}" bash -euc '
        box=$1 user=$2 command=$3 apart=$4
        shift 4
        # The tests serve pages to themselves: an own network needs its loopback.
        [ -z "$apart" ] || ip link set lo up
        mount -t proc proc "$box/proc"
        mount --rbind /dev "$box/dev"
        while [ "$1" != -- ]; do
            mkdir -p "$box$1"
            mount --bind "$1" "$box$1"
            mount -o remount,bind,ro "$box$1"
            shift
        done
        shift
        home=$(awk -F: -v user="$user" "\$1 == user { print \$6 }" "$box/etc/passwd")
        exec chroot --userspec="$user:$user" "$box" env -i "$@" \
            PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin \
            HOME="$home" LANG=C.UTF-8 bash -c "$command"
    ' inside "$box" "$user" "$1" "${apart[*]}" "${lent_folders[@]}" -- "${lent_words[@]}" </dev/null &
    boxed=$!
    wait "$boxed"
}

# The first process of a box does not hear Ctrl-C, and all others end with it.
leave_boxes() {
    local first
    for first in $(cat "/proc/${boxed:-none}/task/${boxed:-none}/children" 2>/dev/null); do
        kill -KILL "$first"
    done
    rm -rf --one-file-system "$1"
}

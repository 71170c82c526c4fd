"""Where a server listens, and under which names it is reached."""

import socket
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

OWN = ("localhost", "127.0.0.1", "[::1]")
"""Names of this machine to itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Doors:
    """Where the server listens, and under which names it answers."""

    host: str
    port: int
    names: tuple[str, ...]
    tls: "Tls | None" = None

    @property
    def address(self) -> str:
        shown = "127.0.0.1" if self.host in ("127.0.0.1", "0.0.0.0") else self.host
        return f"http://{shown}:{self.port}"

    @property
    def from_the_network(self) -> tuple[str, ...]:
        """Addresses that a phone on the same network can reach; none when it is closed.

        Those over https stand first.
        """
        if self.host != "0.0.0.0":
            return ()
        plain = tuple(f"http://{name}:{self.port}" for name in self.names if name not in OWN)
        return (*self.over_https, *plain)

    @property
    def over_https(self) -> tuple[str, ...]:
        return self.tls.addresses if self.tls else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Tls:
    """The second door, over https: its port, its files, and where it is reached."""

    port: int
    chain: Path
    key: Path
    addresses: tuple[str, ...]
    renew: Callable[[], object]
    """Makes the certificate anew where it is time; the files stay where they are."""


def doors(*, port: int, lan: bool) -> Doors:
    """This machine alone, or with `lan` everybody on its network."""
    if not lan:
        return Doors(host="127.0.0.1", port=port, names=OWN)
    return Doors(host="0.0.0.0", port=port, names=(*OWN, *_names_on_the_network()))


def _names_on_the_network() -> tuple[str, ...]:
    """This machine's addresses first, then its names."""
    name = socket.gethostname()
    found = {name: None, f"{name}.local": None}
    try:
        own = socket.gethostbyname_ex(name)[2]
    except OSError:
        own = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # nothing is sent: it only asks which way out is used
            own = [probe.getsockname()[0], *own]
        except OSError:
            pass
    reachable = dict.fromkeys(a for a in own if not a.startswith("127."))
    return (*reachable, *found)


def free_port(wanted: int, *, host: str = "127.0.0.1") -> int:
    """The wanted port, or a free one where somebody else listens there."""
    for port in (wanted, 0):
        with socket.socket() as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((host, port))
            except OSError:
                continue
            found: int = probe.getsockname()[1]
            return found
    raise OSError("no port is free")

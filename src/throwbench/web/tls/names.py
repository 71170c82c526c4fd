"""For which names a workshop may be vouched, and for which ones it never can be."""

from collections.abc import Iterable
from ipaddress import IPv4Address, IPv6Address, ip_address, ip_network

from cryptography import x509

AT_HOME = ("localhost", "local", "home.arpa")
"""Names that exist on this machine or on a home network only (RFC 6761, RFC 6762, RFC 8375)."""
NETWORKS = tuple(
    ip_network(text)
    for text in (
        *("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16"),  # RFC 1918
        *("127.0.0.0/8", "169.254.0.0/16"),
        *("::1/128", "fe80::/10", "fc00::/7"),
    )
)
"""Addresses that lead nowhere outside this machine and its network."""
FOR_SHOW = ".example"
"""Reserved (RFC 2606): the demo's own address leads nowhere."""


def constraints(names: Iterable[str]) -> x509.NameConstraints:
    """What an authority may vouch for: these names, and names and addresses of a home network."""
    own = [name for name in map(plain, names) if name and _address(name) is None]
    hosts = dict.fromkeys(name for name in own if not _is_at_home(name))
    return x509.NameConstraints(
        permitted_subtrees=[
            *(x509.DNSName(name) for name in (*AT_HOME, *hosts)),
            *(x509.IPAddress(network) for network in NETWORKS),
        ],
        excluded_subtrees=None,
    )


def split(
    names: Iterable[str], allowed: x509.NameConstraints
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The names that an authority may vouch for, and those that lie outside."""
    plain_names = tuple(dict.fromkeys(filter(None, map(plain, names))))
    inside = tuple(name for name in plain_names if _is_inside(name, allowed))
    return inside, tuple(name for name in plain_names if name not in inside)


def general_name(name: str) -> x509.GeneralName:
    address = _address(name)
    return x509.DNSName(name) if address is None else x509.IPAddress(address)


def plain(name: str) -> str:
    """A name as a certificate holds it; empty where a certificate can hold none such."""
    bare = name.strip("[]").rstrip(".").lower()
    return bare if bare.isascii() and not bare.endswith(FOR_SHOW) else ""


def _is_inside(name: str, allowed: x509.NameConstraints) -> bool:
    permitted = allowed.permitted_subtrees or []
    address = _address(name)
    if address is not None:
        return any(isinstance(one, x509.IPAddress) and address in one.value for one in permitted)  # type: ignore[operator]
    bases = [one.value for one in permitted if isinstance(one, x509.DNSName)]
    return any(name == base or name.endswith(f".{base}") for base in bases)


def _is_at_home(name: str) -> bool:
    return any(name == base or name.endswith(f".{base}") for base in AT_HOME)


def _address(name: str) -> IPv4Address | IPv6Address | None:
    try:
        return ip_address(name)
    except ValueError:
        return None

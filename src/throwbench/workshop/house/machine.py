"""Addresses of a machine: which are one, what their host is, and which only lead back home."""

import re
from ipaddress import IPv4Address, IPv6Address, ip_address
from urllib.parse import urlsplit

from throwbench.science.errors import UnclearError

_MACHINE = re.compile(r"(\w[\w.-]*|\[[0-9a-f:]+\])(:\d+)?", re.IGNORECASE)
"""A name or a number, and a port if there is one; never "*", which stands for every machine."""
_NUMBER = re.compile(r"\d+|0x[0-9a-f]*", re.IGNORECASE)
PORTS = {"http": 80, "https": 443}


def checked_address(address: str) -> str:
    """An address of a machine ("http://192.168.1.20:8650"), without a slash at its end.

    Raises
    ------
    UnclearError
        It is something else, or leads each device back to itself.
    """
    text = address.strip().rstrip("/")
    if not _is_one(text):
        raise UnclearError(
            f"“{address.strip()}” is no address of a machine.",
            "It begins with http:// or https:// and ends with a name or number, and a port if "
            "there is one.",
            "Write it like http://192.168.1.20:8650.",
        )
    if leads_home(text):
        raise UnclearError(
            f"“{text}” leads each device to itself: on a phone it is the phone.",
            "The address of the workshop is the one by which other devices reach this machine.",
            "Take one of those shown, or write it like http://192.168.1.20:8650.",
        )
    return text


def host_of(address: str) -> str:
    """The host as browsers name it: in small letters, "båtnaust" as "xn--…", IPv6 in brackets."""
    host = urlsplit(address).hostname or ""
    return f"[{host}]" if ":" in host else host.encode("idna").decode()


def netloc_of(address: str) -> str:
    """Host and port as a request to the address names them; the usual port is left out."""
    parts = urlsplit(address)
    usual = parts.port in (None, PORTS.get(parts.scheme))
    return host_of(address) if usual else f"{host_of(address)}:{parts.port}"


def leads_home(address: str) -> bool:
    """Whether a device that goes there stays on itself (localhost, 127.0.0.1, 0.0.0.0, ::1)."""
    host = (urlsplit(address).hostname or "").rstrip(".")
    if host == "localhost" or host.endswith(".localhost"):
        return True
    number = _number(host)
    if isinstance(number, IPv6Address):
        number = number.ipv4_mapped or number
    return number is not None and (number.is_loopback or number.is_unspecified)


def _is_one(text: str) -> bool:
    if any(sign.isspace() or not sign.isprintable() for sign in text):
        return False  # readers of addresses leave some of them out, each its own
    try:
        parts = urlsplit(text)
        host = host_of(text)
        port_is_good = parts.port is None or parts.port > 0
    except ValueError:
        return False
    only_a_machine = port_is_good and not (parts.path or parts.query or parts.fragment)
    known = only_a_machine and parts.scheme in PORTS and _MACHINE.fullmatch(parts.netloc)
    return bool(known) and _is_readable(host)


def _is_readable(host: str) -> bool:
    """Whether all readers take the host alike: "127.1", "0x7f.1" or "2130706433" they do not."""
    if host.startswith("["):
        return _number(host[1:-1]) is not None
    last = host.rstrip(".").rpartition(".")[2]
    return not _NUMBER.fullmatch(last) or _number(host) is not None


def _number(host: str) -> IPv4Address | IPv6Address | None:
    try:
        return ip_address(host)
    except ValueError:
        return None

"""Under which addresses this server is reached, as far as it knows."""

from django.conf import settings

from throwbench.workshop.house.machine import host_of, leads_home
from throwbench.workshop.house.models import Workshop


def network_addresses() -> tuple[str, ...]:
    """Addresses on the network, those over https first; none when it listens on this machine only.

    A machine's own name can be "localhost": a phone that goes there stays on itself.
    """
    found = [one for one in settings.NETWORK_ADDRESSES if not leads_home(one)]
    return tuple(sorted(found, key=lambda one: not one.startswith("https://")))


def address_for_a_phone(here: Workshop | None) -> str:
    """The workshop's own address once it answered, else the first on the network, else empty.

    Over https where it can be: a phone that is let in stays in, and `/trust/` shows how it comes to
    trust the workshop. An own address that never answered stands last.
    """
    own = _own(here)
    if own and here and here.address_answered_at:
        return _over_https(own) or own
    return next(iter(network_addresses()), own)


def address_for_a_guest(here: Workshop | None) -> str:
    """The same over plain http: a guest's phone is asked to trust nothing for one evening."""
    own = _own(here)
    if own and here and here.address_answered_at:
        return own
    plain = (one for one in network_addresses() if one.startswith("http:"))
    return next(plain, own)


def _own(here: Workshop | None) -> str:
    """Names under .example are reserved (RFC 2606): a demo's leads nowhere, and is for show."""
    own = here.address if here else ""
    return "" if leads_home(own) or host_of(own).endswith(".example") else own


def _over_https(own: str) -> str:
    """The https door at the host of the workshop's own address, where there is one."""
    doors = (one for one in network_addresses() if one.startswith("https:"))
    return next((one for one in doors if host_of(one) == host_of(own)), "")

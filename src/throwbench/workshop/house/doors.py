"""Under which addresses this server is reached, as far as it knows."""

from urllib.parse import urlsplit

from django.conf import settings

from throwbench.workshop.house.models import Workshop


def network_addresses() -> tuple[str, ...]:
    """Addresses on the network; none when the server listens on this machine only."""
    return tuple(settings.NETWORK_ADDRESSES)


def address_for_a_phone(here: Workshop | None) -> str:
    """The workshop's own address, else the first on the network, else empty.

    Names under .example are reserved (RFC 2606) and lead nowhere: a demo's address is for show.
    """
    own = here.address if here else ""
    if (urlsplit(own).hostname or "").endswith(".example"):
        own = ""
    return own or next(iter(network_addresses()), "")

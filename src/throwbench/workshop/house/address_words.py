"""What was found at the workshop's address, in sentences: what it means and what to do."""

from throwbench.workshop.house.alive import Heard

CHECKED = {
    Heard.THIS: (
        "This workshop answered at {address}.",
        "Open it once on a phone as well: this machine can find itself where a phone cannot.",
    ),
    Heard.ANOTHER: (
        "Another workshop answered at {address}, not this one.",
        "A code printed now would lead there. Is a second server open, or has the router given "
        "the number to another machine? Stop the other one, or take another address.",
    ),
    Heard.SOMETHING: (
        "Something else answered at {address}, not this workshop.",
        "The router may have given the number to another machine, or another program listens on "
        "this port. Take one of the addresses under which the server is reached now.",
    ),
    Heard.UNTRUSTED: (
        "Whoever answered at {address} showed a certificate that this machine does not trust.",
        "It can be too old, or made for another name. Take an address the certificate is for, or "
        "one that begins with http://.",
    ),
    Heard.NOBODY: (
        "Nobody answered at {address}.",
        "Is the server started with --lan, and is the port the same? A firewall on this machine "
        "can also keep it shut. If the router has given this machine another number, take that.",
    ),
    Heard.NO_NAME: (
        "The name in {address} is not known on this network.",
        "Check its spelling. A name that ends in .local needs a network that passes such names "
        "on; else take a number, and have the router keep it for this machine.",
    ),
}
"""What happened, and what to do, by who was heard."""


def said_of(heard: Heard, address: str) -> tuple[str, str]:
    """Two sentences for the page."""
    what, do = CHECKED[heard]
    return what.format(address=address), do

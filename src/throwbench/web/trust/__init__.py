"""How a device comes to trust this workshop's https, and how it stops."""

"""What the house knows."""

from throwbench.workshop.house.models import HouseLimit, Workshop


def workshop() -> Workshop | None:
    """The settings, or None before the workshop has begun."""
    return Workshop.objects.filter(id=1).first()


def house_limits() -> dict[str, float]:
    """The maker's own limits by the id of the rule."""
    return dict(HouseLimit.objects.values_list("rule", "value"))

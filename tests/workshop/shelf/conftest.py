"""Who notes things at the shelf, and two oils that stand there."""

from typing import Any

import pytest

from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.models import Oil


@pytest.fixture
def by(owner, now) -> dict[str, Any]:
    """The owner, now."""
    return {"who": owner, "now": now}


@pytest.fixture
def rope(by) -> Oil:
    return services.add_oil(
        name="Ferry Rope", supplier=services.supplier_named("Fjellrype Duft"), flash_c=94, **by
    )


@pytest.fixture
def linen(by) -> Oil:
    return services.add_oil(
        name="Linen Loft", supplier=services.supplier_named("Tarnholt Riechstoffe"), **by
    )

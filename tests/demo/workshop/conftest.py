"""The whole demo, built once for each file of tests; what a test changes is taken back."""

from collections.abc import Iterator
from typing import Any

import pytest
from django.db import transaction

from throwbench.demo.workshop.whole import build


@pytest.fixture(scope="module")
def _built(django_db_setup: None, django_db_blocker: Any) -> Iterator[None]:
    """Taken back at the end, so that other tests meet an empty database."""
    with django_db_blocker.unblock(), transaction.atomic():
        build()
        yield
        transaction.set_rollback(True)


@pytest.fixture
def demo(_built: None, db: None) -> None:
    """What a test changes is taken back after it."""

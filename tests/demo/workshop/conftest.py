"""The whole demo, built once; each test looks at it and leaves it as it was."""

import pytest
from django.db import transaction

from throwbench.demo.workshop.whole import build


@pytest.fixture(scope="session")
def _built(django_db_setup, django_db_blocker):
    """Taken back at the end, so that other tests meet an empty database."""
    with django_db_blocker.unblock(), transaction.atomic():
        build()
        yield
        transaction.set_rollback(True)


@pytest.fixture
def demo(_built, django_db_blocker):
    with django_db_blocker.unblock(), transaction.atomic():
        yield
        transaction.set_rollback(True)

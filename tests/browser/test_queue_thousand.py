"""A thousand entries that waited on a phone arrive once each, whatever breaks on the way."""

import pytest

from browser import fielding
from browser.thousand import a_thousand_entries


@pytest.mark.slow
def test_a_thousand_entries(on_plain_http, phones):
    """Over plain http: a power cut, an ended sign-in, a kill in the middle, all sent twice more."""
    context = fielding.phone(phones, on_plain_http)
    assert a_thousand_entries(context, on_plain_http)["isSecureContext"] is False
    context.close()

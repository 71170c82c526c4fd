"""The pages that take entries are those whose forms are kept on a device, and they are there."""

import re
from collections.abc import Iterator
from pathlib import Path

from django.urls import URLPattern, URLResolver, get_resolver

import throwbench
from throwbench.web.entry.takes import TAKE_ENTRIES

FORM = re.compile(r"<form[^>]*?\bdata-entry=[^>]*>")
URL = re.compile(r"""\{% url '([a-z_:]+)'""")


def names(found, space: str = "") -> Iterator[str]:
    for one in found:
        if isinstance(one, URLResolver):
            yield from names(one.url_patterns, one.namespace or space)
        elif isinstance(one, URLPattern):
            yield f"{space}:{one.name}"


def test_each_of_them_is_there():
    assert set(names(get_resolver().url_patterns)) >= TAKE_ENTRIES


def test_each_form_that_a_device_keeps_leads_to_one_of_them():
    addresses = set()
    for page in Path(throwbench.__file__).parent.rglob("*.html"):
        text = page.read_text()
        if FORM.search(text):
            beside = {name for form in FORM.findall(text) for name in URL.findall(form)}
            there = re.findall(r"\{% url '([a-z_:]+)'[^%]* as there %\}", text)
            addresses |= {*beside, *there} - {"trials:bench"}  # where the page goes next
    assert addresses >= {"alarm:there", "trials:weigh", "trials:poured"}
    assert addresses <= TAKE_ENTRIES

"""Whatever stands in a name, a drawing comes of it: the engine would end the process."""

import subprocess
import sys

import pytest

DRAW = """
import sys
from throwbench.documents.draw import svg
name = sys.argv[1].encode().decode("unicode_escape")
values = {"values": [{"name": name}]}
text = {"field": "name", "type": "nominal"}
spec = {"data": values, "mark": "text", "encoding": {"text": text, "y": text}, "title": [name]}
print(svg({"$schema": "https://vega.github.io/schema/vega-lite/v5.json", **spec})[:4])
"""


@pytest.mark.parametrize("name", [r"\x01", r"\x00", r"\x1b", r"\ufffe", r"\ud800", r"\u202e"])
def test_a_character_that_no_drawing_holds_is_marked(name):
    """In a process of its own: what goes wrong here takes its process along."""
    done = subprocess.run(
        [sys.executable, "-c", DRAW, f"Slate{name}Rain"],
        check=False,
        capture_output=True,
        text=True,
    )
    assert done.stdout.strip() == "<svg", done.stderr[-500:]

"""A small file can hold a large picture: what reading one takes is bounded, however many come."""

import subprocess
import sys
import threading
import time
from io import BytesIO

from PIL import Image

from throwbench.workshop.trials import photo_file
from throwbench.workshop.trials.photo_file import reencoded
from workshop.trials.pictures import phone_photo

MEASURED = """
import re, resource, sys
from pathlib import Path
from throwbench.workshop.trials.photo_file import reencoded
own = Path("/proc/self/status")

def peak():
    if own.exists():  # what getrusage says on Linux begins with the peak of who called
        return int(re.search(r"VmHWM:\\s*(\\d+)", own.read_text())[1])
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss

before, came = peak(), sys.stdin.buffer.read()
reencoded(came)
print((peak() - before) // (1 if sys.platform != "darwin" else 1024))
"""
"""Writes how much more memory it took [KiB]."""
MOST_KIB = 800 * 1024


def test_a_few_thousand_bytes_do_not_take_a_gigabyte():
    """64 million pixels of one colour that can be seen through."""
    came = BytesIO()
    Image.new("P", (8000, 8000)).save(came, "PNG", transparency=0)
    assert len(came.getvalue()) < 10_000
    done = subprocess.run(
        [sys.executable, "-c", MEASURED], input=came.getvalue(), capture_output=True, check=True
    )
    assert 100 * 1024 < int(done.stdout) < MOST_KIB


def test_photos_that_come_together_are_read_one_after_the_other(monkeypatch):
    upright, inside, most = photo_file._upright, [], []

    def slowly(came: bytes) -> Image.Image:
        inside.append(came)
        most.append(len(inside))
        time.sleep(0.05)
        inside.pop()
        return upright(came)

    monkeypatch.setattr(photo_file, "_upright", slowly)
    came = [threading.Thread(target=reencoded, args=(phone_photo(),)) for _ in range(4)]
    for one in came:
        one.start()
    for one in came:
        one.join()
    assert most == [1, 1, 1, 1]

"""Files written for one test each."""

import pytest


@pytest.fixture
def write(tmp_path):
    """Write a file and give its path; text as UTF-8, bytes as they are."""

    def write_file(content, name="file.csv"):
        path = tmp_path / name
        data = content if isinstance(content, bytes) else content.encode("utf-8")
        path.write_bytes(data)
        return path

    return write_file

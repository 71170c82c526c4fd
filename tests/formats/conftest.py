"""Files written for one test each."""

import pytest

from throwbench.formats import UnreadableFile


@pytest.fixture
def write(tmp_path):
    """Write a file and give its path; text as UTF-8, bytes as they are."""

    def write_file(content, name="file.csv"):
        path = tmp_path / name
        data = content if isinstance(content, bytes) else content.encode("utf-8")
        path.write_bytes(data)
        return path

    return write_file


@pytest.fixture(scope="session")
def answer(tmp_path_factory):
    """Read a file of these bytes: what was read, or the sentence why nothing can be."""
    path = tmp_path_factory.mktemp("noise") / "noise.csv"

    def answer_to(content, read):
        path.write_bytes(content)
        try:
            return read(path)
        except UnreadableFile as error:
            return error.sentence

    return answer_to

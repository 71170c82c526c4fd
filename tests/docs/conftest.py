"""The small programs that run the pages."""

import importlib
import sys
from pathlib import Path
from types import ModuleType

import pytest

TOOLS = Path(__file__).parents[2] / "tools"


def tool(name: str) -> ModuleType:
    if str(TOOLS) not in sys.path:
        sys.path.insert(0, str(TOOLS))
    return importlib.import_module(name)


@pytest.fixture(scope="session")
def refresh() -> ModuleType:
    return tool("refresh_docs")


@pytest.fixture(scope="session")
def blocks() -> ModuleType:
    return tool("doc_blocks")


@pytest.fixture(scope="session")
def sections() -> ModuleType:
    return tool("doc_sections")


@pytest.fixture(scope="session")
def numbers() -> ModuleType:
    return tool("doc_numbers")

"""YAML that refuses what a person would misread: keys twice, and keys that are not words."""

from typing import Any

import yaml

from throwbench.science.errors import UnclearError


class StrictLoader(yaml.SafeLoader):
    """PyYAML's loader without last-one-wins, and without `on:` read as true."""

    def construct_mapping(self, node: yaml.MappingNode, deep: bool = False) -> dict[Any, Any]:
        seen: set[str] = set()
        for key_node, _ in node.value:
            key = self.construct_object(key_node, deep=True)
            line = key_node.start_mark.line + 1
            if not isinstance(key, str):
                raise UnclearError(
                    f"Line {line}: the key '{key_node.value}' is read as {key!r}.",
                    "A key is a word.",
                    "Put it in quotes, or use another word ('since' for a day).",
                )
            if key in seen:
                raise UnclearError(
                    f"Line {line}: the key '{key}' stands twice.",
                    "A key stands once.",
                    "Delete one of the two.",
                )
            seen.add(key)
        return super().construct_mapping(node, deep=deep)


def load(text: str) -> Any:
    """The data of a YAML text.

    Raises
    ------
    UnclearError
        A key that stands twice, or that YAML reads as something else than a word.
    yaml.YAMLError
        A text that is not YAML.

    Checked against: definition.
    """
    return yaml.load(text, Loader=StrictLoader)

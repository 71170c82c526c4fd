"""JSON to a frozen dataclass; what is unknown, missing, twice or of another kind is refused."""

import json
import sys
from collections.abc import Callable, Mapping
from dataclasses import is_dataclass
from datetime import date
from typing import Any, Literal, NoReturn, TypeVar, get_args, get_origin

from cattrs import BaseValidationError, Converter, ForbiddenExtraKeysError, transform_error
from cattrs.gen import make_dict_structure_fn

from throwbench.formats.problem import UnreadableFile, shown
from throwbench.science.errors import SaidError

T = TypeVar("T")


class _WrongError(SaidError):
    """A value of another kind; its text is a sentence."""


def entries_of(text: str, *, file: str) -> dict[str, Any]:
    """The entries of the one object that a text holds.

    Raises
    ------
    UnreadableFile
        If it is no JSON, no object, or names an entry twice.
    """
    try:
        entries = json.loads(text, object_pairs_hook=_once, parse_constant=_no_number)
    except json.JSONDecodeError as error:
        raise UnreadableFile(
            f"{file}, line {error.lineno}: this is not JSON ({error.msg}); "
            "one JSON object is read: correct it there, or take the file as it was written."
        ) from None
    except _WrongError as error:
        raise UnreadableFile(f"{file}: {error}") from None
    except (ValueError, RecursionError):  # a number of thousands of digits, a nest without end
        raise UnreadableFile(
            f"{file} holds more than any file of its kind; one JSON object is read: "
            "check that it is the right file."
        ) from None
    if not isinstance(entries, dict):
        raise UnreadableFile(
            f"{file} holds {_quoted(entries)}; one JSON object, in braces, is read: "
            "check that it is the right file."
        )
    return entries


def structured(entries: Mapping[str, Any], kind: type[T], *, file: str) -> T:
    """The entries as a dataclass.

    Raises
    ------
    UnreadableFile
        If one is not known, is missing, or is of another kind than the dataclass says.
    """
    try:
        return _CONVERTER.structure(entries, kind)
    except BaseValidationError as error:
        first = transform_error(error, path="", format_exception=_words)[0]
        words, _, place = first.rpartition(" @ ")
        where = ", ".join(part for part in (file, shown(place.lstrip("."))) if part)
        raise UnreadableFile(f"{where}: {words}") from None


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    entries: dict[str, Any] = {}
    for name, value in pairs:
        if name in entries:
            raise _WrongError(f"{shown(name)} stands twice; each name stands once: take one out.")
        entries[name] = value
    return entries


def _no_number(word: str) -> NoReturn:
    raise _WrongError(f"{word} is not a number; a number in figures is needed: correct it.")


def _words(error: BaseException, _: type | None) -> str:
    if isinstance(error, ForbiddenExtraKeysError):
        name = shown(min(error.extra_fields))
        return f"{name} is not known and may not stand here: take it out, or check its spelling."
    if isinstance(error, KeyError):
        return "this is missing, and is needed: write it."
    if isinstance(error, SaidError):
        return str(error)
    raise error


def _quoted(value: Any) -> str:
    if isinstance(value, list | dict):
        return "a list" if isinstance(value, list) else "an object"
    return shown(json.dumps(value))


def _demand(fits: bool, value: Any, needed: str) -> None:
    if not fits:
        raise _WrongError(f"{_quoted(value)} does not fit; {needed} is needed: correct it.")


def _whole(value: Any, _: Any) -> int:
    _demand(type(value) is int, value, "a whole number")
    return int(value)


def _number(value: Any, _: Any) -> float:
    _demand(type(value) in {int, float} and abs(value) <= sys.float_info.max, value, "a number")
    return float(value)


def _yes_or_no(value: Any, _: Any) -> bool:
    _demand(type(value) is bool, value, "true or false")
    return bool(value)


def _text(value: Any, _: Any) -> str:
    half = isinstance(value, str) and any("\ud800" <= letter <= "\udfff" for letter in value)
    _demand(isinstance(value, str) and not half, value, "a text")
    return str(value)


def _day(value: Any, _: Any) -> date:
    needed = "a day such as 2027-05-24"
    try:
        day = date.fromisoformat(_text(value, str))
    except ValueError:
        raise _WrongError(f"{_quoted(value)} is no day; {needed} is needed: correct it.") from None
    _demand(day.isoformat() == value, value, needed)
    return day


def _word(value: Any, kind: Any) -> Any:
    known = get_args(kind)
    _demand(isinstance(value, str) and value in known, value, f"one of {', '.join(known)}")
    return value


def _tuple(value: Any, kind: Any) -> tuple[Any, ...]:
    _demand(type(value) is list, value, "a list")
    kinds = get_args(kind)
    if kinds[-1] is ...:
        kinds = kinds[:1] * len(value)
    _demand(len(value) == len(kinds), value, f"a list of {len(kinds)}")
    return tuple(_CONVERTER.structure(item, of) for item, of in zip(value, kinds, strict=True))


def _set(value: Any, kind: Any) -> frozenset[Any]:
    _demand(type(value) is list, value, "a list")
    (of,) = get_args(kind)
    items = [_CONVERTER.structure(item, of) for item in value]
    _demand(len(set(items)) == len(items), value, "a list that names each once")
    return frozenset(items)


def _mapping(value: Any, kind: Any) -> dict[str, Any]:
    _demand(type(value) is dict, value, "an object, in braces,")
    of_name, of_value = get_args(kind)
    return {
        _CONVERTER.structure(name, of_name): _CONVERTER.structure(item, of_value)
        for name, item in value.items()
    }


def _object(kind: type[T]) -> Callable[[Any, Any], T]:
    fill = make_dict_structure_fn(kind, _CONVERTER, _cattrs_forbid_extra_keys=True)

    def made(value: Any, _: Any) -> T:
        _demand(isinstance(value, Mapping), value, "an object, in braces,")
        return fill(value, kind)

    return made


def _is(origin: Any) -> Callable[[Any], bool]:
    return lambda kind: get_origin(kind) is origin


def _strict() -> Converter:
    converter = Converter()
    plain = {int: _whole, float: _number, bool: _yes_or_no, str: _text, date: _day}
    for kind, hook in plain.items():
        converter.register_structure_hook(kind, hook)
    nested = {Literal: _word, tuple: _tuple, frozenset: _set, Mapping: _mapping}
    for origin, read in nested.items():
        converter.register_structure_hook_func(_is(origin), read)
    converter.register_structure_hook_factory(is_dataclass, _object)
    return converter


_CONVERTER = _strict()

"""The server asks itself at an address: only this folder's server can answer rightly.

The answer to a number used once is a keyed hash with the folder's secret. Whoever passes the
question on to this server answers rightly too: it proves where an address leads, not by which way.
"""

import secrets
import ssl
from contextlib import closing
from enum import StrEnum
from http.client import HTTPException
from queue import Empty, SimpleQueue
from socket import gaierror
from threading import Thread
from typing import IO, Any
from urllib.error import HTTPError, URLError
from urllib.request import HTTPRedirectHandler, HTTPSHandler, ProxyHandler, build_opener

from django.utils.crypto import constant_time_compare, salted_hmac

PATH, PREFIX, SALT = "/alive/", "throwbench ", "throwbench alive"
TIMEOUT_S, LONGEST_S = 3.0, 5.0
"""For each step of asking, and for all of it: a machine that drips its answer keeps nobody."""
READ = 128
"""Bytes of an answer that are looked at; a right one is shorter."""


class Heard(StrEnum):
    """Who answers at an address."""

    THIS = "this workshop"
    ANOTHER = "another workshop"
    SOMETHING = "something else"
    UNTRUSTED = "an untrusted certificate"
    NOBODY = "nobody"
    NO_NAME = "no such name"


def answer_to(nonce: str) -> str:
    """What this workshop answers."""
    return PREFIX + salted_hmac(SALT, nonce, algorithm="sha256").hexdigest()


def ask(address: str, *, authority: bytes = b"") -> Heard:
    """Who answers at `address` within a few seconds; `authority` (DER) is trusted beside others."""
    heard: SimpleQueue[Heard] = SimpleQueue()
    Thread(target=lambda: heard.put(_ask(address, authority)), daemon=True).start()
    try:
        return heard.get(timeout=LONGEST_S)
    except Empty:
        return Heard.NOBODY


class _Stay(HTTPRedirectHandler):
    """Where an answer points elsewhere, nobody goes there."""

    def redirect_request(self, *_: Any, **__: Any) -> None:
        return None


def _ask(address: str, authority: bytes) -> Heard:
    nonce = secrets.token_hex(16)
    try:
        return _read(_open(f"{address}{PATH}{nonce}/", authority), nonce)
    except HTTPError as error:
        error.close()
        return Heard.SOMETHING
    except URLError as error:
        return _because(error.reason)
    except UnicodeError:
        return Heard.NO_NAME
    except (HTTPException, ValueError):
        return Heard.SOMETHING
    except OSError as error:
        return _because(error)


def _open(url: str, authority: bytes) -> IO[bytes]:
    context = ssl.create_default_context()
    if authority:
        context.load_verify_locations(cadata=authority)
    opener = build_opener(ProxyHandler({}), _Stay(), HTTPSHandler(context=context))
    opened: IO[bytes] = opener.open(url, timeout=TIMEOUT_S)
    return opened


def _read(response: IO[bytes], nonce: str) -> Heard:
    with closing(response):
        text = response.read(READ).decode("ascii", errors="replace")
    if constant_time_compare(text, answer_to(nonce)):
        return Heard.THIS
    looks_alike = text.startswith(PREFIX) and len(text) == len(answer_to(nonce))
    return Heard.ANOTHER if looks_alike else Heard.SOMETHING


def _because(reason: object) -> Heard:
    if isinstance(reason, gaierror):
        return Heard.NO_NAME
    if isinstance(reason, ssl.SSLCertVerificationError):
        return Heard.UNTRUSTED
    return Heard.SOMETHING if isinstance(reason, ssl.SSLError) else Heard.NOBODY

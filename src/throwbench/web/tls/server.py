"""The https door: cheroot's server, which shakes hands in its own threads and stays quiet."""

import socket
import ssl
import sys
import time
from contextlib import suppress
from pathlib import Path
from typing import Any

from cheroot.ssl.builtin import BuiltinSSLAdapter

from throwbench.web.folder import FolderError
from throwbench.web.listening import Tls
from throwbench.web.patience import PatientConnection, PatientServer

LOOKS_EVERY_S = 24 * 3600
SPEAKS_HTTPS = "This door speaks https. Write https:// in front of the address.\n"
ANSWER = (
    "HTTP/1.1 400 Bad Request\r\nContent-Type: text/plain; charset=utf-8\r\n"
    f"Content-Length: {len(SPEAKS_HTTPS)}\r\nConnection: close\r\n\r\n{SPEAKS_HTTPS}"
).encode()


class _Connection(PatientConnection):
    """A caller; hands are shaken by and by, and no thread waits for it."""

    shaken = False

    def communicate(self) -> bool:
        try:
            if not self.shaken and not self._shake():
                return not self.is_late()
            return super().communicate()
        except ssl.SSLError as error:
            if "HTTP_REQUEST" in (error.reason or ""):
                _say_plainly(self.socket)
        except OSError:
            pass  # whoever called hung up, or said nothing: there is nobody to tell
        return False

    def _shake(self) -> bool:
        """Whether hands are shaken with what was said until now."""
        waits_s = self.socket.gettimeout()
        self.socket.settimeout(0)
        try:
            self.socket.do_handshake()
        except ssl.SSLWantReadError:
            return False
        finally:
            self.socket.settimeout(waits_s)
        self.shaken = True
        return True


class _Adapter(BuiltinSSLAdapter):
    """Wraps without waiting: a caller who says nothing must not keep the others out."""

    def wrap(self, sock: socket.socket) -> tuple[ssl.SSLSocket, dict[str, Any]]:
        wrapped = self.context.wrap_socket(sock, do_handshake_on_connect=False, server_side=True)
        return wrapped, {"wsgi.url_scheme": "https", "HTTPS": "on"}


class TlsServer(PatientServer):
    """Answers over TLS 1.2 or newer."""

    ConnectionClass = _Connection

    def error_log(self, msg: str = "", level: int = 20, traceback: bool = False) -> None:
        """A caller whose TLS is bad is no news for the server's window."""
        if not isinstance(sys.exc_info()[1], ssl.SSLError):
            super().error_log(msg, level, traceback)


def adapter(chain: Path, key: Path) -> BuiltinSSLAdapter:
    made = _Adapter(str(chain), str(key))
    made.context.minimum_version = ssl.TLSVersion.TLSv1_2
    return made


def keep_renewing(of: BuiltinSSLAdapter, tls: Tls, *, every_s: float = LOOKS_EVERY_S) -> None:
    """A server may run for months: once a day its certificate is looked at. Never returns."""
    while True:
        time.sleep(every_s)
        renew(of, tls)


def renew(of: BuiltinSSLAdapter, tls: Tls) -> None:
    """Callers from now on meet the certificate that lies in the folder then."""
    try:
        tls.renew()
        of.context.load_cert_chain(tls.chain, tls.key)
    except (FolderError, OSError) as error:  # the next look may find what this one did not
        print(error, flush=True)


def _say_plainly(wrapped: ssl.SSLSocket) -> None:
    """Answer who spoke http to this door in the words that they understand."""
    with suppress(OSError):  # they may not wait for it
        socket.socket.sendall(wrapped, ANSWER)

"""The server asks itself at an address: what it hears, and what it never does."""

import re
import ssl
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from http.server import BaseHTTPRequestHandler, HTTPServer
from ipaddress import ip_address

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

from throwbench.workshop.house import alive
from throwbench.workshop.house.alive import Heard, answer_to, ask

Reply = Callable[[BaseHTTPRequestHandler], None]


@contextmanager
def listening(reply: Reply, *, tls: ssl.SSLContext | None = None) -> Iterator[tuple[str, list]]:
    """A server on this machine that answers as it is told, and what it was asked."""
    asked: list[tuple[str, dict[str, str]]] = []

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            asked.append((self.path, dict(self.headers)))
            reply(self)

        def log_message(self, *_: object) -> None:
            pass

    class Quiet(HTTPServer):
        def handle_error(self, *_: object) -> None:
            """A caller that hangs up, or trusts no certificate, is what these tests are about."""

    server = Quiet(("127.0.0.1", 0), Handler)
    if tls:
        server.socket = tls.wrap_socket(server.socket, server_side=True)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
    thread.start()
    try:
        yield f"{'https' if tls else 'http'}://127.0.0.1:{server.server_port}", asked
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


def says(text: Callable[[str], str], status: int = 200, **headers: str) -> Reply:
    def reply(handler: BaseHTTPRequestHandler) -> None:
        nonce = handler.path.strip("/").rpartition("/")[2]
        handler.send_response(status)
        for name, value in headers.items():
            handler.send_header(name, value)
        handler.end_headers()
        handler.wfile.write(text(nonce).encode())

    return reply


@pytest.mark.parametrize(
    ("reply", "heard"),
    [
        (says(answer_to), Heard.THIS),
        (says(lambda nonce: answer_to(f"{nonce}x")), Heard.ANOTHER),
        (says(lambda nonce: answer_to(nonce).upper()), Heard.SOMETHING),
        (says(lambda nonce: answer_to(nonce) + " and more"), Heard.SOMETHING),
        (says(lambda nonce: "<h1>Router</h1>"), Heard.SOMETHING),
        (says(lambda nonce: "\udcff".encode("utf-8", "surrogateescape").decode("latin-1")),
         Heard.SOMETHING),
        (says(answer_to, status=404), Heard.SOMETHING),
        (says(answer_to, status=500), Heard.SOMETHING),
    ],
    ids=["this", "another", "capitals", "longer", "a page", "no text", "not there", "broke"],
)  # fmt: skip
def test_who_answers_is_told_apart(reply, heard):
    with listening(reply) as (address, _):
        assert ask(address) == heard


def test_each_question_is_another_so_that_an_old_answer_proves_nothing():
    kept: list[str] = []

    def again(nonce: str) -> str:
        kept.append(answer_to(nonce))
        return kept[0]

    with listening(says(again)) as (address, asked):
        assert [ask(address), ask(address)] == [Heard.THIS, Heard.ANOTHER]
    assert all(re.fullmatch("/alive/[0-9a-f]{32}/", path) for path, _ in asked)


def test_it_goes_nowhere_where_an_answer_points():
    with (
        listening(says(answer_to)) as (other, asked),
        listening(says(lambda nonce: "", status=302, Location=f"{other}/alive/x/")) as (address, _),
    ):
        assert ask(address) == Heard.SOMETHING
    assert asked == []


def test_it_tells_nothing_about_itself():
    with listening(says(answer_to)) as (address, asked):
        ask(address)
    assert {name.lower() for name in asked[0][1]}.isdisjoint({"cookie", "authorization", "referer"})


def test_it_passes_by_what_the_environment_names_as_a_proxy(monkeypatch):
    with listening(says(answer_to)) as (proxy, asked), listening(says(answer_to)) as (address, _):
        for name in ("http_proxy", "https_proxy", "all_proxy"):
            monkeypatch.setenv(name, proxy)
        monkeypatch.delenv("no_proxy", raising=False)
        assert ask(address) == Heard.THIS
    assert asked == []


def test_nobody_listens_there():
    with listening(says(answer_to)) as (address, _):
        pass
    assert ask(address) == Heard.NOBODY


def test_a_name_that_is_not_known_is_said(monkeypatch):
    def unknown(*_: object, **__: object) -> None:
        raise alive.gaierror(-2, "Name or service not known")

    monkeypatch.setattr("socket.getaddrinfo", unknown)
    assert ask("http://nowhere.local:8650") == Heard.NO_NAME
    assert ask(f"http://{'å' * 80}.local") == Heard.NO_NAME


def test_who_drips_an_answer_keeps_nobody(monkeypatch):
    monkeypatch.setattr(alive, "LONGEST_S", 0.3)
    ends = threading.Event()

    def drip(handler: BaseHTTPRequestHandler) -> None:
        handler.wfile.write(b"HTTP/1.0 200 OK\r\n")
        while not ends.wait(0.05):
            handler.wfile.write(b"X-A: b\r\n")

    with listening(drip) as (address, _):
        began = time.monotonic()
        assert ask(address) == Heard.NOBODY
        assert time.monotonic() - began < 2
        ends.set()


def test_of_a_long_answer_little_is_read():
    sent: list[int] = []

    def flood(handler: BaseHTTPRequestHandler) -> None:
        handler.send_response(200)
        handler.end_headers()
        try:
            for _ in range(2000):
                handler.wfile.write(b"x" * 65536)
                sent.append(65536)
        except OSError:
            pass

    with listening(flood) as (address, _):
        assert ask(address) == Heard.SOMETHING
    assert sum(sent) < 2000 * 65536


@pytest.fixture
def certified(tmp_path) -> tuple[ssl.SSLContext, bytes]:
    """A certificate for 127.0.0.1 that vouches for itself."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "a workshop")])
    now, here = datetime.now(UTC), ip_address("127.0.0.1")
    made = (
        x509.CertificateBuilder()
        .subject_name(name).issuer_name(name).public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(hours=1)).not_valid_after(now + timedelta(hours=1))
        .add_extension(x509.SubjectAlternativeName([x509.IPAddress(here)]), False)
        .add_extension(x509.BasicConstraints(ca=True, path_length=None), True)
        .sign(key, hashes.SHA256())
    )  # fmt: skip
    pem = tmp_path / "server.pem"
    pem.write_bytes(
        key.private_bytes(
            serialization.Encoding.PEM,
            serialization.PrivateFormat.PKCS8,
            serialization.NoEncryption(),
        )
        + made.public_bytes(serialization.Encoding.PEM)
    )
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(pem)
    return context, made.public_bytes(serialization.Encoding.DER)


def test_over_https_the_folders_own_authority_is_trusted(certified):
    context, authority = certified
    with listening(says(answer_to), tls=context) as (address, _):
        assert ask(address, authority=authority) == Heard.THIS


def test_over_https_a_certificate_of_somebody_else_is_not(certified):
    context, _ = certified
    with listening(says(answer_to), tls=context) as (address, asked):
        assert ask(address) == Heard.UNTRUSTED
    assert asked == []


def test_over_https_who_speaks_plainly_is_something_else():
    with listening(says(answer_to)) as (address, _):
        assert ask(address.replace("http:", "https:")) == Heard.SOMETHING

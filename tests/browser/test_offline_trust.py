"""A browser takes what its store of trust vouches for, and nothing else: no error is overlooked."""

import http.server
import shutil
import ssl
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread

import pytest
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)
from cryptography.x509 import load_pem_x509_certificate
from playwright.sync_api import Error

from browser.readable import faults
from browser.trusting import Trusted, browser_of, https_workshop, trust
from throwbench.web.tls.certificates import Signed, make_leaf

ELSEWHERE, AT_HOME = "example.com", "other.local"


@pytest.fixture(scope="module")
def here(demo_made, tmp_path_factory) -> Iterator[Trusted]:
    folder = tmp_path_factory.mktemp("trusted") / "demo"
    shutil.copytree(demo_made, folder)
    with https_workshop(folder) as workshop:
        yield workshop


def test_who_was_not_told_to_trust_it_is_refused(here, browser, tmp_path):
    with browser_of(browser, trust(tmp_path / "home")) as phone:
        page = phone.new_page()
        with pytest.raises(Error, match="ERR_CERT_AUTHORITY_INVALID"):
            page.goto(f"{here.address}/sign-in/")


def test_who_trusts_it_is_let_through_without_a_warning(here, browser, tmp_path):
    with browser_of(browser, trust(tmp_path / "home", here.authority)) as phone:
        page = phone.new_page()
        answer = page.goto(f"{here.address}/trust/")
        assert answer.status == 200
        assert page.evaluate("isSecureContext")
        said = answer.security_details()
        assert said["protocol"] in ("TLS 1.2", "TLS 1.3")
        assert "This device trusts this workshop" in page.inner_text("h1")


def test_a_stolen_key_of_the_workshop_opens_no_other_site(here, browser, tmp_path):
    """The same key does vouch for a machine at home, so it is the bounds that refuse."""
    with browser_of(browser, trust(tmp_path / "home", here.authority), ELSEWHERE, AT_HOME) as phone:
        page = phone.new_page()
        with pretending_to_be(AT_HOME, here, tmp_path) as port:
            assert page.goto(f"https://{AT_HOME}:{port}/").status == 200
        with (
            pretending_to_be(ELSEWHERE, here, tmp_path) as port,
            pytest.raises(Error, match="ERR_CERT"),
        ):
            page.goto(f"https://{ELSEWHERE}:{port}/")


def test_the_page_of_trust_and_those_beside_it_are_readable(here, browser):
    """On the machine itself, before anything is trusted; with all steps open."""
    context = browser.new_context(base_url=f"http://127.0.0.1:{here.port}")
    page = context.new_page()
    page.goto("/trust/")
    for system in page.locator("details").all():
        system.evaluate("one => (one.open = true)")
    found = faults(page)
    page.goto(here.link().replace(here.address, f"http://127.0.0.1:{here.port}"))
    page.get_by_role("button", name="Let this browser in").click()
    for path in ("/house/phone/", "/static/field/away.html"):
        page.goto(path)
        found += faults(page)
    context.close()
    assert found == []


@contextmanager
def pretending_to_be(name: str, here: Trusted, folder: Path) -> Iterator[int]:
    """A server with a certificate that the workshop's own signer made for a name."""
    tls = here.folder / "tls"
    key = load_pem_private_key((tls / "signer.key").read_bytes(), password=None)
    signer = load_pem_x509_certificate((tls / "signer.crt").read_bytes())
    leaf = make_leaf([name], Signed(certificate=signer, key=key), now=datetime.now(UTC))
    chain = folder / f"{name}.pem"
    chain.write_bytes(
        leaf.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
        + b"".join(one.public_bytes(Encoding.PEM) for one in (leaf.certificate, signer))
    )
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(chain)
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), _Quiet) as server:
        server.socket = context.wrap_socket(server.socket, server_side=True)
        Thread(target=server.serve_forever, daemon=True).start()
        yield int(server.server_address[1])
        server.shutdown()


class _Quiet(http.server.BaseHTTPRequestHandler):
    def do_GET(self) -> None:
        self.send_response(200)
        self.send_header("Content-Length", "2")
        self.end_headers()
        self.wfile.write(b"ok")

    def log_message(self, *_: object) -> None:
        """Nothing."""

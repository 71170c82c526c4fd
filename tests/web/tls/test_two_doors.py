"""The real server with both doors: one process, quiet about bad callers, gone when it is killed."""

import re
import signal
import socket
import ssl
import subprocess
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from threading import Thread

import pytest

from throwbench.web.folder import Folder, FolderError
from throwbench.web.listening import Tls, free_port
from throwbench.web.tls.server import adapter, renew
from web.test_server import THROWBENCH, Window, called, serving
from web.tls.conftest import NOW

GARBAGE = (
    b"\x16\x03\x01\x00\x05hello",
    bytes(range(256)),
    b"",
)


@pytest.fixture(scope="module")
def home(tmp_path_factory) -> Path:
    return tmp_path_factory.mktemp("doors") / "workshop"


@pytest.fixture(scope="module")
def window(home) -> Iterator[Window]:
    ports = "--port", str(free_port(0)), "--https-port", str(free_port(0))
    with serving("start", str(home), "--no-browser", "--https", *ports) as shown:
        yield shown


@pytest.fixture
def port(window) -> int:
    return int(re.search(r"https://\S+?:(\d+)", window.text)[1])


@pytest.fixture
def trusting(home, window) -> ssl.SSLContext:
    return ssl.create_default_context(cafile=home / "tls" / "authority.crt")


def answers(port: int, trusting: ssl.SSLContext, path: str = "/sign-in/") -> int:
    address = f"https://127.0.0.1:{port}{path}"
    with urllib.request.urlopen(address, context=trusting, timeout=10) as page:
        return int(page.status)


def test_both_doors_answer(window, port, trusting):
    assert answers(port, trusting) == 200
    with urllib.request.urlopen(f"{window.address}/sign-in/", timeout=10) as page:
        assert page.status == 200


def test_who_does_not_trust_it_does_not_get_in(port):
    with pytest.raises(urllib.error.URLError, match="CERTIFICATE_VERIFY_FAILED"):
        answers(port, ssl.create_default_context())


def test_the_window_says_how_a_phone_comes_to_trust_it(window, home, port):
    name = socket.gethostname()
    assert re.search(rf"^Over https: .*https://{name}\.local:{port}\b", window.text, re.MULTILINE)
    assert re.search(r"^How a phone comes to trust it: http://\S+/trust/$", window.text, re.M)
    printed = re.findall(r"^  ((?:[0-9A-F]{2} ){7}[0-9A-F]{2})$", window.text, re.MULTILINE)
    said = "".join(printed).replace(" ", "")
    file = home / "tls" / "authority.crt"
    words = ["openssl", "x509", "-in", str(file), "-noout", "-fingerprint", "-sha256"]
    shown = subprocess.run(words, check=True, capture_output=True, text=True).stdout
    assert said == shown.partition("=")[2].strip().replace(":", "")
    assert "KEY" not in window.text


def test_no_older_tls_than_1_2_is_spoken(port):
    words = ["openssl", "s_client", "-connect", f"127.0.0.1:{port}", "-brief"]
    for version, taken in (("-tls1_2", True), ("-tls1_3", True), ("-tls1_1", False)):
        ciphers = ["-cipher", "ALL:@SECLEVEL=0"] if version == "-tls1_1" else []
        done = subprocess.run(
            [*words, version, *ciphers], check=False, input="", capture_output=True, text=True
        )
        assert ("CONNECTION ESTABLISHED" in done.stdout + done.stderr) == taken, version


def test_who_speaks_http_to_the_https_door_is_told(port):
    with socket.create_connection(("127.0.0.1", port), timeout=10) as caller:
        caller.sendall(b"GET / HTTP/1.1\r\nHost: boat-shed\r\n\r\n")
        assert b"Write https:// in front of the address." in caller.recv(1000)


def test_bad_callers_keep_nobody_out_and_leave_no_word_in_the_window(tmp_path):
    """Silence, garbage, a hang-up in the middle of a request, clear words after the handshake."""
    log = tmp_path / "window"
    ports = str(free_port(0)), str(free_port(0))
    with log.open("w") as shown:
        process = subprocess.Popen(
            [
                *(*THROWBENCH, "start", str(tmp_path / "other"), "--no-browser", "--https"),
                *("--port", ports[0], "--https-port", ports[1]),
            ],
            stdout=shown,
            stderr=shown,
        )
    try:
        _until(lambda: "Ctrl-C stops it." in log.read_text())
        before = log.read_text()
        port = int(ports[1])
        trusting = ssl.create_default_context(cafile=tmp_path / "other" / "tls" / "authority.crt")
        silent = [socket.create_connection(("127.0.0.1", port)) for _ in range(3)]
        for words in GARBAGE:
            with socket.create_connection(("127.0.0.1", port)) as caller:
                caller.sendall(words)
        _hang_up_in_the_middle(port, trusting)
        _speak_clearly_in_the_middle(port, trusting)
        begun = time.monotonic()
        assert answers(port, trusting) == 200
        assert time.monotonic() - begun < 8
        for caller in silent:
            caller.close()
        process.send_signal(signal.SIGTERM)
        assert process.wait(20) == 0
        assert log.read_text() == before + "Stopped. Everything noted is in the folder.\n"
    finally:
        process.kill()
        process.wait(10)


def test_sign_in_prints_a_link_for_each_door_https_first(window, home, port):
    first, second, *_ = called("sign-in", str(home)).stdout.splitlines()
    assert re.fullmatch(rf"https://\S+:{port}/sign-in/\S+/", first)
    assert second.startswith(f"{window.address}/sign-in/")
    assert first.rpartition("/sign-in/")[2] == second.rpartition("/sign-in/")[2]


def test_a_second_server_is_told_both_addresses(window, home):
    said = called("serve", str(home)).stderr
    assert re.search(rf"is open already \(process \d+ at https://\S+ and {window.address}\)", said)


@pytest.mark.parametrize("end", [signal.SIGTERM, signal.SIGINT, signal.SIGKILL])
def test_both_doors_end_together(tmp_path, end):
    place = tmp_path / "workshop"
    ports = "--port", str(free_port(0)), "--https-port", str(free_port(0))
    with serving("start", str(place), "--no-browser", "--https", *ports) as window:
        window.process.send_signal(end)
        window.process.communicate(timeout=20)
        assert window.process.returncode == (0 if end != signal.SIGKILL else -9)
        for number in (ports[1], ports[3]):
            with pytest.raises(ConnectionRefusedError):
                socket.create_connection(("127.0.0.1", int(number)))
    with Folder(place).lock():
        pass


def test_a_port_asked_for_is_taken_or_refused(tmp_path):
    place = tmp_path / "workshop"
    Folder(place).make()
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = str(other.getsockname()[1])
        done = called("serve", str(place), "--https", "--https-port", port)
    assert done.returncode == 2
    assert f"Port {port} is in use" in done.stderr
    assert "--https-port" in done.stderr


def test_broken_files_are_one_sentence(tmp_path):
    place = tmp_path / "workshop"
    Folder(place).make()
    (place / "tls").mkdir()
    (place / "tls" / "authority.crt").write_text("nothing")
    done = called("serve", str(place), "--https", "--port", str(free_port(0)))
    assert done.returncode == 2
    assert len(done.stderr.splitlines()) == 1
    assert "authority.crt is missing or cannot be read" in done.stderr


def _until(happened) -> None:
    ends = time.monotonic() + 40
    while not happened():
        assert time.monotonic() < ends
        time.sleep(0.1)


def _shaken(port: int, trusting: ssl.SSLContext) -> ssl.SSLSocket:
    raw = socket.create_connection(("127.0.0.1", port))
    return trusting.wrap_socket(raw, server_hostname="127.0.0.1")


def _hang_up_in_the_middle(port: int, trusting: ssl.SSLContext) -> None:
    with _shaken(port, trusting) as caller:
        caller.sendall(b"GET /sign-in/ HT")


def _speak_clearly_in_the_middle(port: int, trusting: ssl.SSLContext) -> None:
    with _shaken(port, trusting) as caller:
        caller.sendall(b"GET /sign-in/ HT")
        socket.socket.sendall(caller, b"words that nobody encrypted")
        caller.settimeout(10)
        with pytest.raises(ssl.SSLError):
            caller.recv(100)


def test_a_running_server_takes_a_renewed_certificate_without_a_restart(vouched):
    made = vouched()
    tls = Tls(
        port=8651,
        chain=made.chain,
        key=made.key,
        addresses=(),
        renew=lambda: vouched(now=NOW + timedelta(days=380)),
    )
    door = adapter(made.chain, made.key)
    before = shown_by(door)
    renew(door, tls)
    after = shown_by(door)
    assert after != before
    assert after == ssl.PEM_cert_to_DER_cert(made.chain.read_text().partition("-----END")[0] + END)


def test_a_renewal_that_fails_is_said_and_the_door_stays_open(vouched, capsys):
    made = vouched()

    def fail() -> None:
        raise FolderError("The folder is full.")

    tls = Tls(port=8651, chain=made.chain, key=made.key, addresses=(), renew=fail)
    door = adapter(made.chain, made.key)
    renew(door, tls)
    assert capsys.readouterr().out == "The folder is full.\n"
    assert shown_by(door)


END = "-----END CERTIFICATE-----\n"


def shown_by(door) -> bytes:
    """The certificate that a caller of this door is shown."""
    ours, theirs = socket.socketpair()
    caller = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    caller.check_hostname, caller.verify_mode = False, ssl.CERT_NONE
    with ours, theirs:
        wrapped, _ = door.wrap(ours)
        answering = Thread(target=wrapped.do_handshake)
        answering.start()
        with caller.wrap_socket(theirs) as seen:
            answering.join(10)
            found = seen.getpeercert(binary_form=True)
        wrapped.close()
    assert found
    return found

"""Who trusts the authority trusts this workshop, and no other site: asked of other programs."""

import subprocess
from datetime import timedelta
from ipaddress import ip_address

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import serialization
from cryptography.x509 import verification

from throwbench.web.tls.certificates import make_authority, make_leaf
from web.tls.conftest import NAMES, NOW

INSIDE = ["boat-shed", "boat-shed.local", "other.local", "localhost", "192.168.1.20", "10.9.8.7"]
OUTSIDE = [
    "example.com", "local.example.com", "notlocal", "xn--boat-shed", "8.8.8.8", "192.169.0.1",
    "172.32.0.1", "100.64.0.1",
]  # fmt: skip


@pytest.fixture(scope="module")
def authority():
    return make_authority(NAMES, host="boat-shed", now=NOW)


def signed_for(name, authority):
    """A certificate for any name at all, as whoever stole the signer's key could make it."""
    return make_leaf([name], authority[1], now=NOW).certificate


def is_taken(name, authority) -> bool:
    """By the rules of `cryptography.x509.verification`."""
    root, signer = authority
    kind = x509.DNSName if name[0].isalpha() else lambda text: x509.IPAddress(ip_address(text))
    policy = verification.PolicyBuilder().store(verification.Store([root])).time(NOW)
    verifier = policy.build_server_verifier(kind(name))
    try:
        verifier.verify(signed_for(name, authority), [signer.certificate])
    except verification.VerificationError:
        return False
    return True


def openssl_says(name, authority, folder) -> str:
    """Of `openssl verify` with strict checks."""
    root, signer = authority
    files = {"root": root, "signer": signer.certificate, "leaf": signed_for(name, authority)}
    for file, one in files.items():
        (folder / file).write_bytes(one.public_bytes(serialization.Encoding.PEM))
    asked = "-verify_hostname" if name[0].isalpha() else "-verify_ip"
    at = str(int(NOW.timestamp()))
    words = ["openssl", "verify", "-x509_strict", "-attime", at, asked, name]
    words += ["-CAfile", str(folder / "root"), "-untrusted", str(folder / "signer")]
    done = subprocess.run(
        [*words, str(folder / "leaf")], check=False, capture_output=True, text=True
    )
    return done.stdout + done.stderr


@pytest.mark.parametrize("name", INSIDE)
def test_a_certificate_for_a_home_network_is_taken(name, authority, tmp_path):
    assert is_taken(name, authority)
    assert openssl_says(name, authority, tmp_path).endswith("leaf: OK\n")


@pytest.mark.parametrize("name", OUTSIDE)
def test_a_certificate_for_anything_else_is_refused(name, authority, tmp_path):
    assert not is_taken(name, authority)
    assert "permitted subtree violation" in openssl_says(name, authority, tmp_path)


def test_the_bounds_stand_in_both_certificates_and_must_be_understood(authority):
    root, signer = authority
    for one in (root, signer.certificate):
        assert one.extensions.get_extension_for_class(x509.NameConstraints).critical
    usage = signer.certificate.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert [one.dotted_string for one in usage] == ["1.3.6.1.5.5.7.3.1"]


def test_the_signer_can_make_no_signer(authority):
    limits = authority[1].certificate.extensions.get_extension_for_class(x509.BasicConstraints)
    assert limits.value.ca
    assert limits.value.path_length == 0


def test_no_certificate_outlives_its_signer(authority):
    late = NOW + timedelta(days=3600)
    leaf = make_leaf(["boat-shed"], authority[1], now=late).certificate
    assert leaf.not_valid_after_utc == authority[1].certificate.not_valid_after_utc

"""The files of https: made once, closed to others, renewed in time, and said to be broken."""

import stat
from datetime import timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding
from cryptography.x509.oid import ExtendedKeyUsageOID

from throwbench.web.folder import FolderError
from throwbench.web.tls.certificates import make_authority
from web.tls.conftest import NAMES, NOW


def certificate(path) -> x509.Certificate:
    return x509.load_pem_x509_certificate(path.read_bytes())


def extension(one: x509.Certificate, kind):
    return one.extensions.get_extension_for_class(kind)


def test_keys_are_for_this_user_only(vouched, place):
    vouched()
    assert stat.S_IMODE(place.stat().st_mode) == 0o700
    keys = sorted(place.glob("*.key"))
    assert [key.name for key in keys] == ["server.key", "signer.key"]
    assert {stat.S_IMODE(key.stat().st_mode) for key in keys} == {0o600}


def test_the_key_of_the_authority_itself_is_kept_nowhere(vouched, place):
    """Only its signer can sign, within the same bounds; nobody can make another signer."""
    vouched()
    root = certificate(place / "authority.crt")
    signer = certificate(place / "signer.crt")
    assert root.public_key() != signer.public_key()
    assert not (place / "authority.key").exists()
    assert [path.name for path in place.parent.iterdir()] == ["tls"]


def test_it_is_made_once_and_read_again(vouched, place):
    first = vouched()
    before = {path.name: path.read_bytes() for path in place.iterdir()}
    again = vouched(now=NOW + timedelta(days=200))
    assert (first.is_new, again.is_new) == (True, False)
    assert again.authority == first.authority
    assert {path.name: path.read_bytes() for path in place.iterdir()} == before


def test_the_certificate_is_one_that_browsers_take(vouched, place):
    made = vouched()
    leaf = certificate(place / "server.crt")
    span = leaf.not_valid_after_utc - leaf.not_valid_before_utc
    assert span <= timedelta(days=397)
    assert leaf.not_valid_before_utc < NOW
    usage = extension(leaf, x509.ExtendedKeyUsage).value
    assert list(usage) == [ExtendedKeyUsageOID.SERVER_AUTH]
    names = extension(leaf, x509.SubjectAlternativeName).value
    assert names.get_values_for_type(x509.DNSName) == ["boat-shed", "boat-shed.local", "localhost"]
    assert [str(one) for one in names.get_values_for_type(x509.IPAddress)] == [
        "192.168.1.20", "127.0.0.1", "::1",
    ]  # fmt: skip
    assert made.left_out == ()


def test_the_server_sends_its_signer_along(vouched, place):
    made = vouched()
    chain = x509.load_pem_x509_certificates(made.chain.read_bytes())
    assert chain == [certificate(place / "server.crt"), certificate(place / "signer.crt")]


def test_the_authority_lasts_ten_years(vouched):
    assert timedelta(days=3650) < vouched().authority.ends - NOW < timedelta(days=3660)


@pytest.mark.parametrize(
    ("days", "is_renewed"),
    [(0, False), (365, False), (366, False), (367, True), (1000, True)],
    ids=["same day", "31 left", "30 left", "29 left", "long over"],
)
def test_the_certificate_is_renewed_when_less_than_thirty_days_are_left(vouched, days, is_renewed):
    before = vouched().chain.read_bytes()
    then = NOW + timedelta(days=days)
    after = vouched(now=then)
    assert (after.chain.read_bytes() != before) == is_renewed
    assert certificate(after.chain).not_valid_after_utc - then >= timedelta(days=30)


def test_the_certificate_is_renewed_when_the_names_change(vouched):
    before = vouched().chain.read_bytes()
    after = vouched(*NAMES, "192.168.1.21")
    assert after.chain.read_bytes() != before
    assert not after.is_new
    assert "192.168.1.21" in after.names


def test_the_order_of_the_names_is_no_change(vouched):
    before = vouched().chain.read_bytes()
    assert vouched(*reversed(NAMES)).chain.read_bytes() == before


@pytest.mark.parametrize("name", ["server.crt", "server.key"])
@pytest.mark.parametrize("harm", ["gone", "broken"])
def test_a_broken_certificate_of_the_server_is_simply_made_anew(vouched, place, name, harm):
    """No device has to trust anything anew for it."""
    authority = vouched().authority
    harmed(place / name, harm)
    made = vouched()
    assert made.authority == authority
    assert certificate(made.chain).not_valid_after_utc > NOW


@pytest.mark.parametrize("name", ["authority.crt", "signer.crt", "signer.key"])
@pytest.mark.parametrize("harm", ["gone", "broken"])
def test_a_broken_authority_is_said_and_never_replaced_unasked(vouched, place, name, harm):
    vouched()
    harmed(place / name, harm)
    with pytest.raises(FolderError, match="every device has to trust anew") as said:
        vouched()
    assert name.partition(".")[0] in str(said.value)


def test_a_signer_of_another_authority_is_refused(vouched, place):
    vouched()
    other, _ = make_authority(NAMES, host="boat-shed", now=NOW)
    (place / "authority.crt").write_bytes(other.public_bytes(Encoding.PEM))
    with pytest.raises(FolderError, match="cannot be read"):
        vouched()


def test_a_key_of_another_certificate_is_refused(vouched, place):
    vouched()
    (place / "signer.key").write_bytes((place / "server.key").read_bytes())
    with pytest.raises(FolderError, match="signer"):
        vouched()


def test_an_authority_at_its_end_says_so(vouched):
    vouched()
    with pytest.raises(FolderError, match=r"ends on 23 May 2037\. One lasts ten years"):
        vouched(now=NOW + timedelta(days=3640))


def test_a_folder_that_cannot_be_written_is_said(vouched, place):
    place.write_text("a file")
    with pytest.raises(FolderError, match="cannot be used") as said:
        vouched()
    assert "start without --https" in str(said.value)


def test_a_making_that_was_cut_short_leaves_nothing_half(vouched, place):
    left = place.with_name("tls.new")
    left.mkdir()
    (left / "signer.key").write_text("half")
    assert vouched().is_new
    assert not left.exists()


def test_a_new_name_that_an_old_authority_may_not_vouch_for_is_left_out_and_named(vouched):
    vouched()
    made = vouched(*NAMES, "loft", "8.8.8.8", "new.local", "loft.home.arpa")
    assert made.left_out == ("loft", "8.8.8.8")
    assert {"new.local", "loft.home.arpa"} <= set(made.names)


def test_a_name_that_is_for_show_is_not_vouched_for(vouched):
    made = vouched(*NAMES, "saltmyr.example")
    assert "saltmyr.example" not in (*made.names, *made.left_out)


def test_the_fingerprint_is_that_of_the_file(vouched):
    import hashlib  # noqa: PLC0415

    authority = vouched().authority
    assert authority.fingerprint.replace(":", "").lower() == (
        hashlib.sha256(authority.der).hexdigest()
    )
    assert "".join(authority.lines).replace(" ", "") == authority.fingerprint.replace(":", "")
    assert [line.count(" ") for line in authority.lines] == [7] * 4


def harmed(path, harm: str) -> None:
    if harm == "gone":
        path.unlink()
    else:
        path.write_text("-----BEGIN CERTIFICATE-----\nnot one\n-----END CERTIFICATE-----\n")

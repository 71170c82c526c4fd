"""Makes the certificates: an authority, its signer, and the server's own."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.types import CertificatePublicKeyTypes
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from throwbench.web.tls.names import constraints, general_name

Key = ec.EllipticCurvePrivateKey
AUTHORITY_LASTS = timedelta(days=3652)
LEAF_LASTS = timedelta(days=397)
"""The longest that browsers take."""
BEFORE = timedelta(days=1)
"""A phone's clock may be behind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Signed:
    """A certificate and the key that belongs to it."""

    certificate: x509.Certificate
    key: Key


def make_authority(
    names: Iterable[str], *, host: str, now: datetime
) -> tuple[x509.Certificate, Signed]:
    """The certificate that devices trust, and the signer under it.

    The authority's own key is used once and forgotten: nobody can sign anything else with it. What
    the signer may vouch for stands in both certificates, so that it holds on systems too that ask
    nothing of a certificate which a person trusted by hand.
    """
    top, low = _new_key(), _new_key()
    allowed = constraints(names)
    subject = _name(f"Throwbench workshop {mark_of(top.public_key())} on {host}"[:64])
    span = (now - BEFORE, now + AUTHORITY_LASTS)
    root = _begin(subject, subject, top, top, span, path_length=1).add_extension(
        allowed, critical=True
    )
    certificate = root.sign(top, hashes.SHA256())
    signer = (
        _begin(_name("Throwbench signer"), subject, low, top, span, path_length=0)
        .add_extension(allowed, critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
    )
    return certificate, Signed(certificate=signer.sign(top, hashes.SHA256()), key=low)


def make_leaf(names: Iterable[str], signer: Signed, *, now: datetime) -> Signed:
    """The server's own certificate, for these names and no other."""
    key = _new_key()
    issuer = signer.certificate
    begins = max(now - BEFORE, issuer.not_valid_before_utc)
    ends = min(begins + LEAF_LASTS, issuer.not_valid_after_utc)
    builder = (
        _begin(_name("Throwbench"), issuer.subject, key, signer.key, (begins, ends))
        .add_extension(
            x509.SubjectAlternativeName([general_name(name) for name in names]), critical=False
        )
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
    )
    return Signed(certificate=builder.sign(signer.key, hashes.SHA256()), key=key)


def fingerprint(certificate: x509.Certificate) -> str:
    """SHA-256 in pairs of digits, as systems show it."""
    return certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def mark_of(key: CertificatePublicKeyTypes) -> str:
    """Eight letters and digits that tell this authority from another of the same workshop."""
    return x509.SubjectKeyIdentifier.from_public_key(key).digest.hex()[:8]


def _new_key() -> Key:
    return ec.generate_private_key(ec.SECP256R1())


def _name(text: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, text)])


def _begin(
    subject: x509.Name,
    issuer: x509.Name,
    key: Key,
    issuers_key: Key,
    span: tuple[datetime, datetime],
    *,
    path_length: int | None = None,
) -> x509.CertificateBuilder:
    """What each certificate says; with a path length it is an authority's."""
    signs = path_length is not None
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(span[0])
        .not_valid_after(span[1])
        .add_extension(x509.BasicConstraints(ca=signs, path_length=path_length), critical=True)
        .add_extension(_usage(signs=signs), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(issuers_key.public_key()),
            critical=False,
        )
    )


def _usage(*, signs: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=signs,
        crl_sign=signs,
        encipher_only=False,
        decipher_only=False,
    )

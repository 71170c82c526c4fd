"""The certificates in the workshop's folder: made once, read again, renewed in time."""

import os
import shutil
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import serialization
from cryptography.x509.oid import NameOID

from throwbench.web.folder import FolderError
from throwbench.web.tls.authority import Authority
from throwbench.web.tls.certificates import (
    Key,
    Signed,
    fingerprint,
    make_authority,
    make_leaf,
    mark_of,
)  # fmt: skip
from throwbench.web.tls.names import split

RENEW_BEFORE = timedelta(days=30)
AUTHORITY, SIGNER, SERVER = "authority.crt", "signer", "server"


@dataclass(frozen=True, slots=True, kw_only=True)
class Vouched:
    """The files of the https door, and the names that it is vouched for."""

    authority: Authority
    chain: Path
    key: Path
    names: tuple[str, ...]
    left_out: tuple[str, ...]
    """Names of this machine that the authority may not vouch for: it was made before them."""
    is_new: bool
    """The authority was made just now: no device trusts it yet."""


def vouch(folder: Path, names: Iterable[str], *, host: str, now: datetime) -> Vouched:
    """The certificates of a workshop, made or renewed where needed. `now` is the real time.

    Raises
    ------
    FolderError
        The files are broken or worn out, or cannot be written.
    """
    names = tuple(names)
    try:
        is_new = _made(folder, names, host=host, now=now)
        root, signer = _read_authority(folder, now=now)
        inside, outside = split(names, _constraints_of(signer.certificate))
        if not _is_good(folder, inside, signer, now=now):
            _write_signed(folder, SERVER, make_leaf(inside, signer, now=now), signer.certificate)
    except OSError as error:
        raise FolderError(
            f"{folder} cannot be used: {error.strerror}. Https needs a folder that it can write "
            "its certificates to. Allow this user to write there, or start without --https."
        ) from error
    return Vouched(
        authority=_described(root),
        chain=folder / f"{SERVER}.crt",
        key=folder / f"{SERVER}.key",
        names=inside,
        left_out=outside,
        is_new=is_new,
    )


def _made(folder: Path, names: tuple[str, ...], *, host: str, now: datetime) -> bool:
    """Whether there was no authority, so that one was made."""
    if folder.is_dir() and any(folder.iterdir()):
        return False
    root, signer = make_authority(names, host=host, now=now)
    new = folder.with_name(f"{folder.name}.new")
    shutil.rmtree(new, ignore_errors=True)
    new.mkdir(mode=0o700)
    _write_signed(new, SIGNER, signer)
    _write(new / AUTHORITY, _pem(root), mode=0o644)
    new.rename(folder)  # whole or not at all, whenever this process ends
    return True


def _read_authority(folder: Path, *, now: datetime) -> tuple[x509.Certificate, Signed]:
    path = folder / AUTHORITY
    try:
        root = x509.load_pem_x509_certificate(path.read_bytes())
        path = folder / f"{SIGNER}.crt"
        signer = _read_signed(folder, SIGNER)
        signer.certificate.verify_directly_issued_by(root)
        _constraints_of(signer.certificate)
    except (
        FileNotFoundError,
        ValueError,
        TypeError,
        x509.ExtensionNotFound,
        InvalidSignature,
    ) as error:
        raise FolderError(
            f"{path} is missing or cannot be read. It is one of the files that Throwbench wrote "
            f"for https. Put {folder} back from a copy; or take that folder away, and a new "
            "authority is made, which every device has to trust anew."
        ) from error
    ends = min(root.not_valid_after_utc, signer.certificate.not_valid_after_utc)
    if ends - now < RENEW_BEFORE:
        raise FolderError(
            f"The certificate authority in {folder} ends on {ends:%d %B %Y}. One lasts ten years. "
            "Take that folder away: a new one is made, which every device has to trust anew."
        )
    return root, signer


def _is_good(folder: Path, names: tuple[str, ...], signer: Signed, *, now: datetime) -> bool:
    """Whether the server's certificate is whole, for these names, and lasts a while."""
    try:
        leaf = _read_signed(folder, SERVER).certificate
        leaf.verify_directly_issued_by(signer.certificate)
        found = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except (FileNotFoundError, ValueError, TypeError, x509.ExtensionNotFound, InvalidSignature):
        return False
    lasts = leaf.not_valid_before_utc <= now and leaf.not_valid_after_utc - now >= RENEW_BEFORE
    return lasts and {str(one.value) for one in found} == set(names)


def _read_signed(folder: Path, name: str) -> Signed:
    """A certificate with its key. Raises ValueError or TypeError where they do not fit."""
    certificate = x509.load_pem_x509_certificate((folder / f"{name}.crt").read_bytes())
    key = serialization.load_pem_private_key((folder / f"{name}.key").read_bytes(), password=None)
    if not isinstance(key, Key) or key.public_key() != certificate.public_key():
        raise ValueError(name)
    return Signed(certificate=certificate, key=key)


def _write_signed(folder: Path, name: str, signed: Signed, *chain: x509.Certificate) -> None:
    key = signed.key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )
    _write(folder / f"{name}.key", key, mode=0o600)
    _write(folder / f"{name}.crt", b"".join(map(_pem, (signed.certificate, *chain))), mode=0o644)


def _write(path: Path, content: bytes, *, mode: int) -> None:
    """Whole or not at all; a key is never readable for others, not even for a moment."""
    new = path.with_suffix(".new")
    new.unlink(missing_ok=True)
    with os.fdopen(os.open(new, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    new.replace(path)


def _described(root: x509.Certificate) -> Authority:
    return Authority(
        der=root.public_bytes(serialization.Encoding.DER),
        fingerprint=fingerprint(root),
        mark=mark_of(root.public_key()),
        name=str(root.subject.get_attributes_for_oid(NameOID.COMMON_NAME)[0].value),
        ends=root.not_valid_after_utc,
    )


def _constraints_of(certificate: x509.Certificate) -> x509.NameConstraints:
    return certificate.extensions.get_extension_for_class(x509.NameConstraints).value


def _pem(certificate: x509.Certificate) -> bytes:
    return certificate.public_bytes(serialization.Encoding.PEM)

"""The shop's own certificate: made once, kept in the user's folder, known by its fingerprint."""

from __future__ import annotations

import ipaddress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from site_builder.bench.own_files import read_own, write_own

_YEARS = 10


@dataclass(frozen=True, slots=True)
class Held:
    """The files with certificate and key, and SHA-256 of the certificate as browsers show it."""

    certificate: Path
    key: Path
    fingerprint: str


def certificate(folder: Path, address: str) -> Held:
    """The certificate for an address of this machine; made where there is none, or one that has run out."""
    name = address.replace(":", "-")
    files = folder / f"shop-{name}.crt", folder / f"shop-{name}.key"
    held = read_own(files[0])
    found = x509.load_pem_x509_certificate(held) if held and read_own(files[1]) else None
    if found is None or found.not_valid_after_utc < datetime.now(UTC) + timedelta(days=30):
        found = _make(*files, address)
    digits = found.fingerprint(hashes.SHA256()).hex().upper()
    return Held(*files, " ".join(digits[at : at + 2] for at in range(0, len(digits), 2)))


def _make(file: Path, key_file: Path, address: str) -> x509.Certificate:
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "The bench of this shop")])
    start = datetime.now(UTC) - timedelta(days=1)
    names = [x509.DNSName("localhost"), x509.IPAddress(ipaddress.ip_address("127.0.0.1"))]
    if address != "127.0.0.1":
        names.append(x509.IPAddress(ipaddress.ip_address(address)))
    made = (
        x509.CertificateBuilder().subject_name(name).issuer_name(name).public_key(key.public_key())
        .serial_number(x509.random_serial_number()).not_valid_before(start)
        .not_valid_after(start + timedelta(days=365 * _YEARS))
        .add_extension(x509.SubjectAlternativeName(names), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .sign(key, hashes.SHA256())
    )
    write_own(key_file, key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8,
                                          serialization.NoEncryption()))
    write_own(file, made.public_bytes(serialization.Encoding.PEM))
    return made

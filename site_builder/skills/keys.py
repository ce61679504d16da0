"""Keys of the signers: the private one under a passphrase outside the notebook, the public one in it.

A seal can be recomputed by anybody; a signature only by whoever holds the private key and knows its
passphrase. Ed25519 (RFC 8032); the file is PKCS #8 in PEM letters (RFC 5958, RFC 7468), encrypted.
"""

from __future__ import annotations

import base64
import binascii
import os
from pathlib import Path

from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

PUBLIC_BYTES, SIGNATURE_BYTES = 32, 64


class KeyProblem(Exception):
    """A key file is missing, is something else, or its passphrase is wrong; the text says which."""


class Signer:
    """An opened private key."""

    def __init__(self, private: Ed25519PrivateKey) -> None:
        self._private = private

    @property
    def public(self) -> str:
        """The public key as it stands in ``people.yml``."""
        return _letters(self._private.public_key().public_bytes_raw())

    def sign(self, seal: str) -> str:
        """The signature over a seal."""
        return _letters(self._private.sign(seal.encode("ascii")))


def key_file(folder: Path, person: str) -> Path:
    """Where the private key of a person lies."""
    return folder / f"{person}.pem"


def new_key(file: Path, passphrase: str) -> Signer:
    """Make a key and write it. Never overwrites. Raises KeyProblem, OSError."""
    if not passphrase:
        raise KeyProblem("A key without a passphrase is anybody's who finds the file.")
    private = Ed25519PrivateKey.generate()
    text = private.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8,
        serialization.BestAvailableEncryption(passphrase.encode("utf-8")),
    )
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    try:
        handle = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        raise KeyProblem(f"A key lies in {file} already. Nothing was written over it.") from None
    with os.fdopen(handle, "wb") as stream:
        stream.write(text)
        stream.flush()
        os.fsync(stream.fileno())
    return Signer(private)


def open_key(file: Path, passphrase: str) -> Signer:
    """Open a private key. Raises KeyProblem."""
    try:
        text = file.read_bytes()
    except FileNotFoundError:
        raise KeyProblem(f"There is no key in {file}.") from None
    except OSError as problem:
        raise KeyProblem(f"{file} cannot be read: {problem.strerror}.") from None
    try:
        private = serialization.load_pem_private_key(text, passphrase.encode("utf-8") or None)
    except TypeError:
        raise KeyProblem(f"{file} lies there without a passphrase, or none was given.") from None
    except (ValueError, UnsupportedAlgorithm):
        raise KeyProblem(f"The passphrase is not that of {file}, or the file is no key.") from None
    if not isinstance(private, Ed25519PrivateKey):
        raise KeyProblem(f"The key in {file} is of another kind than Ed25519.")
    return Signer(private)


def is_public_key(text: str) -> bool:
    """Whether a text can be a public key."""
    raw = _bytes(text, PUBLIC_BYTES)
    return raw is not None


def signed_by(seal: str, signature: str, public: str) -> bool:
    """Whether a signature over a seal is that of a public key."""
    key, signed = _bytes(public, PUBLIC_BYTES), _bytes(signature, SIGNATURE_BYTES)
    if key is None or signed is None:
        return False
    try:
        Ed25519PublicKey.from_public_bytes(key).verify(signed, seal.encode("utf-8"))
    except (InvalidSignature, ValueError):
        return False
    return True


def _letters(raw: bytes) -> str:
    return base64.b64encode(raw).decode("ascii")


def _bytes(text: str, length: int) -> bytes | None:
    """The bytes of a base64 text; None unless these bytes have no other spelling."""
    try:
        raw = base64.b64decode(text, validate=True)
    except (binascii.Error, ValueError):
        return None
    return raw if len(raw) == length and _letters(raw) == text else None

"""Keys: who has the file and knows the passphrase signs; anybody can try a signature."""

from __future__ import annotations

import base64
import stat
from pathlib import Path

import pytest
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ed25519, x25519

from site_builder.skills.keys import KeyProblem, Signer, is_public_key, new_key, open_key, signed_by

SEAL = "ab" * 32


def test_by_the_first_example_of_the_standard() -> None:
    """RFC 8032, 7.1, TEST 1: secret and public key; its message is empty, ours is a seal, so only the keys are held."""
    secret = bytes.fromhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
    public = bytes.fromhex("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a")
    signer = Signer(ed25519.Ed25519PrivateKey.from_private_bytes(secret))
    assert base64.b64decode(signer.public) == public
    ed25519.Ed25519PublicKey.from_public_bytes(public).verify(base64.b64decode(signer.sign(SEAL)), SEAL.encode("ascii"))


def test_a_key_is_made_written_opened_and_tried(tmp_path: Path) -> None:
    file = tmp_path / "keys" / "edda.pem"
    made = new_key(file, "the fox is in the shed")
    again = open_key(file, "the fox is in the shed")
    assert again.public == made.public and is_public_key(made.public)
    assert signed_by(SEAL, again.sign(SEAL), made.public)
    assert not signed_by("cd" * 32, again.sign(SEAL), made.public)
    assert not signed_by(SEAL, again.sign(SEAL), new_key(tmp_path / "other.pem", "x").public)
    assert b"BEGIN ENCRYPTED PRIVATE KEY" in file.read_bytes()
    assert stat.S_IMODE(file.stat().st_mode) & 0o077 == 0


def test_every_letter_of_a_signature_counts() -> None:
    """Base64 can spell the same bytes in several ways; only one of them is taken."""
    signer = Signer(ed25519.Ed25519PrivateKey.from_private_bytes(bytes(32)))
    signature = signer.sign(SEAL)
    letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/= "
    for place, letter in enumerate(signature):
        for other in letters:
            if other != letter:
                assert not signed_by(SEAL, signature[:place] + other + signature[place + 1 :], signer.public)
    for wrong in ("", signature[:-2], signature + "=", signature + "\n", "ä", "A" * 88):
        assert not signed_by(SEAL, wrong, signer.public)
        assert not signed_by(SEAL, signature, wrong)


@pytest.mark.parametrize("passphrase", ["", "wrong", "The fox is in the shed"])
def test_with_another_passphrase_it_stays_shut(passphrase: str, tmp_path: Path) -> None:
    file = tmp_path / "edda.pem"
    new_key(file, "the fox is in the shed")
    with pytest.raises(KeyProblem, match="passphrase"):
        open_key(file, passphrase)


def test_a_key_is_never_written_over(tmp_path: Path) -> None:
    file = tmp_path / "edda.pem"
    new_key(file, "one")
    before = file.read_bytes()
    with pytest.raises(KeyProblem, match="already"):
        new_key(file, "two")
    assert file.read_bytes() == before


def test_what_is_no_key_of_ours_is_told(tmp_path: Path) -> None:
    file = tmp_path / "edda.pem"
    with pytest.raises(KeyProblem, match="no key in"):
        open_key(file, "x")
    file.write_text("Dear Edda,\n", "utf-8")
    with pytest.raises(KeyProblem, match="no key"):
        open_key(file, "x")
    other = x25519.X25519PrivateKey.generate().private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.BestAvailableEncryption(b"x"))
    file.write_bytes(other)
    with pytest.raises(KeyProblem, match="another kind"):
        open_key(file, "x")
    with pytest.raises(KeyProblem, match="without a passphrase"):
        new_key(tmp_path / "new.pem", "")

"""The seal of an entry: a fingerprint of what it says, not of how it is laid out.

So that a stranger can recompute it in thirty years, with any tools:

1. Take one entry of a book: the YAML document after its ``---``. It is a mapping. Every key and every single
   value in it is text, exactly as written: ``40`` is the text "40", ``2026-05-09`` and ``no`` are texts too.
   Comments, indentation, kinds of quotes and the order of keys are not part of what it says. A text on
   several lines is what YAML 1.1 makes of it.
2. Leave out the keys ``seal`` and ``signature`` of the entry itself. ``previous``, the seal of the entry
   before, stays in; the first entry of a book has none.
3. Bring every text, keys too, into Unicode normalisation form C.
4. Write it as JSON as RFC 8785 (JSON Canonicalization Scheme) has it: objects with their keys sorted by
   UTF-16 code units, no blanks, only the escapes that JSON demands; a mapping is an object, a list an array
   (a thing that stands alone where a list may stand is a string), an empty value is the empty string.
   Encode it as UTF-8.
5. The seal is the SHA-256 (FIPS 180-4) of these bytes, in 64 small hexadecimal digits.

Dates in a book are full dates as RFC 3339 writes them, ``2026-05-09``; the seal takes them as text.

An entry that is signed names the signer's public key under ``key``: the base64, with padding, of its 32 bytes.
The seal covers this line, so that a signature cannot be taken away unseen. The signature is the Ed25519 (RFC
8032) signature over the 64 digits of the seal as ASCII letters, in base64 with padding. The same public key
stands under ``key`` of the person in ``skills/people.yml``.
"""

from __future__ import annotations

import hashlib
import unicodedata
from collections.abc import Mapping
from typing import Any

import rfc8785

OUTSIDE = ("seal", "signature")
"""The keys of an entry that its seal does not cover: itself, and what is made from it."""

SEAL_LETTERS = 64


class Ambiguous(ValueError):
    """Two keys of one mapping are the same text in normalisation form C; there is no one content."""


def seal_of(entry: Mapping[Any, Any]) -> str:
    """The seal of an entry as read: mappings, lists and texts. Raises Ambiguous."""
    return hashlib.sha256(canonical(entry)).hexdigest()


def canonical(entry: Mapping[Any, Any]) -> bytes:
    """What the seal is taken over. Raises Ambiguous."""
    return rfc8785.dumps(content_of({key: value for key, value in entry.items() if key not in OUTSIDE}))


def content_of(node: Any) -> Any:
    """Mappings, lists and texts as plain ones, every text in normalisation form C. Raises Ambiguous."""
    if isinstance(node, str):
        return unicodedata.normalize("NFC", str(node))
    if isinstance(node, Mapping):
        plain = {unicodedata.normalize("NFC", str(key)): content_of(value) for key, value in node.items()}
        if len(plain) != len(node):
            raise Ambiguous("two keys are the same text")
        return plain
    return [content_of(one) for one in node]

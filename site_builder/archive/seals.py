"""How a seal is reckoned, for a stranger who has nothing but a text editor and a tool for SHA-256."""

SEALS = """\
HOW A SEAL IS RECKONED
======================

The books in data/notebook/skills/records/ are plain text. Each entry begins
after a line `---` and carries `previous`, the seal of the entry before it,
and `seal`, its own. Who changes an entry, leaves one out or slips one in
breaks every seal after it. So it can be tried, with common tools:

1. Take one entry. It is a mapping of YAML 1.1. Every key and every single
   value is text, exactly as written: 40 is the text "40", 2026-05-09 and no
   are texts too. Comments, indentation, kinds of quotes and the order of keys
   are not part of it. A text on several lines is what YAML makes of it.
2. Leave out the keys `seal` and `signature` of the entry itself. `previous`
   and `key` stay in. The first entry of a book has no `previous`.
3. Bring every text, keys too, into Unicode normalisation form C.
4. Write it as canonical JSON by RFC 8785: a mapping is an object with its
   keys sorted, a list an array, an empty value the empty string; no blanks.
   Encode it as UTF-8.
5. The seal is the SHA-256 (FIPS 180-4) of these bytes: 64 small hexadecimal
   digits. It must be what stands under `seal`, and under `previous` of the
   entry after it.

A `signature`, where there is one, is the Ed25519 signature (RFC 8032) over
the 64 digits of the seal as ASCII letters, in base64. The key that made it
stands under `key`, and under the person in data/notebook/skills/people.yml.

What a seal shows: that an entry and all before it say today what they said
when that seal was laid. What it does not show: that what was written is
true, or who wrote it. There is no secret in a seal. Who can write the files
can reckon all of them anew; only a copy out of his reach convicts him.
"""

"""A book under seal, as the rules on seals show it: what passes all of them."""

from __future__ import annotations

SEALED = """\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
seal: e6d31a9a1ec426f857b5516a7b205be811c546623f59140611ed6208331b1829
---
sign-off: 2
who: edda
date: 2026-06-20
learner: ansa
skill: filing
level: watches
previous: e6d31a9a1ec426f857b5516a7b205be811c546623f59140611ed6208331b1829
seal: 80de42920c55b85fb37da87caf613d1576c7af22209fccea20baa9f37bdab797
=== skills/records/sign-offs.last
entry: 2
date: 2026-06-20
seal: 80de42920c55b85fb37da87caf613d1576c7af22209fccea20baa9f37bdab797
"""
"""Two sign-offs, each with its seal, and the small file with the last one."""

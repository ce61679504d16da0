"""How many decibels of a hearing protector may be counted on: less than the box says.

The number on the box comes from trained people in a laboratory. Which of these ways is to be used is for local
law; what an ear really gets, only a fit test tells.
"""

from __future__ import annotations

from math import log10
from typing import Literal

from site_builder.formulas import guards

Weighting = Literal["A", "C"]
Kind = Literal["muffs", "formable plugs", "other plugs"]

SPECTRUM = 7.0
"""dB taken off an NRR where the noise is known in dB(A) and not in dB(C): 29 CFR 1910.95 Appendix B."""
REAL_WORLD = 4.0
"""dB that British guidance takes off for real use: HSE, Controlling noise at work (L108)."""
SECOND = 5.0
"""dB that a second protector over the first adds: OSHA Technical Manual, Noise."""
TOO_QUIET = 70.0
"""dB(A) at the ear under which warnings and speech are missed: EN 458, over-protection."""

_NIOSH_KEEPS: dict[Kind, float] = {"muffs": 0.75, "formable plugs": 0.5, "other plugs": 0.3}


def label_counted(nrr: float, weighting: Weighting = "A") -> float:
    """Decibels an NRR promises by law: all of it against dB(C), 7 less against dB(A). Nothing taken off for use.

    Raises ``Impossible`` for a rating under 0. Source: 29 CFR 1910.95 Appendix B.
    """
    guards.not_negative("NRR", "dB", nrr)
    return max(nrr - (SPECTRUM if weighting == "A" else 0.0), 0.0)


def halved_counted(nrr: float, weighting: Weighting = "A") -> float:
    """Decibels of an NRR to count on by the half: OSHA's inspectors halve what the label promises.

    Raises ``Impossible`` for a rating under 0. Source: OSHA Technical Manual, Noise, hearing protector attenuation.
    """
    return label_counted(nrr, weighting) / 2


def niosh_counted(nrr: float, kind: Kind, weighting: Weighting = "A") -> float:
    """Decibels of an NRR to count on by kind: three quarters for muffs, half for foam plugs, 0.3 for other plugs.

    Against dB(A) another 7 dB come off afterwards. Never less than 0. Raises ``Impossible`` for a rating under 0.
    Source: NIOSH criteria document 98-126, derating.
    """
    kept = guards.not_negative("NRR", "dB", nrr) * _NIOSH_KEEPS[kind]
    return max(kept - (SPECTRUM if weighting == "A" else 0.0), 0.0)


def with_second(counted: float) -> float:
    """Decibels of plugs under muffs: what the better one counts, and 5 more.

    Raises ``Impossible`` for protection under 0. Source: OSHA Technical Manual, Noise, dual protection.
    """
    return guards.not_negative("protection", "dB", counted) + SECOND


def ear_level_by_snr(level_c: float, snr: float, real_world: float = REAL_WORLD) -> float:
    """dB(A) at the ear from a level in dB(C) and the protector's SNR, with ``real_world`` dB taken off for use.

    Raises ``Impossible`` for a rating under 0. Source: ISO 4869-2, SNR method, with HSE L108.
    """
    guards.finite("noise level", "dB(C)", level_c)
    guards.not_negative("real-world loss", "dB", real_world)
    return level_c - guards.not_negative("SNR", "dB", snr) + real_world


def reduction_by_hml(level_a: float, level_c: float, high: float, medium: float, low: float) -> float:
    """Predicted noise reduction in dB from the protector's H, M and L, and the noise in dB(A) and in dB(C).

    The more the C-level stands over the A-level, the more of the noise is low and gets through. Nothing is taken
    off for use. Raises ``Impossible`` for ratings under 0 or out of order (H least, L most).
    Source: ISO 4869-2, HML method.
    """
    rumble = guards.finite("noise level", "dB(C)", level_c) - guards.finite("noise level", "dB(A)", level_a)
    guards.not_negative("L", "dB", low)
    guards.at_least("M", "dB", medium, low, "L")
    guards.at_least("H", "dB", high, medium, "M")
    if rumble <= 2:
        return medium - (high - medium) / 4 * (rumble - 2)
    return medium - (medium - low) / 8 * (rumble - 2)


def worn_part_of_the_time(counted: float, share: float) -> float:
    """Decibels that remain of ``counted`` when a protector is worn for only a ``share`` (0 to 1) of the noise.

    Half the time gives 3 dB, however good it is. Raises ``Impossible`` for protection under 0 or a share that is
    none. Source: energy average; HSE, Removal of hearing protectors severely reduces protection.
    """
    guards.not_negative("protection", "dB", counted)
    guards.share("share of the time worn", share)
    return -10 * log10((1 - share) + share * 10 ** (-counted / 10))

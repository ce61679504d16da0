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
LOUDEST = 194.0
"""dB at which sound in air becomes a shock wave: more is no sound level."""
TOO_QUIET = 70.0
"""dB(A) at the ear under which warnings and speech are missed: EN 458, over-protection."""

BONE_CONDUCTION = 40.0
"""dB past which nothing over or in the ears helps: so much comes through the bones of the head. The limit is 40 to
60 dB by pitch, least near 2 kHz, and the least counts here: Berger, Kieper and Gauger, Hearing protection: surpassing
the limits to attenuation imposed by the bone-conduction pathways, J. Acoust. Soc. Am. 114 (2003) 1955 (from memory)."""
HIGHEST_RATING = 60.0
"""dB over which a rating is no rating of anything that is worn."""

_WEIGHTINGS: tuple[Weighting, ...] = ("A", "C")
_NIOSH_KEEPS: dict[Kind, float] = {"muffs": 0.75, "formable plugs": 0.5, "other plugs": 0.3}


def label_counted(nrr: float, weighting: Weighting = "A") -> float:
    """Decibels an NRR promises by law: all of it against dB(C), 7 less against dB(A). Nothing taken off for use.

    Raises ``Impossible`` for a rating that is none, or a weighting that is not told. Source: 29 CFR 1910.95
    Appendix B; never more than bone conduction lets count.
    """
    return _against(_rating("NRR", nrr), weighting)


def halved_counted(nrr: float, weighting: Weighting = "A") -> float:
    """Decibels of an NRR to count on by the half: OSHA's inspectors halve what the label promises.

    Raises ``Impossible`` as ``label_counted``. Source: OSHA Technical Manual, Noise, hearing protector attenuation.
    """
    return label_counted(nrr, weighting) / 2


def niosh_counted(nrr: float, kind: Kind, weighting: Weighting = "A") -> float:
    """Decibels of an NRR to count on by kind: three quarters for muffs, half for foam plugs, 0.3 for other plugs.

    Against dB(A) another 7 dB come off afterwards. Never less than 0. Raises ``Impossible`` as ``label_counted``, and
    for a kind that is none. Source: NIOSH criteria document 98-126, derating.
    """
    kept = _rating("NRR", nrr) * _NIOSH_KEEPS[guards.one_of("kind of protector", kind, _NIOSH_KEEPS)]
    return _against(kept, weighting)


def with_second(counted: float) -> float:
    """Decibels of plugs under muffs: what the better one counts, and 5 more, as far as bone conduction lets count.

    Raises ``Impossible`` for protection that is none. Source: OSHA Technical Manual, Noise, dual protection; Berger,
    Kieper and Gauger (2003) for the most.
    """
    return counted_at_most(_rating("protection", counted) + SECOND)


def ear_level_by_snr(level_c: float, snr: float, real_world: float = REAL_WORLD) -> float:
    """dB(A) at the ear from a level in dB(C) and the protector's SNR, with ``real_world`` dB taken off for use.

    Never louder than outside, and never quieter than what comes through the bones. Raises ``Impossible`` for a level
    or rating that is none. Source: ISO 4869-2, SNR method, with HSE L108; Berger, Kieper and Gauger (2003).
    """
    guards.within("noise level", "dB(C)", level_c, 0, LOUDEST)
    kept = _rating("SNR", snr) - _rating("real-world loss", real_world)
    return max(level_c - counted_at_most(max(kept, 0.0)), 0.0)


def reduction_by_hml(level_a: float, level_c: float, high: float, medium: float, low: float) -> float:
    """Predicted noise reduction in dB from the protector's H, M and L, and the noise in dB(A) and in dB(C).

    The more the C-level stands over the A-level, the more of the noise is low and gets through. Nothing is taken
    off for use; never less than 0, nor more than bone conduction lets count. Raises ``Impossible`` for levels or
    ratings that are none, or out of order (L least, H most). Source: ISO 4869-2, HML method.
    """
    rumble = guards.within("noise level", "dB(C)", level_c, 0, LOUDEST)
    rumble -= guards.within("noise level", "dB(A)", level_a, 0, LOUDEST)
    guards.at_least("M", "dB", _rating("M", medium), _rating("L", low), "L")
    guards.at_least("H", "dB", _rating("H", high), medium, "M")
    a_step = (high - medium) / 4 if rumble <= 2 else (medium - low) / 8
    return counted_at_most(max(medium - a_step * (rumble - 2), 0.0))


def worn_part_of_the_time(counted: float, share: float) -> float:
    """Decibels that remain of ``counted`` when a protector is worn for only a ``share`` (0 to 1) of the noise.

    Half the time gives 3 dB, however good it is. Raises ``Impossible`` for protection under 0 or a share that is
    none. Source: energy average; HSE, Removal of hearing protectors severely reduces protection.
    """
    counted = counted_at_most(guards.within("protection", "dB", counted, 0, LOUDEST))
    guards.share("share of the time worn", share)
    return -10 * log10((1 - share) + share * 10 ** (-counted / 10))


def counted_at_most(decibels: float) -> float:
    """So many decibels, as far as bone conduction lets count. Raises ``Impossible`` for what is no protection.

    Source: Berger, Kieper and Gauger (2003), from memory.
    """
    return min(guards.not_negative("protection", "dB", decibels), BONE_CONDUCTION)


def _against(kept: float, weighting: Weighting) -> float:
    """What counts of it against noise in dB(A) or dB(C): an unknown weighting is no weighting."""
    off = SPECTRUM if guards.one_of("weighting of the noise", weighting, _WEIGHTINGS) == "A" else 0.0
    return counted_at_most(max(kept - off, 0.0))


def _rating(argument: str, decibels: float) -> float:
    return guards.within(argument, "dB", decibels, 0, HIGHEST_RATING)

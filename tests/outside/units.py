"""Units the published values are told in, in SI. Exact by definition, but where a source is named."""

from __future__ import annotations

from math import pi

INCH = 0.0254
FOOT = 0.3048
MILLIMETRE = 1e-3
MICRON = 1e-6
MIL = INCH / 1000
MINUTE = 60.0
HOUR = 3600.0
DAY = 86_400.0
FEET_A_MINUTE = FOOT / MINUTE
POUND = 0.45359237
OUNCE = POUND / 16
GRAM = 1e-3
GALLON = 231 * INCH**3
LITRE = 1e-3
PER_CENT = 0.01
SQUARE_DECIMETRE = 1e-2
DEGREE = pi / 180
KILOWATT_HOUR = 3.6e6

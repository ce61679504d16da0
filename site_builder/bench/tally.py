"""How far: strokes as they are chalked on a door."""

from __future__ import annotations

from markupsafe import Markup

from site_builder.handbook.trusted import trusted


def tally(done: int, of: int) -> Markup:
    """Those done stand tall and the fifth strikes four; those to come are stubs. Words stand beside it always."""
    of = min(of, 40)
    x, drawn = 4, []
    for number in range(of):
        fifth = number % 5 == 4
        if number < done:
            drawn.append(f'<path d="M{x - 42} 21 {x - 2} 6"/>' if fifth else f'<path d="M{x} 3V24"/>')
        else:
            drawn.append(f'<path d="M{x} 20v4"/>')
        x += 14 if fifth else 9
    return trusted(f'<svg width="{x}" height="28" viewBox="0 0 {x} 28" aria-hidden="true" fill="none" '
                  f'stroke="currentColor" stroke-width="2.6" stroke-linecap="round">{"".join(drawn)}</svg>')

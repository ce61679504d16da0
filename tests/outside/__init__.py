"""Checks from outside: what others published, beside what the handbook's arithmetic gives.

A topic is one module here with a ``TOPIC`` and one file in ``reference/`` with the published values, each with
its source beside it. A check binds a public function to entries of that file:

    TOPIC = Topic("wheels", "Wheels, belts, lathes")

    @TOPIC.check(surface_speed, "sfpm-8-1750", "sfpm-10-3450")
    def feet_a_minute(d_in: float, rpm: float) -> float:
        return surface_speed(d_in * INCH, rpm / MINUTE) / FEET_A_MINUTE

The checking function is called with the entry's inputs and answers in the entry's unit. ``make
checks-from-outside`` (``python -m tests.outside``) prints the table and writes ``site_builder/formulas/outside.json``,
from which the handbook tells how far its numbers can be trusted; run it again after adding a check.
"""

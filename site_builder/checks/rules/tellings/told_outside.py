from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.tellings.timing import seconds_text


def check(analysis: Analysis) -> Iterator[Found]:
    for one in analysis.told_entries:
        name, problem = one.moment.telling, one.moment.problem
        transcript = analysis.notebook.transcripts.get(name)
        if problem == "unreadable":
            yield Found(one.text.at, f"`{str(one.text).partition('#')[2]}` is no moment.",
                        f"Write the seconds from the beginning, the later ones behind: `{name}#t=754.2,759`.",
                        one.place.owner_id)
        elif problem == "outside" and transcript is not None:
            first, last = transcript.cues[0].id, transcript.cues[-1].id
            until = "has no times" if transcript.end is None else f"ends at {seconds_text(transcript.end)} seconds"
            yield Found(one.text.at, f"Nothing is said there in `{name}`.",
                        f"It {until}, and its sentences are called `{first}` to `{last}`: `{name}#{first}`.",
                        one.place.owner_id)


RULE = Rule(
    code="told-outside",
    level=Level.ERROR,
    summary="An entry told at a moment that its telling does not have.",
    reason="The mark would play something else, or nothing.",
    passes="""\
=== skills/people.yml
people:
  oda: {name: Oda Brenn, role: baker}
=== procedures/bake.yml
procedure: bake
title: Bake the loaf
steps:
  - do: Slide it on to the stone.
    told: ["baking#t=5,9.5", baking#c001]
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
transcript: baking.vtt
=== procedures/tellings/baking.vtt
WEBVTT

c001
00:00:01.000 --> 00:00:04.000
You slide it on to the stone.

c002
00:00:05.000 --> 00:00:09.500
Quick, so the heat stays in.
""",
    fails="""\
=== skills/people.yml
people:
  oda: {name: Oda Brenn, role: baker}
=== procedures/bake.yml
procedure: bake
title: Bake the loaf
steps:
  - do: Slide it on to the stone.
    told:
      - ▸baking#t=55,60.5
      - ▸baking#c009
      - ▸baking#t=five
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
transcript: baking.vtt
=== procedures/tellings/baking.vtt
WEBVTT

c001
00:00:01.000 --> 00:00:04.000
You slide it on to the stone.

c002
00:00:05.000 --> 00:00:09.500
Quick, so the heat stays in.
""",
    check=check,
)

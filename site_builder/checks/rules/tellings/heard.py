"""Rules on tellings: their files, their sentences, and what was made of them."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.consent import heard_in, shown, unasked
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.nearest import did_you_mean, slip_of
from site_builder.notebook.telling_files import telling_file
from site_builder.tellings.timing import seconds_text

TRANSCRIPT_BROKEN = Rule(
    "transcript-broken", Level.ERROR, "A transcript that cannot be read.",
    "What was told would stand nowhere, and nobody would see that it is missing.",
    """\
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
transcript: baking.vtt
=== procedures/tellings/baking.vtt
WEBVTT

c001
✓ 00:00:01.000 --> 00:00:04.000
✗ ▸00:00:01.000 --> later
You slide it on to the stone.

✓ c002
✓ 00:00:05.000 --> 00:00:09.500
✓ Quick, so the heat stays in.
✓\x20""",
)


def telling_file_none(analysis: Analysis) -> Iterator[Found]:
    root = analysis.notebook.root
    for id_, telling in analysis.notebook.tellings.items():
        for name in filter(None, (telling.transcript, telling.recording)):
            if telling_file(root, telling, str(name)) is None:
                yield Found(name.at, f"There is no file `{name}`.",
                            "Put it beside this file, under `procedures/tellings/`, or take the line out.", id_)


TELLING_FILE_NONE = Rule(
    "telling-file-none", Level.ERROR, "A recording or transcript whose file is not in the notebook.",
    "What was told would be lost with the phone that recorded it.",
    """\
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
transcript: ▸baking.vtt
✓ === procedures/tellings/baking.vtt
✓ WEBVTT

✓ c001
✓ 00:00:01.000 --> 00:00:04.000
✓ You slide it on to the stone.
✓\x20
✓ c002
✓ 00:00:05.000 --> 00:00:09.500
✓ Quick, so the heat stays in.
✓\x20""", telling_file_none,
)


def cue_none(analysis: Analysis) -> Iterator[Found]:
    for id_, telling in analysis.notebook.tellings.items():
        transcript = analysis.notebook.transcripts.get(id_)
        if transcript is None:
            continue
        known = [cue.id for cue in transcript.cues]
        for name in (*telling.laid_aside, *telling.taken_up):
            if str(name) not in known:
                near = did_you_mean(slip_of(str(name), known))
                yield Found(name.at, f"No sentence of the transcript is called `{name}`.",
                            f"{near}They go from `{known[0]}` to `{known[-1]}`.", id_)


CUE_NONE = Rule(
    "cue-none", Level.ERROR, "A sentence that is taken up or laid aside, and is not in the transcript.",
    "The count of what is still open would be wrong.",
    """\
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
transcript: baking.vtt
✓ laid aside: [c002]
✗ laid aside: [▸c003]
✗ taken up: {▸c3: the stone}
=== procedures/tellings/baking.vtt
WEBVTT

c001
00:00:01.000 --> 00:00:04.000
You slide it on to the stone.

c002
00:00:05.000 --> 00:00:09.500
Quick, so the heat stays in.
""", cue_none,
)


def told_none(analysis: Analysis) -> Iterator[Found]:
    known = analysis.notebook.tellings
    for one in analysis.told_entries:
        if one.moment.problem == "none" and one.moment.telling not in analysis.notebook.unread:
            near = slip_of(one.moment.telling, known)
            yield Found(
                one.text.at, f"There is no telling `{one.moment.telling}`.",
                f"{did_you_mean(near)}Name a file under `procedures/tellings/`, as `baking#t=754.2,759`, "
                "or take the line out.",
                one.place.owner_id,
            )


TOLD_NONE = Rule(
    "told-none", Level.ERROR, "An entry told in a telling that is not in the notebook.",
    "Nobody can hear again how it was said.",
    """\
=== skills/people.yml
people:
  oda: {name: Oda Brenn, role: baker}
=== procedures/bake.yml
procedure: bake
title: Bake the loaf
steps:
  - do: Slide it on to the stone.
✓     told: baking#t=1,4
✗     told: ▸bakery#t=1,4
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
""", told_none,
)


def told_outside(analysis: Analysis) -> Iterator[Found]:
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


TOLD_OUTSIDE = Rule(
    "told-outside", Level.ERROR, "An entry told at a moment that its telling does not have.",
    "The mark would play something else, or nothing.",
    """\
=== skills/people.yml
people:
  oda: {name: Oda Brenn, role: baker}
=== procedures/bake.yml
procedure: bake
title: Bake the loaf
steps:
  - do: Slide it on to the stone.
✓     told: ["baking#t=5,9.5", baking#c001]
✗     told:
✗       - ▸baking#t=55,60.5
✗       - ▸baking#c009
✗       - ▸baking#t=five
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
""", told_outside,
)


def voice_unasked(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for id_, telling in nb.tellings.items():
        if telling.recording is None or shown(nb) == "words":
            continue
        for who in unasked(nb, telling):
            name = nb.people[who].name if who in nb.people else who
            yield Found(telling.recording.at, f"Does {name} agree that the handbook plays this recording?",
                        f"Write into `shop.yml`: `recordings: {{agreed: [{who}]}}`; or `declined: [{who}]`.", id_)
        if not heard_in(telling):
            yield Found(telling.recording.at, "Whose voice is this?",
                        "Add `teller:`, and `others:` if more are heard.", id_)


VOICE_UNASKED = Rule(
    "voice-unasked", Level.QUESTION, "A recording, and nobody has said whether whoever is heard agreed to be played.",
    "A voice is not copied into a handbook before the person has said yes; the words are shown all the same.",
    """\
✓ === procedures/shop.yml
✓ shop: bakery
✓ title: The bakery
✓ recordings: {agreed: [oda]}
=== skills/people.yml
people:
  oda: {name: Oda Brenn, role: baker}
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
recording: ▸baking.wav
=== procedures/tellings/baking.wav
RIFF
""", voice_unasked,
)

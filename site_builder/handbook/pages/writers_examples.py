"""The examples of the guide for writers."""

from __future__ import annotations

TEN_LINES = """\
procedure: grind-foot
title: Grind the foot flat
part: foot
steps:
  - do: Lay the foot on the belt, sole down.
  - do: Sweep it along the belt in one pass.
  - do: Try it on the plate; it must not rock.
  - do: Draw the edge over the fine belt.
  - do: Wipe it and stack it sole up.
"""

GROWING = """\
settings: {belt speed: 18 m/s}

settings:
  belt speed: {is: 18 m/s, tool: belt-grinder}

settings:
  belt speed:
    is: 18 m/s
    tool: belt-grinder
    because: Slower it grabs, faster it smears the zinc.
"""

TELLING = """\
# procedures/tellings/casting-the-arm.yml
telling: casting-the-arm
title: Casting the arm, as Edda tells it
teller: edda                        # who tells; `others:` who else is heard
others: [benno]
transcript: casting-the-arm.vtt     # WebVTT, SubRip, or plain text without times
recording: casting-the-arm.m4a      # if there is one
date: 2026-10-06
place: at the mould
laid aside: [c001, c002]            # sentences with nothing to keep
taken up:                           # those that went where no `told` can stand
  c027: the word follower

# on any entry, where it was told: seconds from the beginning, or sentences by name
limits:
  time in the mould:
    is: about 20 s
    told: casting-the-arm#t=271.4,276
feel:
  sense: sound
  good: It rings.
  told: casting-the-arm#c040,c041

# in procedures/shop.yml, whose voice the handbook may play
recordings:
  show: moments                     # or `words`: no voice at all; or `whole`: each telling from end to end
  agreed: [edda, benno]
  declined: [havel]
"""

FOLDERS = (
    ("procedures/shop.yml", "The shop, its products and parts, its words, what to do in an accident."),
    ("procedures/<part>/", "One procedure a file; steps that several share stand in `procedures/shared/`."),
    ("procedures/changes/", "A change to the way of working, with what was counted before and after."),
    ("procedures/orders/", "A batch to deliver: how many, by when."),
    ("procedures/stories/", "Free pages in Markdown. They stand in the book as they are."),
    ("procedures/tellings/", "What somebody told: who, when and where, beside the recording and its words."),
    ("procedures/photos/", "Pictures, films and sounds as they came from the phone."),
    ("skills/people.yml", "Everybody in the shop, and those who were."),
    ("skills/", "One skill a file, with the checklist of what is shown for it."),
    ("skills/records/", "The books: sign-offs, practice, feel trials, measurements, incidents. Only ever added to."),
    ("tools/", "Machines, hand tools, gauges, tooling, protection, reference pieces and materials, one a file."),
)

RIGHT = (
    "18 m/s", "1-1/2 in", "2 h 30 min", "9 g per piece", "about 1 belt per 120 pieces", "25 ±0.1 mm",
    "25 +0.2/-0.05 mm", "25 H7 mm", "12..30 °C", "max 0.1 mm", "min 3 min", "under 40 °C", "aim 45 µm; min 30; max 70",
    "about 3..4 passes; max 6 passes", "max 1/3 of wall or 1 mm whichever is less", "2 x wall plus 0.5 mm",
    "1/8 of flour", "min 4 h; max same day",
    "from 18 to 12 m/s", "lowest that still cuts", "30 ° angle", "perhaps 6 mo", "some min", "ask", "P80",
    "max about 30 min", "min 1 h; max perhaps 2 h", "max some h", "3 US gal", "3 imp gal", "80 grit and finer",
)

WRONG = (
    "25", "180 degrees", "2,5 mm", "1,000 mm", "12-30 °C", "30..12 °C", "12 mm..3 in", "aim 5 mm; max 4 mm",
    "aim 3 mm; 5 mm", "min 5 mm or 1/2 of wall", "25 +/- 0.1 mm", '1/8"', "3 dollops", "0000", "316 stainless",
)

RHYTHMS = (
    "each piece", "every 10 pieces", "every about 20 min", "start; every 40 pieces", "first and last", "3 of 50 pieces",
    "2 in first 60 pieces; then 1 per 60 pieces", "last 10 s", "each shift", "18:00",
)

REFERENCES = (
    ("skill: grinding-flat", "A key that names a kind takes an id: the name of the file."),
    ("then: sweep", "A step of the same procedure by its `id`."),
    ("is: foot/height", "A value that stands elsewhere: part and size, procedure / step / limit, material / property."),
    ("[[foot]]", "A link in a sentence; the page shows the title."),
    ("[[foot|the foot]]", "The same with words of your own."),
    ("evidence: practice 31", "An entry of a book by its number."),
)

COMMANDS = (
    ("benchlore check", "Reads the whole notebook and says what contradicts itself, what is doubtful, what is untold."),
    ("benchlore explain unit-missing", "Says more about one rule, with an example."),
    ("benchlore questions", "Prints the questions for the master, by person and by work."),
    ("benchlore new procedure grind-foot",
     "Begins a file with its first keys; `new` knows shops, skills, people and tools too."),
    ("benchlore batch 260", "Tells what a batch takes: pieces to start, hours, what is used up, what is not known."),
    ("benchlore telling arm.vtt",
     "Reads what was told: what each sentence most likely is, the quantities in it; with `--into` it takes it in."),
    ("benchlore build", "Makes this book; the last good one stays until the new one stands."),
    ("benchlore print epub", "Writes the handbook as an e-book, for a phone; `print book` as a book to print."),
    ("benchlore keep ../kept", "Makes one folder that can be read in thirty years, and proves itself whole."),
    ("benchlore schema procedure", "The keys for an editor, so that it completes and checks as you type."),
    ("mkdocs serve", "Shows the book in the browser and makes it anew whenever a file is saved."),
)

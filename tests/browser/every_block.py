"""Each block of a page once, as the views make them, for a page that no shop would write."""

from pathlib import Path

from markupsafe import Markup

from site_builder.handbook.prose_html import Media
from site_builder.notebook.finding import At
from site_builder.views.blocks import (
    Back,
    Feel,
    FeelSide,
    Gauge,
    GaugeSide,
    Grid,
    Item,
    Meanwhile,
    NeverBlock,
    Peril,
    PictureMark,
    Pictures,
    Points,
    Questions,
    Row,
    Said,
    Settings,
    Shot,
    Signal,
    StepView,
    Stop,
    UsedWork,
)
from site_builder.views.prose import EVERY, Disputed, GlossaryWord, Only, Prose, Ref, Untold, linked, prose, say, toned

AT = At("procedures/bowl/turn.yml", 14, 9)
OILED = Only(prose("Only for oiled bowls"), (("finish", ("oiled",)),))
ASH = Only(prose("Only for ash"), (("Wood of the shop", ("ash",)),))
PEAR_AND_OIL = Only(prose("Only for oiled bowls of pear or plum"),
                    (("finish", ("oiled",)), ("Wood of the shop", ("pear & plum",))))
_ELEMENTS = {
    "picture": '<img src="../bowl.jpg" width="900" height="600" alt="A bowl between two centres">',
    "Film": '<video controls preload="none" aria-label="The first cut"></video>',
    "Sound": '<audio controls preload="none" aria-label="A hiss"></audio>',
}
_KINDS = {".jpg": "picture", ".mp4": "Film", ".ogg": "Sound"}


class Bowls:
    """What the page knows of addresses and pictures."""

    def address(self, to: Ref) -> str | None:
        return f"#{to.anchor}" if to.anchor else "index.html" if to.kind == "procedure" else None

    def question_href(self, at: At) -> str:
        del at
        return "index.html"

    def media(self, shot: Shot) -> Media:
        kind = _KINDS.get(Path(shot.file).suffix, "lost")
        return Media(kind, Markup(_ELEMENTS.get(kind, "")), shot.file)

    def first_use(self, word: str) -> bool:
        del word
        return True


def item(words: str, *reasons: str, lead: str = "", only: Only = EVERY, tail: tuple[str, ...] = ()) -> Item:
    """A point, a setting, an act in between."""
    return Item(words=prose(words), lead=prose(lead), reasons=tuple(map(prose, reasons)), only=only,
                tail=tuple(map(prose, tail)))


def side(words: str, then: str) -> GaugeSide:
    """One side of a gauge line."""
    return GaugeSide(prose(words), prose(then))


def shot(file: str, caption: str, words: str = "", marks: tuple[PictureMark, ...] = (),
         only: Only = EVERY) -> Shot:
    """A picture, a film or a sound."""
    return Shot(file, None, caption, prose(caption), prose(words), marks, only=only)


MARKS = (PictureMark(0.02, 0.05, prose("The tool rest, a finger away.")), PictureMark(0.5, 0.5, prose("The rim.")),
         PictureMark(0.98, 0.95, prose("The tailstock.")))
UNTOLD = Prose((Untold("not told yet", AT),))
DISPUTED = Prose((Disputed(((prose("40 mm"), prose("Ines")), (prose("45 mm"), prose("Rolf"))), AT),))
STEP_1 = linked("step 1", Ref("procedure", "turn", "rough"))

SIGNALS = tuple(
    Signal(word=word, perils=(Peril(
        prose(what), prose("It goes faster than a hand."), prose("Stand to one side."),
        wear=(prose("face shield"), prose("gloves, snug")) if word != "notice" else (),
        away=(prose("anybody under 16"),) if word == "danger" else (),
        age=prose("Not under 16 years of age.") if word == "warning" else Prose(),
        only=ASH if word == "caution" else EVERY,
    ),))
    for word, what in (("danger", "The blank flies"), ("warning", "The lathe takes what hangs loose"),
                       ("caution", "Shavings are hot"), ("notice", "Wet wood splits"), ("hazard", "Dust"))
)

STEPS = (
    StepView(
        anchor="rough", number=1, do=say("Turn it round, from the {} inwards.", Prose((GlossaryWord("rim", "rim"),))),
        reasons=(prose("a blank out of round shakes the gouge out of the hand"),), when=(prose("Each bowl"),),
        first=SIGNALS[:1], blocks=(
            Points(items=(
                item("Rest the heel first.", "the edge digs in when it lands alone"),
                item("For oil leave the rim thick.", "oil softens it", "a thin rim warps", only=OILED,
                     tail=("As Ines does it.",)),
                item("Ash only: across the rings.", only=ASH),
            )),
            Settings(items=(item("900 rev/min", lead="Speed"), item("3 mm", "a long reach shakes", lead="Tool rest"))),
            Meanwhile(items=(item("Hone the gouge.", "a blunt one tears", lead="Every 5 min"),)),
            Said(label="Then", words=prose("Leave it overnight."), only=PEAR_AND_OIL),
            Feel(sense="By ear.", ask=prose("What does the cut say?"),
                 reasons=(prose("the eye comes too late"),), sides=(
                FeelSide(True, prose("it hisses"), prose("An even hiss.")),
                FeelSide(False, prose("it knocks"), prose("It is out of round."), shot("bowl.jpg", "Out of round."))),
                how=(prose("Every bowl."),)),
            Questions(items=(say("{} Which wood sings?", UNTOLD),)),
        ),
    ),
    StepView(
        anchor="true", number=2, do=prose("Bring the wall down to thickness."), blocks=(
            Gauge(what=prose("Wall"), value=prose("6 ±0.5 mm"), other="1/4 in", how=(prose("Calipers, every bowl."),),
                  low=side("Below 5.5 mm", "Too thin: to the firewood."), good=side("5.5 to 6.5 mm", "Go on."),
                  high=side("Above 6.5 mm", "Another pass."), anchor="wall", reasons=(prose("a thin wall warps"),)),
            Gauge(what=prose("Foot"), value=prose("at most 60 mm"), good=side("Up to 60 mm", "Go on."),
                  high=GaugeSide(prose("Above 60 mm"), UNTOLD)),
            Gauge(what=prose("Depth"), value=DISPUTED),
            Gauge(what=say("{}, counted from the last cut", toned("lead", "Oiling")), value=prose("1 h to 24 h"),
                  low=side("Before 1 h", "The dust still settles."), good=side("1 h to 24 h", "In time."),
                  high=side("After 24 h", "Sand it again."), of_time=True),
            Grid(caption=prose("By wood"), columns=("Wood", "Value"),
                 tail=(prose("Between two rows the stricter holds."),),
                 rows=(Row((prose("Pear"), prose("5 mm"))), Row((prose("Ash"), prose("6 mm")), ASH))),
            UsedWork(lead=prose("In short:"), steps=(prose("Oil it."), prose("Wipe it.")),
                 brings=(prose("Skill: oiling."),)),
            Back(words=say("{} from {} until it is still. Usually once, at most 3 times.", toned("lead", "Again"),
                           STEP_1),
                 reasons=(prose("it moves as it dries"),)),
            Stop(lead="Done when", stages=(prose("the light of the lamp runs round the rim without a break."),)),
            Stop(lead="Done when", stages=(prose("it hisses."), prose("it is quiet."))),
        ),
    ),
)

VALUES = {
    "signals": SIGNALS, "steps": STEPS, "never": NeverBlock(items=(
        item("Never brake the chuck with the hand.", tail=("It looks slow and is not.",)),
        item("Never oil it wet.", only=OILED))),
    "pictures": Pictures(shots=(
        shot("bowl.jpg", "The bowl on the lathe.", marks=MARKS, only=ASH),
        shot("first-cut.mp4", "The first cut.", "The gouge lies on its heel; the hand follows the rim.", MARKS[:1]),
        shot("hiss.ogg", "The sound of a true bowl.", "An even hiss without a knock."),
        shot("lost.tif", "The old lathe."))),
}

"""Rules on what was copied or left out by a slip."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.steps import number_of
from site_builder.checks.rules.values.tables import Rows, every_rows
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import Loop
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.shop import Part
from site_builder.notebook.model.small import MaterialUse, ToolUse
from site_builder.notebook.model.things import Material
from site_builder.notebook.nearest import did_you_mean, nearest
from site_builder.notebook.references import all_steps
from site_builder.notebook.tree import Text


def id_again(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for own in nb.procedures.values():
        steps = all_steps(own)
        yield from _again("step", (step.id for step in steps), str(own.id))
        yield from _again("trouble", (one.id for work in (own, *steps) for one in work.troubles), str(own.id))
    for skill in nb.skills.values():
        yield from _again("item of the checklist", (show.id for show in skill.checklist), str(skill.id))
    for id_, thing in nb.things.items():
        yield from _again("piece of upkeep", (one.id for one in thing.upkeep), id_)


def _again(what: str, ids: Iterable[Text | None], about: str) -> Iterator[Found]:
    first: dict[str, Text] = {}
    for id_ in ids:
        if id_ is None:
            continue
        before = first.setdefault(str(id_), id_)
        if before is not id_:
            yield Found(
                id_.at, f"`{id_}` is the id of the {what} on line {before.at.line} already.",
                "Give this one an id of its own, and look whether what points here means it or the other.", about,
            )


ID_AGAIN = Rule(
    "id-again", Level.ERROR, "Two steps, troubles or items of a checklist on one page with the same id.",
    "Whatever points at the id leads to the first of them, and nothing ever leads to the second.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
✓   - {id: try, do: Try it on the plate.}
✗   - {id: ▸sweep, do: Try it on the plate.}
✗ troubles:
✗   - {id: hollow, sign: A dark stripe is left., do: Two more passes.}
✗   - {id: ▸hollow, sign: It rocks., do: Take it to the plate.}
""", id_again,
)


def step_empty(analysis: Analysis) -> Iterator[Found]:
    for own in analysis.notebook.procedures.values():
        told = [finding.at.line for finding in analysis.reading if finding.at.path == own.at.path]
        if not own.steps and not told and "steps" not in own.asked:
            yield Found(
                own.procedure.at, f"“{own.title}” has no steps.", "Write under `steps:` what the hands do, one a line.",
                str(own.id),
            )
        for step, last in _with_ends(own):
            says = step.do is not None or step.use is not None or not step.asked.isdisjoint(("do", "use"))
            # what was taken out with a slip in it is told already
            if not says and not any(step.at.line <= line < last for line in told):
                yield Found(
                    step.at, "Nothing is said of what is done in this step.",
                    "Add `do:` with what the hands do, or `use:` with a procedure that is done here.", str(own.id),
                )


def _with_ends(own: Procedure) -> Iterator[tuple[Step, float]]:
    """Each step with the line on which the next one begins."""
    steps = sorted(all_steps(own), key=lambda step: step.at)
    for number, step in enumerate(steps, 1):
        end = steps[number].at.line if number < len(steps) else float("inf")
        yield step, max(end, step.at.line + 1)


STEP_EMPTY = Rule(
    "step-empty", Level.WARNING, "A step that says neither what is done nor which procedure is used.",
    "The learner stands there with the piece in the hand, and the page has nothing to say.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
✓   - {id: try, do: ask}
✗   - ▸{id: try, points: Do not press.}
""", step_empty,
)


def repeat_ahead(analysis: Analysis) -> Iterator[Found]:
    for link in analysis.references.links:
        own = link.place.procedure
        if link.key != "from_" or not isinstance(link.place.entry, Loop) or own is None or link.target is None:
            continue
        here, there = number_of(own, link.place.step), number_of(own, link.target.step)
        if link.target.id == link.place.owner_id and here is not None and there is not None and there > here:
            yield Found(
                link.at, f"One goes back to repeat, but `{link.text}` stands below this step.",
                "Name the step from which the round begins: this one, or one above it.", link.place.owner_id,
            )


REPEAT_AHEAD = Rule(
    "repeat-ahead", Level.ERROR, "A loop that begins with a step further down.",
    "Nobody can go back to what has not been done yet; what lies between would be left out.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
✓   - {id: try, do: Try it on the plate., repeat: {from: sweep, times: max 3}}
✗   - {id: try, do: Try it on the plate., repeat: {from: ▸rack, times: max 3}}
  - {id: rack, do: Rack it.}
""", repeat_ahead,
)


def refuses_itself(analysis: Analysis) -> Iterator[Found]:
    for tool, place in analysis.index.of(ToolUse):
        yield from _use(tool.tool, tool.or_, tool.not_, place.owner_id)
    for material, place in analysis.index.of(MaterialUse):
        yield from _use(material.material, material.or_, material.not_, place.owner_id)
    for id_, thing in analysis.notebook.things.items():
        for other in thing.members:
            if other == id_:
                yield Found(other.at, f"`{other}` is a group and its own member.", "Take it out of `members`.", id_)
        for other in thing.apart if isinstance(thing, Material) else ():
            if other == id_:
                yield Found(
                    other.at, f"`{other}` is to be kept apart from itself.",
                    "Name under `apart` what must not come near it.", id_,
                )
    for part, place in analysis.index.of(Part):
        for other in part.of:
            if other == place.name:
                yield Found(
                    other.at, f"`{other}` is put together from itself.",
                    "Name under `of` the parts that it is made of.", str(place.name),
                )


def _use(taken: Text, others: tuple[Text, ...], refused: tuple[Text, ...], about: str) -> Iterator[Found]:
    for other in refused:
        if other == taken or other in others:
            yield Found(
                other.at, f"`{other}` is taken here and refused in the same breath.",
                "Name under `not` what must not be taken in its place.", about,
            )
    for other in others:
        if other == taken:
            yield Found(
                other.at, f"`{other}` is to stand in for itself.",
                "Name under `or` what will do when there is none of it.", about,
            )


REFUSES_ITSELF = Rule(
    "refuses-itself", Level.ERROR, "A thing that refuses, replaces or holds itself.",
    "One of the two names is a slip, and the one that was meant is not told.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
✓ materials: {material: filler, not: car-filler}
✗ materials: {material: filler, not: ▸filler}
steps: Press the filler in.
=== tools/materials/filler.yml
material: filler
title: Filler
✓ === tools/materials/car-filler.yml
✓ material: car-filler
✓ title: Filler for cars
✗ apart: ▸filler
""", refuses_itself,
)


def finds_apart(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for own in nb.procedures.values():
        variants = {**(nb.shop.variants if nb.shop is not None else {}), **own.variants}
        declared = {str(name): [str(value) for value in variant.values] for name, variant in variants.items()}
        for work in (own, *all_steps(own)):
            for name, shown in work.finds.items():
                values = declared.get(str(name), [])
                for value in shown:
                    if values and value not in values:
                        listed = ", ".join(f"`{one}`" for one in values)
                        yield Found(
                            value.at, f"The work shows `{value}`, but `{name}` is declared as {listed}.",
                            f"{did_you_mean(nearest(value, values))}Write one of its values, or add it to them.",
                            str(own.id),
                        )
                lacking = [value for value in values if value not in shown]
                if lacking and all(value in values for value in shown):
                    listed = " and ".join(f"`{one}`" for one in lacking)
                    yield Found(
                        name.at, f"How does one see {listed}? The work decides `{name}`, and shows nothing of it.",
                        f"Add `{lacking[0]}:` with its sign, or take it out of the values.", str(own.id),
                    )


FINDS_APART = Rule(
    "finds-apart", Level.ERROR, "What the work finds out is not what was declared.",
    "A value that nothing declares is never met again, and one that nothing shows is never chosen.",
    """\
=== procedures/pipe/solder-pipe.yml
procedure: solder-pipe
title: Solder the pipe
variants: {seam: {values: [clean, gapped]}}
steps:
  - do: Hold it against the light.
✓     finds: {seam: {clean: No light., gapped: A thread of light.}}
✗     finds: {seam: {clean: No light., ▸open: A thread of light.}}
✗   - do: Hold it against the lamp.
✗     finds: {▸seam: {clean: No light.}}
""", finds_apart,
)


def row_left_out(analysis: Analysis) -> Iterator[Found]:
    for rows in every_rows(analysis):
        values = _values(analysis, rows)
        lacking = [value for value in values if value not in rows.names]
        if not lacking or rows.by is None or _has_unread_row(analysis, rows):
            continue
        if all(name in values for name in rows.names):
            listed = " and ".join(f"`{value}`" for value in lacking)
            yield Found(
                rows.names[0].at, f"The table has no row for {listed}.",
                f"Add `{lacking[0]}:` with its value, or `{lacking[0]}: ask`.", rows.place.owner_id,
            )


def _has_unread_row(analysis: Analysis, rows: Rows) -> bool:
    """Whether a row could not be read, and so was taken out: that is told already, and it is not missing."""
    first, last = min(name.at for name in rows.names), max(name.at for name in rows.names)
    return any(
        found.level is Level.ERROR and found.at.path == first.path and first.line - 1 <= found.at.line <= last.line + 1
        for found in analysis.reading
    )


def _values(analysis: Analysis, rows: Rows) -> list[str]:
    """The values that the name of the table can have here; none where it is not declared, or only some are meant."""
    nb = analysis.notebook
    if rows.by is None or not rows.names:
        return []
    name = str(rows.by.name)
    for place in rows.place.up():
        if any(name in choice for choice in place.entry.for_):
            return []
    own = rows.place.procedure
    variants = {**(nb.shop.variants if nb.shop is not None else {}), **(own.variants if own is not None else {})}
    return next(([str(value) for value in v.values] for key, v in variants.items() if key == name), [])


ROW_LEFT_OUT = Rule(
    "row-left-out", Level.WARNING, "A table without a row for one of the variants.",
    "For the piece of that variant there is no value, and whoever stands there takes the nearest one.",
    """\
=== procedures/shop.yml
shop: lanterns
title: Lanterns
variants: {pattern: [harbour, deck]}
✓ parts: {foot: {title: Foot, sizes: {volume: {by: pattern, is: {harbour: 183 cm³, deck: 216 cm³}}}}}
✗ parts: {foot: {title: Foot, sizes: {volume: {by: pattern, is: {▸harbour: 183 cm³}}}}}
""", row_left_out,
)

"""What a card for the bench tells of a procedure: what the hands need there. Reasons stand in the book."""

from __future__ import annotations

from dataclasses import dataclass, replace

from site_builder.views.blocks import Block, Grid, Item, NeverBlock, Said, Signal, StepView
from site_builder.views.choice import VariantChoice
from site_builder.views.docket import Row
from site_builder.views.hazard import gathered_signals
from site_builder.views.procedure import ProcedureView
from site_builder.views.prose import Case, Linked, Piece, Prose, Toned, merged
from site_builder.views.scope import ProcedureScope

_HEAD = ("Skill", "Age", "Only after", "Time for one", "Time for a load", "Time", "Goes through", "When", "Hands",
         "Where", "May be left out")
"""What of the head of the page goes on a card: nothing that changes with the books or with the plan. What it
comes after stands on its own."""
_ELSEWHERE = ("Goes wrong", "Takes", "Loss", "Skill")
"""Lines of a step that stand on the card in another place, or only in the book."""


@dataclass(frozen=True, slots=True)
class CardView:
    """The sections of a card, in order."""

    title: str
    parts: Prose
    before: tuple[Prose, ...]
    after: tuple[Prose, ...]
    rows: tuple[Row, ...]
    wear: tuple[tuple[Prose, Prose], ...]
    signals: tuple[Signal, ...]
    untold: tuple[Prose, ...]
    never: NeverBlock | None
    sheets: tuple[Prose, ...]
    ready: tuple[tuple[str, tuple[Prose, ...]], ...]
    ready_blocks: tuple[Block, ...]
    looks: tuple[Item, ...]
    choices: tuple[VariantChoice, ...]
    all_through: tuple[Block, ...]
    steps: tuple[StepView, ...]
    judged_title: str
    judged: tuple[Block, ...]
    wrong: Grid | None
    last: tuple[Block, ...]


def card_view(scope: ProcedureScope, told: ProcedureView) -> CardView:
    """``told`` is what the procedure tells in full."""
    whole, ready = told.whole, told.ready
    return CardView(
        title=told.title, parts=told.parts, before=told.before, after=told.after,
        rows=tuple((name, _until(words, ";")) for name, words in told.rows
                   if name in _HEAD and not (name == "Only after" and told.before)),
        wear=whole.wear if whole is not None else (), signals=gathered_signals(scope, in_brief=True),
        untold=whole.untold if whole is not None else (),
        never=_bare_nevers(whole.never) if whole is not None and whole.never is not None else None,
        sheets=whole.sheets if whole is not None else (),
        ready=tuple((name, tuple(map(_without_asides, items))) for name, items in ready.groups) if ready else (),
        ready_blocks=_bare(ready.blocks) if ready is not None else (),
        looks=tuple(map(_bare_item, ready.looks)) if ready is not None else (), choices=told.choices,
        all_through=_bare(told.all_through),
        steps=tuple(replace(one, reasons=(), first=_bare(one.first), blocks=_bare(one.blocks)) for one in told.steps),
        judged_title=told.judged_title, judged=_bare(told.judged),
        wrong=told.wrong.ledger if told.wrong is not None else None, last=_bare(told.last),
    )


def _bare(blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    """Without reasons, without what stands elsewhere on the card, without questions."""
    return tuple(_bare_block(one) for one in blocks if one.kind != "questions"
                 and not (isinstance(one, Said) and one.label in _ELSEWHERE))


def _bare_block(block: Block) -> Block:
    if isinstance(block, NeverBlock):
        return _bare_nevers(block)
    items = getattr(block, "items", None)
    if items is not None:
        return replace(block, reasons=(), items=tuple(map(_bare_item, items)))  # type: ignore[call-arg]
    inner = getattr(block, "blocks", None)
    if inner is not None:
        return replace(block, reasons=(), blocks=_bare(inner))  # type: ignore[call-arg]
    return replace(block, reasons=())


def _bare_item(item: Item) -> Item:
    return replace(item, reasons=(), blocks=_bare(item.blocks))


def _bare_nevers(block: NeverBlock) -> NeverBlock:
    """Prohibitions without what is told of them besides: an exemption is for who has read the book."""
    return replace(block, items=tuple(replace(one, tail=(), blocks=()) for one in block.items))


def _until(said: Prose, sign: str) -> Prose:
    """What is told before a sign: behind it stands where a figure comes from."""
    for nth, piece in enumerate(said):
        if isinstance(piece, str) and sign in piece:
            return merged((*said[:nth], piece.partition(sign)[0]))
    return said


def _without_asides(said: Prose) -> Prose:
    """What is to be laid ready by name and amount: how long it lasts changes, and a card hangs for years."""
    return merged(_bare_piece(piece) for piece in said if not (isinstance(piece, Toned) and piece.tone == "aside"))


def _bare_piece(piece: Piece) -> Piece:
    if isinstance(piece, Linked):
        return Linked(_without_asides(piece.words), piece.to, _without_asides(piece.otherwise))
    if isinstance(piece, Case):
        return Case(piece.only, _without_asides(piece.words))
    return piece



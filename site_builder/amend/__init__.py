"""Amendments: a change to the notebook as a value, spliced into the bytes, read back, kept, and taken back.

Nothing here knows of pages or questions. A face makes an ``Amendment`` (``make``), may ask what would come of it
(``plan``), has it written (``write``), lists what was written (``history``) and takes it back (``take_back``)::

    root, file = Path("shop"), "procedures/foot/true-the-sole.yml"
    was = look_up(tree_in(root, file), ("steps", 2, "do"))
    outcome = write(root, change("The words of a step", file, ("steps", 2, "do"), was, "Press lightly."), "edda", now)

``Written`` is on the disk. ``Conflict`` shows what stands there by now, ``Refused`` says in trade words what could not
be changed, and names the line for whoever mends files; after both the notebook is as it was.
"""

from site_builder.amend.amendment import Amendment, Change, Plain, Renaming, TreePath, Words, look_up, plain
from site_builder.amend.grammar import entry_at, main_key, writing_order
from site_builder.amend.history import Kept, history, kept
from site_builder.amend.make import (
    add_item,
    add_key,
    change,
    clean,
    id_for,
    join_steps,
    move_item,
    new_file,
    remove,
    remove_file,
    remove_item,
    split_step,
    tree_in,
)
from site_builder.amend.outcome import Conflict, FileChange, Refused, Splices, Written
from site_builder.amend.plan import plan, plan_bytes
from site_builder.amend.rename import CannotRename, rename, rename_step
from site_builder.amend.take_back import take_back
from site_builder.amend.write import write

__all__ = [
    "Amendment", "CannotRename", "Change", "Conflict", "FileChange", "Kept", "Plain", "Refused", "Renaming", "Splices",
    "TreePath",
    "Words", "Written", "add_item", "add_key", "change", "clean", "entry_at", "history", "id_for", "join_steps", "kept",
    "look_up", "main_key", "move_item", "new_file", "plain", "plan", "plan_bytes", "remove", "remove_file",
    "remove_item", "rename", "rename_step", "split_step", "take_back", "tree_in", "write", "writing_order",
]

"""On what a page depends: the key of a procedure, or of the study of a skill, stays only if the page would.

A page tells its own file and those of the shared procedures it uses in full. It takes figures from any file
that is named with a path (``grind-foot/flatness``), and facts from each thing that is named. Of a procedure that
is merely named it tells the title, the address and the number of a step, and of one that names it the same.
What is worked out from the whole notebook (who may do it, what is still to be asked, the trade's figures) goes
into the key as it is told. Whatever could be named anywhere in a file counts as named: rather a page made once
too often than one left as it was.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from functools import cache, cached_property
from hashlib import blake2b
from pathlib import Path

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.site import Site
from site_builder.notebook.finding import Level
from site_builder.notebook.gather import used_procedures
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.picture_paths import picture_path
from site_builder.notebook.references import all_steps, step_of
from site_builder.skills.ledger import LEVELS
from site_builder.views.docket import first_batch

PACKAGE = Path(__file__).parent.parent
_APART = bytes(letter if chr(letter) in "abcdefghijklmnopqrstuvwxyz0123456789-" else 32 for letter in range(256))
_PATH = re.compile(rb"([a-z][a-z0-9-]*)\s*/\s*([a-z0-9-]*)(\s*/)?")
_SIZE = 16  # bytes of a digest


class PageKeys:
    """The keys of the pages of one book. A file is told by its path in the notebook."""

    def __init__(self, site: Site) -> None:
        self.book = site
        self.notebook = site.notebook
        self._keys: dict[str, str] = {}

    def key(self, kind: str, id_: str) -> str:
        """What must be the same for the page of a procedure or the study of a skill to be the same.

        Empty if that cannot be told.
        """
        return self._of_procedure(id_) if kind == "procedure" else self._of_skill(id_)

    def _of_skill(self, id_: str) -> str:
        """Its study tells of the work that the skill covers, and of nothing of which the pages of that do not."""
        skill = self.notebook.skills[id_]
        keys = [self._of_procedure(str(one)) for one in skill.covers if str(one) in self.notebook.procedures]
        text = self._texts.get(skill.at.path)
        if text is None or not all(keys):
            return ""
        others = sorted(self._named[skill.at.path])
        named = b"".join(self._faces.get(path) or self._texts.get(path, b"") for path in others)
        marks = self._marks.get(skill.at.path, b"")
        return blake2b(f"study {id_} {keys}".encode() + text + marks + named, digest_size=_SIZE).hexdigest()

    def _of_procedure(self, id_: str) -> str:
        known = self._keys.get(id_)
        if known is None:
            known = self._keys[id_] = self._key(id_)
        return known

    def _key(self, id_: str) -> str:
        own = self.notebook.procedures[id_]
        digest = blake2b(self._common, digest_size=_SIZE)
        named = set(self._named[self._shop])
        for path in sorted(self._reached(own.at.path)):
            text = self._texts.get(path)
            if text is None:
                return ""
            for part in (path.encode(), text, self._marks.get(path, b""), self._pictures.get(path, b"")):
                digest.update(b"%d " % len(part) + part)
            named |= self._named[path]
        for path in sorted(named):
            digest.update(self._faces.get(path, b""))
        for told in self._worked_out(id_, own):
            digest.update(told)
        return digest.hexdigest()

    # ------------------------------------------------------------------ files and what they name

    def _reached(self, path: str) -> set[str]:
        """The files of which the page may tell more than a name."""
        found: set[str] = set()
        todo = [path, self._shop]
        while todo:
            one = todo.pop()
            if one not in found:
                found.add(one)
                todo += self._leads.get(one, ())
        return found

    @cached_property
    def _shop(self) -> str:
        """The file of the shop, of which every page may tell."""
        return self.notebook.shop.at.path if self.notebook.shop is not None else ""

    @cached_property
    def _shelves(self) -> tuple[Mapping[str, Entry], ...]:
        nb = self.notebook
        return nb.procedures, nb.tools, nb.materials, nb.skills, nb.changes, nb.orders

    @cached_property
    def _texts(self) -> Mapping[str, bytes]:
        """What stands in the files; one that cannot be read is left out."""
        found = {"": b""}
        for path in {self._shop, *(entry.at.path for shelf in self._shelves for entry in shelf.values())}:
            try:
                found[path] = (self.notebook.root / path).read_bytes() if path else b""
            except OSError:
                continue
        return found

    @cached_property
    def _homes(self) -> Mapping[bytes, frozenset[str]]:
        """Id to the files of the things that have it."""
        found: dict[bytes, set[str]] = defaultdict(set)
        for shelf in self._shelves:
            for id_, entry in shelf.items():
                found[id_.encode()].add(entry.at.path)
        return {id_: frozenset(paths) for id_, paths in found.items()}

    @cached_property
    def _named(self) -> Mapping[str, frozenset[str]]:
        """The files of all that a file names, in whatever place."""
        ids, homes = self._homes.keys(), self._homes
        return {
            path: frozenset(home for id_ in ids & set(text.translate(_APART).split()) for home in homes[id_])
            for path, text in self._texts.items()
        }

    @cached_property
    def _leads(self) -> Mapping[str, frozenset[str]]:
        """From each file to those that belong to what it tells."""
        nb = self.notebook
        procedures = {own.at.path for own in nb.procedures.values()}
        leads: dict[str, set[str]] = defaultdict(set)
        # of a skill, a change or an order pages tell its title and its age, and nothing that it names
        for path in procedures | {thing.at.path for thing in nb.things.values()} | {self._shop}:
            text = self._texts.get(path, b"")
            leads[path] |= self._named.get(path, frozenset()) - procedures
            for id_, name, deeper in _PATH.findall(text) if b"/" in text else ():
                if deeper or not self._is_step(id_.decode(), name.decode()):
                    leads[path] |= self._homes.get(id_, frozenset())
        for id_, groups in nb.groups.items():
            if id_ in nb.things:
                leads[nb.things[id_].at.path] |= {nb.things[group].at.path for group in groups}
        for own in nb.procedures.values():
            leads[own.at.path] |= {used.at.path for used in used_procedures(nb, own)}
        return {path: frozenset(others) for path, others in leads.items()}

    def _is_step(self, id_: str, name: str) -> bool:
        """Whether ``id_/name`` is the way to a step, as after ``then``, and surely not to a figure."""
        own = self.notebook.procedures.get(id_)
        if own is None or step_of(own, name) is None:
            return False
        values = self.book.analysis.references.values_in(own, "procedure")
        return not any(value.name.startswith(name) for value in values)

    # ------------------------------------------------------------------ what is not in the files

    @cached_property
    def _faces(self) -> Mapping[str, bytes]:
        """What a link to a procedure shows: its address, its title, the places and numbers of its steps."""
        book = self.book
        return {
            own.at.path: repr((
                own.at.path, id_, str(own.title), [(book.anchor(s), book.step_name(own, s)) for s in all_steps(own)]
            )).encode()
            for id_, own in self.notebook.procedures.items()
        }

    def _worked_out(self, id_: str, own: Procedure) -> Iterator[bytes]:
        """Who leads here, what comes before and after, who may do it, what can be reckoned."""
        analysis, procedures = self.book.analysis, self.notebook.procedures
        links = [
            (link.key, link.place.owner_id, self.book.anchor(link.place.step) if link.place.step is not None else "",
             link.target.value.name if link.target is not None and link.target.value is not None else "")
            for link in analysis.references.used_in("procedure", id_) if isinstance(link.place.owner, Procedure)
        ]
        before, after = analysis.route.before[id_], analysis.route.after[id_]
        yield repr((links, before, after)).encode()
        for one in sorted({*before, *after, *(link[1] for link in links)}):
            yield self._faces[procedures[one].at.path]
        able = [analysis.holders.able_to_do(own, level) for level in LEVELS]
        yield repr((able, analysis.holders.resting_with(own))).encode()
        if ("procedure", id_) in analysis.figures:
            context = PageContext(self.book, self.book.addresses["procedure", id_])
            yield repr(figure_views(context, "procedure", id_)).encode()

    @cached_property
    def _marks(self) -> Mapping[str, bytes]:
        """Of each file the questions that pages mark, and where they are asked."""
        found: dict[str, set[tuple[int, str]]] = defaultdict(set)
        for finding in self.book.findings:
            if finding.level is Level.QUESTION:
                at = finding.at.path, finding.at.line
                found[at[0]].add((at[1], self.book.question_pages.get(at, "")))
        return {path: repr(sorted(marks)).encode() for path, marks in found.items()}

    @cached_property
    def _pictures(self) -> Mapping[str, bytes]:
        """Of each file the pictures it names, as they were published."""
        found: dict[str, list[object]] = defaultdict(list)
        for picture, place in self.book.analysis.index.of(Picture):
            file = picture_path(self.notebook, picture)
            one = self.book.pictures.get(file) if file is not None else None
            found[place.owner.at.path].append(one and (
                one.kind, one.width, one.height, one.problem, [(f.name, f.width, f.height) for f in one.files]
            ))
        return {path: repr(shown).encode() for path, shown in found.items()}

    @cached_property
    def _common(self) -> bytes:
        """What every page depends on: the people's names, the first order, the stories, units, day and program."""
        nb = self.notebook
        people = [(id_, str(person.name)) for id_, person in nb.people.items()]
        stories = [story.path for story in nb.stories]
        told = (people, first_batch(self.notebook), stories, self.book.system, self.book.analysis.today)
        return blake2b(_program() + repr(told).encode(), digest_size=_SIZE).digest()


@cache
def _program() -> bytes:
    """The program itself: a page made by another one is not to be trusted."""
    digest = blake2b(digest_size=_SIZE)
    for file in sorted(PACKAGE.rglob("*")):
        if file.suffix in (".py", ".j2") and file.is_file():
            digest.update(file.read_bytes())
    return digest.digest()


__all__ = ["PageKeys"]

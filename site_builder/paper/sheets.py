"""Sheets to write on: a checklist, the questions of a sitting, the week for the wall, a sheet for counting."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from site_builder.analysis.analysis import Analysis
from site_builder.checks.interview import Question, Sitting
from site_builder.paper.as_data import AsData
from site_builder.paper.book import shop_data
from site_builder.paper.cards import CardPaper
from site_builder.paper.fonts import font_files, lacking_told, letters_of
from site_builder.paper.pictures import Pictures
from site_builder.paper.press import Press, Printed, sides_of, workplace
from site_builder.paper.problem import CannotPrint
from site_builder.plans.in_hand import plan_in_hand
from site_builder.views.checklist import checklist, shown_items
from site_builder.views.dates import dated_day
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, prose
from site_builder.views.week import week_sheet

_SIZES = {"a4": "a4", "letter": "us-letter"}
_LINES, _LINES_TO_SETTLE = 5, 3
"""Ruled lines for an answer; fewer where two answers are there already and one is to be chosen."""


class Sheets:
    """Makes the sheets of a notebook on one size of paper."""

    def __init__(self, analysis: Analysis, paper: CardPaper = "a4", fonts: Path | None = None) -> None:
        self._analysis = analysis
        self._view = NotebookView(analysis)
        self._paper = paper
        self._fonts = fonts

    def checklist(self, skill: str, learner: str = "") -> Printed:
        """The checklist of a skill, for a learner or for whoever begins. Raises CannotPrint."""
        nb, holders = self._view.notebook, self._analysis.holders
        if not nb.skills[skill].checklist:
            raise CannotPrint(f"The skill `{skill}` has no checklist yet. Write one under `checklist` in its file.")
        signers = [one for one in nb.people if one in holders.signers(skill)]
        told = checklist(self._view, skill, shown_items(holders.ledger.standing), signers)
        name = self._view.title("person", learner) if learner else ""
        sheet = next((one for one in told.papers if one.learner == name), None)
        if sheet is None:
            raise CannotPrint(f"{name} does “{told.name}” alone already, or has not begun: print the sheet without a "
                              "name.")
        proof = nb.skills[skill].proof
        return self._printed("checklist.typ", {
            "title": f"Checklist: {told.name}", "name": told.name, "sheet": sheet, "code": told.code, "age": told.age,
            "teachers": told.teachers,
            "pieces": str(proof.pieces.text) if proof is not None and proof.pieces is not None else ""})

    def interview(self, sittings: Sequence[Sitting], who: str) -> Printed:
        """The questions for one person, each sitting on pages of its own. Raises CannotPrint."""
        number, told = 0, []
        for sitting in sittings:
            questions = []
            for question in sitting.questions:
                number += 1
                questions.append(self._question(number, question))
            told.append({"title": self._view.words(sitting.title, glossary=False), "questions": questions,
                         "probes": [self._view.words(probe, glossary=False) for probe in sitting.probes]})
        return self._printed("interview.typ", {"title": f"Questions for {who}", "who": who, "sittings": told})

    def _question(self, number: int, question: Question) -> dict[str, Any]:
        words = self._view.words
        return {"number": number, "text": words(question.text, glossary=False),
                "why": words(question.why, glossary=False), "at": f"{question.at.path}, line {question.at.line}",
                "said": [(self._view.person(who), words(what, glossary=False)) for who, what in question.said],
                "lines": _LINES_TO_SETTLE if question.said else _LINES}

    def week(self) -> Printed:
        """The week of the plan in hand, for the wall. Raises CannotPrint."""
        season = plan_in_hand(self._analysis)
        if season is None:
            raise CannotPrint("No season is planned. `benchlore season plan ORDER` makes a plan.")
        week = week_sheet(self._view, season)
        if week is None:
            raise CannotPrint("Nothing more is planned: the plan in hand is over. `benchlore season plan ORDER` makes "
                              "a new one.")
        return self._printed("week.typ", {
            "title": f"The week of {dated_day(week.monday)}", "until": dated_day(week.sunday), "people": week.people})

    def count(self, procedure: str = "") -> Printed:
        """A blank sheet for counting, as the book of practice wants it; of one procedure, or of any. Raises
        CannotPrint."""
        title = self._view.title("procedure", procedure) if procedure else ""
        own = self._view.notebook.procedures.get(procedure)
        signs = [trouble.sign for trouble in own.troubles] if own is not None else []
        signs += [trouble.sign for step in own.steps for trouble in step.troubles] if own is not None else []
        return self._printed("count.typ", {
            "title": f"Counting: {title}" if title else "Counting", "work": title, "procedure": procedure,
            "signs": [self._sign(sign) for sign in signs if sign is not None][:7]})

    def _sign(self, sign: str) -> Prose:
        return prose(self._view.plain(sign).rstrip("."))

    def _printed(self, template: str, told: dict[str, Any]) -> Printed:
        with workplace() as folder:
            files = font_files(self._fonts)
            press = Press(Path(folder), files, self._analysis.today)
            letters, pictures = letters_of(files), Pictures(press.pictures, press.shows)
            as_data = AsData(letters, pictures.of)
            as_data.turn_to("", str(told["title"]))
            data = {**shop_data(self._view, as_data, letters), "paper": _SIZES[self._paper],
                    **{name: as_data.of(view) for name, view in told.items()}}
            press.lay_out(data)
            made = press.pull(template)
        return Printed(made, sides_of(made), tuple(filter(None, (lacking_told(letters.lacking),))))


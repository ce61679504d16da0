"""A question about the season that is being answered: on a thread of its own, since the answer takes a minute."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from threading import Event, Thread, current_thread

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.plans.make import Made, make
from site_builder.plans.wanted import CannotPlan, wants
from site_builder.plans.what_if import CannotAsk, Otherwise, beside
from site_builder.season.engine import EngineMissing
from site_builder.season.spans import Circle


class SeasonAsked:
    """Can these hands deliver ``order``; with ``otherwise``, the season beside itself as it stands."""

    def __init__(self, root: Path, today: date, order: str, otherwise: Otherwise | None = None) -> None:
        self.root, self.today, self.order, self.otherwise = root, today, order, otherwise
        self.known: Analysis | None = None
        """The notebook as it was when it was asked."""
        self.steps: list[str] = []
        """What was looked into so far, in words."""
        self.made: Made | None = None
        self.told: tuple[str, str] | None = None
        """As it stands, and otherwise."""
        self.wrong = ""
        """Why there is no answer."""
        self.kept = ""
        """The file in which the plan was kept."""
        self.done = Event()
        self._stop = False
        self._own = Thread(target=self._answer, daemon=True)
        self._own.start()

    def stop(self) -> None:
        """Go no further than what is being looked into: the best so far is the answer."""
        self._stop = True

    def _say(self, what: str) -> None:
        if not what[:1].isupper():
            return  # how far a search is, in the engine's own numbers
        self.steps.append(what)
        if self._stop and current_thread() is self._own:
            raise KeyboardInterrupt

    def _answer(self) -> None:
        try:
            self.known = known = analysis(self.root, self.today)
            if self.otherwise is not None:
                self._say("Both seasons by the quick rule")
                self.told = beside(known, self.order, self.otherwise)
            else:
                self.made = make(known, wants(known, self.order), None, self._say)
        except (CannotPlan, CannotAsk) as problem:
            self.wrong = str(problem)
        except EngineMissing as problem:
            self.wrong = f"{problem}. Everything else works without it."
        except Circle as problem:
            self.wrong = f"These wait for each other and cannot be planned: {', '.join(problem.works)}."
        except KeyboardInterrupt:
            self.wrong = "It was stopped before there was a plan."
        except BaseException:
            self.wrong = "It could not be planned, by a fault of the program. `benchlore season plan` tells more."
            raise
        finally:
            self.done.set()

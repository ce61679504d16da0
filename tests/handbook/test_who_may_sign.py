"""Who may sign, who holds and who may teach: the law, the rules, the pages and the plan of lessons say the same.

Edda and Orla founded the shop; Orla has left. Filing is taught by Tilde and done alone by Josk and Edda. Casting is
done alone by Josk, and its teacher, Havel, has left. Polishing nobody was ever signed to teach; Josk does it alone.
What Tilde may teach of dipping has rested since 2025, for want of practice.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from expectation import book_written, page
from markupsafe import Markup

from site_builder.analysis.analysis import Analysis
from site_builder.checks.engine import examine
from site_builder.cli.signing import sign_off_of
from site_builder.handbook.pages.checklist import checklist_sheet
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.handbook.site import Site
from site_builder.skills.breach import Article
from site_builder.skills.loss import without

BEFORE = "\noverride: There was no book before."
SIGNED = [
    "orla tilde filing teaches", "edda josk filing alone", "tilde edda filing alone", "orla havel casting teaches",
    "havel josk casting alone", "edda josk polishing alone", "orla tilde dipping teaches", "edda josk dipping alone",
]
SHOP = """\
=== skills/people.yml
people:
  edda: {name: Edda Corvane, founding: yes}
  orla: {name: Orla Fenn, founding: yes, left: 2024-12-31}
  havel: {name: Havel Brask, left: 2024-12-31}
  tilde: {name: Tilde Marrash}
  josk: {name: Josk Lund}
  ansa: {name: Ansa Pellery}
=== skills/filing.yml
skill: filing
title: Filing
checklist: {id: piece, show: A piece.}
=== skills/casting.yml
skill: casting
title: Casting
checklist: {id: piece, show: A piece.}
=== skills/polishing.yml
skill: polishing
title: Polishing
checklist: {id: piece, show: A piece.}
=== skills/dipping.yml
skill: dipping
title: Dipping
checklist: {id: piece, show: A piece.}
covers: dip
refresh: {is: 12 mo, for: {level: teaches}}
=== procedures/dip.yml
procedure: dip
title: Dip
steps: Dip it.
=== skills/records/practice.yml
practice: 1
who: tilde
date: 2024-02-01
procedure: dip
pieces: 1
=== skills/records/sign-offs.yml
""" + "".join(
    "---\nsign-off: {}\nwho: {}\nlearner: {}\nskill: {}\nlevel: {}\ndate: 2024-01-02{}\n".format(
        number, *said.split(), BEFORE) for number, said in enumerate(SIGNED, 1))

MAY_SIGN = {"filing": ["edda", "tilde"], "casting": ["edda"], "polishing": ["edda"], "dipping": ["edda"]}
HOLDS = {"filing": ["edda", "josk", "tilde"], "casting": ["josk"], "polishing": ["edda", "josk"], "dipping": ["josk"]}
MAY_TEACH = {"filing": ["edda", "tilde"], "casting": [], "polishing": ["edda"], "dipping": []}
"""Who may sign a skill as a founder, and does not do it, shows nobody how."""


@pytest.fixture
def shop(tmp_path: Path) -> Site:
    return book_written(SHOP, tmp_path)


def test_the_book_is_lawful(shop: Site) -> None:
    assert shop.analysis.law.breaches == ()


def lets(analysis: Analysis, who: str, skill: str) -> bool:
    """Whether the law lets somebody sign for Ansa, today."""
    entry = sign_off_of(analysis, {"who": who, "date": analysis.today.isoformat(), "learner": "ansa", "skill": skill,
                                   "level": "beside"})
    against = {breach.article for breach in analysis.law.judge_next(entry)}
    return against.isdisjoint((Article.SIGNER, Article.SELF))


def test_who_may_sign_is_one_account(shop: Site) -> None:
    index, people = PeopleIndex(shop), shop.analysis.notebook.living
    for skill, expected in MAY_SIGN.items():
        assert [who for who in sorted(people) if lets(shop.analysis, who, skill)] == expected
        assert sorted(shop.analysis.holders.signers(skill)) == expected
        assert sorted(index.signers[skill]) == expected
        sheet = checklist_sheet(index, skill)
        assert sheet is not None
        may = sheet.html.split("These may sign:")[1].split("</p>")[0]
        assert [who for who in sorted(people) if str(people[who].name) in may] == expected


def test_who_holds_and_who_may_teach_is_one_account(shop: Site) -> None:
    index = PeopleIndex(shop)
    known = index.knowledge
    assert {skill: sorted(able) for skill, able in known.able.items()} == {s: HOLDS[s] for s in known.able}
    assert {skill: sorted(able) for skill, able in known.teachers.items()} == {s: MAY_TEACH[s] for s in known.able}
    assert {skill: sorted(people) for skill, people in index.teachers.items()} == {s: MAY_TEACH[s] for s in known.able}
    # a skill whose line is broken is told by the rule, and is untaught on the pages, with Josk or without
    broken = sorted(found.about for found in examine(shop.analysis) if found.code == "teacher-none")
    assert broken == sorted(skill for skill, people in MAY_TEACH.items() if not people)
    assert "filing" in without(known, ["edda", "tilde"]).untaught


def test_each_page_says_it(shop: Site) -> None:
    def words(src_uri: str) -> str:
        return str(Markup(page(hand_pages, shop, src_uri).html).striptags())

    assert "Edda may sign for every skill." in words("the-hands/people/edda.md")
    assert "may sign for every skill" not in words("the-hands/people/orla.md")  # she has left
    assert "May sign for it Edda Corvane as a founder" in words("the-hands/skills/casting.md")
    assert "May sign for it" not in words("the-hands/skills/filing.md")  # she may teach it

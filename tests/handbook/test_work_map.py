"""The map of the work and the lineage, looked at as a reader of the page would: where things stand."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from site_builder.handbook.drawings import (
    Bought,
    Edge,
    Lane,
    Loop,
    Person,
    Stop,
    Taught,
    WorkGraph,
    lineage,
    mark_svg,
    work_in_words,
    work_map,
)
from site_builder.handbook.drawings.flow import flow_of
from site_builder.handbook.drawings.lettering import text_width, wrap
from tests.calls import calls_of

# ------------------------------------------------------------------ a lantern, and reading a drawing


def lantern() -> WorkGraph:
    """A foot and a hood that meet; the hood is spun and annealed by turns and plated elsewhere."""
    lanes = (
        Lane("foot", "Foot", "zinc", "foot.html"),
        Lane("hood", "Hood", "brass sheet", "hood.html"),
        Lane("all", "Lantern", "", "lantern.html"),
    )
    stops = (
        Stop("cast", "Cast the foot", "cast.html", "foot"),
        Stop("grind", "Grind the sole flat", "grind.html", "foot"),
        Stop("cut", "Cut the disc", "cut.html", "hood"),
        Stop("spin", "Spin over the chuck", "spin.html", "hood"),
        Stop("anneal", "Anneal", "anneal.html", "hood"),
        Stop("plate", "At the plater’s", "plate.html", "hood", outside=True),
        Stop("join", "Join foot & hood", "join.html?a=1&b=2", "all"),
        Stop("pack", "Pack", "pack.html", "all"),
    )
    ways = ("cast grind", "cut spin", "spin anneal", "anneal plate", "grind join", "plate join", "join pack")
    edges = tuple(Edge(*way.split()) for way in ways)
    return WorkGraph(
        lanes,
        stops,
        edges,
        (Loop("anneal", "spin", "2 or 3 times"),),
        (Bought("glass", "join"), Bought("wick", "join")),
    )


@dataclass(frozen=True)
class Area:
    words: str
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Area) -> bool:
        aside = self.right <= other.left or other.right <= self.left
        return not (aside or self.bottom <= other.top or other.bottom <= self.top)

    def holds(self, x: float, y: float) -> bool:
        return self.left < x < self.right and self.top < y < self.bottom


# Type sizes in px at the stylesheet's largest, by class and width of the drawing.
SIZES = {
    ("work", "880"): {"lane": 25.0, "st": 19.0, "sub": 16.5},
    ("map", "820"): {"lane": 23.0, "st": 17.0, "sub": 15.5},
    ("map", "328"): {"lane": 23.0, "st": 17.0, "sub": 14.0},
}


def parsed(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def lines_of_text(
    root: ElementTree.Element,
) -> Iterator[tuple[ElementTree.Element, str, ElementTree.Element]]:
    for text in root.iter("text"):
        for line in list(text.iter("tspan")) or [text]:
            yield line, line.text or "", text


def labels(root: ElementTree.Element) -> list[Area]:
    """The field each line of lettering takes, from a third above its baseline's size to below it."""
    sizes = SIZES[(root.get("class") or "").split()[1], root.get("width") or ""]
    areas = []
    for line, words, text in lines_of_text(root):
        size = sizes[text.get("class") or ""]
        # A little less than the estimate, which errs on the large side.
        wide = text_width(words, size) * 0.97
        x, y = float(line.get("x") or 0), float(line.get("y") or 0)
        left = {"start": x, "middle": x - wide / 2, "end": x - wide}[text.get("text-anchor", "start")]
        areas.append(Area(words, left, y - 0.62 * size, left + wide, y + 0.1 * size))
    return areas


def points(way: str) -> list[tuple[float, float]]:
    """Points along a path of upright lines, level lines and curves, a few px apart."""
    x = y = 0.0
    along: list[tuple[float, float]] = []
    for command, rest in re.findall(r"([MVHCqhl])([^MVHCqhl]*)", way):
        values = [float(value) for value in re.findall(r"-?\d+(?:\.\d+)?", rest)]
        start = (x, y)
        if command == "M":
            x, y = values
        elif command in "VH":
            x, y = (x, values[0]) if command == "V" else (values[0], y)
            along += [(start[0] + (x - start[0]) * k / 30, start[1] + (y - start[1]) * k / 30) for k in range(31)]
        elif command == "C":
            (ax, ay, bx, by, x, y) = values
            for k in range(31):
                t = k / 30
                weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
                along.append(
                    (
                        sum(w * v for w, v in zip(weights, (start[0], ax, bx, x), strict=True)),
                        sum(w * v for w, v in zip(weights, (start[1], ay, by, y), strict=True)),
                    )
                )
        elif command == "q":
            x, y = x + values[2], y + values[3]
        else:
            x, y = x + values[0], y + (values[1] if len(values) > 1 else 0.0)
        along.append((x, y))
    return along


def lines(root: ElementTree.Element) -> list[list[tuple[float, float]]]:
    return [points(p.get("d") or "") for p in root.iter("path") if (p.get("class") or "").startswith("stream")]


def loops(root: ElementTree.Element) -> list[list[tuple[float, float]]]:
    return [points(p.get("d") or "") for p in root.iter("path") if p.get("class") == "l thin"]


def hrefs(svg: str) -> list[str]:
    return [link.get("href") or "" for link in parsed(svg).iter("a")]


def written(link: ElementTree.Element) -> str:
    return " ".join("".join(link.itertext()).split())


def check_drawing(svg: str, width: float) -> None:
    """Nothing stands on anything else, everything stands within the width, and work runs downward."""
    root = parsed(svg)
    areas = labels(root)
    for a, b in combinations(areas, 2):
        assert not a.meets(b), f"“{a.words}” and “{b.words}” stand on each other"
    for area in areas:
        assert area.left >= -1 and area.right <= width + 1, f"“{area.words}” leaves the drawing"
    for way in lines(root):
        assert way[-1][1] > way[0][1], "a line runs upward"
        assert all(0 <= x <= width for x, _ in way)
    for way in lines(root) + loops(root):
        for area in areas:
            struck = [place for place in way if area.holds(*place)]
            assert not struck, f"a line runs through “{area.words}” at {struck[:1]}"


# ------------------------------------------------------------------ the map


def test_every_stop_stands_on_the_map_once_and_leads_to_its_page() -> None:
    graph = lantern()
    drawn = work_map(graph)
    for svg in (drawn.wide, drawn.tall):
        for stop in graph.stops:
            assert hrefs(svg).count(stop.href) == 1
        assert {"foot.html", "hood.html", "lantern.html"} <= set(hrefs(svg))
        said = {link.get("href"): written(link) for link in parsed(svg).iter("a")}
        assert said["join.html?a=1&b=2"] == "Join foot & hood"
        assert said["spin.html"] == "Spin over the chuck"


def test_the_drawing_is_a_named_group_of_the_promised_width_without_ids() -> None:
    drawn = work_map(lantern(), label="Map of “the work”")
    for svg, width in ((drawn.wide, "880"), (drawn.tall, "328")):
        root = parsed(svg)
        assert root.get("role") == "group"
        assert (root.get("aria-label") or "").startswith("Map of “the work”")
        assert root.get("width") == width
        assert not [part for part in root.iter() if part.get("id")], "an id could collide on the page"


def test_work_outside_is_a_diamond_and_says_so_to_those_who_do_not_see_it() -> None:
    root = parsed(work_map(lantern()).wide)
    plated = next(link for link in root.iter("a") if link.get("href") == "plate.html")
    assert plated.get("aria-label") == "At the plater’s, done outside"
    assert plated.find("circle") is None
    assert [p for p in plated.iter("path") if p.get("class") == "mark"]
    own = next(link for link in root.iter("a") if link.get("href") == "spin.html")
    assert own.find("circle") is not None


def test_a_part_runs_down_one_upright_line() -> None:
    root = parsed(work_map(lantern()).wide)
    marks = {a.get("href"): c.get("cx") for a in root.iter("a") if (c := a.find("circle")) is not None}
    assert marks["cut.html"] == marks["spin.html"] == marks["anneal.html"]
    assert marks["cast.html"] == marks["grind.html"]
    assert marks["join.html?a=1&b=2"] == marks["pack.html"]


def test_the_loop_is_drawn_beside_the_line_with_its_count() -> None:
    for svg in (work_map(lantern()).wide, work_map(lantern()).tall):
        root = parsed(svg)
        assert loops(root)
        assert "2 or 3 times" in " ".join(re.sub(r"<[^>]+>", " ", svg).split())


def test_what_is_bought_in_comes_on_a_dashed_line() -> None:
    root = parsed(work_map(lantern()).wide)
    assert [p for p in root.iter("path") if p.get("class") == "l thin dash"]
    assert [words for _, words, _ in lines_of_text(root) if words == "glass, wick"]


def test_the_lantern_stands_clear_wide_and_tall() -> None:
    drawn = work_map(lantern())
    check_drawing(drawn.wide, 880)
    check_drawing(drawn.tall, 328)


def test_one_stop_alone_and_no_stop_at_all() -> None:
    alone = WorkGraph((Lane("foot", "Foot"),), (Stop("cast", "Cast", "cast.html", "foot"),))
    drawn = work_map(alone)
    assert hrefs(drawn.wide) == hrefs(drawn.tall) == ["cast.html"]
    assert work_map(WorkGraph((), ())).wide == ""


def test_edges_that_go_in_a_circle_are_drawn_as_a_loop() -> None:
    stops = tuple(Stop(one, one.title(), f"{one}.html", "hood") for one in ("spin", "anneal", "trim"))
    around = (Edge("spin", "anneal"), Edge("anneal", "spin"), Edge("anneal", "trim"))
    drawn = work_map(WorkGraph((Lane("hood", "Hood"),), stops, around))
    assert len(lines(parsed(drawn.wide))) == 3  # the bar's own line and two edges downward
    assert loops(parsed(drawn.wide))
    check_drawing(drawn.wide, 880)
    assert "Then back to Spin." in drawn.words_html


def test_a_page_told_of_a_stop_that_is_not_there_says_which() -> None:
    with pytest.raises(ValueError, match="there is no stop “spinn”"):
        WorkGraph((Lane("hood", "Hood"),), (Stop("spin", "Spin", "", "hood"),), (Edge("spin", "spinn"),))
    with pytest.raises(ValueError, match="the stop “spin” is told twice"):
        WorkGraph((Lane("hood", "Hood"),), (Stop("spin", "Spin", "", "hood"),) * 2)


def test_ten_parts_side_by_side_begin_in_bands_and_nothing_shrinks() -> None:
    lanes = tuple(Lane(f"p{i}", f"Part {i}", "brass") for i in range(10))
    stops = tuple(
        Stop(f"s{i}{j}", f"Work {j} on part {i}", f"s{i}{j}.html", f"p{i}") for i in range(10) for j in range(3)
    )
    within = tuple(Edge(f"s{i}{j}", f"s{i}{j + 1}") for i in range(10) for j in range(2))
    joins = tuple(Edge(f"s{i}2", "s91") for i in range(9))
    drawn = work_map(WorkGraph(lanes, stops, within + joins))
    assert parsed(drawn.wide).get("width") == "880"
    check_drawing(drawn.wide, 880)
    check_drawing(drawn.tall, 328)


def large_map(parts: int) -> WorkGraph:
    """Parts of 25 stops each, with flows across."""
    count = parts * 25
    lanes = tuple(Lane(f"p{i}", f"Part {i}") for i in range(parts))
    stops = tuple(Stop(f"s{i}", f"Stop number {i}", f"s{i}.html", f"p{i // 25}") for i in range(count))
    within = tuple(Edge(f"s{i}", f"s{i + 1}") for i in range(count - 1) if (i + 1) % 25)
    across = tuple(Edge(f"s{i}", f"s{(i * 7 + 31) % count}") for i in range(0, count, 5))
    return WorkGraph(lanes, stops, within + across)


def test_three_hundred_stops_are_drawn() -> None:
    graph = large_map(12)
    drawn = work_map(graph)
    held = Counter(hrefs(drawn.wide))
    assert sum(held[stop.href] for stop in graph.stops) == 300
    check_drawing(drawn.tall, 328)


def test_what_a_map_costs_grows_little_faster_than_the_map() -> None:
    """In calls of functions: twice the stops cost at most three times as many, for flows cross more lanes."""
    work_map(large_map(1))
    assert calls_of(lambda: work_map(large_map(12))) < 3 * calls_of(lambda: work_map(large_map(6)))


def test_more_stops_than_the_engine_ranks_stand_below_what_leads_to_them() -> None:
    graph = large_map(17)
    flow = flow_of(graph)
    assert all(flow.rows[edge.source] < flow.rows[edge.target] for edge in flow.edges)
    held = Counter(hrefs(work_map(graph).wide))
    assert sum(held[stop.href] for stop in graph.stops) == 425


WORK = [
    "Cast",
    "Grind the sole flat",
    "Deburr by feel",
    "Spin over the chuck",
    "Anneal",
    "Sand through the grits",
    "Pack",
]


@st.composite
def shops(draw: st.DrawFn, most: int = 24) -> WorkGraph:
    """Any shop at all: lanes that branch and cross, circles, loops, lone stops, things bought in."""
    count = draw(st.integers(1, most))
    lanes = draw(st.integers(1, 6))
    place = [draw(st.integers(0, lanes - 1)) for _ in range(count)]
    stops = tuple(
        Stop(f"s{i}", draw(st.sampled_from(WORK)), f"s{i}.html", f"l{place[i]}", draw(st.booleans()))
        for i in range(count)
    )
    one = st.integers(0, count - 1).map(lambda i: f"s{i}")
    lines_of = [[i for i in range(count) if place[i] == lane] for lane in range(lanes)]
    edges = {Edge(f"s{i}", f"s{j}") for line in lines_of for i, j in pairwise(line) if draw(st.integers(0, 4))}
    edges |= set(draw(st.lists(st.builds(Edge, one, one), max_size=8)))
    words = st.sampled_from(["", "2 or 3 times", "until it lies flat"])
    return WorkGraph(
        tuple(Lane(f"l{i}", draw(st.sampled_from(["Foot", "Inner sleeve"])), "zinc") for i in range(lanes)),
        stops,
        tuple(sorted(edges, key=lambda edge: (edge.source, edge.target))),
        tuple(draw(st.lists(st.builds(Loop, one, one, words), max_size=4))),
        tuple(draw(st.lists(st.builds(Bought, st.sampled_from(["glass", "wick and burner"]), one), max_size=3))),
    )


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(shops())
def test_any_shop_stands_clear_wide_and_tall_and_the_same_each_time(graph: WorkGraph) -> None:
    drawn = work_map(graph)
    check_drawing(drawn.wide, 880)
    check_drawing(drawn.tall, 328)
    for svg in (drawn.wide, drawn.tall):
        assert sorted(hrefs(svg)) == sorted(stop.href for stop in graph.stops)
    assert work_map(graph) == drawn


# ------------------------------------------------------------------ the same in words


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(shops(12))
def test_the_words_tell_every_stop_every_way_and_every_purchase(graph: WorkGraph) -> None:
    lanes = work_in_words(graph)
    told = [stop for lane in lanes for stop in lane.stops]
    assert sorted(one.stop.id for one in told) == sorted(stop.id for stop in graph.stops)
    ways = {(before.stop.id, one.stop.id) for lane in lanes for before, one in pairwise(lane.stops) if not one.fresh}
    ways |= {(source.id, one.stop.id) for one in told for source in one.after}
    back = {(one.stop.id, loop.target) for one in told for loop in one.loops}
    assert {(edge.source, edge.target) for edge in graph.edges} <= ways | back
    assert {(loop.source, loop.target) for loop in graph.loops} <= back
    assert sorted(thing for one in told for thing in one.bought) == sorted(thing.label for thing in graph.bought)


def test_the_words_of_the_lantern_name_joins_loops_and_purchases() -> None:
    told = {one.stop.id: " ".join(one.remarks) for lane in work_in_words(lantern()) for one in lane.stops}
    assert told["join"] == "Comes after: Grind the sole flat (Foot); At the plater’s (Hood). Bought in: glass, wick."
    assert told["anneal"] == "Then back to Spin over the chuck, 2 or 3 times."
    assert told["plate"] == "Done outside."
    assert told["cast"] == told["pack"] == ""


def test_the_words_as_html_hold_the_same_links() -> None:
    html = work_map(lantern()).words_html
    root = ElementTree.fromstring(html)
    assert [heading.findtext("a") for heading in root.iter("h3")] == ["Foot", "Hood", "Lantern"]
    assert "join.html?a=1&b=2" in [link.get("href") for link in root.iter("a")]


def test_the_marks_that_explain_the_map_are_for_the_eye_only() -> None:
    ring, diamond = parsed(mark_svg(False)), parsed(mark_svg(True))
    assert ring.find("circle") is not None
    assert diamond.find("path") is not None
    assert ring.get("aria-hidden") == "true"


# ------------------------------------------------------------------ lettering


def test_a_no_break_space_keeps_a_number_with_its_unit() -> None:
    assert wrap("brass sheet, 0.8\u00a0mm", 14, 80)[-1] == "0.8\u00a0mm"


def test_words_that_need_two_lines_fill_them_evenly() -> None:
    assert wrap("Deburr the foot by feel", 19, 170) == ("Deburr the", "foot by feel")


def test_a_word_too_long_for_a_phone_is_cut() -> None:
    pieces = wrap("Donaudampfschifffahrtsgesellschaft", 17, 120, cut=True)
    assert "".join(pieces).replace("-", "") == "Donaudampfschifffahrtsgesellschaft"
    assert all(text_width(piece, 17) <= 120 for piece in pieces)


# ------------------------------------------------------------------ who taught whom

PEOPLE = (
    Person("havel", "Havel Corvane", "1919 to 1994"),
    Person("edda", "Edda Corvane", "here since 1974", "edda.html"),
    Person("josk", "Josk Corvane", "here since 1996", "josk.html"),
    Person("ansa", "Ansa Pellery", "here since 2025", "ansa.html"),
)
TAUGHT = (
    Taught("havel", "edda", "casting"),
    Taught("havel", "josk", "filing"),
    Taught("edda", "josk", "spinning"),
    Taught("edda", "ansa", "deburring"),
    Taught("edda", "ansa", "sanding"),
)


def name_heights(svg: str) -> dict[str, float]:
    return {
        words: float(line.get("y") or 0)
        for line, words, text in lines_of_text(parsed(svg))
        if text.get("class") == "st"
    }


def check_lineage(svg: str, width: float) -> None:
    root = parsed(svg)
    areas = labels(root)
    for a, b in combinations(areas, 2):
        assert not a.meets(b), f"“{a.words}” and “{b.words}” stand on each other"
    assert all(area.left >= -1 and area.right <= width + 1 for area in areas)
    names = [area for area in areas if area.words in name_heights(svg)]
    for way in lines(root):
        assert way[-1][1] > way[0][1]
        assert not [area.words for area in names for place in way if area.holds(*place)]


def test_teachers_stand_above_their_pupils_wide_and_narrow() -> None:
    drawn = lineage(PEOPLE, TAUGHT)
    for svg, width in ((drawn.wide, 820), (drawn.tall, 328)):
        height = name_heights(svg)
        assert height["Havel Corvane"] < height["Edda Corvane"] < height["Josk Corvane"]
        assert height["Edda Corvane"] < height["Ansa Pellery"]
        check_lineage(svg, width)


def test_the_words_of_a_lesson_lie_on_paper_upon_its_curve() -> None:
    root = parsed(lineage(PEOPLE, TAUGHT).wide)
    fields = []
    for paper in root.iter("rect"):
        if paper.get("class") == "paper":
            x, y, wide, high = (float(paper.get(name) or 0) for name in ("x", "y", "width", "height"))
            fields.append(Area("", x, y, x + wide, y + high))
    assert len(fields) == 4  # two lessons of one pair are one curve
    for field in fields:
        assert [way for way in lines(root) if any(field.holds(*place) for place in way)]


def test_only_people_with_a_page_are_links() -> None:
    drawn = lineage(PEOPLE, TAUGHT)
    assert sorted(hrefs(drawn.wide)) == sorted(hrefs(drawn.tall)) == ["ansa.html", "edda.html", "josk.html"]


def test_the_lineage_in_words() -> None:
    drawn = lineage((*PEOPLE, Person("oda", "Oda Tennick")), TAUGHT)
    told = {one.person.id: one.sentence for one in drawn.words}
    assert told["havel"] == "taught Edda Corvane casting; Josk Corvane filing."
    assert told["edda"] == "taught Josk Corvane spinning; Ansa Pellery deburring, sanding."
    assert told["oda"] == "has no lesson written down, given or taken."
    assert '<li><b>Havel Corvane</b> (1919 to 1994) taught <a href="edda.html">' in drawn.words_html


def test_two_who_taught_each_other_are_both_drawn() -> None:
    each = (Taught("edda", "josk", "spinning"), Taught("josk", "edda", "filing"))
    drawn = lineage(PEOPLE[1:3], each)
    assert len(lines(parsed(drawn.wide))) == 2
    assert "filing" in drawn.wide


def test_a_lesson_of_a_stranger_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="there is no person “oda”"):
        lineage(PEOPLE, (Taught("oda", "edda", "polishing"),))


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.data(), st.integers(1, 14))
def test_any_lineage_stands_clear_and_the_same_each_time(data: st.DataObject, count: int) -> None:
    people = tuple(
        Person(f"p{i}", f"Person {i} Longname", f"here since {1950 + i}", f"p{i}.html") for i in range(count)
    )
    one = st.integers(0, count - 1).map(lambda i: f"p{i}")
    words = st.sampled_from(["", "filing", "casting, grinding, polishing"])
    taught = tuple(data.draw(st.lists(st.builds(Taught, one, one, words), max_size=18)))
    drawn = lineage(people, taught)
    check_lineage(drawn.wide, 820)
    check_lineage(drawn.tall, 328)
    assert sorted(hrefs(drawn.wide)) == sorted(person.href for person in people)
    assert lineage(people, taught) == drawn

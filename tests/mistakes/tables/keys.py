"""A key misspelt, in another language of the trade, or where it cannot stand."""

from tests.mistakes.hand import becomes, capital, doubled, dropped, group, swapped
from tests.mistakes.kind import Fix, Kind

_R = Fix.RESTORES
_KEYS = ("because", "steps", "tools", "materials", "skill", "until", "limits", "settings", "hazards", "points", "never", "feel",
         "time", "troubles", "conditions", "ready", "repeat", "yield", "windows", "wait", "revisions", "also", "after")


def _misspelt(key: str, change: object = swapped) -> Kind:
    says = "key-unknown" if key != "steps" else "key-unknown key-missing"
    return Kind(f"`{key}` misspelt", "procedure", rf"^ *(?:- )?({key}):", group(change), says, _R)  # type: ignore[arg-type]


def _first(kind: str) -> Kind:
    return Kind(f"the first key `{kind}` misspelt", kind, rf"^({kind}):", group(swapped), "kind-unknown", _R)


KINDS = (
    *(_misspelt(key) for key in _KEYS),
    *(_first(kind) for kind in ("procedure", "machine", "material", "gauge", "skill", "people", "shop", "tooling", "change", "order",
                                "protection", "hand-tool", "sample")),
    Kind("the first key with a capital", "procedure", r"^(procedure):", group(capital), "kind-unknown", _R),
    Kind("the first key of an entry misspelt", "sign-off", r"^(sign-off): \d", group(swapped), "kind-unknown", _R),
    Kind("the first key of an entry misspelt: practice", "practice", r"^(practice): \d", group(dropped), "kind-unknown", _R),
    Kind("`do` of a step misspelt", "procedure", r"^    (do):", becomes("od"), "key-unknown", _R),
    Kind("`harm` misspelt", "", r"(harm): ", group(swapped), "key-unknown", _R),
    Kind("`avoid` misspelt", "", r"(avoid): ", group(dropped), "key-unknown", _R),
    Kind("`wear` misspelt", "", r"(wear): ", group(swapped), "key-unknown", _R),
    Kind("`hazard` misspelt where it begins the entry", "", r"\{(hazard): ", group(swapped), "key-unknown", _R),
    Kind("`hazard` misspelt where it begins an entry in lines", "", r"- (hazard): ", group(dropped), "key-unknown", _R),
    Kind("`point` misspelt where it begins the entry", "", r"(?:\{|- )(point): ", group(swapped), "key-unknown", _R),
    Kind("`sign` misspelt where it begins the entry", "procedure", r"- (sign): ", group(swapped), "key-unknown", _R),
    Kind("`show` misspelt where it begins the entry", "skill", r"(show): ", becomes("shows"), "key-unknown", _R),
    Kind("`paper` misspelt where it begins the entry", "people", r"\{(paper): ", group(doubled), "key-unknown", _R),
    Kind("`material` misspelt where it begins the entry", "procedure", r"\{(material): ", group(swapped), "key-unknown", _R),
    Kind("`tool` misspelt where it begins the entry", "procedure", r"\{(tool): ", group(doubled), "key-unknown", _R),
    Kind("`name` of a person misspelt", "people", r"(name): ", becomes("nmae"), "key-unknown", _R),
    Kind("`title` misspelt", "", r"^(title): ", group(swapped), "key-unknown", _R),
    Kind("`file` of a picture misspelt", "", r"(?:\{|^ +)(file): ", becomes("flie"), "key-unknown", _R),
    Kind("`properties` misspelt", "machine material", r"^(properties):", group(swapped), "key-unknown", _R),
    Kind("`upkeep` misspelt", "machine", r"^(upkeep):", group(dropped), "key-unknown", _R),
    Kind("`calibration` misspelt", "gauge", r"^(calibration):", group(swapped), "key-unknown", _R),
    Kind("`composition` misspelt", "material", r"^(composition):", group(dropped), "key-unknown", _R),
    Kind("`checklist` misspelt", "skill", r"^(checklist):", group(swapped), "key-unknown", _R),
    Kind("`covers` misspelt", "skill", r"^(covers):", becomes("cover"), "key-unknown", _R),
    Kind("`proof` misspelt", "skill", r"^(proof):", group(swapped), "key-unknown", _R),
    Kind("`age` misspelt", "skill machine", r"^(age):", becomes("ages"), "key-unknown", _R),
    Kind("`born` misspelt", "people", r"(born): ", group(swapped), "key-unknown", _R),
    Kind("`founding` misspelt", "people", r"(founding): ", group(dropped), "key-unknown", _R),
    Kind("`learner` misspelt", "sign-off", r"^(learner): ", group(swapped), "key-unknown", _R),
    Kind("`pieces` of an order misspelt", "order", r"^(pieces): ", becomes("peices"), "key-unknown", _R),
    Kind("`above` misspelt", "procedure", r"(above): ", group(swapped), "key-unknown", _R),
    Kind("`below` misspelt", "procedure", r"(below): ", becomes("bellow"), "key-unknown", _R),
    Kind("`check` misspelt", "procedure", r"(check): ", group(swapped), "key-unknown", _R),
    Kind("`with` misspelt", "procedure", r"(with): ", group(swapped), "key-unknown", _R),
    Kind("`is` misspelt", "", r"\{(is): ", becomes("si"), "key-unknown", _R),
    Kind("`for` misspelt", "procedure", r"(for): \{", becomes("fro"), "key-unknown", _R),
    Kind("`sum` misspelt", "procedure", r"(sum): ", becomes("smu"), "key-unknown", _R),
    Kind("`times` misspelt", "procedure", r"(times): ", group(swapped), "key-unknown", _R),
    Kind("`then` misspelt", "procedure", r"(then): ", group(swapped), "key-unknown", _R),
    Kind("`sense` misspelt", "procedure", r"(sense): ", group(swapped), "key-unknown", _R),
    Kind("a key with a capital", "procedure", r"^(tools|skill|because):", group(capital), "key-unknown", _R),
    Kind("a key in the singular", "procedure", r"^(tools|hazards|steps):", group(lambda w: w[:-1]), "key-unknown key-missing", _R),
    Kind("`step` for `do`", "procedure", r"^  - (do): ", becomes("step"), "key-unknown"),
    Kind("`text` for `do`", "procedure", r"^  - (do): ", becomes("text"), "key-unknown"),
    Kind("`reason` for `because`", "procedure", r"(because): ", becomes("reason"), "key-unknown", _R),
    Kind("`duration` for `time`", "procedure", r"^(time): ", becomes("duration"), "key-unknown", _R),
    Kind("`danger` for `hazard`", "", r"(?:\{|- )(hazard): ", becomes("danger"), "key-unknown", _R),
    Kind("`how often` for `when`", "machine", r"(when): ", becomes("how often"), "key-unknown", _R),
    Kind("`birthday` for `born`", "people", r"(born): ", becomes("birthday"), "key-unknown", _R),
    Kind("`tolerance` for `limits`", "procedure", r"^ +(limits):", becomes("tolerances"), "key-unknown", _R),
)

"""The same thing written twice."""

from tests.mistakes.kind import Kind

_KEY = r"^( *)((?:- )?)"

KINDS = (
    Kind("the id of a step stands at another step too", "procedure",
         r"^  - id: ([a-z-]+)\n(?:    .*\n)*?  - id: ([a-z-]+)$", lambda m: m[0][: m.start(2) - m.start()] + m[1], "id-again", also=r"^  - id: "),
    Kind("a step copied whole, with its id", "procedure",
         r"^  - (?:\{id: |id: )[a-z-]+(?:.*)\n(?:    .*\n)*", r"\g<0>\g<0>", "id-again"),
    Kind("an act within a step takes the id of a step", "procedure",
         r"^  - id: ([a-z-]+)\n((?:    .*\n)*?)    also:\n      - id: [a-z-]+$", r"  - id: \1\n\2    also:\n      - id: \1",
         "id-again", also=r"^      - id: |^  - id: "),
    Kind("two items of a checklist have one id", "skill", r"(\{id: ([a-z-]+), show.*\n  - \{id: )([a-z-]+)", r"\1\2",
         "id-again", also=r"^  - \{id: "),
    Kind("two troubles have one id", "procedure", r"(^  - id: ([a-z-]+)\n    sign: .*\n(?:    .*\n)*  - id: )([a-z-]+)$",
         r"\1\2", "id-again"),
    Kind("one film twice at one place", "", r"^( *)- (file: .*|\{file: .*)\n", r"\g<0>\g<0>", "told-twice"),
    Kind("a tool named twice in one list", "procedure", r"^tools: \[([a-z-]+), ([a-z-]+)", r"tools: [\1, \1, \2"),
    Kind("a material named twice in one list", "procedure", r"^materials: \[?(?!\{)([a-z-]+)(, [a-z-, ]+)?\]?$",
         r"materials: [\1, \1]"),
    Kind("protection named twice in one list", "", r"wear: \[([a-z-]+), ([a-z-]+)", r"wear: [\1, \1"),
    Kind("a part named twice as what is joined", "procedure", r"^part: \[([a-z-]+), ", r"part: [\1, \1, "),
    Kind("a procedure covered twice by one skill", "skill", r"^covers: \[?([a-z-]+)\b", r"covers: [\1, \1]  #"),
    Kind("one variant value twice", "shop procedure", r"values: \[([a-z-]+), ([a-z-]+)", r"values: [\1, \1"),
    Kind("one working day twice", "shop", r"days: \[Monday, Tuesday", "days: [Monday, Monday"),
    Kind("a hazard told twice in one list", "", r"^( *)- hazard: .*\n(?:\1  .*\n)*", r"\g<0>\g<0>"),
    Kind("a point told twice", "procedure", r"^( *)- point: .*\n(?:\1  .*\n)*", r"\g<0>\g<0>"),
    Kind("a trouble told twice", "procedure", r"^( *)- sign: .*\n(?:\1  .*\n)*", r"\g<0>\g<0>"),
    Kind("a prohibition told twice", "", r"^( *)- do: .*\n\1  because: .*\n", r"\g<0>\g<0>"),
    Kind("a revision told twice", "procedure", r"^  - \{date: .*what: .*\n", r"\g<0>\g<0>"),
    Kind("a paper held twice with one date", "people", r"^( *)- \{paper: .*\n", r"\g<0>\g<0>"),
    Kind("a key of a step twice", "procedure", r"^    (do|because): .*\n", r"\g<0>\g<0>", "key-twice"),
    Kind("a key of a tool twice", "machine material gauge hand-tool tooling protection", r"^(title|maker|where): .*\n",
         r"\g<0>\g<0>", "key-twice"),
    Kind("a property twice", "machine material", r"^  [a-z][a-z ]+: .*\n", r"\g<0>\g<0>", "key-twice"),
    Kind("a limit twice with another figure", "procedure", r"^    limits: \{([a-z ]+): (\d+)", r"    limits: {\1: 1 mm, \1: \2",
         "key-twice"),
    Kind("a person twice", "people", r"^  ([a-z]+): \{.*\n", r"\g<0>\g<0>", "key-twice"),
    Kind("a part twice", "shop", r"^  ([a-z-]+):\n    title: .*\n", r"\g<0>\g<0>", "key-twice"),
    Kind("an order of the entries counted twice", "practice sign-off measurement trial incident",
         r"^(practice|sign-off|measurement|trial|incident): 2$", r"\1: 1", "number-gap number-twice"),
)

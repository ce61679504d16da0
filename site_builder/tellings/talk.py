"""Talk told from what is to be kept: telephones and windows from the work.

What belongs to the work is not known beforehand. A word that comes again and again in one telling is most likely of its
trade; everyday words, thanks, requests and questions to whoever stands there lean the other way.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from site_builder.tellings.cue import Cue
from site_builder.tellings.nouns import STOPS
from site_builder.tellings.tokens import listed

_EVERYDAY = re.compile(
    r"""(?<!\w)(?:telephones?|phones?|mobile|coffee|tea\b|lunch|dinner|supper|breakfast|sandwich(?:es)?|biscuits?|beer\b|
    bus|tram|train\b|taxi|car\b|van\b|truck|lorry|parking|bicycle|bike|weather|rain(?:s|ing|ed)?|snow(?:s|ing)?|sunshine|radio|music|telly|
    television|camera|microphone|mic\b|recorder|record(?:ing)?|tape\b|film(?:ing)?|button|batter(?:y|ies)|is\ it\
    (?:on|running|going)|
    red\ light|noise|noisy|loud|louder|voice|hear\ me|can\ you\
    hear|humming|dogs?|cats?\b|pigeons?|bird|wasp|fly\b|mouse|wife|husband|
    brother(?:'s)?|sister(?:'s)?|cousin|neighbour|grandson|granddaughter|kids|children|birthday|holidays?|sunday|saturday|football|
    doctor|dentist|my\ (?:knees?|back|eyes|glasses|hip|feet)|tired|hungry|thirsty|chair|stool\b|sit\
    down|doors?\b|windows?\b|ladder|lamp|
    light\ (?:on|off)|pencil|pen\b|keys?\b|toilet|cigarette|sneez\w+|bless\
    you|crane|fork\s?lift|delivery|visitors?|tomorrow|weekend|newspaper|
    pays?\
    you|photograph(?:er)?|postman|post\b|electrician|plumber|boiler|heating\b|stairs|floor\b|shoes|hat\b|umbrella|jacket|
    where\ (?:was|were)\ (?:i|we)|what\ was\ i\ saying|as\ i\ (?:said|was\ saying)|never\ mind|anyway|go\ on\
    tomorrow|turn\ it\ off|
    somebody(?:'s|\ is)\ at|come\ in|good\ morning|hello|goodbye|bye|see\ you|stop\ there|that's\ all|that\ is\
    all|enough\ for\ today|
    don't\ (?:write|film|record)\ that|you're\ (?:standing|sitting)|in\ my\ (?:light|way)|in\ the\ way|make\
    room|over\ there|over\ here|
    draught|stuffy|who(?:'s|\ has|\ took|\ is)|whose)(?!\w)""",
    re.IGNORECASE | re.VERBOSE,
)
_POLITE = re.compile(
    r"(?<!\w)(?:thanks?|thank you|please|sorry|excuse me|cheers|okay|ok|all right|alright|ready)(?!\w)", re.IGNORECASE
)
_REQUEST = re.compile(
    r"(?:^|[.;:!?] *)(?:\w+, )?(?:can you|could you|would you|will you|do you|have you|are you|"
    r"did you|just |no, |yes, )?"
    r"(?:pass|hand|give|bring|fetch|move|push|hold|shut|close|mind|watch|leave|come|sit|stand|look|let|wait|show|"
    r"get|ask|tell|"
    r"take)(?: it| that| this| the| me| over| here| a bit| up| down| back| your| out| in)",
    re.IGNORECASE,
)
_ASKED = re.compile(
    r"(?:^|[.;:!] *)(?:\w+, )?(?:can you|could you|would you|will you|do you|have you|are you|did you|"
    r"is (?:it|that|this|there|he|she)|"
    r"who|where|what|whose|is the|are we|shall we)\b[^.?!]*\?",
    re.IGNORECASE,
)
_OF_ONESELF = re.compile(
    r"(?:^|[.;:!?] *)(?:and |but )?(?:i'm|i am|i've|i have|i'll|i was|i never|i don't|i forgot|i lost|"
    r"we're|we are|we'll|we don't|they're|"
    r"they are|he's|she's|my \w+ (?:is|are))(?!\w)",
    re.IGNORECASE,
)
_DIRECT = re.compile(
    r"(?<!\w)(?:(?:pass|hand|give|fetch|bring|remind|excuse) (?:me|us)|(?:could|would|will|can|won't) you [^.]{2,40}\?|"
    r"where(?:'s| is| are|'d i) (?:my|the|your|that)|who(?:'s| has)? (?:took|taken|moved|got|has)|"
    r"(?:is|was|are|has|have) (?:it|that|this|you|they|we) [^.?]{2,30}\?|i (?:have|had|'ve got) to (?:write|go|"
    r"ring|call|"
    r"fetch|get|see)|i must (?:ring|call|go|get|write)|i (?:had|left|put) (?:it|them) here|before i forget|"
    r"that was (?:it|my|the (?:door|phone|post))|that's (?:it|my|the) \w*(?:phone|bus|lot|bell|door)?[.,]|"
    r"i'm off|drives? (?:me|us) mad|"
    r"we should (?:go|lock|stop)|you're welcome|not now|never mind|from all this|my (?:throat|voice|glasses|back|knee|"
    r"phone|dog|chair|head|tea|coffee)|switch (?:that|it) (?:thing )?off|"
    r"above your head|"
    r"(?:mind|watch) your (?:head|sleeve|step|foot|feet|back))(?!\w)",
    re.IGNORECASE,
)
_PERSONAL = re.compile(r"(?<!\w)(?:me|my|mine|us|tomorrow|today|friday|monday|sunday|home)(?!\w)", re.IGNORECASE)
_CURT = re.compile(
    r"(?:^|[.?!] )(?:good|thanks|thank you|so|there|ah|no|yes|right|really|of course|okay|please)[.!?]*$", re.IGNORECASE
)
"""One word, said to whoever stands there."""
_HERE = re.compile(
    r"(?<!\w)(?:over there|over here|in here|on the shelf|under the bench|(?:there|here)[.,?!])", re.IGNORECASE
)
_TO_KEEP = re.compile(
    r"(?<!\w)(?:because|until|never|must|mustn't|otherwise|so that|if it|when it|have to|has to|should|or else|"
    r"unless|the more|"
    r"too (?:much|little|hot|cold|thick|thin|wet|dry)|gloves|goggles|mask|danger\w*|called|means)(?!\w)",
    re.IGNORECASE,
)
_WORD = re.compile(r"[^\W\d_]{3,}(?:'[^\W\d_]+)?")
_COMMON = STOPS | listed("""say says said see sees saw look looks looked know knows knew think thinks thing things
    way ways get gets got
    go goes went come comes came take takes took make makes made put puts give gives gave good bad old new big small
    little right wrong
    one two three four five six ten first second third last time times day days today now well much many like want
    wants need needs
    yes let lets going really quite rather bit lot kind sort something somebody nothing nobody anything anybody
    everything everybody
    somebody people man men hand hands keep keeps tell tells told show shows find finds found never always ever
    today same different
    own long short high low next after before back work works working done doing mean means got can't don't doesn't
    won't isn't it's
    that's there's i'm you're they're you've i've he's she's what's let's i'll you'll it'll we're wasn't didn't
    couldn't wouldn't
    turn turns leave leaves hold holds stay stays stand stands start stop again once twice half whole part place
    side end top bottom
    around through against between behind beside under enough almost already maybe perhaps else shall upon very try
    ask use used uses
    write down minute minutes hour hours degrees inch inches hundred thousand twenty thirty forty fifty""")
_OFTEN = 3
"""A word in so many cues belongs to the telling's trade."""


def trade_words(cues: Sequence[Cue]) -> frozenset[str]:
    """Words (without a plural's s) that come in several cues of this telling and are no everyday ones."""
    seen: Counter[str] = Counter()
    for cue in cues:
        seen.update({_stem(word) for word in _WORD.findall(cue.text.lower()) if word not in _COMMON})
    often = max(_OFTEN, len(cues) // 60)
    return frozenset(word for word, count in seen.items() if count >= often)


def _stem(word: str) -> str:
    for ending in ("ing", "ed", "es", "s"):
        if word.endswith(ending) and len(word) - len(ending) >= 4:
            return word[: -len(ending)]
    return word


def master_of(cues: Sequence[Cue]) -> str:
    """Who says most of it: everybody else listens."""
    said: Counter[str] = Counter()
    for cue in cues:
        if cue.speaker:
            said[cue.speaker] += len(cue.text) - 200 * cue.text.rstrip().endswith("?")
    return said.most_common(1)[0][0] if len(said) > 1 else ""


def talk_score(cue: Cue, trade: frozenset[str], master: str, has_figures: bool, work: float) -> float:
    """How much a cue sounds like talk; over 0 it most likely is. ``work`` is how much it sounds like some kind of
    entry.
    """
    text = cue.text
    if master and cue.speaker and cue.speaker != master:
        return 5.0 if text.rstrip().endswith("?") else 1.5 - 0.5 * has_figures - 0.3 * work
    words = {_stem(word) for word in _WORD.findall(text.lower()) if word not in _COMMON}
    own = len(words & trade)
    score = 2.2 * min(2, len({match.lower() for match in _EVERYDAY.findall(text)}))
    score += 1.3 * bool(_POLITE.search(text)) + 0.7 * bool(_REQUEST.search(text)) + 1.6 * bool(_ASKED.search(text))
    score += 0.8 * bool(_OF_ONESELF.search(text)) + 0.5 * (len(text.split()) < 8) + 0.8 * (own == 0)
    score += (
        2.2 * bool(_DIRECT.search(text)) + 0.6 * min(2, len(_PERSONAL.findall(text))) + 1.0 * bool(_CURT.search(text))
    )
    score += 0.6 * bool(_HERE.search(text))
    score -= 1.1 * min(own, 3) + 2.5 * has_figures + 1.2 * min(2, len(_TO_KEEP.findall(text))) + 0.28 * min(work, 6)
    return score - 0.9

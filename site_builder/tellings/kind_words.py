"""What wording suggests which kind of entry: turns of speech of any trade, each with a weight of our own choosing.

A weight of 3 means that the words hardly ever mean anything else; 1, that they lean that way.
"""

from __future__ import annotations

import re

from site_builder.tellings.tokens import spelled

KINDS = (
    "step",
    "limit",
    "setting",
    "wait",
    "window",
    "feel",
    "reason",
    "hazard",
    "trouble",
    "remedy",
    "branch",
    "loop",
    "material",
    "tool",
    "check",
    "amount",
    "protection",
    "never",
    "person",
    "time",
    "word",
    "history",
)
TALK = "talk"

_SAID: dict[str, dict[float, str]] = {
    "reason": {
        3: r"""
            because|'cause|that(?:'s| is) why|which is why|the reason|so that|that(?:'s| is) what .{1,40} (?:is|
            are) for|what .{1,30} (?:is|are) for|that way (?:it|you|the)|or else|for the simple reason|
            it(?:'s| is) there to""",
        2: r"""
            otherwise|without (?:it|that|this|them)|if you (?:don't|do not|skip|leave|forget)|since (?:it|the|you|
            they)|(?:it|that|this|they|which) (?:makes?|lets?|keeps?|stops?|takes?|gives?|pulls?|draws?|holds?|
            helps?|prevents?|protects?)\b""",
        1.6: r"""
            or (?:it|they|the|you|something)(?:'ll)? \w+|that comes from|kills? it|(?:sets?|dries|melts|shrinks|
            works|burns|stretches|moves) (?:before|lower|faster|slower|less|more)|(?:needs|wants|has) (?:the|its) """,
        1.5: r"""
            (?:it|they|this|that|these|those|the \w+|an? \w+|\w+ one|\w+ ones)(?:'ll)? (?:doesn't|don't|won't|can't|
            isn't|aren't|wouldn't|cannot|would|has to|have to) \w+|(?:makes?|gives?|lets?|takes?|keeps?|holds?|
            pulls?|pushes|draws?|eats?|lifts?|carries|feeds?|spreads?|shears?) (?:it|them|the|a|an)\b|
            that(?:'s| is) what|no (?:\w+ )?(?:air|gas|grease|stress)|(?:hardens?|softens?|expands?|contracts?|
            shrinks?|stretch(?:es)?|swells?|bites?|soaks?|packs?|lasts?|insulates?|bonds?|grips?|floats?|sinks?|
            settles?|dissolves?)\b""",
        1: r"""
            so (?:it|they|the|you)|the more|the less|depends|that means|doesn't|won't|too (?:much|little|hot|cold|
            wet|dry|fast|slow|thick|thin|early|late|hard|soft|long|short)\b""",
    },
    "trouble": {
        3: r"""
            crack(?:s|ed|ing)?|split(?:s|ting)?|tears?\b|torn|warps|warped|warping|blister(?:s|ed|ing)?|peels|
            peeled|peeling|flak(?:e|es|ed|ing)|pinholes?|wrinkl(?:e|es|ed|ing)|curdl\w+|scorch\w*|sag(?:s|ged|
            ging)?|pits\b|blotch\w*|streak\w*|goes wrong|went wrong|(?:is|are|that's|it's) scrap|scrapped|ruin(?:s|
            ed)?|blows? (?:up|out|apart)|fills? in|fades?|pale\b|never (?:goes|sets|closes|dries|holds|comes|opens)|
            stays (?:raw|soft|wet|pale|open)|starved|pulls? (?:in|out|apart)|turns out (?:bad|wrong)|spoil(?:s|ed|
            t)?|drag marks|lumps?|lumpy|bubbl(?:e|es|ing)|mould(?:y|s)\b|rust(?:s|ed|ing)?\b|shrinks?|shrunk|
            bleeds?|stains?\b|leaks?|frays?|unravel\w*""",
        2: r"""
            you(?:'ll)? get an? (?!eye|feel)|jumps?\b|shoots? off|throws? (?:the|it|back)|hotter than that|
            colder than that|drops? out|(?:gets?|goes|comes out) (?:bent|loose|uneven|hard|soft|black|dull|rough|
            crooked|sour|dark)|sticks?\b|slips?\b|breaks?\b|broken|burns?\b|burnt|uneven|bent|crooked|rough\b|
            weak(?:er)?|brittle|cloudy|sour|falls? (?:off|apart|out)|comes? off|runs? down|won't (?:hold|stick|take|
            set|fill|close|go|come|let)|doesn't (?:hold|stick|take|set|fill|close|come|bond|wet)|
            you(?:'ve got| have| get) an? |leaves? (?:its )?(?:marks?|a )|too (?:hot|cold|wet|dry|thick|thin|early|
            late|soft|fast|slow)\b|smaller than|gives way|jams?\b|clogs?""",
        1: r"""
            bad\b|fault|wrong|trouble|problem|marks?\b|holes?\b|loose\b|soft spots?|if it|sometimes""",
    },
    "remedy": {
        3: r"""
            so (?:metal|more|less|a bit)\b|touch (?:it|that|them) up|put (?:it|that|them) right|start (?:over|again|
            afresh)|do (?:it|them|that) (?:all )?(?:again|over|new)|to (?:mend|cure|fix|rescue|save|repair) (?:it|
            that|them)|strip it|that cures|then it holds|and it holds|redo|give it (?:more|less|another|a moment)|
            a bit more (?:water|flour|heat|salt)|the cure|you can (?:save|rescue|mend|fix)""",
        2: r"""
            if (?:it|they|that|the \w+)(?:'s| is| are|'re)? (?:too|still|not|doesn't|won't|don't|jumps?|sticks?|
            slips?|cracks?|runs?|running).{0,60},|scrape (?:it|that|them) (?:off|out|back)|take (?:it|that) (?:off|
            out) and|off with|back (?:to|in|into) (?:the )?\w+ with|add (?:a|some|more|another)|knock it back|
            take it up again|mist it|sand it back|turn (?:it|that) down|wash it off|then you (?:put|add|take|scrape|
            give)""",
        1: r"""
            then you|instead|again\b|more (?:heat|water|oil|air)|less (?:heat|water|oil|air)""",
    },
    "never": {
        3: r"""
            (?:^|[.;:,] *|you |and |but |so |we |always )never\b(?! (?:found|knew|saw|agreed|learned|heard|mind|got|
            had|was|told|asked|goes|sets))|(?:must|may|should|can)(?:n't| not| never)\b|under no circumstances|(?:^|
            [.;:,] *|and |but |so |please )don't (?!know|need|think|have|care|worry|mind|discuss|want|like|see|get|
            do that|we|even)\w+|(?:^|[.;:] *)(?:and |but )?no \w+ (?:on|in|near|into|around|under|at|of)|nothing of|
            (?:^|[.;] *)not (?:a|with|by|on|in|the|one)\b|whatever you do|that one is not for|we don't use|
            keep .{1,30} away from|stay away|not allowed|forbidden|no water near""",
        2: r"""
            you don't (?!need|know|want|have to|see)\w+|not ever|, ever\b|nobody (?:is|goes|touches|may|stands|gets|
            comes)|not before|the other way round|not all at once|nowhere else|not the|isn't allowed|stay out|
            keep (?:off|out)|send it back|mustn't|no (?:metal|water|iron|oil|smoking|gloves|rings|ties|sleeves|
            food)\b""",
        1: r"""
            \bdon't\b|\bnot\b.{0,25}\bbut\b|\bno more\b""",
    },
    "hazard": {
        3: r"""
            danger(?:ous|s)?|poison(?:ous|s)?|toxic|explo(?:de|des|sion)|explosive|lose (?:a|your) \w+|(?:kill|maim|
            blind)s? (?:you|a|him)|burn(?:s|t)? (?:you|your|yourself|him|her)|fumes?|scald\w*|electr(?:ic shock|
            ocut\w+)|catch(?:es)? fire|injur\w+|hospital|hurt(?:s)? (?:you|your|yourself|somebody|someone|him)|
            take(?:s)? your (?:hand|finger|arm|eye)\w*|silicosis|asbestos|carcinogen\w*|lung(?:s)?\b|breathe (?:it|
            that|them|in)|suffocat\w+|chok(?:e|es|ing)|sensiti[sz]\w+|allerg\w+|kick(?:s)? back|kickback""",
        2: r"""
            mind (?:the|your)|loose \w+|across the (?:whole )?(?:work)?shop|slips? (?:out|off)|jumps? out|
            with the machine running|slippery|while it(?:'s| is) (?:running|turning)|your (?:eyes?|fingers?|hands?|
            lungs?|skin|face|hair|sleeve)\b|accident|flies off|flies out|gets? loose|splash(?:es|ed)?|spit(?:s)?\b|
            flammable|sparks?\b|hot metal|molten|crush(?:es|ed)?|trap(?:s|ped)?|slid(?:e|es) forward|cut yourself|
            vapou?rs?|dust\b|lead\b (?:paint|dust|fumes)""",
        1: r"""
            careful|watch out|mind (?:the|your)|hurt|acid|flames?\b|sharp\b""",
    },
    "protection": {
        3: r"""
            gloves?|goggles|safety (?:glasses|specs|boots|shoes)|masks?\b|respirators?|aprons?|ear (?:defenders|
            plugs|muffs|protect\w+)|face shields?|visors?|hard hat|helmets?|overalls|gaiters|extract(?:or|ion)|
            ventilat\w+|fire (?:blanket|extinguisher|bucket)|eye ?wash|barrier cream|protective|steel toe\w*|
            hearing protection|air line|supplied air|hood\b|spats|guard (?:is|stays|on|down)|(?:wire )?screen|
            fan (?:on|running)|window open""",
        2: r"""
            guards?\b|shields?|boots|sleeves|cartridges?|filters?\b|(?:fresh )?air\b|wear\b|put on""",
        1: r"""
            cover (?:your|up)|roll (?:them|it|your)|tie (?:your|back)""",
    },
    "branch": {
        3: r"""
            in that case|if (?:the|it|you|they|your) [^,.]{3,60}(?:,|$)|depending on|depends on (?:the|how|what|
            whether)|either .{2,60}\bor\b|unless|if (?:it's|it is|you have|there's|there is|there are) .{1,60},|
            only for|only (?:when|if|on|with)|for (?:the )?(?:big|small|large|thin|thick|fine|coarse|rough|long|
            short|deep|heavy|light|little|first|last|cheap)\w* |otherwise you|instead of|except|as long as you|
            (?:you )?needn't|not for (?:the|a|an)|either way|(?:that|this|the) (?:\w+ )?one (?:gets|takes|wants|
            needs)|whichever|or you (?:\w+)|choose|which(?:ever)? (?:one|of)|there (?:you|it) (?:put|take|is|only)|
            then there are|if (?:you|it|there|they)(?:'d|'s| is| are| have)? |for the \w+ and (?:for )?the|
            the other (?:kind|sort|way|customer|one)|on the other hand|in (?:winter|summer|the cold|hot weather|
            damp)|when (?:it's|it is|they're) (?:only|just)|some (?:people|customers)|or you (?:take|use|can|lay|
            spin|do)|it's different""",
        2: r"""
            (?:^|[.;:] *)(?:but |and |so )?(?:if|when|where|should|for an?)\b|whether|or you\b|you can also|needn't|
            you don't need|with (?:a|the) (?:big|small|thick|thin|new|old)""",
        1: r"""
            \bif\b|\bor\b|for (?:a|the)\b|other\b|both\b""",
    },
    "loop": {
        3: r"""
            again and (?:then )?again|and so on|over and over|round and round|in and out|as often as|as many times|
            until it|until the|until you|till it|till the|every time|each time|repeat|(?:one|once|another|a few|
            several) more (?:time|coat|pass|round)s?|keep (?:on )?(?:doing|going|turning|stirring|adding|at it)|
            all along|the whole lot|all of them|how many times|twice more|one day|a good number of|once (?:a|an|
            per) (?:shift|week|day|month)|before you start again|fill .{1,20} again|and then again|
            back and (?:forth|to)|so many times|one after (?:the )?(?:other|another)""",
        2: r"""
            (?:\w+ )?times\b|another (?:coat|pass|layer|round|go|turn|one)|once more|\bagain\b.{1,40}\bagain|
            a few (?:strokes|passes|turns|more)|until\b|till\b|twice|between coats|every (?:other|second|third|few|
            \w+teen|ten|hundred|piece|time)""",
        1: r"""
            \bagain\b|\bevery\b|\beach\b|round\b""",
    },
    "wait": {
        3: r"""
            (?:^|[.;:,] *|then |and |you |must )wait (?!for it|a (?:second|moment)\b)|leave (?:it|them|that) (?:to |
            for |alone|overnight|in |until|till|be|on|standing|under|lying)|let (?:it|them|that|the \w+) (?:stand|
            rest|sit|dry|cool|soak|cure|settle|set|prove|rise|steep|stay|lie|ferment|ripen|drain|warm|hang|stew|
            simmer|boil|rinse|drip|go off)|overnight|stays? in (?:for|there)|(?:stands?|rests?|sits?|soaks?|dries|
            cures?|steeps?|hangs?|proves?|ferments?|ripens?) (?:for|until|till|overnight)|induction|until (?:it's|
            it is|they're|they are) (?:dry|cold|cool|set|hard|ready)""",
        2: r"""
            (?:for|overnight|until) (?:the |an? )?(?:night|week|fortnight)|the (?:evening|day|night) before|
            no hurry|patien(?:ce|t)|give it (?:time|an? |\w+ (?:hours?|minutes?|days?))|takes? its time|
            stands? (?:until|there)""",
        1: r"""
            \bdry\b|\bcool\b|\bcure[sd]?\b|\brest\b|\bstay""",
    },
    "window": {
        3: r"""
            pot life|open time|recoat|before it (?:sets?|dries|skins|cools|goes (?:off|hard|cold|dull|stiff|dry)|
            hardens|cures|turns|rusts|flashes|grabs)|no waiting|straight (?:from|into)|(?:that|the) same (?:evening|
            morning|night)|you(?:'ve| have)(?: got)? (?:about )?\w+ (?:minutes|hours|seconds)|
            in the last \w+ (?:minutes|hours)|no later than|not later than|too late|too early|in time\b|
            within (?:an?|\w+|\d+)(?: to \w+)? (?:hours?|minutes?|days?|weeks?|seconds?)|(?:the|that) same (?:day|
            shift)|while it(?:'s| is) (?:still )?(?:warm|hot|wet|soft|green|tacky)|
            not before .{2,50} (?:and )?not (?:after|later|longer)|window\b(?! (?:open|closed))|at the latest|
            at the earliest|shelf life|after that it(?:'s| is)""",
        2: r"""
            while .{1,30} still|as long as it(?:'s| is)|not before|not after|by tomorrow|straight ?away|
            (?<!all )at once|immediately|while it's|while it is|soon\b|miss(?:ed)? (?:it|that)""",
        1: r"""
            still\b|quick(?:ly)?\b|hurry""",
    },
    "time": {
        3: r"""
            how long|takes? (?:me|you|us|about|around|an?|half|\w+) ?(?:\w+ )?(?:hours?|minutes?|days?|weeks?|
            seconds?|morning|afternoon)|(?:a|the) (?:whole|full|half) (?:day|morning|afternoon|hour)|half a day|
            a day's work|clock or no clock|how many (?:seconds|minutes|hours|days)|with a watch|per day|
            a day\b(?! (?:off))""",
        2: r"""
            \bhours?\b|\bminutes?\b|\bseconds\b|\bdays?\b|\bweeks?\b|\bmonths?\b""",
        1: r"""
            longer\b|time\b""",
    },
    "limit": {
        3: r"""
            (?:no|not) (?:more|less|thicker|thinner|deeper|higher|lower|wider|narrower|longer|shorter|hotter|colder|
            bigger|smaller|over|under|above|below) (?:than|it|the|a|\w+)|at (?:the very )?(?:most|least)|not (?:too|
            below|above|under|over)|give or take|no (?:wider|thicker|deeper|narrower)|mustn't be|tolerance|
            the limit|must be (?:over|above|under|below|between|within|at)|minimum|maximum|within (?!an? (?:hour|
            minute|day))|should (?:be|have|read|come) (?:between|over|under|above|below)|allowed|permitted|
            accept\w*|may (?:be|have|differ)""",
        2: r"""
            must (?:\w+ )?(?:be|have|run|stand|fit|touch|show|reach)|has to (?:be|go|have|run|fit)|have to (?:be|
            have|fit)|should be|needs? to be|up to|enough\b|exactly|between .{2,30} and|true and|in balance|flush|
            level with|no wider|spec(?:ification)?\b|overlap""",
        1: r"""
            \bmust\b|\bshould\b""",
    },
    "setting": {
        3: r"""
            set (?:it|to|at)|turn (?:it|that|the \w+) (?:to|up|down)|dial|knob|speed\b|speeds\b|revs|rpm|
            pressure (?:at|to|of|is)|thermostat|gas mark|cherry red|straw (?:colou?r|yellow)|bring (?:it|
            the \w+) up to|red heat|white heat|on (?:low|high|medium|full)|the (?:slow|quick|fast|low|high|first|
            second|third) (?:step|gear|speed|notch)|nozzle|tip size|voltage|current|turns a minute""",
        2: r"""
            degrees|temperature|fahrenheit|celsius|pressure|notch|gauge (?:at|to)|angle|amps|volts|you're after|
            should be nearly""",
        0.6: r"""
            \bheat\b|\bhot(?:ter)?\b|\bcold(?:er)?\b|\bfast\b|\bslow(?:ly)?\b|\bheight\b|distance|\bwide\b|
            \bthick\b|\bhigh\b|\blow\b""",
    },
    "amount": {
        3: r"""
            how much|handfuls?|spoon(?:ful)?s?|pinch of|cup(?:ful)?s? of|parts? of|one part|parts?\b.{1,30}\bparts?|
            to the (?:gallon|litre|liter|pound|kilo|bucket)|(?:grams?|kilos?|pounds?|ounces?|litres?|liters?|
            gallons?|pints?|quarts?|percent) of|per (?:kilo|litre|liter|gallon|square|batch|piece)|by weight|
            by volume|a (?:drop|dash|splash|knob|dollop|bucket|barrel) of""",
        2: r"""
            half and half|as much|ratio|proportion|weigh (?:out|in)|measure out|enough for|mixture|\bmix\b|
            thin(?:ned)? (?:it|with)""",
        1: r"""
            \bmore\b|\bless\b|little\b""",
    },
    "feel": {
        3: r"""
            feels?\b|felt\b|by (?:eye|ear|feel|touch|hand and eye)|sounds? (?:like|different|dull|right|hollow)|
            you(?:'ll)? (?:can )?hear|listen|rings?\b(?! (?:off|on))|smells?|tastes?|looks? (?:like|all|the same|
            wet|dry|shiny|dull|right|glassy|creamy)|like (?:butter|honey|cream|velvet|silk|leather|glass|mud|wet|
            a )|you(?:'ll)? (?:just )?know|an eye for|between (?:your|two|the) fingers|squeaks?|sings?\b|sticky|
            tacky|springs?\b|springy|gives? under|colou?r (?:of|goes|turns|changes)|you can see it|in your (?:hands|
            arm|fingers|wrist)""",
        2: r"""
            goes (?:soft|hard|dull|shiny|dark|grey|clear|stiff|willingly|quiet)|turns? (?:soft|hard|dull|shiny|dark|
            grey|clear|stiff|brown|blue|red|straw|milky)|soft as|as (?:thick|thin|soft|hard|stiff|smooth) as|
            shin(?:y|es)|glossy|sheen|dull|gets harder|resist\w*|pressure|lightly|gently|weight off|you look|looks""",
        1: r"""
            soft\b|hard\b|smooth\b|stiff\b|easy|easily""",
    },
    "check": {
        3: r"""
            \bcheck(?:s|ed|ing)?\b|measure(?:s|d)?\b(?! out)|look (?:at|for|whether|if|closely|through|over)|
            you look\b|inspect\w*|make sure|see (?:if|whether|that|how)|test(?:s|ed|ing)?\b|gauges?\b|
            straight ?edge|try square|run your (?:finger|thumb|nail|hand)|hold it (?:up )?(?:to|against) the light|
            weigh (?:it|them|one)|callipers?|calipers?|micrometer|hydrometer|thermometer|how do (?:i|you) (?:see|
            know|tell)|magnif\w+|loupe|litmus|reads?\b|reading\b|pull test|tap it|count (?:them|the)|level\b|plumb""",
        2: r"""
            \btrue\b|watch (?:it|the|for)|in balance|clean (?:enough|all over)|no (?:gaps?|holes?|bubbles?|air)|
            must show|you see\b|you(?:'ll)? see|look\b|try (?:it|one)|on trial|proof\b|sample""",
        1: r"""
            \bsee\b|\bright\b|\beven\b""",
    },
    "person": {
        3: r"""
            (?:two|three|four|five|\d) (?:people|men|women|persons|hands|of us|of you)|apprentices?|learners?|
            helpers?|mates?\b|second (?:man|person|pair)|somebody (?:else|must|has|holds|stands)|by yourself|
            on your own|(?:the )?leader|foreman|inspector|certificate|certified|qualified|licen[cs]ed?|
            who (?:is allowed|may|signs|pours|leads)|(?:the )?(?:second|third|other) (?:one )?(?:is|has|holds|
            stands|reaches|winds|man)|(?:two|three|four|both) of you|first year|when you (?:are|were) learning|
            nobody (?:else|under|who)|under eighteen|left-?handed""",
        2: r"""
            \balone\b|whoever|anybody|everybody|customers?|colleague|the boss|my (?:partner|mate)|a beginner|
            beginners|(?:learners?|apprentice)\b|skill\b|experience\b|trained|one of you|one of (?:the|us)|
            he (?:alone|tilts|gives|holds)|needs two|somebody can""",
        1: r"""
            \bhe\b|\bshe\b|\bthey\b|somebody|someone""",
    },
    "word": {
        3: r"""
            (?:we|i|they|people|you) call(?:s|ed)?\b|(?:is|are|it's|that's|what's) called|so-called|(?:it )?means\b|
            stands for|the (?:name|word) (?:for|is|of)|is nothing else than|is just another|by that i mean|
            when i say|in our language|(?:this|that) (?:long |short |big |little |round |flat |old )?(?:one|block|
            thing|piece|bit|part)?(?: here)? is (?:the|a|an|what)|known as|what (?:we|i) mean|(?:everybody|
            people) says?""",
        2: r"""
            (?:^|[.;] *)an? \w+ is (?:an?|when) |that's an? \w+[,.]|(?:^|[.;] *)the \w+ is the\b|(?:this|
            that)(?:'s| is) the \w+[,.]|those are the|whatever you call""",
        1: r"""
            \bcalled\b|\bname\b""",
    },
    "history": {
        3: r"""
            i (?:learn(?:ed|t)|started|began|used to|was taught)|my (?:old )?(?:father|mother|grandfather|
            grandmother|teacher|master|uncle|boss|old man|old place)|used to|in the old days|years ago|back then|
            when i (?:was|started|began|came)|(?:nineteen|eighteen|twenty) (?:\w+ty|oh|hundred)|in (?:18|19|20)\d\d|
            the old (?:man|master|people|place|recipe|way|days|one said)|before the war|for (?:\w+ )?years|
            since (?:18|19|20)|always done|in those days|was his (?:rule|way)|taught me|the (?:one|man|
            woman) before me|i (?:knew|once|have seen|had|found|counted|stood)""",
        2: r"""
            \bonce\b (?:had|saw|knew|stood|lost|i)|we had\b|i had\b|he (?:said|showed|always|put|went|did|had)|
            they (?:had|did|said)|one day|one year|last (?:year|winter|summer)|the first (?:one|ones|time) i|
            \bago\b|old\b""",
        1: r"""
            \bwas\b|\bwere\b|\bhad\b|\bdid\b""",
    },
    "tool": {
        3: r"""
            (?:with|using|take|use|grab|pick up) (?:the|a|an|your|this|that|these) (?:\w+ )?(?:hammer|mallet|knife|
            saw|chisel|file|plane|brush|ladle|tongs|pliers|iron|gun|roller|spatula|whisk|needle|trowel|float|
            scraper|rasp|gouge|awl|shears|scissors|drill|clamp|jig|spoon|stick|cloth|sponge|rag|comb|shuttle|paddle|
            peel|sieve|press|stripper|cutter|wrench|spanner|punch|stylus|pen|mop|bucket|bowl|pot|pan|board|block|
            hook|rod|bar|torch|burner)""",
        2: r"""
            hammers?|mallets?|knife|knives|saws?\b|chisels?|files?\b|planes?\b|brush(?:es)?|ladles?|tongs|pliers|
            lathe|machine|spray gun|gun\b|nozzle|spatula|whisk|kettle|looms?|needles?|trowels?|kilns?|furnace|
            ovens?|scrapers?|rasps?|gouges?|awls?|shears|scissors|drills?|clamps?|vices?|vises?|jigs?|torch|
            burners?|tweezers|callipers?|calipers?|gauges?|thermometers?|pyrometers?|crayons?|sieve|barrels?|tubs?|
            vats?|tanks?|muffle|anvil|bellows|crucible|mop|strippers?|cutters?|wrench|spanner|punch|horn\b|chuck|
            mould|mold|die\b|sponge|compressor|mixer|paddle|soldering iron|wheel\b|blade|tool\b|tools\b""",
        0.7: r"""
            \bstick\b|\bcloth\b|\brod\b|\bbar\b|\bpot\b|\bpan\b|\bbasket\b|\bbox\b|\bboard\b|\bpin\b|\bpaper\b""",
    },
    "material": {
        3: r"""
            (?:made (?:of|from|out of)|we use|i use|i take|you take|you use|you want|buy|comes in|sold (?:for|as|
            in)) .{0,25}\b(?:steel|brass|copper|zinc|tin|silver|gold|lead|iron|alumini?um|bronze|wood|oak|maple|
            pine|beech|ash|walnut|clay|lime|sand|cement|flour|salt|oil|wax|soap|acid|leather|hides?|wool|yarn|
            cotton|linen|silk|malt|hops|yeast|milk|sugar|butter|glue|varnish|paint|primer|solvent|thinner|ink|paper|
            stone|plaster|mortar|glass|flux|solder|resin|rosin|graphite|water|bark|alum|dye|grease|tallow|felt|
            rubber|plastic)""",
        2: r"""
            steel|brass\b|copper|zinc|\btin\b|silver|\bgold\b|\biron\b|alumini?um|bronze|wood\b|hardwood|softwood|
            oak|maple|pine|beech|walnut|clay|\blime\b|\bsand\b|cement|flour|\bsalt\b|\boil\b|beeswax|\bwax\b|soap|
            \bacid\b|leather|\bhides?\b|\bwool\b|yarn|cotton|linen|\bsilk\b|\bmalt\b|\bhops\b|yeast|\bmilk\b|sugar|
            butter|\bglue\b|varnish|\bpaint\b|primer|solvent|thinner|\bink\b|plaster|mortar|\bglass\b|\bflux\b|
            solder|resin|rosin|graphite|bark\b|\balum\b|\bdyes?\b|tallow|grease|\bfelt\b|rubber|alloy|powder|paste|
            sulphuric|waterglass|epoxy|hardener|enamel|emery|abrasive|grit\b|aggregate|gravel|gypsum|chalk|vinegar|
            alcohol|spirits?\b|turpentine|linseed|shellac|lacquer""",
        0.7: r"""
            \bwater\b|\bmetal\b|\bstone\b|\bpaper\b|\bstuff\b|\bash\b|sheet\b|thread\b|cloth\b|fresh\b|grade\b""",
    },
    "step": {
        2.4: r"""
            (?:^|[.;:!] *|, |\band |\bthen |\bnow |\bso |\bfirst |\bnext )(?:you |we |i )?(?:put|tip|take|cut|wipe|
            wash|rinse|pour|mix|stir|lay|set|turn|bring|push|pull|press|clamp|tighten|screw|hold|bend|fold|roll|rub|
            scrape|sand|file|drill|spray|brush|heat|dip|soak|drain|clean|strip|tin|weld|hammer|beat|knead|shape|
            stretch|tie|wind|thread|weave|sew|stitch|nail|saw|plane|carve|grind|polish|blast|skim|scatter|spread|
            fill|empty|lift|lower|tilt|open|close|start|switch|mark|trim|shave|scoop|add|drop|slide|insert|fit|
            mount|remove|crimp|wrap|twist|dress|sweep|sift|mash|scald|scud|hang|lean|spin|anneal|pickle|cast|ram|
            strike|prime|mist|quench|temper|float|throw|wedge|glaze|load|unload|feed|draw|guide|damp|ink|pitch|
            cover|tap|count|squeeze|knock|keep|give|go|make|let|move|pick|catch|shake|lead|bring|work|use|run|begin|
            get|leave|stop|check|try|look|wait|measure|write|note|pack|punch|solder|glue|oil|grease|peel|split|warm|
            melt|touch|point|pass|hook|plug|pin|peg|score)\b(?! (?:is|are|was|has|that|to me)\b)""",
        2: r"""
            \byou (?!are\b|have\b|had\b|don't|can|need|will\b|must|get\b|see|know|want|feel|hear|would|should|may|
            might|could|were\b|never|like|think|really|only|also|always|just|either|learn|understand|remember|can't|
            won't|didn't|haven't|do\b|look\b)[a-z]+""",
        1.2: r"""
            (?:^|[.;:!] *)(?:then|next|now|first|after that|so now|and then|when (?:it|that)(?:'s| is) done|
            before (?:it|you|that|the))\b|(?:comes?|goes|go) (?:next|on|in|into|out|back|off|the|down|up)\b|
            has to (?:go|come|be)|(?:is|are|gets?|been|be) (?:put|taken|cut|wiped|washed|rinsed|poured|mixed|
            stirred|laid|sprayed|brushed|coated|heated|dipped|dried|cleaned|blasted|stripped|warmed|sanded|polished|
            annealed|filled|turned|trimmed|pushed|pulled|soaked|tied|folded|ground|pressed)""",
        0.5: r"""
            \byou \w+|\bthen\b|\bnow\b|\bfirst\b|\bnext\b|\bafter\b|\boff\b|\binto\b|\bonto\b""",
    },
}

PHRASES: dict[str, tuple[tuple[float, re.Pattern[str]], ...]] = {
    kind: tuple((weight, spelled(words)) for weight, words in by_weight.items()) for kind, by_weight in _SAID.items()
}

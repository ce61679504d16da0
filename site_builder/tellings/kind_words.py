"""What wording suggests which kind of entry: turns of speech of any trade, each with a weight of our own choosing.

A weight of 4 means that the words hardly ever mean anything else; 1, that they lean that way.
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
        4: r"""
            because|'cause|that(?:'s| is) why|which is why|the reason|for the simple reason|or else|that way (?:it|
            you|the)|(?:that|this)(?:'s| is) what .{1,40} (?:is|are) (?:there )?for|what (?:it|that|the \w+) is for|
            that comes from|comes of|since (?:it|the|you|they)""",
        3: r"""
            otherwise|a reason\b|so that\b(?= you)|without (?:it|that|this|them)\b|if you (?:don't|do not|skip|
            leave it out|forget)|kills? it|else (?:it|the|you|they)\b|means (?:that )?(?:it|the|you|there)|so (?:it|
            they|the \w+) (?:doesn't|don't|can't|won't|bites?|holds?|stays?|gets?|sets?|runs?|snaps?)|which (?:makes|
            lets|keeps|stops|takes|gives|pulls|holds|helps|prevents)""",
        1.8: r"""
            so that\b|or (?:it|they|the|you|something)(?:'ll)? \w+|(?:it|this|that|they) (?:makes?|lets|keeps?|stops?|
            pulls?|draws?|protects?|prevents?|helps?|saves?)\b|that's what|you (?:lock|trap|bury|lose|waste|spoil|
            shut)\b|(?:hardens?|softens?|expands?|contracts?|shrinks?|stretch(?:es)?|swells?|bites?|insulates?|bonds?|
            grips?|floats?|sinks?|settles?|dissolves?|evaporates?|lasts?|weakens?|strengthens?|soaks up|sucks?|
            takes up|lets go|carries|feeds)\b|nobody (?:has to|needs to)|(?:has|have|with) (?:its|their) own|
            i (?:have|'ve) seen|that lets|in the first place""",
        1: r"""
            doesn't|won't|isn't|hasn't|has to have|can't|too (?:much|little|hot|cold|wet|dry|fast|slow|thick|thin|
            early|late|hard|soft|long|short)\b|the more|the less|depends|so (?:it|they|the|you)\b|wants to|
            needs? (?:the|its|it)""",
    },
    "trouble": {
        4: r"""
            crack(?:s|ed|ing)?|tears\b|torn|warps|warped|warping|blister(?:s|ed|ing)?|peels?|peeled|peeling|flak(?:e|
            es|ed|ing)|pinholes?|wrinkl(?:e|es|ed|ing)|curdl\w+|scorch(?:es|ed)|sag(?:s|ged|ging)?|blotch\w*|
            streak\w*|goes wrong|went wrong|(?:is|are|that's|it's) scrap|ruin(?:s|ed)?|too (?:hot|cold|wet|dry|thick|
            thin|early|late|soft|fast|slow|tight|loose)\b|splits\b|starved|spoil(?:s|ed|t)?|drag marks|lumps|lumpy|
            bubbl(?:e|es|ing)|mould(?:y|s)\b|bleeds?|stains?\b|frays?|unravel\w*|crooked|wavy|crumbl\w+|sinks? in|
            sunken|hasn't (?:filled|cured|set|dried|taken|run)|pores\b|grainy|didn't (?:take|hold|set)|throw it away|
            in bits""",
        2.4: r"""
            you(?:'ll|'ve)? (?:get|got|have)(?: got)? an?(?! eye| feel| hour| minute)|jumps?\b|shoots? off|
            throws? (?:it|back)|drops? (?:off|out)|(?:gets?|goes|comes out|turns out|turns|dries) (?:all )?(?:bent|
            loose|uneven|black|brown|rough|crooked|sour|dark|grey|wrong|bad|stiff)|slips?\b|burns?\b|burnt|uneven|
            brittle|cloudy|falls? (?:off|apart|out)|won't (?:hold|stick|take|set|fill|close|come|let|lie|open|shed)|
            doesn't (?:hold|stick|take|fill|close|bond|wet)|leaves? (?:its )?marks?|smaller than|gives way|jams?\b|
            clogs?|shrinks?|rust(?:s|ed)?\b|never (?:goes|sets|closes|dries|holds|comes|opens|lie)|tears\b|
            breaks? (?:off|it|out)|snaps?\b|cracks? off|stays (?:raw|soft|wet|pale)|pulls? (?:in|out|apart)|digs? in|
            (?:is|are) (?:worn|gone|raw|loose|cold|dirty|starved|wrong)\b|draws? in|cuts through""",
        1: r"""
            bad\b|fault|trouble|problem|marks\b|does it\b|do they\b|is it \w+er\b|if it(?:'s| is)|hotter than that|
            colder than""",
    },
    "remedy": {
        4: r"""
            touch (?:it|that|them) up|put (?:it|that|them) right|start (?:over|again|afresh)|begin again|do (?:it|
            them|that) (?:all )?(?:again|over|new)|to (?:mend|cure|fix|rescue|save|repair) (?:it|that|them)|strip it|
            cures (?:it|that)|then it holds|and it holds|redo|the cure|you can (?:still )?(?:save|rescue|mend|fix)|
            (?:spray|add|take|give it|put in|do) (?:some |a bit |a little )?more\b|give it (?:less|another|a moment|
            a little)|you repair|rub (?:it|them) (?:in again|down)|(?:comes|goes) down to (?:the )?bare|
            grind it|out with it|off with|put it back|heat again|what do you do\?|nothing for it but""",
        2.4: r"""
            so (?:metal|more|less)\b|scrape (?:it|that|them) (?:off|out|back)|take (?:it|that) (?:off|out) and|
            knock it back|take it up again|mist it|sand it back|turn (?:it|that) down|wash it off|then you (?:put|add|
            take|scrape|give|brush)|a bit of \w+ (?:under|on|in|over|between)|brush (?:off|it off)|more heat|
            wash (?:it|them) out|if (?:it|they|that)(?:'s| is| are|'re|'ve|'s got)? (?:still|not|doesn't|hasn't|won't|
            don't|jumps?|sticks?|slips?|runs?|running)\b.{0,60},""",
        0.9: r"""
            instead|again\b|less (?:heat|water|oil|air)""",
    },
    "never": {
        4: r"""
            (?:^|[.;:,?!] *|you |and |but |so |we |always |must )never\b(?! (?:found|knew|saw|agreed|learned|heard|
            mind|got|had|was|told|asked|goes|sets|seen|only))|under no circumstances|nothing of|whatever you do|
            forbidden|(?:^|[.;:] *)(?:and |but )?no \w+ (?:on|in|near|into|around|under|at|of|from)\b|not allowed|
            stay away|no discussion|not ever|we don't use|(?:^|[.;:] *)no [a-z]+ing\b|nowhere else|send it back""",
        3: r"""
            (?:must|may|should|can)(?:n't| not| never)\b|(?:^|[.;:,] *|and |but |so |please )don't (?!know|need|think|
            have|care|worry|mind|discuss|want|like|see|get|do that|we|even|you)\w+|(?:^|[.;:] *)not (?:a|with|by|on|
            in|the|one|from|too|even|down|on)\b|nobody (?:goes|touches|may|stands|gets|comes|near|under)|
            that one is not for|keep .{1,30} away from|not later|we don't \w+|,? ever[.]|no second|
            without a \w+ nobody""",
        1.6: r"""
            you don't (?!need|know|want|have to|see|only)\w+|not the\b|not before|the other way round|not all at once|
            stay out|keep (?:off|out)|isn't allowed|no (?:metal|water|iron|oil|smoking|gloves|rings|ties|sleeves|food|
            nails|fire|nylon)\b|nothing (?:may|is|must)|\bnever\b|not out of|not through""",
        0.6: r"""
            \bdon't\b|\bnot\b.{0,25}\bbut\b""",
    },
    "hazard": {
        4: r"""
            danger(?:ous|s)?|poison(?:ous|s)?|toxic|explo(?:de|des|sion)|explosive|lose (?:a|your) \w+|(?:kill|maim|
            blind)s? (?:you|him|somebody)|burn(?:s|t)? (?:you|your|yourself|him|her)|fumes?|scald(?:s|ed)? (?:you|
            your)|electr(?:ic shock|ocut\w+)|catch(?:es)? fire|catch fire|injur\w+|hospital|hurt(?:s)? (?:you|your|
            yourself|somebody|him)|take(?:s)? your (?:hand|finger|arm|eye)\w*|silicosis|silica|asbestos|carcinogen\w*|
            isocyanates?|breathe (?:it|that|them|in)|suffocat\w+|chok(?:e|es|ing)|sensiti[sz]\w+|allerg\w+|
            kick(?:s)? back|kickback|a rash|burns? the eyes|caustic|flies? (?:off|out|across)""",
        2.4: r"""
            slips? (?:out|off) and|with the machine running|slippery|while it(?:'s| is) (?:running|turning)|
            your (?:eyes?|lungs?|skin|face|hair)\b|accident|gets? loose|splash(?:es|ed)?|spits?\b|flammable|sparks?\b|
            molten|crush(?:es|ed)?|slid(?:e|es) forward|cut yourself|vapou?rs?|lead\b (?:paint|dust|fumes)|fingers\b|
            your hand in|while she(?:'s| is) running""",
        1: r"""
            careful|watch out|hurt|\bacid\b|flames?\b|dust\b""",
    },
    "protection": {
        4: r"""
            gloves?|goggles|safety (?:glasses|specs|boots|shoes)|masks?\b|respirators?|aprons?|ear (?:defenders|plugs|
            muffs|protect\w+)|face shields?|visors?|hard hat|helmets?|overalls|gaiters|gauntlets|extract(?:or|ion)|
            ventilat\w+|fire (?:blanket|extinguisher|bucket)|eye ?wash|barrier cream|protective|steel toe\w*|
            hearing protection|air line|supplied air|spats|guard (?:is|stays|on|down)|wire screen|glasses on|
            dark glasses|the fans? (?:is|are)? ?(?:on|running)|heat sink|long sleeves|before you eat""",
        1.6: r"""
            guards?\b|shields?|boots|sleeves|cartridges?|fresh air\b|wears?\b|screen\b""",
    },
    "branch": {
        4: r"""
            in that case|depending on|depends on (?:the|how|what|whether)|either .{2,60}\bor\b|unless|only for\b|
            except|as long as you|either way|whichever|(?:that|this|the) (?:\w+ )?one (?:gets|takes|wants|needs)|
            it's different|not for (?:the|a|an)\b|(?:you )?needn't|which one|there's still a way|instead of|
            if (?:it's|it is|you have|there's|there is|there are|you've|they're) .{1,60},|only (?:if|on|with)\b|
            (?:some|other) (?:people|customers|shops)|on the other hand|(?:^|[.;] *)for (?:a|an|
            the) (?:\w+ ){1,3}(?:you|it|there|we|i)\b|the other (?:kind|sort|way|customer)""",
        3: r"""
            (?:^|[.;:] *)(?:and |but |or )?if (?:the|it|you|they|your|there|we)\b|for (?:the )?(?:big|small|large|
            thin|thick|fine|coarse|rough|long|short|deep|heavy|light|soft|cheap)\w* |in (?:winter|summer|the cold|
            hot weather|damp weather)|if it's|or you (?:take|use|can|lay|spin|do|put|\w+)|when (?:it's|it is|
            they're) (?:only|just|hot|cold|damp|wet)|otherwise you (?:don't|needn't)|you can also|then there are|
            instead (?:you|we)|(?:to|for) (?:that|these) you want|there (?:it|you) (?:goes|only|just|put|take)|
            it also""",
        1.4: r"""
            (?:^|[.;:] *)(?:but |and |so )?(?:if|when|where|should|for an?)\b|whether|or you\b|you don't need|
            with the \w+ it|(?:a|an|the) \w+ one\b""",
        0.6: r"""
            \bif\b|\bor\b|for (?:a|the)\b""",
    },
    "loop": {
        4: r"""
            again and (?:then )?again|and so on|over and over|round and round|in and out|as often as|as many times|
            every time|each time|(?:one|once|another|a few|several) more (?:time|coat|pass|round)s?|all along|
            how many times|twice more|keep (?:on )?(?:doing|going|turning|stirring|adding|at it)|a good number of|
            once (?:a|an|per) (?:shift|week|day|month)|before you start again|and then again|back and forth|
            so many times|one after (?:the )?(?:other|another)|(?:every|each) (?:other|second|third|fourth|fifth|
            tenth|hundredth)|\w+, \w+ it, \w+ it|then you \w+ it again|until the last|don't stop""",
        2.6: r"""
            (?:two|three|four|five|six|ten|fifty|\d+) times\b|another (?:coat|pass|layer|round|go|turn|one)|once more|
            twice\b(?! (?:the|as))|between coats|repeat\w*|every (?:few|\w+teen|ten|hundred|piece|time|two|three|four|
            five|six|eight|half)|again, and|all of them\b|the next one""",
        1.2: r"""
            \bagain\b|\bevery\b|until (?:it|the|you)\b|till (?:it|the|you)\b|until\b|till\b""",
    },
    "wait": {
        4: r"""
            (?:^|[.;:,] *|then |and |you |must )wait(?! for it| a (?:second|moment)\b|,)|leave (?:it|them|
            that) (?:be\b|to|for|alone|overnight|in|until|till|on|standing|under|lying|somewhere|till)|let (?:it|them|
            that|the \w+) (?:stand|rest|sit|dry|cool|soak|cure|settle|set|prove|rise|steep|stay|lie|ferment|ripen|
            drain|warm|hang|stew|simmer|drip|go off)|overnight|it's left for|then it rests|(?:stands?|rests?|sits?|
            soaks?|dries|cures?|steeps?|hangs?|proves?|ferments?|ripens?|stays?|lies) (?:in )?(?:for|until|till|
            overnight|an hour|a day|a week|there)|induction|until (?:it's|it is|they're|they are) (?:dry|cold|cool|
            set|hard|ready)|must stand|doesn't stand|before (?:it|they) (?:goes|go) back|stay in for""",
        2.4: r"""
            for a (?:night|week|fortnight)|the (?:evening|day|night) before|no hurry|patien(?:ce|t)|takes? its time|
            hold(?:s)? (?:still|it there)|give it (?:time|an? (?:hour|day|week|night)|\w+ (?:hours?|minutes?|days?))|
            how long (?:it|the \w+) (?:stood|stands)|long it stood|takes? (?:a|an|\w+) .{0,20}to (?:set|dry|cool|
            cure)|long(?:er)? to (?:set|dry)|another (?:week|fortnight|day|hour)""",
        0.6: r"""
            \bcool\b|\bcure[sd]?\b|\brest\b|\bstay""",
    },
    "window": {
        4: r"""
            pot life|open time|recoat|before it (?:sets?|dries|skins|cools|goes (?:off|hard|cold|dull|stiff|dry)|
            hardens|cures|turns|rusts|flashes|grabs|gels)|no waiting|straight (?:from|into)|straight away|right away|
            (?:that|the) same (?:evening|morning|night|day|shift)|no later than|not later than|while it(?:'s|
            [ ]is) (?:still )?(?:warm|hot|wet|soft|green|tacky|damp)|not before .{2,50}not (?:after|later|longer)|
            window\b(?! (?:open|closed))|windows\b(?! open)|at the latest|at the earliest|shelf life|
            after that it(?:'s| is)|you(?:'ve| have)(?: only)?(?: got)? (?:only )?(?:about )?\w+ (?:minutes?|hours?|
            seconds?)|you get only|(?:may|must) not go on|the next coat""",
        2.6: r"""
            within (?:an?|\w+|\d+)(?: to \w+)? (?:hours?|minutes?|days?|weeks?|seconds?)|in the last \w+ (?:minutes|
            hours)|too late|too early|as long as it(?:'s| is)|immediately|(?<!all )at once\b|soon\b|miss(?:ed)? (?:it|
            that)|longer than that|missed""",
        1: r"""
            while .{1,30} still|hurry|not after|in time\b""",
    },
    "time": {
        4: r"""
            how long|takes? (?:me|you|us|about|around|an?|half|\w+) ?(?:\w+ )?(?:hours?|minutes?|days?|weeks?|morning|
            afternoon)|(?:a|the) (?:whole|full|half) (?:day|morning|afternoon)|half a day|a day's work|
            clock or no clock|how many (?:seconds|minutes|hours|days)|with a watch|per day|twice as long|takes longer|
            is (?:good|valid) for|half an hour, (?:they|it)|pot life|lasts? (?:\w+ ){1,3}(?:hours?|days?|years?|
            weeks?|months?)|from start to finish""",
        1.6: r"""
            \bminutes?\b|\bseconds\b|\bweeks?\b""",
        1: r"""
            \bhours?\b|\bmonths?\b|a day\b|years\b""",
    },
    "limit": {
        4: r"""
            (?:may|must) not be|(?:no|not) (?:more|less|thicker|thinner|deeper|higher|lower|wider|narrower|longer|
            shorter|hotter|colder|bigger|smaller|faster|slower|over|under|above|below|quite) (?:than|it|the|a|\w+)|
            give or take|no (?:wider|thicker|deeper|narrower)|mustn't be|tolerance|the limit|is not taken|
            still passes|as close|must (?:\w+ )?(?:both )?(?:be|lie) (?:over|above|under|below|between|within|at|
            true)|minimum|maximum|within(?! an? (?:hour|minute|day))|should (?:be|have|read|come) (?:between|over|
            under|above|below)|permitted|accept\w*|may (?:be|have|differ)|either way|up or down|in balance|run true|
            covers (?:at least|about|two|half)|not (?:too|below|above|under|over)\b|at (?:the very )?(?:most|least)|
            so thin that|never under""",
        2.4: r"""
            exactly|between .{2,30} and|flush|level with|spec(?:ification)?\b|overlap|we'd like|you'd like|is allowed|
            what's preferred|leaving a|you aim|wants to be|a gap of|no more\b""",
        1.2: r"""
            must\b|needs? to be|have to be|\bshould\b|has to be|up to\b|about .{2,30} (?:thick|wide|deep|long|apart)|
            (?:inch|inches|millimetres?|thou) (?:thick|wide|deep|apart|from|of)|enough\b""",
    },
    "setting": {
        4: r"""
            set (?:it|to|at)|turn (?:it|that|the \w+) (?:to|up|down) (?:to|a)|dial|knob|speed\b|speeds\b|revs|rpm|
            pressure (?:at|to|of|is)|thermostat|gas mark|cherry red|you go up to|brings? it (?:up )?to|
            straw (?:colou?r|yellow)|dark straw|dull red|bright yellow|red heat|white heat|bring (?:it|the \w+) up to|
            on (?:low|high|medium|full)|the (?:slow|quick|fast|low|high|first|second|third) (?:step|gear|speed|notch)|
            tip size|voltage|current|turns a minute|the oven|angle|amps|volts|warm(?:ed)? (?:it )?to""",
        2: r"""
            degrees|temperature|fahrenheit|celsius|pressure|notch|gauge (?:at|to)|you're after|should be nearly|
            thinned by""",
        0.6: r"""
            \bfast\b|\bslow(?:ly)?\b|\bheight\b|distance|\bwide\b|\bthick\b""",
    },
    "amount": {
        4: r"""
            how much|handfuls?\b(?! of pieces)|spoon(?:ful)?s?|pinch of|cup(?:ful)?s? of|parts? of|one part|
            parts?\b.{1,30}\bparts?|to the (?:gallon|litre|liter|pound|kilo|bucket|hectolitre)|(?:grams?|kilos?|
            pounds?|ounces?|litres?|liters?|gallons?|pints?|quarts?|percent|mil) of|per (?:kilo|litre|liter|gallon|
            square|batch|piece)|by weight|by volume|a (?:drop|dash|splash|knob|dollop|bucket|barrel|lump|pinch) (?:of|
            like)|of the weight|on the weight|weigh (?:out|in)|measure out|half and half|to a hundred (?:litres|kilos|
            grams)""",
        2: r"""
            as much|ratio|proportion|enough for|mixture|\bmix\b|thin(?:ned)? (?:it|with)""",
        0.4: r"""
            \bmore\b""",
    },
    "feel": {
        4: r"""
            feels?\b|felt like|by (?:eye|ear|feel|touch|hand and eye)|sounds? (?:like|different|dull|right|hollow)|
            sound like|you(?:'ll)? (?:can )?hear (?:it|the|when|that)|you listen|like a (?:bell|glass|drum|whistle)|
            smells?|tastes?|looks? (?:like|all|the same|glassy|creamy)|like (?:butter|honey|cream|velvet|silk|leather|
            mud|frost|glass|wet)|you(?:'ll)? just know|an eye for|between (?:your|two|the) fingers|squeaks?|sings?\b|
            sang\b|sticky|tacky|springs\b|springy|gives? under|colou?r (?:goes|turns|changes)|in your (?:hands|arm|
            fingers|wrist)|with the heel of your hand|the flat of the hand|your hand (?:on|can)|lay your hand|
            crackle|when it no longer|watch the colours""",
        2: r"""
            goes (?:soft|shiny|clear|stiff|quiet)|turns? (?:shiny|clear|brown|blue|red|straw|milky)|soft as|
            as (?:thick|thin|soft|hard|stiff|smooth) as|shin(?:y|es)|glossy|sheen|gets harder|resist\w*|lightly|
            gently|weight off|softly|comes? off by itself|until it (?:shines|squeaks|sings|rings|drops|runs)|
            tells you""",
        0.8: r"""
            soft\b|smooth\b|easily|looks|pressure""",
    },
    "check": {
        4: r"""
            \bcheck(?:s|ed|ing)?\b|measure(?:s|d)?\b(?! out)|look (?:at|for|whether|if|closely|through|over|around)|
            you look\b|inspect\w*|make sure|see (?:if|whether|that|how)|you see (?:it )?(?:on|that|its)|test(?:s|ed|
            ing)?\b|gauges?\b|straight ?edge|try square|run your (?:finger|thumb|nail|hand)|hold it (?:up )?(?:to|
            against) the light|weigh (?:it|them|one)|callipers?|calipers?|micrometer|hydrometer|thermometer|
            how do (?:i|you) (?:see|know|tell)|magnif\w+|loupe|litmus|pull test|tap it|knock on|count (?:them|the)|
            the level\b|plumb|another person looks|on paper|goes in the bin|(?:are|is) out(?: too)?[.]|it shows you|
            then you see|when .{3,40} it(?:'s| is) (?:done|ready|clean)""",
        2.4: r"""
            \btrue\b|watch (?:it|the|for)|in balance|clean (?:enough|all over)|no (?:gaps?|holes?|bubbles?)|must show|
            look\b|try (?:it|one)|on trial|\bproof\b|sample|\bsee\b|reading\b|readings\b|it has to sound|a good one|
            is allowed|a trace of|read it on|have measured|logs?\b|before we start|(?:can|
            could) still (?:see|count|make out)|make out""",
        0.6: r"""
            looks?\b|\bfirst\b""",
    },
    "person": {
        4: r"""
            (?:two|three|four|five|\d) (?:people|men|women|persons|of us|of you)|apprentices?|helpers?|mates?\b|
            second (?:man|person|pair)|by yourself|on your own|(?:the )?leader|foreman|inspector|certificates?|
            certified|qualified|licen[cs]ed?|ticket\b|who (?:is allowed|may|signs|pours|leads)|(?:the )?(?:second|
            third) (?:one )?(?:is|has|holds|stands|reaches|winds|man)|both of you|when you (?:are|were) learning|
            nobody (?:else|under|who)|under eighteen|left-?handed|eye test|somebody (?:else|must|has|holds|stands)|
            one holds|another person""",
        2: r"""
            \balone\b|whoever|colleague|the boss|my (?:partner|mate)|a beginner|beginners|learners?\b|skill\b|
            experience\b|trained|one of you|he (?:alone|tilts|gives|holds)|needs two|somebody can""",
        1: r"""
            \bhe\b|somebody\b|\bshe\b""",
    },
    "word": {
        4: r"""
            (?:we|i|they|people|you) call(?:s|ed)?\b|(?:is|are|it's|that's|what's) called|so-called|stands for|
            is the word|the (?:name|word) (?:for|is|of)|is nothing else than|is just (?:another|the same)|
            by that i mean|when i say|in our language|known as|what (?:we|i) mean|, they say[.]|degrees are|
            unless i say|(?:^|[.;] *)(?:left |blue |red |green )?\w+ means\b|that's the (?:bit|part|piece|
            thing) (?:of|that|where|between)|an? \w+ is an? \w+th of|(?:red|blue|green|yellow|white|black) (?:is|are|
            means)\b|is just the""",
        2.4: r"""
            (?:this|that) (?:long |short |big |little |round |flat |old )?(?:one|block|thing|piece|bit|
            part)?(?: here)? is (?:the|a|an)\b|(?:^|[.;] *)an? \w+ is (?:an?|when)|(?:^|[.;] *)the \w+ is the\b|
            those are the|whatever you call|that's an? \w+[,.]""",
        1: r"""
            \bcalled\b|\bname\b|means\b""",
    },
    "history": {
        4: r"""
            i (?:learn(?:ed|t)|started|began|used to|was taught)|my (?:old )?(?:father|mother|grandfather|grandmother|
            teacher|master|uncle|boss|old man|old place)|used to|in the old days|years ago|back then|when i was a|
            when i (?:started|began|came)|(?:nineteen|eighteen|twenty) (?:\w+ty|oh|hundred)|in (?:18|19|20)\d\d|
            the old (?:man|master|people|place|recipe|way|days|one said|irons)|before the war|always done|
            in those days|was his (?:rule|way)|taught me|the (?:man|woman) before me|i (?:knew|once)\b|once stood""",
        2: r"""
            we had\b|i had\b|he (?:said|showed|always|did|had)|one year|last (?:year|winter|summer)|the first (?:one|
            ones|time) i|\bago\b|\bold\b(?! (?:coat|shoe|one|belt))|i (?:have seen|found|counted)""",
        0.5: r"""
            \bwas\b|\bwere\b|\bhad\b""",
    },
    "tool": {
        3: r"""
            (?:with|using|take|use|grab|pick up) (?:the|a|an|your|this|that|these) (?:\w+ )?(?:hammer|mallet|knife|
            saw|chisel|file|plane|brush|ladle|tongs|pliers|iron|gun|roller|spatula|whisk|needle|trowel|float|scraper|
            rasp|gouge|awl|shears|scissors|drill|clamp|jig|spoon|stick|cloth|sponge|rag|comb|shuttle|paddle|peel|
            sieve|press|stripper|cutter|wrench|spanner|punch|stylus|pen|mop|board|block|hook|rod|torch|burner|mixer)""",
        0.9: r"""
            hammers?|mallets?|knife|knives|saws?\b|chisels?|files?\b|planes?\b|brush(?:es)?|ladles?|tongs|pliers|
            lathe|machine|spray gun|nozzle|spatula|whisk|kettle|looms?|needles?|trowels?|scrapers?|rasps?|gouges?|
            awls?|shears|scissors|drills?|clamps?|vices?|vises?|jigs?|torch|burners?|tweezers|callipers?|calipers?|
            gauges?|thermometers?|pyrometers?|crayons?|sieve|barrels?|tubs?|vats?|tanks?|muffle|anvil|bellows|
            crucible|strippers?|cutters?|wrench|spanner|punch|chuck|compressor|mixer|paddle|soldering iron|blade|
            tool\b|tools\b|stoneware|hardwood|mallet""",
        0.4: r"""
            \bstick\b|\brod\b|\bpot\b|\bpan\b|\bbasket\b|\bboard\b|\bpin\b""",
    },
    "material": {
        4: r"""
            (?:made (?:of|from|out of)|we use|i use|you want|buy|comes in|sold (?:for|as|in)) .{0,25}\b(?:steel|brass|
            copper|zinc|tin|silver|gold|lead|iron|alumini?um|bronze|wood|oak|maple|pine|beech|ash|walnut|clay|lime|
            sand|cement|flour|salt|oil|wax|soap|acid|leather|hides?|wool|yarn|cotton|linen|silk|malt|hops|yeast|milk|
            sugar|butter|glue|varnish|paint|primer|solvent|thinner|ink|paper|stone|plaster|mortar|glass|flux|solder|
            resin|rosin|graphite|bark|alum|dye|grease|tallow|felt|rubber|plastic)|the other stuff|not the \w+ sort|
            the \w+ sort\b|(?:is|are) (?:split|sawn|quarter)""",
        1: r"""
            steel|brass\b|copper|zinc|\btin\b|silver|\bgold\b|alumini?um|bronze|hardwood|softwood|oak|maple|pine|
            beech|walnut|spruce|larch|clay|\blime\b|\bsand\b|cement|flour|\bsalt\b|\boil\b|beeswax|\bwax\b|soap|
            \bacid\b|leather|\bhides?\b|\bwool\b|yarn|worsted|cotton|linen|\bsilk\b|\bmalt\b|\bhops\b|yeast|\bmilk\b|
            sugar|butter|\bglue\b|varnish|\bpaint\b|solvent|thinner|\bink\b|plaster|mortar|\bflux\b|resin|rosin|
            bark\b|\balum\b|\bdyes?\b|tallow|grease|rubber|alloy|powder|paste|sulphuric|epoxy|polyurethane|hardener|
            enamel|emery|abrasive|aggregate|gravel|gypsum|chalk|vinegar|alcohol|turpentine|linseed|shellac|lacquer|
            paraffin|white spirit|rennet|slip\b""",
        0.4: r"""
            \bwater\b|\bstone\b|\bpaper\b|\bstuff\b|sheet\b|thread\b|\bfresh\b|grade\b|wood\b""",
    },
    "step": {
        3.2: r"""
            (?:^|[.;:!] *|, |\band |\bthen |\bnow |\bso |\bfirst |\bnext )(?:you |we |i )?(?:put|tip|take|cut|wipe|
            wash|rinse|pour|mix|stir|lay|set|turn|bring|push|pull|press|clamp|tighten|screw|hold|bend|fold|roll|rub|
            scrape|sand|file|drill|spray|brush|heat|dip|soak|drain|clean|strip|tin|weld|hammer|beat|knead|shape|
            stretch|tie|wind|thread|weave|sew|stitch|nail|saw|plane|carve|grind|polish|blast|skim|scatter|spread|fill|
            empty|lift|lower|tilt|open|close|start|switch|mark|trim|shave|scoop|add|drop|slide|insert|fit|mount|
            remove|crimp|wrap|twist|dress|sweep|sift|mash|scald|scud|hang|lean|spin|anneal|pickle|cast|ram|strike|
            prime|mist|quench|temper|float|throw|wedge|glaze|load|unload|feed|draw|guide|damp|ink|pitch|cover|tap|
            count|squeeze|knock|keep|give|go|make|let|move|pick|catch|shake|lead|bring|work|use|run|begin|get|leave|
            stop|check|try|look|wait|measure|write|note|pack|punch|solder|glue|oil|grease|peel|split|warm|melt|touch|
            point|pass|hook|plug|pin|peg|score)\b(?! (?:is|are|was|has|that|to me)\b)""",
        2: r"""
            \byou (?!are\b|have\b|had\b|don't|can|need|will\b|must|get\b|see|know|want|feel|hear|would|should|may|
            might|could|were\b|never|like|think|really|only|also|always|just|either|learn|understand|remember|can't|
            won't|didn't|haven't|do\b|look\b)[a-z]+""",
        1.6: r"""
            (?:^|[.;:!] *)(?:then|next|now|first|after that|so now|and then|when (?:it|that)(?:'s| is) done|
            before (?:it|you|that|the))\b|(?:comes?|goes|go) (?:next|on|in|into|out|back|off|the|down|up)\b|
            has to (?:go|come|be)|(?:is|are|gets?|been|be) (?:put|taken|cut|wiped|washed|rinsed|poured|mixed|stirred|
            laid|sprayed|brushed|coated|heated|dipped|dried|cleaned|blasted|stripped|warmed|sanded|polished|annealed|
            filled|turned|trimmed|pushed|pulled|soaked|tied|folded|ground|pressed)""",
        0.5: r"""
            \byou \w+|\bthen\b|\bnow\b|\bfirst\b|\bnext\b|\bafter\b|\boff\b|\binto\b|\bonto\b""",
    },
}

PHRASES: dict[str, tuple[tuple[float, re.Pattern[str]], ...]] = {
    kind: tuple((weight, spelled(words)) for weight, words in by_weight.items()) for kind, by_weight in _SAID.items()
}

"""The ways people take something back: "no sorry, 38", "did i say 70? its 17", "fat fingers", "undo that".

Rule of the file: patterns over a line in which figures are `#` and barrels are `@` (`taking_back.marked`),
further words of either `~`; so no way is written once for numbers and once for barrels. What a pattern
matches is taken out of the line, with the wrong figure or barrel that stands in it.

* `UNSAYS` orders it: what precedes falls, even where nothing follows.
* `TURNS` owns up to a slip: what follows stands instead of what precedes, if anything follows.
* `ASIDES` says only that one has looked again, or what it is not: what stands around stays.
"""

from __future__ import annotations

import re


def _ways(*ways: str) -> re.Pattern[str]:
    return re.compile("|".join(ways))


# Values, marks and small words.
VALUE = r"(?:the )?[#@](?: ~)*"
AFTER_FIGURE = r"(?:(?<=# )|(?<=# ~ )|(?<=# ~ ~ ))"
MARKS = r"(?: [,.!?:;-])*"
GAP = rf"{MARKS} "
SIGH = "(?:oh|ah|er|um|uh|erm|no|well|hmm|hm|sorry|ok|right|so|oops|whoops|but|and|yes)"
START = rf"^(?:{SIGH}{GAP})*"
CLAUSE = rf"(?:^|(?<=[,.!?:;-] ))(?:{SIGH}{GAP})*"
IT_IS = r"(?:it|that|this) (?:is|was|says|reads)"
THAT = r"(?:that|this|it|what|those)"

# Having said something, and when.
TOLD = r"(?:said|told you|gave you|typed|wrote|answered|sent you|read you|read out)"
SAID = rf"(?:{TOLD}|put(?: down)?|gave|sent|entered|picked|chose)"
I_SAID = rf"\bi (?:have |had |just |only |first )*{SAID}"
WHEN = r"(?: (?:you|it|that|this|there|before|earlier|just now|just|first|last time|a \w+ ago|at first))*"
WHAT_I_SAID = (
    rf"(?:(?:everything |all |anything )?(?:that |what )?i (?:have |had |just |ever )*{SAID}\b{WHEN}"
    r"(?: (?:to|for) you)?)"
)
FEW = r"(?: [\w#@~]+){1,5}?"  # what was said
LAST = (
    r"(?:my |the |that )?last(?: (?:answer|one|bit|line|message|reply|thing))?|my (?:answer|message|reply)"
    r"|that (?:answer|number|figure|reading|bit|one)"
)

# Its being wrong, and what should stand.
JUDGED = (
    r"(?:all )?(?:wrong|a mistake|an error|a typo|rubbish|nonsense|garbage|incorrect|not right|mistaken|off"
    r"|a slip|not what i meant|not true)\b"
)
MEANT = (
    r"(?:i )?(?:meant|mean)(?: to (?:say|type|put|write))?\b"
    r"|(?:it |that |this )?should (?:be|say|read|have (?:been|said))\b|should have said|(?:or )?rather\b"
    r"|correction\b|(?<!\ws )(?<!both )(?<!i )make (?:that|it)\b"
)

# The wrong one.
LOOKED = (
    r"(?:looking at|looked at|look at|reading|read|picked up|picked|picking up|chose|checked|checking"
    r"|on about|gave you|got|had|pressed|opened|turned|meant|told you|said"
    r"|(?:counting|counted|starting|started) (?:from|at))"
)
STOOD = r"(?:on|at|in)"  # where somebody was, not where something goes
THING = (
    r"(?:one|ones|barrel|side|end|dial|clock|gauge|bottle|tap|box|number|tub|flavour|colour|reading|way round"
    r"|screen|line|button|switch|valve|cylinder|machine|answer|figure|needle|hose|pipe|letter|option|chat"
    r"|window|person|conversation|key|row)"
)
NOT_TOLD = r"(?! (?:coming|comes|out|in|from|on)\b)"  # "the wrong flavour coming out" is a trouble
LEFT = r"(?:@(?: ~)*|left|right)"
CROSSED = r"(?:mixed up|muddled(?: up)?|up|confused|back to front|(?:the )?wrong way (?:round|about))"
MIXED = r"(?:got|had|mixed(?: up)?|muddled(?: up)?|confused)"
LOOK = r"(?:look|feel|listen)"
BETTER = r"(?:again|properly|closer|closely|better|harder)"

UNSAY = r"(?:scratch|scrap|strike|ignore|forget|disregard|cancel|undo|delete|erase|withdraw)"
UNSAYS = _ways(
    rf"\b(?:{UNSAY}|bin)"
    rf"(?: (?:about )?(?:that|this)(?: last| bit| one| answer| line| number)*\b| (?:{LAST})\b"
    rf"| {WHAT_I_SAID})",
    rf"\b{UNSAY} {VALUE}(?: {WHAT_I_SAID})?(?={GAP}\w)",
    r"\b(?:ignore|disregard) me\b",
    r"\bdisregard\b",
    rf"\b(?:i )?take (?:that|it|this|{WHAT_I_SAID}) back\b",
    rf"\b(?:i )?take back (?:that|{LAST}|{WHAT_I_SAID})",
    r"\brub (?:that|it) out\b",
    rf"\bnever ?mind (?:that|{WHAT_I_SAID})|^nvm$",
)
SLIPS = (
    r"\b(?:i )?(?:lied|miscounted|misheard|mistyped|misspoke|mistook|stand corrected)\b(?! (?:by|as))",
    rf"\bmy bad(?:{GAP}| )i (?:read|gave) (?:you )?(?:the )?@(?: ~)*(?= ,)",
    r"\b(?:i )?misread\b(?! (?:by|as|it all))",
    r"\bi lie\b|\btell a lie\b|\btypo\b|\bforgive me\b|\bi was mistaken\b",
    r"\bcorrection(?: (?:on|for|to)\b)?",
    r"\bmy (?:mistake|bad|error|fault)\b|\bmistake on my part\b",
    r"\bfat finger(?:s|ed|ing)?(?: (?:that|it))?\b|\bslip of (?:the|my) \w+\b",
    r"\bi (?:have )?made (?:a|an) (?:mistake|error)\b(?: (?:with|on|about)\b)?",
    (
        r"\b(?:i )?(?:spoke|answered|said that|sent(?: that| it)?|(?:hit|pressed) (?:enter|send)) too "
        r"(?:soon|early|quick|quickly|fast)\b"
    ),
    r"\bi (?:had|was|have)(?: \w+){0,3} upside down\b",
    r"(?<!not )\b(?:put|had|got|without) (?:my|me) glasses(?: on| off)?\b",
    (
        rf"{START}(?:apologies|wrong|i beg your pardon|beg pardon|my apologies) (?:, )?(?:it|that|i) "
        r"(?:is|was|meant)\b(?: the (?:wrong|other) \w+)?"
    ),
)
WRONG_ONES = (
    rf"\b(?:i |we )?(?:was |were |have |had |been )*{LOOKED} the wrong {THING}\b{NOT_TOLD}",
    rf"(?:{START}|\b(?:i|we) (?:was |were |have |had |been |am )*){STOOD} the wrong {THING}\b{NOT_TOLD}",
    rf"\b(?:that|it) (?:was|is) the (?:wrong|other) {THING}\b{NOT_TOLD}",
    rf"{START}wrong {THING}\b{NOT_TOLD}",
    rf"\bread (?:you )?the wrong {THING} out\b",
    rf"{START}that was the (?:\w+ ){{1,2}}(?:one|number|dial|reading|figure|line)\b(?=.* #)",
    (
        rf"(?:\bi (?:have )?|{START}){MIXED}(?: my| the)? {LEFT} and (?:my |the )?{LEFT}(?: {CROSSED})?"
        r"(?= [,.!?:;-]|$| it is)"
    ),
    (
        r"\b(?:got|had|have got|mixed) (?:them|it|those|these|that|the two) "
        r"(?:mixed up|muddled(?: up)?|back to front|up)\b"
    ),
    r"\b(?:i )?got muddled\b",
    r"\bnot that one (?:, )?(?:the )?other\b(?: one)?",
)
# Before "that is wrong" where it is about what was said: "what shows on the screen that is wrong" is not.
POINTED = (
    r"(?:^|(?<=[#@~,.!?:;-] )|(?<=no )|(?<=sorry )|(?<=before )|(?<=earlier )|(?<=wait )|(?<=but )|(?<=and )"
    r"|(?<=oh )|(?<=said )|(?<=now )|(?<=think )|(?<=actually ))"
)
# What was said is wrong. What it was about ("topic", "subject") stays where only a number follows.
SAID_WRONG = (
    rf"\bi (?:was|am|have been) wrong\b(?! foot)|\bi (?:have )?(?:got|had) {THAT} wrong\b",
    rf"(?:{I_SAID}|{CLAUSE}(?:i )?(?:read|said|told you))(?: (?!the)\w+){{0,4}} wrong\b",
    rf"{POINTED}that (?:was|is) {JUDGED}(?: ,)?(?: sorry)?",
    rf"\bwhat i {SAID}{WHEN}(?P<topic> (?:for|on|about) (?:the )?\w+(?: \w+)?)?{WHEN} (?:was|is) {JUDGED}",
    (
        rf"\b(?:the|that|my)(?P<subject>(?: \w+){{1,3}}) (?:number|figure|reading|answer)? ?(?:that )?"
        rf"i {SAID}{WHEN} (?:was|is) {JUDGED}"
    ),
    rf"\bthe # (?:that )?(?:i {SAID}{WHEN} )?(?:was|is) (?:{JUDGED}|for (?:the )?\w+)",
    r"\b(?:i )?did not mean (?:that|to say|to put|to send)\b(?: that)?|\bthat is not what i meant\b",
    r"\b(?:that|it) was (?:not )?meant for (?:you|someone else|somebody else|them)\b",
    r"\blet me (?:correct|rephrase|amend|change|restate)(?: (?:that|this|myself|it|my \w+))?\b",
    r"\blet me start again\b",
    r"\b(?:change|correct) (?:that|my)(?: last)? answer\b",
    r"\bi (?:need|want|have) to correct (?:something|that|it)\b",
)
# What was said, and what should stand instead.
PUT_RIGHT = (
    (
        rf"\b(?:did i (?:say|put|type|write|tell you)|i keep saying){FEW}"
        rf"(?= [,.!?:;-]|$| (?:i )?mean| it is| should)(?: [,.?!-])*(?: (?:{MEANT}|{IT_IS}(?= [#@])))*"
    ),
    rf"\b(?:when|where|if) i (?:just )?{SAID}{FEW}{MARKS} (?:{MEANT})",
    rf"{I_SAID}{FEW}{MARKS}(?: (?:but|and))? (?:{MEANT}|(?:that|it) (?:is|was) {JUDGED}|it is actually)",
    rf"(?:\bi (?:have |had |just )*|{START}){TOLD}{FEW}{MARKS} but\b(?: (?:that|it) (?:is|was) {JUDGED})?",
    rf"\bi put [#@](?: ~)*{MARKS} but\b",
    (
        rf"\bi said it (?:was|is) (?:the )?@(?: [\w#@~]+){{0,4}}{MARKS} "
        r"(?=(?:it|that) is (?:actually )?(?:the )?@)"
    ),
    rf"\bi said(?: [\w#@~]+){{1,2}}{MARKS} (?:that is|it is)\b",
    rf"\bi (?:\w+ )?{TOLD}{FEW} by mistake\b",
    rf"\bfor {VALUE} read\b",
    rf"(?<!am )\b(?:no{GAP})?i (?:meant|mean to say)(?: to (?:say|type|put|write))?\b",
    rf"{CLAUSE}meant\b(?: to \w+)?",
    rf"\b(?:no{GAP})?i mean (?:to say )?(?=(?:the |barrel |number |side )*[@#\w]+(?: ~| one| side)*{MARKS}$)",
    rf"{AFTER_FIGURE}(?:, )?i mean$|{AFTER_FIGURE}rather$|(?:\bor |{START}or )rather\b(?=.* ?[#@])",
    (
        r"(?<!i )(?<!\ws )(?<!both )(?<!we )\bmake (?:that|it) "
        r"(?=(?:a |about |the )?(?:[#@]|left|right|middle|barrel|number))"
    ),
    rf"{START}(?:that |it )?should (?:read|say) (?=#(?: ~)*{MARKS}$)|{START}should be (?=#(?: ~)*$)",
    r"\bshould have (?:said|been)\b|\bchange that to\b",
    r"\b(?:i )?thought it was(?: \w+){1,4} (?:, )?(?:but )?(?:it )?turns out\b",
)
# What "actually" takes something back before; before anything else it only stresses: "actually it is cold".
ANEW = (
    r"(?:(?:about |around |the |it (?:is|says|reads) |that (?:is|was) |on |only )*[#@]"
    r"|(?:it|that) (?:was|is not)\b"
    r"|(?:no|not|sorry|i|make|scratch|wait|ignore|both|all|none|neither|left|right)\b|the other\b)"
)
# Stopping oneself.
STOPS = (
    rf"\b(?:no{GAP}(?:wait|hang on|hold on|actually)|(?:wait|hang on|hold on|actually){GAP}no)\b",
    rf"\b(?:no{GAP}sorry|sorry{GAP}no)\b",
    (
        rf"{CLAUSE}wait\b(?! (?:for|until|till|on|a|and|while|times?|let|please|"
        r"i (?:put|am|will|have|need|get|go|just))\b)"
    ),
    r"(?<=[,.!?-] )(?:oh |no )*(?:hang|hold) on\b(?=(?: ,)? (?:it|i|that|no|there|the|#|@))",
    (
        rf"{START}(?:hang|hold) on (?:, )?"
        rf"(?=(?:{IT_IS} (?:not )?(?:the |barrel|number|[#@])|put my glasses|[#@]))"
    ),
    rf"{START}actually\b(?= *$|{GAP}{ANEW})|(?<=[.!;] )actually\b(?={GAP}{ANEW})",
    rf"{START}it is actually (?={VALUE}$)",
    (
        rf"{START}sorry (?:, )?(?:not (?=the\b|@)|i meant?\b|(?:it is |that is |i mean )?(?=#)"
        rf"|{IT_IS} (?=the (?:left|right|middle|other|@)|@|barrel|number)|(?=@))"
    ),
    rf"{AFTER_FIGURE}(?:[,.-] )*(?:(?:sorry|no|i mean|hang on|hold on){GAP})+(?:it is |that is )?(?=#)",
    rf"{START}(?:no|nope){GAP}(?:it is )?(?=#(?: ~)*$)",
    rf"{AFTER_FIGURE}(?:[,.-] )*no (?:he|she|they|caller) (?:is saying|says?|said)(?: sorry)? (?=#)",
    rf"^(?:(?:er|um|uh|erm|ah){GAP})+no{GAP}(?=(?:it is )?{VALUE})|^ah no , ",
    rf"^(?:(?:oh|ah|er|um){GAP})+it is not {VALUE}(?=(?: ,)? it is {VALUE})",
    r"^\* (?=.)|(?<=. )\*$",  # how typing errors are put right: "*58"
    r"\b(?:oops|whoops)\b",
)
TURNS = _ways(*SLIPS, *WRONG_ONES, *SAID_WRONG, *PUT_RIGHT, *STOPS)
ASIDES = _ways(
    r"\b(?:on )?second thoughts?\b|\bon reflection\b|\bcome to think of it\b",
    r"\bon (?:a )?(?:second|closer|further|proper) (?:look|inspection|reading)\b",
    rf"{START}second look\b",
    r"\bthinking about (?:it|that)(?: again)?(?: no\b)?",
    rf"\bnow (?:that )?i (?:look|think|feel|listen|check|have (?:looked|checked|had a \w+ {LOOK}))\b(?! *$)"
    rf"(?: (?:at it|of it|about it|{BETTER}))*",
    rf"\b(?:having looked|looking)(?: at it)? {BETTER}\b",
    rf"{START}(?:i have )?had (?:another|a (?:second|proper|better|closer)) {LOOK}(?= , | and it is #)",
    r"\b(?:squinted|looked|checked|read)(?: at)?(?: it)? again\b(?= ,? ?(?:and )?(?:it is |it says )?#)",
    rf"{START}(?:looked|checked) again(?= , )|(?<=[\w#@~] )after all(?= [,.!]|$)",
    rf"\bnot(?! just\b| only\b)(?: [\w#@~]+){{0,6}}? (?:as|like|what) i {SAID}{WHEN}",
    rf"{AFTER_FIGURE}(?:, )?(?:and |but )?(?:not )?i (?:have )?(?:told you|said|gave you|put) #(?: ~)*$",
    rf"(?<=[@~] )(?:, )?sorry (?:, )?not {VALUE}",
    rf"{AFTER_FIGURE}(?:now )?(?:, )?(?:sorry )?not #(?: ~)*(?=$| [,.])",
    r"^not #(?: ~)*(?: ,)?(?: but| it is)*(?= #)",
    (
        r"(?<=\w ), i (?:said|told you|put|gave you) (?:the )?@(?: ~)*(?: (?:before|earlier|first))?"
        rf"{MARKS}(?: sorry)?$"
    ),
)
# These only excuse what was just said, when they end a line and nothing else stands instead.
EXCUSES = re.compile(r"^(?:my (?:mistake|bad|error|fault)|forgive me|apologies|oops|whoops)$")
APOLOGY = re.compile(rf"^(?:no{GAP}sorry|sorry{GAP}no)$")

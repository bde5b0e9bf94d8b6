"""Replies that are the same whatever was asked: yes, no, not sure, can't, a question back.

Rule of the file: patterns of plain English over normal words ("dunno" is "do not know" by then).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.hear.joined import Joined, Span

WITS = r"(clue|foggiest|notion|idea|scooby|faintest|inkling|earthly|baldy|danny|iota)"
REALLY = (
    r"(really |quite |too |at all |100 percent |hundred percent |entirely |exactly |actually |honestly |"
    r"even |totally |"
    r"so |that )*"
)
UNSURE = re.compile(
    r"(?<!since )(?<!since i )\b((i )?(do|would|did|am|could) not "
    rf"{REALLY}(know(ing)?|recall|remember(ing)?)\b( the answer)?|"
    rf"(not|no longer) {REALLY}(sure|certain|positive)|unsure|"
    r"can not (really |quite )?((tell|say|remember|recall|think|be (sure|certain))( (you|for (sure|"
    r"certain)|from here))?)|"
    r"(could|would) not (really |like to |want to )?(tell|say|swear|guess|be (sure|certain))"
    r"( (you|to (it|that)|for (sure|certain)|from here))?|"
    rf"(no|not (a|an|the|any|got a|got an|got the|got any)|(have|do|does|did|would|could) not (got |have )?"
    rf"(a |an |the |any )?) ?(single |bloody )?{WITS}|not a dicky ?bird|"
    r"have not (looked|checked)|"
    r"(it )?(might|could|may) (well )?be( (i guess|who knows))?( [?.,])*(?=$| i am not)|"
    r"do not ask me\b(?! (who|why|how|when|what)\b)|"
    r"(your|you are) guess is as good as mine|beats me|(who|god|goodness|heaven|lord) "
    r"(only )?knows|"
    r"hard to (say|tell)|((not|never) (really |actually )?(noticed|noticing)|(did|have) not (really "
    r")?(notice|noticed))(?! (until|till|before|that|it)\b)|"
    r"(was|were) not (really )?(watching|looking|paying attention|listening)|"
    r"before my time|(was|were) not (here|there|in|on shift|working|around) (when|at the time|that day|"
    r"then)|"
    r"search me|(no one|nobody|none of us)( here)? knows|(i would be|just|only) guessing|"
    r"not something i know|how (would|should|am) i (to |supposed to )?know|you tell me\b|"
    r"(that|it) i do not know|no way of (knowing|telling)|(would|will) (have|need) to (check|ask)\b|i "
    r"forget\b|"
    r"^pass( [.,!])*$|"
    r"(?:^|(?<=[.,!?;-] )|(?<=yes )|(?<=no )|(?<=er )|(?<=um )|(?<=well ))"
    r"(maybe|possibly|perhaps|probably|i think so|think so|i suppose so|i guess so|i guess)( [?.,])*$)"
)
TOOL = (
    r"(gauges?|meters?|multimeter|tools?|keys?|torch|ladder|scales?|spanner|thermometer|screwdriver|"
    r"gloves|licen[cs]e|"
    r"refractometer|stopwatch|step ?ladder|access|kit)"
)
SHUT_AWAY = (
    r"(rooms?|doors?|cupboards?|cellar|store|cage|office|cabinet|shed|place|boards?|fuse ?box|gate|yard|"
    r"panel|boxes|back|"
    r"unit|stock ?room|kitchen)"
)
CANNOT = re.compile(
    r"\b(no way (i|we) can\b|(not|do not think (i am|we are)) (really )?allowed (to|in|near)\b|"
    r"(i |we )?(can not|could not|unable to|not able to|are not able to|am not able to) "
    r"(really )?(reach|get (to|at|in|into|near|behind|under|that|there)|do (that|it|this|both|two)|open "
    r"(it|that|"
    r"the)|access|lift|move|check|look|go (in|near))"
    r"|(^|(?<=[.,!;-] )|(?<=i )|(?<=we )|(?<=and )|(?<=but )|(?<=so )|(?<=just )|(?<=sorry )|(?<=no ))"
    r"(can not|could not|unable to|not able to) (really )?get\b(?! (past|(my|your|a|the|two|any) \w+ "
    r"(in|down|between|behind|through)|rid|more|enough))"
    r"|(we |i )?(do not|have not) (have|got|have got) "
    r"((any|one|anything)(?! (of|in|on)\b)|access|keys?|tools?|"
    rf"(a|an|any|the) (\w+ )?({TOOL}|time|way|code|permission|authority|hands?|staff|training|ticket))\b|"
    rf"(did|do|have|has|had) not (\w+ )?(bring|brought|own|carry|carried|have|got|get|been given)( "
    rf"\w+){{0,3}} {TOOL}|"
    rf"(left|forgot|forgotten|lost|broke)( \w+){{0,2}} {TOOL}|not got( \w+){{0,2}} {TOOL}|"
    rf"((?<!is )(?<!are )no|without( a| the| my)?)( \w+)? {TOOL}\b|"
    r"(it is|that is) (all )?locked( up| away)?(?! (solid|tight|fast|hard|rotor))|"
    rf"{SHUT_AWAY}( \w+)? (is |are |was )?(all )?locked|(has|"
    rf"have|got|holds) the keys?\b|"
    r"(not|never) (\w+ )?(allowed|trained|permitted|insured|qualified|supposed|certified|licen[cs]ed|"
    r"authori[sz]ed|competent|"
    r"comfortable|confident)|not something i am|not (my|in my) (job|department|place|remit)|"
    r"(boss|manager|management|they|gaffer) (will|does|do|would) not (let|allow|want) (me|us)|above my "
    r"pay ?grade|"
    r"(do not|would rather not|(?<!is )(?<!did )not) "
    r"(want to|fancy|going to|touching|doing|risking|messing)( \w+){0,2}|"
    r"not happening|"
    r"i refuse|(will|would) not be (doing|touching|lifting|opening|going)( \w+)?|"
    r"(too (high|heavy|far|dangerous|hot|tight|awkward|busy)|not (tall|strong|big|long) enough) (up |"
    r"back )?(for me|to (reach|lift|"
    r"move|get|see|do))|"
    r"(?<!they )(?<!it )can not (?!have)[\w ]+ (at (the same time|once)|on my own|by myself)|"
    r"(one|two|only) pairs? of hands|only "
    r"(got )?two hands|"
    r"(would|will) need (a|the|some) (ladder|key|tool|spanner|torch|engineer|electrician)\w*|"
    r"no way (to|i am|am i|of (getting|reaching|doing|seeing))|no can do|not possible|impossible|would "
    r"rather not|"
    r"not from (here|where i am)|(i am|we are) (not (on site|there|at (the|it)|near (it|the)|in (today|"
    r"work))|at home|off site)|"
    r"(not|never) to (touch|move|open|lift|do|go) (it|that|there|near it|in there)|"
    r"(can not|could not) see (through|in|into|inside|behind|from|past)|(can not|could not) make (it|"
    r"them|that|out)|(panel|lid|cover|cap) (will|would) not (come|budge|open|shift|move)|"
    r"(we|i) have (got )?no (\w+ ?){1,3}$|"
    r"(can not|could not) (see|read|hear|feel|find) (it|that|them|any|anything|one)( from here)?( "
    r"?[.!,])*$|"
    r"^i can not( do (it|that))?$|^(unable|not able)( to)?$)"
)
# "It is", "they do", "there is not": what a question says, said again.
ECHO = (
    r"(it|they|that|there|he|she|i|we|this|these|everything) "
    r"(is|are|am|was|were|does|do|did|has|have|will|would|can|could)"
)
FRIEND = "mate|love|dear|pet|pal|boss|hun"
YES = re.compile(
    rf"^(oh |uh |ah |er |um |mm+ |hm+ |, |\. |! |and |well |so |(grand|lovely|great|perfect|brilliant|"
    r"cool|sound|"
    r"sweet)( ,)? (?=yes|ok|thanks))*(yes|ok|understood|sure|correct|right|finished|ready|uh huh|"
    r"mm hmm|aha|"
    r"affirmative|definitely|you bet(cha)?|too right|right enough|by all means|very much so|"
    r"my word|i would say so|"
    rf"absolutely|exactly|indeed|of course|certainly|spot on|{ECHO}(?! not)|that is (right|it|"
    r"correct)|"
    r"that is the one|done|go (on|ahead)|please do|roger|true|fine|sorted|all done|"
    r"mm hm|mhm|bingo|got it|go for it|sure thing|no problem|of course|"
    r"will do|yes sir|all right)"
    rf"( |,|\.|!|please|thanks|{FRIEND}|then|yes|now|got it|understood|{ECHO}(?! not)|is|it|that|right|"
    r"correct|done|go "
    rf"on|ok|does|did|"
    r"has|sure|done it|just|all|of|course|that is|all right|"
    r"the one|please do|definitely|i think|indeed|enough|sir|you bet(cha)?|very much so|so)*$"
)
NO = re.compile(
    rf"^(oh |uh |ah |er |um |, |\. |! |and |well |so |hmm )*(no|nae|nuh|uh(?! huh)|negative|(i am "
    rf")?afraid not|"
    r"never|not (yet|really|at all|now|"
    rf"today|quite|any ?more|that i know of|as far as i know|so far)|(do not|did not) think so|((?!(i|"
    rf"we) (can|could)\b){ECHO}|it has|is|are|does|do|"
    r"did|has|have) not|"
    r"not that i (can see|know of|am aware of|noticed)|"
    r"definitely not|certainly not|of course not|no way|none|neither|nothing|it is not|not a chance)"
    rf"( |,|\.|!|no|not|yet|really|at all|thanks|{FRIEND}|sorry|it|is|does|did|has|think so|i|do|"
    rf"definitely|that|know of|now|today|then|way|me|sir|so far|any|either|{ECHO} not|they are|have|we|"
    rf"am|afraid|"
    r"siree|sirree|indeed|chance|nae|to be honest)*$"
)
# Of what is as good as a yes, what only says that something was done or agrees: it judges nothing.
DONE = re.compile(
    r"^(oh |um |, |\. |and |well |so )*(ok|done|sorted|all done|finished|ready|got it|will do|"
    r"no problem|roger|"
    rf"go (on|ahead)|(i|we) (did|have))( |,|\.|!|please|thanks|{FRIEND}|then|now|it|that|done|go on|ok|"
    r"got it|understood|"
    r"all|just|did|"
    r"sorted)*$"
)
# What a line comes to in the end: "the gauge says 30 too, so no".
CLOSE = re.compile(r" so (?:it is |that is |i would say )?(?P<kind>yes|no)( [.!])*$")
LEAD = re.compile(r"^(oh |well |er |um |, )*(yes|no)\b( (yes|no)\b)*( [,.!-])*")


# That all is well, whatever was asked: at a question about danger it denies every danger.
ALL_WELL = re.compile(
    r"^((no|oh|well|,|\.) )*((it|we|were|they|everyone|everybody|that|everything|all|here|there|i) "
    r"(is |are |am |all |feels? |feeling )*)*"
    r"(all |nice and |perfectly |quite )*(clear|good|fine|ok|well|quiet|safe|normal|all right|calm)"
    rf"( (here|thanks|{FRIEND}|now|thank you|so far|with us|on that front|yes|\.|!|,))*$"
)


@dataclass(frozen=True, slots=True)
class Found:
    """A pattern that was found, and the words it covers."""

    kind: str
    span: Span


def bare(joined: Joined) -> str:
    """Return "yes", "no" or "done" (a yes where that will do) if a line says nothing else, else ""."""
    text = joined.text.replace(" ?", "").strip()
    if NO.match(text):
        return "no"
    return "done" if DONE.match(text) else "yes" if YES.match(text) else ""


def all_well(joined: Joined) -> bool:
    """Tell whether a line says that all is well, and nothing else."""
    clauses = (clause for clause in re.split(r" (?:and|[,.!]) ?", joined.text) if clause.strip())
    said = [clause for clause in clauses if clause.strip() not in {"no", "oh", "well"}]
    return bool(said) and all(ALL_WELL.match(clause) for clause in said)


def leading(joined: Joined) -> Found | None:
    """Return the yes or no that a line opens with."""
    match = LEAD.match(joined.text)
    return Found(match[2], joined.span(match)) if match and match[0].strip() else None


def closing(joined: Joined) -> str:
    """Return the yes or no that a line comes to in the end, "" if it comes to neither."""
    match = CLOSE.search(joined.text)
    return match["kind"] if match else ""


def unsure(joined: Joined) -> Found | None:
    """Return the words that say that one does not know."""
    match = UNSURE.search(joined.text)
    return Found("unsure", joined.span(match)) if match else None


def cannot(joined: Joined) -> Found | None:
    """Return the words that say that one can't do it."""
    match = CANNOT.search(joined.text)
    return Found("cannot", joined.span(match)) if match else None

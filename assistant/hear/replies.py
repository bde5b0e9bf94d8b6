"""Replies that are the same whatever was asked: yes, no, not sure, can't, a question back.

Rule of the file: patterns of plain English over normal words ("dunno" is "do not know" by then).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.hear.joined import Joined, Span

UNSURE = re.compile(
    r"(?<!since )\b((?<!since i )(i )?(do|would|did) not (really |actually |honestly )?know( the answer)?|"
    r"no idea|not (really |quite |too |at all |100 percent |hundred percent |entirely |exactly )*"
    r"(sure|certain|positive)|(could|can) not (really )?(tell|say)( (you|for sure|from here))?|no clue|"
    r"not a clue|have not (got )?(a |an |the |any )?(clue|foggiest|notion|idea|scooby|faintest|inkling|"
    r"earthly|baldy|danny|"
    r"iota)|no (notion|inkling|earthly)\b|not an? (notion|inkling|earthly)|"
    r"have not (looked|checked)|"
    r"(it )?(might|could|may) (well )?be( (i guess|who knows))?( [?.,])*(?=$| i am not)|"
    r"(would|could|do|did) not have (a |an |the |any )?(clue|foggiest|notion|idea|faintest|scooby|"
    r"inkling|baldy|"
    r"danny)|do not ask me\b|"
    r"your guess is as good as mine|beats me|who knows|hard to (say|tell)|(could|would) not (like to |"
    r"want to )?(swear( to (it|that))?|guess|be sure|say for certain)|"
    r"(not|never) (really |actually )?noticed|have not (really )?noticed|before my time|"
    r"(was|were) not (here|there|in|on shift|working|around) (when|at the time|that day|then)|"
    r"search me|(no one|nobody|none of us)( here)? knows|(i would be|just|only) guessing|not a (scooby|"
    r"dicky ?bird)|i can not remember|do not remember|not something i know|could not (really )?say|"
    r"(god|goodness|heaven|lord) (only )?knows|unsure|how (would|should|am) i (to |supposed to )?know|"
    r"you tell me\b|"
    r"(that|it) i do not know|no way of (knowing|telling)|(would|will) (have|need) to (check|ask)\b|"
    r"(maybe|possibly|perhaps|probably|i think so|think so|i suppose so|i guess so|i guess)( [?.,])*$)"
)
CANNOT = re.compile(
    r"\b((i |we )?(can not|could not|unable to|not able to|are not able to|am not able to) "
    r"(really )?(reach|get (to|at|in|into|near|behind|under|that|there)|do (that|it|this)|open (it|that|"
    r"the)|access|lift|move|check|look|go (in|near)|get)"
    r"|(we |i )?(do not|have not) (have|got|have got) (a|an|any|the|one|access|keys?|tools?)\b( \w+){0,2}|"
    r"(it is|that is) (all )?locked( up| away)?|no (access|key|tools?|gauge|scales?|meter|torch|ladder)\b|"
    r"not (allowed|trained|permitted|insured|qualified|supposed)|not something i am|not my (job|department)|"
    r"(do not|would rather not|not) (want to|fancy|comfortable|going to|touching)( \w+){0,2}|(too (high|"
    r"heavy|far|dangerous|hot|tight)|not (tall|strong|big|long) enough) (up )?(for me|to (reach|lift|"
    r"move|get|see|do))|"
    r"(would|will) need (a|the|some) (ladder|key|tool|spanner|torch|engineer|electrician)\w*|"
    r"no way (to|i am|am i)|no can do|not possible|impossible|would rather not|not from (here|where i am)|"
    r"(not|never) to (touch|move|open|lift|do|go) (it|that|there|near it|in there)|"
    r"(can not|could not) see (through|in|into|inside|behind|from|past)|(can not|could not) make (it|"
    r"them|that|out)|"
    r"(we|i) have (got )?no (\w+ ?){1,3}$|"
    r"(can not|could not) (see|read|hear|feel|find) (it|that|them|any|anything|one)( from here)?( ?[.!,])*$|"
    r"(room|door|cupboard|cellar|store|cage|office|cabinet|shed|place)( \w+)? (is |are |"
    r"was )?(all )?locked|(has|have|got|holds) the keys?\b|"
    r"^i can not( do (it|that))?$)"
)
WHERE = re.compile(
    r"^((but|and|sorry|ok|er|um|so|hang on|right|well|hm|hmm|,) )*(where|whereabouts)\b|"
    r"\bwhere(abouts)? (is|are|am|do|"
    r"does|would|can|should|am|abouts|will)\b|\bwhich (bit|part|one|thing) (is|do you call|the)\b|how (do|"
    r"would|will) i (find|know which)|^which (\w+ ){1,2}(do you mean|is (it|that|this))( \?)?$|"
    r"^which \w+( \?)?$|"
    r"can not find (the|where|that|it)\b.*\?|what (does|do) (it|that|they|the \w+) look like"
)
WHY = re.compile(
    r"^((but|and|sorry|ok|er|um|hang on|well|hm|hmm|,) )*(why|what for|how come|"
    r"what is the reason|for what reason|(is there )?(a|any) reason (for asking|(you|your)\b)|"
    r"what is (that|this|"
    r"it) (for|got to do)|what has that got to do|what does (that|it) matter|"
    r"what difference|is (that|this) (really )?(necessary|needed|important)|do (you|i) (really )?(need|"
    r"have) to|does (it|that|this) (really )?matter)\b|^what (are|do|did|would|is) (you|that|this|"
    r"it) .* for( \?)*$|\bwhy (do|does|are|is|would|should|on earth|"
    r"you)\b.*|^what (is|s) the point"
)
WHAT = re.compile(
    r"^((but|and|sorry|ok|er|um|hang on|well|hm|hmm|,) )*(what( the \w+)?( even| exactly| actually|"
    r" on earth| then)? (is|are|does|do you mean|exactly|"
    r"sort of|kind of|counts as)( (a|an|the|that|this|one|it))?\b|what do you mean|what \?|what$|define|"
    r"explain|"
    r"you what|never heard of|come again|say (that )?again|eh \?|huh|pardon|which (is|one is) (the|that)|"
    r"do not know what (a|an|the|that|you) )|\bwhat (is|are) (a|an|the) \w+( \?)?$|\bwhat (is|are) (one|"
    r"any|some) of (those|them|these)\b|"
    r"\bwhat do you mean\b|"
    r"\bdoes .* mean\b|^what \w+( \w+)? \?$|^what is it you mean\b|^how (do|would|should|can|am) (i|you|we)\b"
)
OF_US = re.compile(r"\b(your|yours|(are|were) you (?!on about|talking|saying|asking|after|on$))\b")
REQUEST = re.compile(
    r"^((but|and|so|ok|please|sorry|hi|hello|hey|right|well|um|er|,) )*"
    r"((can|could|would|will|do|did|are|have) you|when (will|can|is|are|do|does)|what time|how (long|"
    r"much|many|soon|old)|"
    r"(is|are) (it|they|that|this|there) (\w+ )?(safe|ok|all right|possible|allowed|anyone|someone|"
    r"a number|going to)|"
    r"(do|should|shall|can|could|must|may|am) i (\w+ ){1,6}|"
    r"(they|he|she|we|i|boss|manager|head office|(the|my|our) \w+) (\w+ )?(want|wants|need|needs|"
    r"asked for|fancy|"
    r"would like|are after|is after) (a |an |the |some |another |us to (buy|get|order) )*"
    r"(new|replacement|spare|price|quote|refund|engineer|technician|callback|visit)\b)"
)
WAIT = re.compile(
    r"^(ok |right |sorry |, )*(hang on|hold on|wait|just|one|give me|bear with me|"
    r"let me (go and )?(look|see|check))( (a|one|just|me|there))*"
    r"( (sec|second|seconds|minute|minutes|mo|moment|tick|while))?( (please|mate|love))?( [.,!])*$"
)
YES = re.compile(
    r"^(oh |uh |ah |er |um |mm+ |hm+ |, |\. |! |and |well |so |(grand|lovely|great|perfect|brilliant|"
    r"cool|sound|"
    r"sweet)( ,)? (?=yes|ok|thanks))*(yes|ok|sure|correct|right|finished|ready|"
    r"affirmative|definitely|you bet(cha)?|too right|right enough|by all means|very much so|"
    r"my word|i would say so|"
    r"absolutely|exactly|indeed|of course|certainly|spot on|it is|it does|it did|that is (right|it|"
    r"correct)|"
    r"that is the one|done|go (on|ahead)|please do|roger|true|fine|sorted|all done|it has|they are|"
    r"they do|i (did|"
    r"do|have|am|can)|we (did|do|have)|mm hm|mhm|bingo|got it|go for it|sure thing|no problem|of course|"
    r"will do|yes sir|all right)"
    r"( |,|\.|!|please|thanks|mate|love|then|yes|now|it is|is|it|that|right|correct|done|go on|ok|does|did|"
    r"has|they are|they do|sure|done it|just did|i did|we did|i have|i can|all|of|course|that is|all right|"
    r"the one|please do|definitely|i think|indeed|enough|sir|you bet(cha)?|very much so|so it (is|does|"
    r"has))*$"
)
NO = re.compile(
    r"^(oh |uh |ah |er |um |, |\. |! |and |well |so |hmm )*(no|nae|nuh|uh|negative|(i am )?afraid not|"
    r"never|not (yet|really|at all|now|"
    r"today|quite|any ?more|that i know of|as far as i know|so far)|(do not|did not) think so|it (is|does|"
    r"did|has|was) not|they (are|do) not|"
    r"i (did|do|have|am) not|we (did|do|have) not|not that i (can see|know of|am aware of|noticed)|"
    r"definitely not|certainly not|of course not|no way|none|neither|nothing|it is not|not a chance)"
    r"( |,|\.|!|no|not|yet|really|at all|thanks|mate|love|sorry|it|is|does|did|has|think so|i|do|"
    r"definitely|that|know of|now|today|then|way|me|sir|so far|any|either|they are|have|we|am|afraid|"
    r"siree|sirree|indeed|chance|nae|to be honest)*$"
)
# Of what is as good as a yes, what only says that something was done or agrees: it judges nothing.
DONE = re.compile(
    r"^(oh |um |, |\. |and |well |so )*(ok|done|sorted|all done|finished|ready|got it|will do|"
    r"no problem|roger|"
    r"go (on|ahead)|(i|we) (did|have))( |,|\.|!|please|thanks|mate|love|then|now|it|that|done|go on|ok|"
    r"all|just|did|"
    r"sorted)*$"
)
LEAD = re.compile(r"^(oh |well |er |um |, )*(yes|no)\b( (yes|no)\b)*( [,.!-])*")


# That all is well, whatever was asked: at a question about danger it denies every danger.
ALL_WELL = re.compile(
    r"^((no|oh|well|,|\.) )*((it|we|were|they|everyone|everybody|that|everything|all|here|there|i) "
    r"(is |are |am |all |feels? |feeling )*)*"
    r"(all |nice and |perfectly |quite )*(clear|good|fine|ok|well|quiet|safe|normal|all right|calm)"
    r"( (here|thanks|mate|love|now|thank you|so far|with us|on that front|yes|\.|!|,))*$"
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


def unsure(joined: Joined) -> Found | None:
    """Return the words that say that one does not know."""
    match = UNSURE.search(joined.text)
    return Found("unsure", joined.span(match)) if match else None


def cannot(joined: Joined) -> Found | None:
    """Return the words that say that one can't do it."""
    match = CANNOT.search(joined.text)
    return Found("cannot", joined.span(match)) if match else None


def is_request(joined: Joined) -> bool:
    """Tell whether a line asks something of us, or about times and people, or to wait: it tells nothing."""
    return bool(REQUEST.search(joined.text) or WAIT.search(joined.text))


def asks_of_us(joined: Joined) -> bool:
    """Tell whether a question is about who answers: "what's your name again", "where are you based"."""
    return OF_US.search(joined.text) is not None


def question(joined: Joined) -> str:
    """Return "where", "why" or "what" if a line asks that back, else ""."""
    for kind, pattern in (("where", WHERE), ("why", WHY), ("what", WHAT)):
        if pattern.search(joined.text):
            return kind
    return ""

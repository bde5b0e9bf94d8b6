"""What a line asks back or asks for: why, where, what; something else of us; to wait a moment.

Rule of the file: patterns of plain English over normal words; what is asked about is for `parts` to tell.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.hear.joined import Joined

LEAD = r"^((but|and|so|sorry|ok|er|um|hang on|right|well|hm|hmm|yes|no|oh|hi|hello|hey|please|,|\.) )*"
THIS = r"(that|this|it|they|those|any of (that|this|it))"
YOU = r"(you|we|i|us|me)"
DO = r"(is|are|was|does|do|did|will|would|could|can|should|has|have|going to)"
USE = r"(help|tell|prove|show|matter|achieve|change|do|solve|fix)"
END = r"( (exactly|then|now|though|mate|please|sorry|um|actually|again|for|\?|\.|!))*$"
WHY = re.compile(
    rf"{LEAD}(why|whys|y (?={DO}|you|ask|that|do)|what for|how come|(for )?what reason|(is there )?(a|"
    rf"any) reason "
    rf"(for asking|(you|your)\b)|what difference|so what if)\b"
    rf"|\bwhy ({DO}|on earth|you)\b|\b(do|does|can|did|could) not see (why|how|what)\b"
    rf"|\bwhat (\w+ ){{0,6}}(got )?to do with\b|{LEAD}what (is|has) {THIS} (got to do|for\b)"
    rf"|{LEAD}what (is|s) the (point|reason|relevance|use|good|idea|purpose)|{LEAD}what use\b"
    # "what good will weighing it do", "how is that going to help", "what does that prove"
    rf"|{LEAD}(what|how) (good |use |difference |help )?{DO} (that|this|it|\w+ing( \w+){{0,3}}|knowing( "
    rf"\w+){{0,6}}) "
    rf"(going to |ever |really |even |to )*({USE}\b(?! (not )?work)|relevant|useful|important|necessary)"
    rf"|{LEAD}what {DO}( not)? {THIS} matter|^what (is|it) it matter"
    rf"|{LEAD}(does|is|would) {THIS} (really |even |all )*(matter|necessary|needed|important|relevant|"
    rf"needed)\b"
    rf"|{LEAD}(do|must|should) {YOU} (really |actually )?(need|have)( to)?( (do|check|know|look|see|"
    rf"bother|go))?"
    rf"( {THIS}| all that)?{END}"
    rf"|^what (are|do|did|would|is)? ?(you|that|this|it) .* for( \?)*$|{LEAD}what (are )?you (after|"
    rf"getting at)\b"
)
WHERE = re.compile(
    rf"{LEAD}(where|whereabouts|where abouts)\b"
    r"|\bwhere(abouts)? (is|are|am|do|does|would|can|should|abouts|will|now|next|on|exactly)\b|\bwhere( "
    r"\?)?$"
    r"|\bwhich (bit|part|one|thing) (is|do you call|the)\b|\bhow (do|would|will|can|should) i (find|"
    r"know which|get (to|at)|"
    r"reach)\b"
    rf"|{LEAD}(which|what) (way|side|end|bit|corner|direction|wall|room|shelf|height)( (is|do|am|are|"
    rf"should|would|of) .*)?"
    r"( \?)?$"
    r"|^which (\w+ ){1,2}(do you mean|is (it|that|this))( \?)?$|^which \w+( \?)?$"
    rf"|{LEAD}(is|would|are) ({THIS}|they)( be)? (meant to be )?(round|around|behind|under|underneath|"
    rf"near|next to|inside|beside|"
    r"at the|on the|in the|by the|above|below|up|on top)\b"
    r"|can not find (the|where|that|it)\b.*\?|what (does|do) (it|that|they|the \w+) look like|"
    r"(do|did|would) not know where (\w+ ){0,2}(is|to look|are|it|that|they)\b"
)
# Plainly a question what something means: no answer, whatever words stand in it.
MEANS = re.compile(
    rf"\bwhat (do |did |are |is )?(you|it|that|this|they) (mean\w*|on about|talking about)\b|\bmeaning "
    rf"what\b|\bbeing what\b"
    rf"|\bwhat (is|are|does) (a |an |the )?(\w+ ){{0,3}}mean\b|\bdoes .* mean\b|\bwhat (\w+ )?means?\b"
    rf"|\bnever (even )?heard of\b|{LEAD}(define|explain)\b"
    rf"|( \?| ,|^)( and| but| um)* what( the \w+)? (is|are|does) {THIS}( (mean|called|then|one|thing|"
    rf"exactly|when .*))?{END}"
    rf"|\bwhat( the \w+)? (is|are) (one|any|some) of (those|them|these)\b"
    rf"|{LEAD}what (is|are) (a |an )?(?!(the|that|this|it|next|happening|going|wrong|up|your|my|"
    rf"on)\b)\w+( \w+)?( \?)?$"
    rf"|{LEAD}what counts as\b"
    rf"|\b(no|not a|not got a|do not have a|have not a|have not got a) (idea|clue) what\b"
    rf"(?! (i am|we are|it is) )"
    rf"|\b(do|does|did|would|am|are) not (really |quite )?(know|sure|certain) what ({THIS}|a|an|the|you)\b"
    rf"|^(um )?not (really |quite )?(sure|certain) what ({THIS}|you|a|an|the)\b"
    rf"|{LEAD}(i )?(do|did|can|am) not (really |quite )?(understand|understanding|follow|following|get "
    rf"(it|that|this|you|what)|with you)\b"
    rf"|{LEAD}you (have )?lost me\b|{LEAD}in (plain |proper )?english\b|{LEAD}(can|could) you (please "
    rf")?(explain|rephrase|repeat)"
)
WHAT = re.compile(
    rf"{LEAD}(what( the \w+)?( even| exactly| actually| on earth| then)? (is|are|does|do you mean|exactly|"
    r"sort of|kind of|counts as|am)( (a|an|the|that|this|one|it))?\b|what \?|what$|"
    r"you what|come again|say (that )?again|eh( \?)?$|huh|pardon|which (is|one is) (the|that))"
    r"|\bwhat (is|are) (a|an|the) \w+( \?)?$|^what \w+( \w+)? \?$|^what is it you mean\b"
    r"|^how (do|would|should|can|am) (i|you|we)\b"
)
# Who does not know what it should be asks nothing.
AT_A_LOSS = re.compile(
    r"\b(do|did|would) not (really )?know what (it|that|they) (is |are |was )?(meant|supposed|should)\b"
)
OF_US = re.compile(r"\b(your|yours|(are|were) you (?!on about|talking|saying|asking|after|on$))\b")
REFERS = re.compile(rf"\b({THIS}|these|them|now|you)\b")
REQUEST = re.compile(
    rf"{LEAD}"
    r"((can|could|would|will|do|did|are|have) you|when (will|can|is|are|do|does)|what time|how (long|"
    r"much|many|soon|old)|who (is|are|do|does|can|could|should|would|will|shall)|"
    r"(is|are) (it|they|that|this|there) (\w+ )?(safe|ok|all right|possible|allowed|anyone|someone|"
    r"a number|going to)|"
    r"(do|should|shall|can|could|must|may|am|will) i (\w+ ){1,6}|"
    r"(does|is|will|would|has) (the|my|our|your|this|that|any) (\w+ )?(warranty|guarantee|contract|"
    r"insurance|cover|price|"
    r"invoice|bill|call ?out|visit|engineer|delivery|order)\b|"
    r"(they|he|she|we|i|boss|manager|head office|(the|my|our) \w+) (\w+ )?(want|wants|need|needs|"
    r"asked for|fancy|"
    r"would like|are after|is after) (a |an |the |some |another |us to (buy|get|order) )*"
    r"(new|replacement|spare|price|quote|refund|engineer|technician|callback|visit)\b)"
)
WHILE = r"(sec|secs|second|seconds|minute|minutes|min|mo|moment|tick|ticks|jiffy|while|bit)"
SHORT = rf"((a|one|two|three|half a|couple of|just|just a|a couple of|give or take) )*{WHILE}"
GOING = (
    r"((go|going|come|coming|walk|walking|nip|nipping|pop|popping|head|heading) (and|to|over|round|down|"
    r"up|back|in|out|there|"
    r"through|look|see|check|for a|have|get|ask)|look|looking|(have|having|take|taking) a (quick |proper "
    r")?look|check|checking|"
    r"(get|getting|grab|grabbing|fetch|fetching|find|finding) (my|a|the|some|someone|somebody|you|his|"
    r"her)|ask|asking|"
    r"(put|putting) (you|my|the phone)|see|think|do (that|it) now|try|read)"
)
WAIT = re.compile(
    rf"^(ok |right |sorry |fine |well |um |oh |then |so |yes |, )*("
    rf"((hang|hold) on|hold the line|wait|stand by|bear with( me| us)?|give (me|us)( {SHORT})?|be "
    rf"right back|brb|"
    rf"back in( {SHORT})?|{SHORT})( there)?( (a|one|just|two|{SHORT}|please|mate|love|,|\.|!|while i|um))*"
    rf"|let (me|us) (just |quickly )?"
    rf"|(i )?(will|ill|am|need to|have to|had better|better|would better) (just |quickly )?(?={GOING})|"
    rf"(?={GOING} (it|that|now|over|round|my|the)))"
    rf"( ?(i am |i will |let me |need to |i need to |i have to |will |while i |just |and )*{GOING}( "
    rf"\w+){{0,5}})?"
    rf"( (please|mate|love|now|then|um|for you))*( [.,!])*$"
)


def question(joined: Joined) -> str:
    """Return "where", "why" or "what" if a line asks that back, else ""."""
    if AT_A_LOSS.search(joined.text):
        return ""
    if WHERE.search(joined.text):
        return "where"
    if WHY.search(joined.text):
        return "why"
    return "what" if WHAT.search(joined.text) or MEANS.search(joined.text) else ""


def is_plain_question(joined: Joined) -> bool:
    """Tell whether a line asks so plainly what or why that no answer is in it."""
    return bool(MEANS.search(joined.text) or WHY.search(joined.text))


def asks_of_us(joined: Joined) -> bool:
    """Tell whether a question is about who answers: "what's your name again", "where are you based"."""
    return OF_US.search(joined.text) is not None


def refers(joined: Joined) -> bool:
    """Tell whether a question refers to what was said before: "where is that", "why do you ask"."""
    return REFERS.search(joined.text) is not None


def is_wait(joined: Joined) -> bool:
    """Tell whether a line only asks to wait or says that one goes to look."""
    return WAIT.search(joined.text) is not None


def is_request(joined: Joined) -> bool:
    """Tell whether a line asks something of us, or about times and people, or to wait: it tells nothing."""
    return bool(REQUEST.search(joined.text)) or is_wait(joined)

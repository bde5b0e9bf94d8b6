"""What people say that tells nothing of the machine: who they are, the weather, thanks, other equipment.

Rule of the file: plain talk of any counter or phone line. A stretch that is as good as one of these is
taken for what it is rather than for the symptom that it is least unlike.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.hear.features import letters, tokens
from assistant.hear.match import Index
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.features import Concepts
    from assistant.hear.words import Word

TOKENS, LETTERS = 0.6, 0.4  # shares of words and of letters

TALK = """
thank you so much/thanks for coming back to me/cheers for that/much appreciated/you have been a great
help/you are a star/thanks for all your help so far/that is brilliant thank you/appreciate you picking
up/sorry to be a pain/sorry to ring so late/sorry about the wait/sorry i was serving/sorry i had a
customer/sorry i got cut off/i was on the other line/i am back now/just had to serve someone/give me two
minutes/bear with me please/one moment please/i will just go and look/let me find my glasses/i am walking
over there now/hold on i will ask someone/i will put you on speaker/can you hear me/you are breaking
up/the signal is bad in here/right what do you need/ok what is next/where do we begin/shall we make a
start/let us crack on then/lets get going/ready when you are/fire away/go ahead/what do you want to know
first/how do we do this/is that all you need/my name is sam and i am the manager/this is the deputy
manager speaking/it is jo on the front desk/i am the new supervisor/i only started last week/i am just
covering today/i am a temp/i usually work upstairs/i work in the kitchen/i am the team leader on shift/my
manager asked me to call/the boss told me to ring you/our site number is four two seven/the reference
number is/my phone number is/you can call me back on/my email address is/the postcode is/we are at the end
of the pier/we are the one by the station/we are next to the car park/are you local/how far away are
you/where are you based/how long will you be/when can someone come out/what time will they get here/is
anyone coming today/can you send someone/do i have to pay for this/will this be under warranty/who pays
for that/how much is a new one/can you send more cups/we need more straws/we are out of lids/can i order
more syrup/when is the next order due/i need to order some napkins/the order never turned up/who do i
speak to about ordering/i have a bill to query/lovely day today/terrible weather we are having/it is
chucking it down outside/it is sunny out/been raining all week/it is a scorcher today/the wind is up on
the front/how is your day going/how are you today/not too bad yourself/did you have a good weekend/happy
new year/merry christmas/have a good one/speak soon/i finish in an hour/my shift finishes at five/i am off
tomorrow/i go on my break in a minute/i have to go in ten minutes/we shut at ten tonight/we open at nine
on saturdays/we close early on sundays/it is my day off/i am on till late/the film starts in five
minutes/the next show is at eight/we have a party in at three/there is a school group coming/we are fully
booked tonight/i have a queue at the till/i am on my own here/we are short staffed today/the place is
packed/nobody comes in on a monday/it is half term/the card machine is not working either/the popcorn
warmer is broken too/the till keeps crashing/the hot dog roller has packed up/the coffee machine is broken
as well/the ice cream freezer is fine/the lift is out of order/the toilets are blocked again/the projector
failed last night/the music is too loud/that one is not yours it is another company/that is a different
supplier/someone else looks after that/this machine is quite new/we have had it for years/it is the small
one/it is the big one with three taps/it is an old machine/we have two of them/the other one is
upstairs/it is our best seller/people love these/the kids love it/we sell hundreds a day/they cost two
pounds each/i do not want to lose any more sales/this is really not good enough/i am fed up with this/what
a day/typical/it is always on a weekend/just my luck/you could not make it up/if that is any help/if that
is any use/for what it is worth/just so you know/in case it matters/as i said/i do not know if that
matters/not sure if that helps/i thought i would mention it/i just wanted to let you know/i just got in/i
have only just arrived on site/i have just got here/we have just opened up/i am standing in front of
it/the person who knows is off today/nobody told me anything/i was told to ring this number/somebody left
a note/they want it fixed before the weekend/they want a price for a new one/head office want to know/the
area manager is coming tomorrow/the boss is on at me/the owner wants an answer/they said to replace it/he
reckoned it needs a service/can i turn it back on now/can i use it in the meantime/is it safe to leave
on/do i need to switch it off/what happens next/is that it then/are we done/that is everything
thanks/nothing else thanks/no that is all/there is nothing wrong with that/no faults there/no problem
there/that bit is fine/everything else is fine/the rest of it is fine/all fine otherwise/no issues apart
from that/quite the reverse/more like the opposite/never mind/do not worry about it/it does not
matter/forget it/no worries/fair enough/i see/understood/got you/sorry i was talking to someone/sorry a
customer came in/sorry got distracted/had to deal with a queue/i have you on speaker now/when i locked
up/when we closed up/when i shut up shop/at close/when i left/who do i ask about the contract/who do i
speak to about the invoice/can i talk to a person/are you a real person/what number do i ring/is this
covered by the guarantee/how do i cancel the contract/does somebody have to be here for the visit/can they
ring before they come/leave it with the neighbours/the order comes on a friday/deliveries come once a
week/the cleaning is done every night/the engineer is booked for next week/the service is due next
month/the next order is in an hour/running low on napkins/we need to order more/can you add lids to the
order/the price of gas these days is a joke/bottles cost a fortune now/everything has gone up/my dad was
an engineer/my mate does this for a living/i used to work with these/the kids have a name for it/everybody
wants the blue one/the cherry is the nicest/it turns your tongue blue/my shift has only just started/i
hand over at eight/the morning lot told me/i am new here/first day on the job/not my machine really/i hate
this machine/it hates me/here we go again/not again/story of my life/
"""


@dataclass(frozen=True, slots=True)
class Chatter:
    """The phrases, ready to be compared."""

    tokens: Index
    letters: Index
    concepts: Concepts

    @classmethod
    def of(cls, concepts: Concepts) -> Chatter:
        """Return the phrases with the ways of saying the same thing."""
        said = [words_of(each) for each in " ".join(TALK.split()).split("/") if each.strip()]
        owners = range(len(said))
        return cls(
            Index.of([tokens(words, concepts) for words in said], owners),
            Index.of([letters(words) for words in said], owners),
            concepts,
        )

    def likeness(self, words: Sequence[Word]) -> float:
        """Return how close words come to the nearest phrase, 0 to 1."""
        near = TOKENS * self.tokens.cosines(tokens(words, self.concepts), 1.0)
        near += LETTERS * self.letters.cosines(letters(words), 1.0)
        return float(near.max(initial=0.0))

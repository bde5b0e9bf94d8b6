"""Lists of plain English that understanding leans on: shorthand and small words.

Rule of the file: how people write and speak, nothing about machines.
"""

from __future__ import annotations


def listed(text: str) -> frozenset[str]:
    """Return the words of a text."""
    return frozenset(text.split())


def _table(text: str) -> dict[str, tuple[str, ...]]:
    """Return `{typed: words}` from lines of "typed typed ... = words"."""
    found: dict[str, tuple[str, ...]] = {}
    for row in text.strip().splitlines():
        typed, _, words = row.partition("=")
        found.update(dict.fromkeys(typed.split(), tuple(words.split())))
    return found


# What is typed, without its apostrophe, and what it stands for: contractions, phone shorthand, slang,
# American spellings.
EXPANSIONS = _table("""
isnt aint int = is not
arent = are not
wasnt = was not
werent = were not
wont = will not
cant cannot carnt = can not
couldnt = could not
wouldnt = would not
shouldnt = should not
dont dnt = do not
doesnt dosnt dosent doesent = does not
didnt = did not
hasnt = has not
havent = have not
hadnt = had not
mustnt = must not
neednt = need not
its tis = it is
thats = that is
theres = there is
whats wats wots = what is
wot wat = what
mgr = manager
wheres = where is
hows = how is
whos = who is
whys = why is
whens = when is
wdym = what do you mean
thurs thur = thursday
weds = wednesday
tues = tuesday
wkend = weekend
wk = week
heres = here is
hes = he is
shes = she is
im = i am
ive = i have
youre = you are
dyou dya = do you
youve = you have
weve = we have
theyre = they are
theyve = they have
id = i would
itll = it will
thatll = that will
nothings = nothing is
everythings = everything is
somethings = something is
everyones = everyone is
nobodys = nobody is
noones = nobody is
dunno dno dunnow idk dk = do not know
sparky sparkie sparkys = electrician
gonna = going to
gotta = got to
wanna = want to
kinda = kind of
sorta = sort of
lotta = lot of
outta = out of
coupla = couple of
gimme = give me
lemme = let me
innit = is it not
cos cuz coz cause bcos bc becos = because
u ya yer = you
ur = your
r = are
n nd = and
w = with
b4 = before
em = them
thru = through
tho = though
til = till
pls plz = please
thx ta tnx cheers = thanks
tmrw tmoro tomoz = tomorrow
ystday yday yest = yesterday
mins = minutes
hrs = hours
wks = weeks
sec = second
temp temps = temperature
wtr = water
syr syrp = syrup
pic = picture
owt = anything
nowt nuffin nuthin nuffink = nothing
summat sumthing smth somat = something
summink = something
noone = nobody
msg = message
disp = display
carb = carbonation
hh = hand
colour color colors = colour
flavor flavors flavour flavours = flavour
center = centre
fiber = fibre
gray = grey
liter liters = litre
tire tires = tyre
odor = odour
faucet = tap
spigot = tap
wrench = spanner
breezeblock = block
lite = light
nite = night
yeh yea yeah yep yup ya ye yh yeahh yis aye yes yessir = yes
nope nah naw nay noo neg = no
co2 = co2
okay ok okey k = ok
alright = all right
cupla = couple of
pressurised pressurized = pressurised
sanitize sanitized sanitizer = sanitise
goin = going
comin = coming
teh hte th = the
adn nad = and
taht tht = that
fo = of
& + = and
a.m a.m. = morning
p.m p.m. = afternoon
bbl brl = barrel
bbls brls = barrels
cyl = cylinder
lefty leftie = left one
righty rightie = right one
tbh btw fyi lol omg imo argh ugh afaik oi bro bruv fam dude hun babe pal = um
soz = sorry
lhs = left hand side
rhs = right hand side
comp compr = compressor
si = is
ti = it
wiht wih = with
makin = making
leakin = leaking
drippin = dripping
runnin = running
workin = working
freezin = freezing
pourin = pouring
nothin nuttin = nothing
somethin = something
anythin = anything
""")
EXPANSIONS["ya"] = ("you",)
EXPANSIONS["blu"] = ("blue",)
# Without their apostrophe these would be other words.
APOSTROPHED = {
    "we're": ("we", "are"),
    "we'll": ("we", "will"),
    "he'll": ("he", "will"),
    "she'll": ("she", "will"),
    "i'll": ("i", "will"),
    "we'd": ("we", "would"),
    "she'd": ("she", "would"),
}

# Words that carry little by themselves; they still count a little when lines are compared.
SMALL_WORDS = listed(
    """
    a about actually after again ah all also am an and any anyway are as at aw away back bar be because been
    before being bit bloody both but by can coming could cup customer customers dear do does done down each
    ever every everyone far few for from get gets getting give go goes going good got guess had has have
    having he hello her here hi him his hiya how i if in into is it just keep keeps kind know let like
    little look looks lot love machine made make makes mate may me might mind more most much must my near
    need never no not now of off oh ok on one only or other our out over please quite really right round
    said same say says see seem seems she should since sit slush so some someone something sort still such
    take than thanks that the their them then there these they thing things think this those though through
    till time to today too trying try two up us very want was way we well went were what when where which
    while who why will with without would yes yet you your came come put puts took take used tried start
    started says telling told keeps keep kept thing somebody everybody else way whole place reckon reckons
    showing shows show giving gives maybe perhaps possibly probably definitely basically literally simply
    um er uh erm hmm
    somehow honestly apparently obviously currently suddenly totally completely absolutely afraid proper
    """
)
FILLERS = listed(
    """
    a an the um er uh erm ah oh well so like you know i mean mate love please thanks hi hello hiya hey right
    ok anyway just and but also plus then now it is there that this be sorry bloody
    """
)

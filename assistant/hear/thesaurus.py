"""Everyday words that say the same thing: noises, leaks, tastes, speeds, breakages, people, places, times.

Rule of the file: plain English that any shop uses; words of the trade stand in a pack's lexicon. A group is
"concept: way, way, two words", its further lines indented; a word may stand in several groups. Words count as
themselves too, so a group need not be exact, only near enough that one of its words tells something about
another.
"""

from __future__ import annotations

GROUPS = """
smell: smell, stink, stench, reek, whiff, pong, odour, niff, scent, aroma, fume, whiffy, stinky, pongy
noise: noise, sound, racket, din, row, loud, noisy, commotion, clamour, uproar, hear
bang: bang, knock, thump, thud, clunk, clonk, bump, hammer, wallop, pound, slam, bash, whack, thwack, clank
grind: grind, scrape, grate, rub, crunch, graunch, rasp, scratch, chew, gnash, gravelly, grindy, scratchy
squeal: squeal, squeak, screech, shriek, whine, scream, squawk, wail, howl, yelp, high pitched, squeaky
groan: groan, moan, growl, creak, grumble, rumble, strain, labour, struggle, grunt, complain, roar
click: click, tick, clack, tap, clickety, clicky, snap, ticker, pecking
hiss: hiss, whistle, psst, ps, pst, sss, shh, whoosh, wheeze, escaping, hissy, tyre, puncture, airy sound
buzz: buzz, hum, drone, whirr, purr, mmm
rattle: rattle, shake, judder, vibrate, shudder, wobble, tremble, jiggle, quiver, jump about, rattly, shaky
beep: beep, bleep, ping, chirp, buzzer, chime, siren, beeper, peep, bleeper
leak: leak, drip, dribble, seep, weep, ooze, escape, spill, dripping, piss, wee, trickle, drop, spew, gush,
  soak, drops fall, run down, running out, pour out, wet through, lose water, dampness, spillage, trail,
  streaming
puddle: puddle, pool, flood, soak, drench, lake, sodden, wet patch, damp, wet, swim, soggy, slippy, mop,
  paddling
sticky: sticky, gooey, tacky, gunky, goo, gunk, treacle, goop, slimy, gloop, gluey, ant, wasp, fly
dirty: dirty, filthy, mucky, grimy, manky, fluff, dust, furry, clog, caked, lint, fluffy, dusty, minging,
  grubby
break: break, snap, crack, split, smash, burst, shatter, come off, fall off, come away, knacker, wreck, in
  half, in two, rip, tear, ping off, sheared
loose: loose, wobbly, floppy, flop, hang, dangle, droop, come away, hanging off, falling off, slack, wiggle
stuck: stuck, jam, seize, wedge, stiff, lock, bind, not budge, not move, not shift, stick, glue, hard to
  pull
blocked: block, clog, plug, bung, stop up, obstruct, choke, jam, kink, gunge, bunged up
stop: stop, quit, pack in, pack up, conk out, die, cut out, give up, cease, halt, give out, shut down, give
  up the ghost, pack it in, come to a halt, stall, call it a day, throw in the towel, dies, died, pass away,
  give in, cut off, knock off, drop out, shut off, shut itself off, quits, stutter, fade out
faulty: faulty, kaput, knackered, out of order, on the blink, on the fritz, play up, act up, go wrong, have
  it, duff, dud, goosed, banjaxed, broken down, done for, not work, bollock, shot, buggered, screwed,
  cactus, stuffed, wreck, useless, up the creek, misbehave
start: start, begin, kick in, come on, fire up, get going, boot, power up, switch on, turn on, go on, wake
  up
turning: turn, spin, rotate, go round, go around, revolve, stir, mix, churn, twirl, whirl, move, swirl,
  twist, agitate, whizz
quick: fast, quick, rapid, no time, straight away, immediate, soon, swift, flies, instant, blink, minutes,
  flash, jiffy, heartbeat, split second, snap, trice, no sooner, before you know it
slow: slow, sluggish, crawl, age, forever, dawdle, snail, lazy, eternity, drag, patience, half an hour,
  weedy, barely, tortoise, glacial, all day, donkeys, read a book, ooze, creep, ketchup, treacle, an age,
  ages, bit at a time, dead slow, ever so slow, weak flow, takes an eternity, go make a tea, inch
hot: hot, warm, heat, boil, roast, scorching, bake, swelter, oven, toasty, furnace, hairdryer, sauna,
  tropical, radiator, cook, overheat, fry, egg, griddle, grill, barbecue, hand dryer, hot as hell, burning
  up, sweltering, steam, kettle, hob, red hot
lukewarm: warm, lukewarm, tepid, room temperature, not cold, not chill, bath, wee warm, blood warm
cold: cold, chilly, chill, nippy, arctic, icy, ice cold, cool
burning: burn, smoke, scorch, singe, char, melt, fire, smoulder, smoky, flame, spark, sizzle, fizzle,
  scorched, toast, hot plastic, burnt plastic, burnt toast, fishy
shock: shock, zap, tingle, belt, jolt, electrocute, twinge, pins and needles, tingly, prickle, buzz off it,
  live, bite
ill: ill, sick, unwell, throw up, vomit, puke, poorly, nausea, nauseous, queasy, spew, tummy, stomach,
  belly, chuck up, chunder, barf, hurl, upset stomach
dizzy: dizzy, feel faint, come over faint, go faint, fainted, light head, woozy, giddy, headache, breath,
  breathless, pass out, collapse, lightheaded, bang head, head hurt, sore head, headachy, swimmy, spaced
  out, wobbly, cant breathe, tight chest, migraine, keel over, funny turn, gasp, pant, short of breath,
  stuffy, air is thick, drowsy, nod off, faint, foggy, see stars, unsteady, sway
complain: complain, moan, grumble, whinge, send back, bring back, return, refund, unhappy, complaint, kick
  off, gripe, mither, pull face, hand back, rejected, poured away, want money back, refuse, binned, chuck
  away, wont drink, push away
customer: customer, punter, guest, kid, child, people, lad, girl, family, lady, bloke, woman, man, client,
  folk, public, mum, parent, teenager
awful: bad, horrible, awful, disgusting, vile, nasty, rank, minging, gross, foul, revolting, yuck, manky,
  grim, hideous, terrible, dreadful, grotty, honking, yucky, boggin, mank, bogging, bleugh, ugh, rotten,
  shocking, feral, putrid, crap, rough, rubbish, minger, undrinkable
strange: strange, odd, weird, funny, peculiar, not right, dodgy, off, suspicious, iffy, unusual, wrong,
  different, queer, ropey, suspect, wonky, incorrect, not as it should, questionable, not normal, out of
  sorts, unlike, mysterious, not usual
everything: all, every, each, both, lot, everything, across the board, everywhere, any of, whole lot,
  entire, full set, all three, every one, every single
one only: just one, only one, one of, single, one side, this one, that one, only this, only that, rest fine,
  others fine, rest ok, others ok
never: never, not once, not ever, not at all, at no point
always: always, constant, all the time, non stop, nonstop, continuous, endless, 24 7, day and night,
  forever, permanent, round the clock, without stopping, relentless, keep on, whole time, never stop, not
  stop, incessant, continual, never end, never rest, never shut up, on the go, without a break, perpetual
over and over: again and again, over and over, repeatedly, every few minutes, every minute, every couple of
  minutes, keep, every time, time after time, every five minutes
again: again, back again, recur, return, reoccur, once more, second time, third time, fourth time,
  groundhog, same problem, same thing, same fault, same issue, been here before, last time, yet again, back
  to square one, keep come back, keep happening, deja vu, umpteenth, repeat, back to how it was, keeps
  coming, same old, old fault, recurring, nth time, as before, like before, returned, relapse, did not last,
  weeks later, still not right, still not fixed, fixed before, back doing it, come back, doing it again,
  happened before, visit, been out, call out
sometimes: sometimes, on and off, now and then, come and go, every so often, intermittent, occasional, from
  time to time, random, when it feel like it, fit and start, once in a while, off and on
varies: vary, inconsistent, different every, never the same, up and down, all over the shop, all over the
  place, hit and miss, hit or miss, lottery, pot luck, lucky dip, no two, one minute, next minute, changes,
  mood, depend, roulette, consistent, unpredictable
busy: busy, rush, queue, ram, heave, peak, crowd, slam, interval, hectic, chocka, mob, full house, back to
  back, line out the door, flat out, under pressure, rush hour, stampede, swamped, lots of orders, big line,
  long line, demand, run on it, few in a row, one after another, keep up, keep pace, cope, pack out,
  intermission, half term, bank holiday, coach party, half time, break time, matinee, premiere, film let
  out, load, heavy use, school trip, big order, birthday party, full swing, hammered, pounded
morning: morning, first thing, open up, opening, when we come in, start of the day, start of shift, unlock,
  breakfast, at nine, early doors, am, dawn
overnight: overnight, night, closing, close, shut, nobody here, after hours, last night, while we sleep
afternoon: afternoon, after lunch, by four, teatime, later in the day, mid afternoon, three o'clock, heat of
  the day, four o'clock
high: high, too much, over, above, up, excess, sky high, through the roof, way up, rise, climb, creep up,
  exceed, shoot up, soar, maxed, elevated, ramp, build up, spike
low: low, down, drop, fall, under, below, dip, sink, plummet, decrease, go down, sag, fade, bottom, dwindle,
  tumble, reduce, slip, slump, ebb
jumping: jump, bounce, dance, flicker, jitter, flit, hop, swing, leap, erratic, wander, fluctuate, unstable,
  haywire, not settle, up and down, yo yo, yoyo, jumpy, all over, flip, rocket up and down, going mad, going
  mental, not steady, seesaw, crazy, banana, bonkers, berserk, nuts, flap, dither, twitch, up one minute,
  hunting, noisy, wobble about, ping pong, trampoline, never settle, cannot settle, not sit still, make its
  mind up, all sorts
same: same, identical, equal, match, agree, like each other, tally, exact same
differing: differ, disagree, not match, mismatch, contradict, not tally, not the same, odds with, not agree,
  way out, not line up, dont add up, out by, miles out, lie, fib, wrong, inaccurate, conflict, porky,
  telling porkies, incorrect, off by, at odds, tell different story, dont tie up, dont marry up, higher
  than, lower than, say one thing
swapped: swap, switch, mix up, wrong way round, back to front, cross, other way round, muddle, vice versa,
  jumble, wrong way, opposite, other one, mixed, plugged in wrong, wrong plug, wrong socket, wrong name,
  mislabel, crossed, backwards, transpose, mirror, other one moves, name the wrong
screen: screen, display, panel, monitor, readout, touchscreen, touch screen, lcd
blank: blank, black, dark, nothing on, no picture, white out, go off, empty screen, not light up
garbled: garble, gibberish, squiggle, scramble, jumble, symbol, line across, hieroglyphic, nonsense,
  gobbledygook, pixel, smear, alien, dots, funny letters, rubbish on, random letters, foreign, mumbo jumbo,
  jumbled, snowy, lines, static, glitch, corrupt, scrambled
frozen screen: freeze screen, screen freeze, lock up, hang, unresponsive, not respond, ignore, stuck on, not
  react, touch, button, press, poke, tap it, keys do nothing, cannot press, no response, wont come off,
  stuck page, dead buttons, wont let me, buttons do nothing, stuck on one page
light: light, bulb, lamp, led, glow, backlight, illuminate, neon, lit, light up, shine, sign, canopy, lit
  sign, tube, dim
message: message, say, flash, blink, pop up, come up, tell, notice, icon, symbol, sign, indicator, text,
  prompt, alert, show
under: under, underneath, beneath, bottom, base, below, foot, leg
behind: behind, back, rear, round the back, backside
inside: inside, internal, within, innards, guts, in there, in it, interior, within the barrel
floor: floor, ground, carpet, tile, lino, deck, concrete
flow: pour, dispense, come out, flow, run, serve, give, deliver, draw, get out, squeeze out, discharge
not a drop: nothing, none, not a thing, not a drop, zilch, nada, sod all, naff all, bugger all, zip, diddly,
  not a sausage, no drink, not a bean, jack, no product, bone dry, not a dribble, zero, nought
trickle: trickle, dribble, drip, piddle, thin stream, pathetic stream, weep, crawl, barely come, slow
spit: spit, splutter, spurt, sputter, cough, splatter, spray, splash, burp, belch, gurgle, fart, squirt,
  pop, glug, spatter, choke, hiccup, sneeze, splat, gob
foam: foam, froth, head, bubbly, sud, lather, bubble bath, beer, foamy, frothy, cappuccino, fluff, pint
burst out: explode, burst, blast, shoot, fire, jet, gush, fly, rocket, erupt, squirt, force, power hose,
  cannon, pressure washer, fire hose, ceiling, wall, shirt, shotgun, hosepipe, geyser, fountain, volcano,
  bullet, soak, head to toe, blow out, champagne, fire extinguisher, bazooka, splashback
lumps: lump, chunk, chip, bit, crystal, shard, flake, pellet, grit, grain, crunchy, piece, clump, nugget,
  sliver, pebble, gravel, hail, lumpy, chunky, gritty, cube, boulder, stone, bits in it, sandy, slivers,
  bead, glass, snow
thick: thick, stodgy, dense, heavy, gloopy, stiff, porridge, custard, claggy, wodge, mashed potato, cement,
  dough, pudding, ice cream, clay, paste, lumpy mash, set like, peanut butter, wet sand, heavy going,
  wallpaper paste, mud, no air, weigh, weighs, brick, lead
melted: melt, thaw, turn to water, soften, soft, gone to water, liquefy, dissolve, puddle, turn to liquid,
  gone soft
sweet: sweet, sugar, sugary, sickly, tooth, teeth, cloying, treacle, honey, undiluted, neat, concentrated,
  jam, syrupy, coat your mouth, too strong, overpowering, too much flavour, toothache, neat syrup, sherbet,
  molasses, rich, intense, heavy on syrup
a colour: pink, pinkish, purple, green, greenish, brown, brownish, yellow, yellowish, red, reddish, blue,
  bluish, orange, grey
dark: dark, deep, black, treacle
clear: clear, see through, transparent, no colour, colourless, pale, washed out, faded, light, ghost, white,
  whitish, barely pink, tint, lost its colour
bland: bland, tasteless, insipid, no taste, no flavour, water down, watered down, dilute, weak, taste of
  nothing, taste like nothing, flavourless, like water, taste like ice, wishy washy, not taste of, barely
  taste, taste of water, hardly taste, thin flavour, translucent, no strength, hint of, faint, half
  strength, needs more flavour, no oomph, no kick, watery taste, wet cardboard
sour: sour, vinegar, ferment, yeasty, rancid, off, turn, curdle, acid, bitter, tangy, tart, gone off, past
  it, beer, brewery, cider, kombucha, yoghurt
musty: musty, mould, stale, damp, cellar, mildew, fusty, earthy, dank, old, dishcloth, sock, feet, mushroom,
  dog, pond, stagnant, sewer, drain, sewage, egg, sulphur, rotten, bog, swamp, compost, cheese, cardboard,
  cheesy, mothball, attic, wet dog, unwashed, sweaty, drainy, fishy, sick, vomit, off milk
metal: metal, coin, penny, tin, iron, rust, copper, blood, metallic, tinny, pennies, spoon, nail, foil,
  rusty
chemical: chemical, bleach, chlorine, soap, detergent, disinfectant, sanitise, cleaner, swimming pool,
  plastic, washing up, polish, pool, baths, shampoo, perfume, solvent, paint, petrol, ammonia, hospital,
  antiseptic, toilet, soapy, cleaning product, cleaning stuff, cleaning fluid, washing powder, medicine,
  rubber, toxic, nail varnish, varnish, turpentine, acetone, glue, poison, dentist, mouthwash, floor
  cleaner, white spirit, wax, sterile
offline: offline, not connect, no connection, disconnect, no signal, no data, wifi, internet, not online,
  not report, app, dashboard, portal, remote, head office, telemetry, cloud, website, system, map, grey,
  ping, comms, network, router, link, phone home, update, last seen, not talking, lost contact, fall off,
  drop off, not phoning home, out of contact, off the radar, not sending, greyed out, last contact, no
  comms, lost comms, unreachable, not showing up, missing from, office cannot see
power: power, electric, electricity, mains, plug, socket, current, voltage, lead
no power: dead, stone dead, not a light, no light, no power, no life, no lights, lifeless, not turn on, not
  switch on, not come on, not start, dead as a dodo, doornail, completely off, no sign of life, power gone,
  off completely, zero power, turn itself off, switch itself off, not power up, nothing light, not a
  flicker, total loss, power loss, blackout, pitch black, gone off, gone dead, all off, no sign, unplugged,
  lights out, not so much as
trip: trip, breaker, fuse, rcd, blow the, knock out, fuse box, consumer unit, trip switch, gfci, circuit,
  elcb, board, leccy, pop the, electrics out, takes out, whole kitchen, lights go out, rcbo, cut the power,
  earth leakage, power goes off, blow, knock the power, takes the power, pop, flick off, switch goes down,
  trip out, throw the switch
pipe: pipe, hose, tube, line, tubing, plumbing, pipework
store room: cupboard, cellar, store, back room, stock room, basement, out back, cage, shed, storeroom,
  stockroom, closet, back of house, out the back, larder, garage
engineer: engineer, technician, mechanic, repair man, service guy, your lad, fitter, maintenance,
  contractor, tech, repairman, tradie, your man, your fella, service man, guy from you
cleaned: clean, wash, sanitise, scrub, rinse, deep clean, strip down, hose down, flush, sterilise, wipe,
  take apart, took apart, put back together, reassemble, weekly clean
delivered: delivery, deliver, driver, drop off, changeover, bring, gas man, arrive, restock, lorry, wagon,
  van
change: change, swap, replace, switch, renew, new one, put on, hook up, connect, fresh
drink: drink, slush, slushie, slushy, product, mix, ice drink, frozen drink, cup, beverage, stuff, slushee,
  slushies, frozen
cup: cup, glass, beaker, tumbler, straw
costs: cost, bill, money, expensive, fortune, double, order more, go through, get through, burn through,
  eat, guzzle, drink up, chew through, use up, usage, consumption, rattle through
does not last: not last, last a day, last two days, run out fast, run out quick, empty again, gone again,
  only change it, change yesterday, days, every other day, twice a week, gone in, already empty, week, order
  double, wasting, disappear, gone through, vanish, half the time, only lasts, lasted a day, nothing left, a
  week, per week, gets through, drain, fly through, use it up, quicker than usual, more than usual, used to
  last
frost: frost, ice, snow, white, icicle, rime, frosty, frosted, snowy, iced up, iced over, winter, igloo,
  freezer, ball of ice, snowball, snowman, iceberg, white fur, fur, crust, glacier, frozen over, freezer
  burn, polar, ball of snow, ice up
tray: tray, drip tray, grid, grille, grate, gutter, catch tray, drain, grill, catcher, sink part, overflow
  tray, drain pan, trough, sump
overflow: overflow, spill over, brim, over the edge, back up, not drain, not empty, full up, not go down,
  over the top, blocked drain, run over
filling: fill, refill, top up, take in water, take on water, refilling
gives up: time out, fail, give up, abort, timeout, not complete, cancel, timed out, quit trying, too long
try: try, attempt, want to, keep trying, has a go, effort
blow: blow, air, breeze, wind, draught, vent, grille, exhaust, fan, puff
zero: zero, nought, nil, naught, nothing, 0, flat on the bottom, bottomed out, oh
top: ninety nine, max, maxed, off the scale, top of the scale, pegged, full scale, hundred, highest, full
  whack, as high as it goes, through the roof
number: number, reading, figure, value, digit, reads, read, numbers
wall: wall, plaster, ceiling, skirting
self: by itself, on its own, of its own accord, own accord, nobody touch, no one touch, all by itself,
  unprompted, idle, nobody using, no one pouring, not using, at rest, doing nothing
fizz: fizz, bubble, sparkle, gas, carbonate, sparkling, effervescent, fizzy, bubbly, carbonation, tingle,
  spritz
solid: solid, rock, brick, concrete, block, boulder, granite, tarmac, stone, iceberg, lolly, hard, cement,
  ice block, like iron, lump of ice, one big lump, frozen stiff, rigid, ice rink, cricket ball,
  hard as nails, iced up solid, set hard
liquid: liquid, juice, pop, squash, cordial, soup, milk, tea, water, puddle, thin, sloppy, runny, slop,
  watery, drinkable, cold drink, fizzy drink, no ice in it, like water, melted, soft drink, pure liquid, all
  liquid, just drink, slips, sloshy, broth, drains away
puff: rise, lift, mound, peak, dome, swell, expand, fluff, overrun, puff, airy, volume, light and fluffy,
  whip, bulk, height, sink flat, grow, body, stand up, sits flat, collapse
sensor: sensor, transducer, probe, sender, detector, pickup
at once: together, same time, at once, in one go, same moment, simultaneous, all at the same time, in
  unison, one after another, every one
empty: empty, run out, ran out, out of, finished, gone, used up, none left, dry, bone dry, drained,
  exhausted, no more
nobody: nobody, no one, not a soul, untouched, unattended, left alone, on its own, hands off, not using it
open: open, ajar, not shut, will not close, stay open, wont spring back, hangs open, stuck open
fall away: bleed away, bleed down, ebb, creep down, leak down, sag, fade, sink, drop off, lose pressure,
  wont hold, not hold, keep losing, slide
"""


def everyday() -> dict[str, tuple[str, ...]]:
    """Return the groups as `{concept: ways}`."""
    rows = (row.partition(":") for row in GROUPS.strip().replace("\n  ", " ").splitlines())
    return {f"everyday {name}": tuple(way.strip() for way in ways.split(",")) for name, _, ways in rows}

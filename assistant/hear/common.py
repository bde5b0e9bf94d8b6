"""Common English words that are never taken for a slip of the pen."""

from __future__ import annotations

from assistant.hear.english import listed

COMMON = listed(
    """
able above accept across act add admin adverts afraid afternoon age ago agree air allow almost alone along
already although always among amount angry animal annoy annoyed another answer anybody anyone apart appear
apple area arm around arrive ask asked asking asleep ate aunt autumn average aware awful baby bad badly bag
bake ball bank bare basket bath beach bear beat beautiful bed bedroom beer began begin behave behaving
behind believe belong below beneath beside best bet better between beyond bicycle bill bird birthday bite
black blame blimey blind bloke board boat body bone book boot bored born borrow boss bother bought bowl boy
brain brave bread breakfast bridge bright brilliant brother brush bucket build builder building bunch burger
butter button buy buys cake call called caller calling calls calm camera car card cards care careful carpet
carry case cash cat catch caught ceiling centre certain chair chance change changed chap charge chat cheap
cheers cheese chef chicken child children choice choose church cinema circle city class clean clear clever
climb close closed clothes cloud coat coffee coin cold colleague collect college come comes coming common
company complain complaining complaint computer confused contact cook cooker cool copy corner cost count
counter country cousin cover cow crazy cream crikey crowd cry cupboard cups curtain cut dad daily damage
dance danger dark daughter day days deal dear death decide deep delay deliver demand desk detail did died
different difficult dinner direct direction dirty disappear dish doctor dog dollar door double doubt dozen
draw dream dress drink drive driver drop drove dry dust duty each ear earlier early earth east easy eat edge
effort egg either elbow else email empty end enemy engine engineer enjoy enough enter entire entrance equal
escape even evening event ever exact exactly example except excuse exercise expect expensive explain extra
eye eyes face fact fail fair fall false family famous fancy far farm fast fat father fault favour fear feel
feet fell felt fetch few field fight figure film films final finally find finger finish fire first fish fit
five fix flag flat flew float floor flow flower fly folk folks follow food fool foot football force foreign
forest forget forgot fork form forward found four foyer free fresh friday friend front fruit full fun funny
furniture further future game garden gate gave general gentle girl girls give glad glass go goal goes going
gold gone good got great green grey ground group grow guess guest guide guy guys had hair half hall hand
hands happen happened happening happens happy hard hardly hat hate head hear heard heart heat heavy held
hell help her here herself hide high hill himself hit hold hole holiday home honest honestly hope horse
hospital hotdog hotel hour house however huge hundred hungry hurry hurt husband idea imagine important
indoors inside instead interest interval invoice island issue issues itself job join joke jump keen keep
keeping kept key kick kid kids kill kind king kiosk kitchen knee knew knife knock know known lad lads lady
lake lamp land language laptop large lass last late lately later laugh law lay lazy lead leaf learn least
leave left leg lend length less lesson let letter level library lid lids lie life lift light like likely
line lines lip list listen live lives loaf local lock locked lollies long look looking lorry lose lost loud
love lovely low luck lucky lunch lying machine mad madam main man manage manager many map march mark market
married match matter maybe meal mean means meant measure meat meet meeting member memory menu met middle
might mile milk mind mine minus minute miss missing mistake moan moaning mobile moment monday money month
moon morning mother mouth move movie music must myself nachos name napkins narrow near nearby nearest nearly
neck need needle neighbour neither nervous never new news next nice night nine nobody noise none noon normal
normally north nose note nothing notice noticed number nurse obvious obviously ocean odd offer office often
old older once onion online open opinion opposite order other ought our outside oven over own page paid pain
paint pair paper pardon parent park part partner party pass passed password past path pay people pepper
perhaps person phone photo phrase pick picture piece pig pink pizza place plain plan plant plate play
playing please plenty plus pocket point police poor popcorn popular position possible post potato pour power
practice prefer prepare present press pretty price print printer prize probably problem projector promise
proper properly protect proud prove public pull punctual purple purpose purse push put quarter queen
question queue quick quickly quiet quite rain raise ran rather reach read reader readers ready real realise
really reason receipt receive reckon recommend record red refund regret regular remain remember repair
repeat reply report rest restaurant result return rice rich ride right ring rise river road rock roof room
rope rota rough round row rubbish rude rule run rush sad safe said sale same sand sat saturday save saw say
says school science sea season seat seats second secret see seem seems seen sell send sense sent serious
seriously serve serves seven several shade shall shame shape share sharp she sheet shelf shift shine ship
shirt shock shoe shop short shot should shoulder shout shove shoved shoving show shown shut sick side sign
silver simple since
sing single sink sir sister sit six size skin skirt sky sleep slip slow slowly small smart smell smile smoke
snow soap social soft sold somebody someone something sometimes somewhere son song soon sorry sort sound
soup south space speak speaker special spend spent spice spider spoke spoon sport spot spring square staff
stage stair stairs stamp stand standing star start started state station stay stayed steal step stick still
stock stole stood stop stopped store storm story straight strange straws street strike string strong student
study stuff stupid style such sudden sugar suit summer sun sunday supervisor supper supplier support suppose
sure surprise sweet sweets swim table take taken takes taking talk tall taste tax taxi tea teach teacher
team tell ten terrible test thank thanks theatre then thick thin thing think third thirsty thought thousand
three threw throat throw thunder thursday ticket tickets tidy tie tight till tills time tired title today
toe together toilet told tomorrow tone tonight took tool tooth top total totally touch toward towel town toy
track trailer train training travel tray treat tree tried trip trouble trousers true trust truth try tuesday
turn turned twelve twenty twice type ugly uncle under understand unit until upper upset upstairs use used
useful usher usual usually van vegetable very video view village visit voice wait waited waiting walk wall
want wanted war warm was wash waste watch water wave weak wear weather website wednesday week weekend weekly
weeks weight welcome well went west wet whatever wheel whenever where wherever whether which whichever while
whisper white whoever whole whose wide wife wifi wild will win wind window wine wing winter wipe wish woman
women won wonder wood word words wore work worked worker working works world worry worse worst worth wrap
write writing wrong wrote yard year years yell yellow yesterday young yours yourself zoo
negative
    """
)

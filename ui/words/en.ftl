# Words of the kitchen table, English. One action a sentence; the name in every question.

name = Hearthdose
motto = From the order to the last spoon
back = Back
help = Help
next = Next
list-last = { $first } and { $last }
list-either = { $first } or { $last }
someone = Somebody
not-your-clinician = This does not replace your clinician.
not-your-clinician-long = This does not replace your doctor or nurse. The order and they decide. If you have none, call the number for questions.

## Amounts

amount-teaspoon = { $number } teaspoon ({ $ml } mL)
amount-teaspoons = { $number } teaspoons ({ $ml } mL)
amount-ml = { $ml } mL
amount-tablets = { $count ->
    [one] { $count } whole tablet
   *[other] { $count } whole tablets
}
spoons-full = { $count } full
spoons-half = { $count } half
spoons-quarter = { $count } quarter
spoons-three-quarters = { $count } three quarters
fill-syringe = Fill the syringe to { $ml }.

## Times

time-before-noon = { $hour }:{ $minute } a.m.
time-after-noon = { $hour }:{ $minute } p.m.
time-and-day = { $time } { $day }
date-line = { $weekday }, { $month } { $day }
weekday-1 = Monday
weekday-2 = Tuesday
weekday-3 = Wednesday
weekday-4 = Thursday
weekday-5 = Friday
weekday-6 = Saturday
weekday-7 = Sunday
weekday-short-1 = Mon
weekday-short-2 = Tue
weekday-short-3 = Wed
weekday-short-4 = Thu
weekday-short-5 = Fri
weekday-short-6 = Sat
weekday-short-7 = Sun
month-1 = January
month-2 = February
month-3 = March
month-4 = April
month-5 = May
month-6 = June
month-7 = July
month-8 = August
month-9 = September
month-10 = October
month-11 = November
month-12 = December
left-seconds = { $seconds } s left
left-minutes = { $minutes } min left
left-both = { $minutes } min { $seconds } s left
length-minutes = { $count ->
    [one] { $count } minute
   *[other] { $count } minutes
}
length-hours = { $count ->
    [one] { $count } hour
   *[other] { $count } hours
}
round-morning = Morning round
round-afternoon = Afternoon round
round-night = Night round

## Strip and shelf

strip-invented = Invented order. Practice only.
strip-unsigned = Unsigned order. Practice only. Compare its mark with your paper.
shelf-today = Today
shelf-people = People
shelf-ahead = Coming days
shelf-code = Show code
shelf-order = Order
shelf-record = Record
people-count = { $count ->
    [one] { $count } person
   *[other] { $count } people
}

## Start

start-question = What do you want to do?
start-practise = Practice first
start-practise-detail = With plain water and an invented family.
start-order = Start with an order
start-order-detail = A file from your health district.
start-language = Language: { $language }
start-larger = Larger text
start-dark = Dark
start-light = Light
leave-practice = Leave practice

## Messages of the program

told-go-on = Go on
told-not-saved = This was not saved
told-full = The disk is full. Nothing was changed. Make room, then do the last step again. ({ $detail })
told-read-only = This device may not write here. Nothing was changed. ({ $detail })
told-busy = Another window has this record open. Close it, then do the last step again. ({ $detail })
told-newer = This record was made by a newer version. Please update. ({ $detail })
told-store = The record could not be written. Nothing was changed. ({ $detail })
told-order = This order cannot be used. { $detail }
told-salvaged = The record was damaged
told-salvaged-body = What could be read is kept and open now. The damaged file was set aside, not erased. Look at Record before the next dose.
told-no-plan = No round can begin now
told-no-plan-body = Something in the plan does not fit. Go back to Today and look again.
clock-moved = The clock was moved
clock-forward = This device’s clock went forward by { $length }. Waits still take their full time. No bowl is kept longer.
clock-back = This device’s clock went back by { $length }. Waits still take their full time. No bowl is kept longer.

## Today

today-day = { $date } · day { $day } of { $days }
today-title = { $round }, { $time }
today-start = Start at { $time }. It takes { $length }.
today-start-now = Start now. It takes { $length }.
round-of-day = { $day }, round { $number }
late-title = This dose is late
late-body = Give it now, then { $time } as usual.
late-last-body = Give it now. It is the last one.
missed-title = { $round } was missed
missed-body = Skip it. The next one is at { $time }. Never give two together.
skip-title = Skip this one
skip-last-body = It is too late for this one. Never give two together.
row-new = new bowl { $number }
row-covered = covered bowl { $number }
row-whole = swallows whole
row-liquid = from the bottle
row-hold = ask a nurse first
row-hold-amount = No dose yet. Call { $phone }.
row-stop = not this medicine
row-stop-amount = No dose. Call { $phone }.
row-stopped = stopped after a reaction
row-stopped-nurse = stopped by a nurse or doctor
row-missing = something is missing
row-missing-amount = No dose yet. Look at People.
bowl-name = Bowl { $number }
bowl-covered = Covered bowl { $number }
bowl-for = { $amount }, for { $name }.
bowl-until = Good until { $time }.
bars-title = How long the bowls keep
bars-none = No bowl is kept after this round.
log-title = Last round
set-the-table = Set the table
set-the-table-at = Set the table at { $time }
go-on = Go on with the round
nobody-today = Nobody takes it this time
course-over = The course is over
course-over-body = Every round is done. Take tablets that are left back to the site. Do not keep them for a cold.
nobody-left = Nobody may take it now
nobody-left-body = Everyone is stopped or waits for a nurse. The course is not over. Call { $phone } today.
no-round = There is no round to plan
no-household-body = No household is open.

## The round

step-of = Step { $step } of { $of }
bowl-alone = Bowl { $numbers }
bowls-together = Bowls { $numbers } together
something-wrong = Something went wrong

reactions-title = Since the last dose: any rash, swelling or hard breathing?
reactions-body = Look at everybody who takes this medicine.
reactions-nobody = Nobody
reactions-nobody-detail = All are well
reactions-yes = Yes, { $name }
reactions-yes-detail = Rash, swelling or hard breathing
reactions-some = What to do now
reaction-stop-title = No more of this medicine for { $names }.
reaction-stop-note = Swelling or hard breathing?
reaction-stop-emergency = Call { $phone } now.
reaction-stop-body = For a rash alone, call { $phone }. Others go on with their dose.
reaction-stop = I have called, or will call now

label-title = Does the bottle say { $words }?
label-body = Read every word. A capsule, or “delayed release”, is not the same.
label-yes = Yes, all of it
label-yes-detail = The same words on the bottle
label-no = No, or not sure
label-no-detail = Do not use it yet
wrong-bottle-title = Do not use this bottle.
wrong-bottle-note = It may be another medicine or strength.
wrong-bottle-body = Call { $phone }. Read the label to them.
look-again = Look at the bottle again

tool-title = Spoon or syringe?
tool-body = Use the same one for the water and every dose.
tool-spoon = A metal teaspoon
tool-spoon-detail = Small and level. Not a soup spoon.
tool-syringe = A dose syringe
tool-syringe-detail = With marks in mL

gather-title = Set the table.
gather-then = Put the water in. Then put in the tablet.
start-the-soak = Start the soak
thing-bowls = { $count ->
    [one] { $count } small bowl to mix in
   *[other] { $count } small bowls to mix in
}
thing-bowls-detail = Call it bowl { $numbers }
thing-tablets = { $count ->
    [one] { $count } tablet
   *[other] { $count } tablets
}
thing-tablets-detail = { $count ->
    [one] { $count } for each bowl
   *[other] { $count } for each bowl
}
thing-water = { $amount } of water
thing-spoon = A metal teaspoon
thing-spoon-detail = For water and every dose
thing-syringe = A dose syringe
thing-syringe-detail = For water and every dose
thing-small-bowl = One more small bowl
thing-small-bowl-detail = To give from
water-tap = Clean drinking water, for each bowl
water-boil = Boil it and let it cool first, for each bowl
water-bottled = From a bottle only, for each bowl

soak-title = { $count ->
    [one] Let the tablet soften.
   *[other] Let the tablets soften.
}
soak-body = It is soft at { $time }. You may wait longer.
soak-done = It is soft now
crush-next = Crush with the back of a spoon
crush-at = Crush at { $time }

crush-title = Crush with the back of a spoon.
crush-body = Press until no piece shows.
crushed = Crushed
smooth-title = No pieces left?
smooth-body = Tilt the bowl and look.
smooth-yes = No pieces left
smooth-yes-detail = It is smooth
smooth-no = I still see some
smooth-no-detail = Crush again
second-title = Add { $name } to the bowl.
second-body = Put in { $amount }. Use the same spoon or syringe.
second-done = It is in
stir-title = Stir well.
stir-body = Stir from the bottom.
stirred = Stirred

measure-title = Measure for { $name }.
measure-from = From bowl { $number } into { $name }’s bowl
measure-liquid = From the bottle
measure-stir = Stir again first. Fill it level.
measure-shake = Shake the bottle first.
measured = It is in { $name }’s bowl
why-this-much = Why this much?
why-title = Why this much for { $name }?
food-title = Hide the taste for { $name }.
food-body = Mix it into { $name }’s bowl. Stir.
food-detail = At least { $amount }
food-detail-sugar = At least { $amount }, with { $sugar } of sugar
food-none = Give it without food or drink
give-title = Give it to { $name } now.
give-body = Do not keep it. It cannot be saved for later.
give-finish = Let { $name } finish all of it.
given = { $name } has had it
tablet-title = { $name } swallows the tablet.
tablet-body = With a full glass of water. Sit or stand, and stay upright for half an hour.

outcome-title = Did { $name } get all of it?
outcome-title-tablet = Did { $name } swallow it?
outcome-body = Every answer is fine.
outcome-all = All of it
outcome-all-detail = The bowl is empty
outcome-all-tablet = Yes, swallowed
outcome-all-tablet-detail = The tablet went down
outcome-some = Some of it
outcome-some-detail = Part was left or spilled
outcome-back-up = It came back up
outcome-back-up-detail = All or part was vomited
outcome-would-not = Would not take it
outcome-would-not-detail = Spat out or turned away
outcome-all-log = all of it
outcome-all-short = all of it, a little short
outcome-some-log = some of it
outcome-back-up-log = came back up
outcome-would-not-log = would not take it
answer-later = I will answer later
after-some-title = { $name } had some of it.
after-some-body = Do not give more now. The next dose is as usual. Call { $phone } if this happens again.
after-back-up-title = It came back up.
after-back-up-body = Do not give it to { $name } again now. If it happens two times in a row, call { $phone } before the next dose.
after-would-not-title = { $name } would not take it.
after-would-not-body = Do not force it. Try another food or drink next time. Call { $phone } if { $name } misses two doses.

cover-title = Cover bowl { $number }.
cover-eyebrow = Write this on a label
cover-room = Keep it in the room, out of children’s reach.
cover-fridge = Keep it in the refrigerator.
cover-it = It is covered
label-for = For { $name }
label-for-detail = { $amount } at { $time }
label-until = Throw away after { $time }
label-made = Made at { $time }
cold-title = Did bowl { $number } stay cold in the refrigerator?
cold-body = If the power was off or you are not sure, the answer is no.
cold-yes = Yes, it stayed cold
cold-yes-detail = Use it now.
cold-no = No, or not sure
cold-no-detail = Throw it away. You will make a new bowl.
throw-left-title = Throw away what is left in bowl { $number }.
throw-left-body = No one takes it in the next round. Pour it into the trash, not back.
throw-old-title = Bowl { $number } is too old. Throw it away.
throw-old-body = It may not be used now. If someone still needs a dose, make a new bowl next.
throw-it-away = I threw it away
done-title = This round is done.
done-next = The { $round } is next.
done-wash = Wash the bowls and the spoon. Keep tablets out of children’s reach.
done-main = Back to today

wrong-title = What went wrong?
wrong-body = It happens. Nothing is lost.
wrong-bowl = Bowl { $number } spilled or is spoiled
wrong-bowl-detail = We make a new one
wrong-dose = { $name }’s dose was dropped
wrong-dose-detail = Measure again for { $name }
wrong-tablet = { $name }’s tablet was dropped or lost
wrong-tablet-detail = Take a new one
wrong-short = Too little left for { $name }
wrong-short-detail = Give what is there. We write it down.

## Reading

help-title = Be careful
help-numbers = Numbers to call
help-careful = Good to know
call-emergency = Call { $phone } now for this
contact-emergency = Emergency
contact-poison = Poison
contact-questions = Questions
contact-refill = More tablets
apart = Keep { $length } between this medicine and { $what }.
order-title = The order
order-from = From
order-revision = Revision
order-issued = Issued
order-mark = Its mark
order-invented = This order is invented. Nobody may be treated by it.
order-unsigned = Compare the mark with the one on the paper from your health district.
order-chart = How much for whom
order-source = Where it comes from
record-title = Record
record-empty = Nothing was given yet.
doubled-title = { $name } may have had it twice
doubled-body = Two devices wrote down the same dose. Call { $phone } before the next one.
people-title = People
no-weight = no weight
reason-weight = Weigh first.
reason-questions = Answer the questions first.
reason-young = This chart is not for so small a baby.
reason-implausible = The weight does not fit the age. Weigh again.
reason-other = Ask a nurse first.
reason-call = Call { $phone }.
trace-order = Order
trace-weight = Weight
trace-age = Age
trace-row = Line of the chart
trace-between-rows = Between two lines
trace-amount = Amount
trace-mass = Medicine in it
trace-per-kilogram = For each kilogram
trace-maximum = Largest dose
trace-invented = Invented
ahead-title = Coming days
ahead-tablets = Tablets
ahead-left = In the house
ahead-needed = Needed until the end
ahead-refill = Get more tablets by { $date }.
ahead-refill-now = Get more tablets today.
ahead-refill-body = Call { $phone } first. Do not stop because the bottle is empty.
ahead-packs = More tablets came
ahead-packs-detail = Count them in
ahead-how = How to make it
ahead-fewest = As few tablets as can be
ahead-fewest-change = Some bowls keep for the next round. Press to make new ones every time.
ahead-fresh = New bowls every time
ahead-fresh-change = No bowl is kept. Press to use fewer tablets.
ahead-shopping = To have in the house
need-tablets = { $medicine }, tablets of { $strength }
need-liquid = { $medicine }, liquid, { $strength }
need-spare = Tablets to spare
need-packs = In packs of { $size }
need-packs-own = In packs of { $size }, each person’s own
need-bottles = In bottles of { $size } mL
need-water = Clean drinking water
need-drink = { $names }, at least
need-sugar = Sugar, at most
need-bowls = Small bowls with covers and labels
need-give-bowl = Small bowl to give from
lot-title = Which lot is it?
lot-body = It stands on the bottle, often after “LOT”. We can tell you if something is wrong with it.
lot-field = Lot
lot-unknown = I cannot read it
lot-extended = Lot { $lot } keeps longer
lot-extended-body = You may use it until { $date }, whatever the bottle says.
lot-aside = Do not use lot { $lot } yet
lot-back = Bring lot { $lot } back
lot-call = Set it aside. Call { $phone } for another bottle.
ahead-bound = Nobody could do with fewer than { $count }.
ahead-bowls = { $count ->
    [0] no new bowl
    [one] { $count } new bowl
   *[other] { $count } new bowls
}
ahead-covered = covered bowl
ahead-end = The end
ahead-end-day = The last round is on { $date }. Do not stop because the bottle is empty: get more tablets.
about = About
about-what = Hearthdose carries an emergency medicine order from the order to the last swallowed dose. It keeps everything on this device.
about-zones = Time-zone data: { $version }.
about-slint = Made with Slint, https://slint.dev.
about-font = Typeface Andika by SIL International, under the SIL Open Font License 1.1.

## Setting up a home

yes = Yes
no = No
unsure = Not sure
unsure-detail = Ask a nurse first. No dose until then.
set-up-first = Who takes this medicine?
set-up-next = Who else takes it?
set-up-name-body = Begin with one person. You can add the others next.
set-up-name = First name
set-up-about = About { $name }
set-up-age = How old is { $name }?
set-up-adult = { $years } years or older
set-up-adult-detail = No weight is needed
set-up-child = Younger
set-up-child-detail = The dose goes by weight
set-up-age-unknown = I do not know the birthday
set-up-birth = When was { $name } born?
set-up-birth-known = I know the birthday
set-up-told = How old is { $name } now?
set-up-early = Was { $name } born early?
set-up-early-body = Early means more than three weeks before the due date.
set-up-swallows = Can { $name } swallow tablets whole?
set-up-swallows-body = A child who does not need whole tablets gets the bowl all the same.
set-up-swallows-yes = Yes, whole
set-up-swallows-yes-detail = With a full glass of water
set-up-swallows-no = No, or not well
set-up-swallows-no-detail = We mix it with water
set-up-food = Is { $name } allergic to { $what }?
set-up-food-body = Some drinks that hide the taste have it.
set-up-food-yes = We leave it out
allergen-milk = milk
allergen-soy = soy
allergen-nuts = nuts
set-up-weigh = What does { $name } weigh?
set-up-weigh-body = The dose goes by weight. Weigh in light clothes, without shoes.
weigh-now = Weigh { $name }
weigh-later = Later. No dose until then.
question-for = A question about { $name }
question-place = Question { $at } of { $of }
outcome-stop = Not this medicine for { $name }.
outcome-hold = { $name }: ask a nurse first.
outcome-caution = Good to know for { $name }.
more-title = Who is at the table?
more-another = Add another person
more-another-detail = Everybody who takes this medicine
more-everybody = That is everybody
more-everybody-detail = Go on
times-title = When do you want to give it?
times-body = The same times every day. Choose times when all are at home.
times-other = Other times
times-first = When is the first one of a day?
time-hour = Hour
time-minutes = Minutes
half-before-noon = a.m.
half-after-noon = p.m.
ready-title = Do you have the tablets at home?
ready-body = Look at the bottle. It must say what the order says.
ready-now = Yes. Start now
ready-now-detail = The first dose waits for no clock
ready-round = Yes. Start at the next round
ready-none = No tablets yet? Call { $phone }, then close this. It waits here for you.
tablets-title = How many tablets did you get?
tablets-body = Count them, or read it on the bottle. Then we can tell when you need more.
tablets-field = Tablets
tablets-main = So many tablets
tablets-unknown = I do not know
home-of = Home of { $name }
date-day-first = no
date-day = Day
date-month = Month
date-year = Year
date-and-year = { $date }, { $year }
age-years = Years
age-months = Months
key-point = Point
key-delete = Delete

## Weighing

weigh-person = Weigh { $name }
weigh-how = How do you weigh { $name }?
weigh-none = No scale? The dispensing site has one. Or call { $phone }.
weigh-alone = { $name } stands on the scale
weigh-alone-detail = Two times
weigh-together = You hold { $name }
weigh-together-detail = Step on with and without. Two times.
weigh-clinic = A doctor or clinic weighed
weigh-clinic-detail = Weight and day from their paper
weigh-site = The dispensing site weighed
weigh-site-detail = Weight and day from the slip
weigh-step-on = Step on with { $name }. Then step on alone.
weigh-read = What does the scale say for { $name }?
weigh-read-elsewhere = What did { $name } weigh?
weigh-once-more = Once more, to be sure.
weigh-with = You with { $name }
weigh-without = You alone
weigh-field = { $name }
weigh-and-ounces = and ounces
weigh-then-again = Now a second time
weigh-differ = The two do not agree
weigh-differ-body = The first time { $name } was { $weight }. They must be within half a pound. Weigh again.
weigh-again = Weigh again
weigh-day = On which day was that?
weigh-unit-title = { $name }: { $weight }. Is the unit right?
weigh-unit-body = That is unusual for this age. A wrong unit makes a wrong dose.
weigh-unit-right = Yes, { $weight }
weigh-unit-right-detail = I looked at the scale again
weigh-unit-pounds = It was pounds
weigh-unit-kilograms = It was kilograms
weigh-unit-other-detail = Type it again in that unit
weigh-result = { $name }: { $weight }
weigh-kilograms = { $kg } kg
weigh-dose-is = The dose is { $amount }.
weigh-dose-stays = The dose stays { $amount }.
weigh-implausible-body = If it is the same again, keep it and call { $phone }. No dose until a nurse has looked at it.
weigh-keep = Keep this weight
weight-again = Weigh { $name } again soon
weight-until-then = Until then the dose goes by the last weight.
weight-no-day = The day of the last weight is not known.
weight-old = { $days ->
    [one] The last weight is { $days } day old.
   *[other] The last weight is { $days } days old.
}
weight-grown = Children grow. Another line of the chart may be right now.
weight-edge = The last weight is close to the next line of the chart.
weight-lost = It was { $weight } before. One weighing is not enough to give less.
weight-on = { $weight }, { $date }
unit-lb = lb
unit-lb-oz = lb + oz
unit-kg = kg
dose-changes = { $name }’s dose changes.
dose-changes-body = It was { $old }. From the next round on it is { $new }. The plan and the tablets change with it.

## People

person-join = Add a person
person-join-detail = Somebody who came later
person-swallows = Swallows tablets whole
person-answers = Answers
answered-elsewhere = Answered at the site
not-answered = No answer yet. Press to answer.
person-changes = Something changed
person-reaction = A reaction
person-leaves = Leaves this home
person-leaves-detail = Moves, or stops the medicine here
person-lift = A nurse said it may go on
person-lift-detail = Type who said so
person-stop = A nurse or doctor stops it
person-stop-detail = No more doses until they say so
who-said-it = Who said so?
stop-title = Stop the medicine for { $name }?
stop-body = Others go on with their dose. The record keeps who said so.
stop-main = Stop it
lift-title = May { $name } take it now?
lift-body = Only a nurse or doctor can say so. Call { $phone }. Type their name.
lift-main = They said yes
leaves-tablets = How many tablets go with { $name }?
joined-elsewhere = Has { $name } had this medicine in another home?
joined-elsewhere-yes = Yes
joined-elsewhere-no = No, this is the first time
joined-last-day = When did { $name } have the last dose?
joined-today = Today
joined-yesterday = Yesterday
joined-earlier = Earlier
joined-last-time = At what time did { $name } have it?
joined-start = On which day did { $name } begin?
joined-tablets = How many tablets did { $name } bring?
person-born = Born { $date }
person-adult = Adult
person-age-unknown = Age not known
reaction-yes = Stop it for { $name }
reaction-yes-detail = Only a nurse can start it again
reaction-no = No, go back
leaves-title = Does { $name } leave this home?
leaves-body = Give the tablets and a paper with these words along. The new home goes on from there.
leaves-last = The last dose was at { $time }.
leaves-yes = Yes, { $name } leaves
leaves-yes-detail = The record stays
leaves-no = No, go back
reason-stop = Not this medicine.
other-homes = Other homes on this device
homes-title = Homes on this device
homes-lead = Each home has its own record.
homes-here = Open now
homes-none = There is no home yet.
homes-another = Set up another home
homes-unfinished = A home that is not set up yet

## Putting right

record-lead = Press a line that is wrong.
record-line = { $time } · { $name }
record-corrected = put right
record-stopped = { $name }’s medicine is stopped.
conflict-title = Two devices say different things
conflict-body = Until you choose, the safer one counts.
conflict-settle = Choose what is right
correct-title = What is right for { $name }, { $time }?
correct-body = The first entry stays in the record.
correct-not-given = It was not given at all
correct-not-given-detail = Nothing was swallowed
correct-nothing = It is right as it is

## Orders and notices that arrive

papers-title = Which one is it?
papers-body = Orders and notices found on this device or on a stick.
papers-none = No order was found.
papers-none-body = Put the file in Downloads, Documents or on a stick. Then look again.
papers-again = Look again
papers-newer = A newer order or a notice
paper-from = From { $place }.
paper-order = { $issuer }, revision { $revision }.
paper-notice = Notice of { $issuer }.
paper-bad = This file cannot be used.
paper-bad-body = Ask for a good copy. Nothing was changed.
take-order-title = Is this your order?
take-order-main = Yes, the mark is the same
take-order-new = The mark is the same. Follow it.
take-order-not = No, not this one
take-order-same = You follow this one already.
take-order-same-body = Nothing is new in it.
take-order-older = This one is older.
take-order-older-body = You follow a newer one. An older one never takes its place.
take-order-changes = What is new
take-notice = I have read it. Follow it.
notice-other = This is not about your medicine.
notice-other-body = You do not have to do anything.
notice-stop = Stop the medicine
notice-shorten = The medicine ends earlier
notice-renew = The medicine goes on longer
notice-extend-lot = A bottle keeps longer
notice-quarantine-lot = Do not use this bottle yet
notice-recall-lot = Bring this bottle back
notice-water = The water
notice-collection = Fetching the medicine
take-order-here = The mark is the same. For this home too.
take-order-elsewhere = For another home
other-order-taken = Now say who takes it
other-order-taken-body = Press each person who takes this medicine too. Its questions come first.
person-follow = Takes { $medicine } too
person-follow-detail = Its questions come first
follow-too = May { $name } take { $medicine } too?
follow-instead = May { $name } take { $medicine } instead?
follow-body = Every question is answered and nothing speaks against it. Bowls of two medicines are never mixed.
follow-yes = Yes, { $name } takes { $medicine }
follow-not = Not { $medicine } for { $name }.
reason-same-event = Two medicines against the same danger are never taken together.
code-title = Your code
code-lead = Show this at the dispensing site.
code-none = This device cannot make a code. Tell the site your people and their weights.
code-what = It has ages, weights and answers. It has no birthday, no address and no phone number. A new code takes the place of the old one.
code-with-names = First names are in it
code-without-names = No names are in it
code-leave-names-out = Press to leave them out
code-put-names-in = Press to put them in, so that bottles are not mixed up

## What a newer order changes

length-days = { $count ->
    [one] { $count } day
   *[other] { $count } days
}
length-seconds = { $count ->
    [one] { $count } second
   *[other] { $count } seconds
}
length-none = no time
age-in-years = { $count } y
age-in-months = { $count } mo
age-in-days = { $count } d
row-limits-all = everybody
row-limits-up-to = up to { $to }
row-limits-under = under { $to }
row-limits-weight = { $from } or more
row-limits-age = { $from } or older
row-limits-over = over { $from }
row-limits-between = { $from } to { $to }
row-limits-over-to = over { $from } to { $to }
row-limits-to-under = { $from } to under { $to }
row-limits-over-under = over { $from } to under { $to }
change-other-order = these are two different orders, “{ $old }” and “{ $new }”
change-older-revision = revision { $new } is older than revision { $old } and never replaces it
change-same-revision = both files say revision { $revision } but they are not the same
change-field = { $what } { $new }, was { $old }
change-field-new = { $what } { $new }, was not given
change-field-gone = { $what } no longer given, was { $old }
change-prose = { $what }: the words changed
change-detail = { $entry }: { $label }
change-quoted = “{ $text }”
change-entry-new = { $entry } is new
change-entry-gone = { $entry } is no longer there
change-recipe-new = the order now has a recipe
change-recipe-gone = the order no longer has a recipe
change-row-amount = { $row }: { $new }, was { $old }
change-row-joined = { $row } is now part of { $other }, with the same amount
change-row-parted = { $row } is new, with the same amount as { $other } before
change-row-new = { $row } is new: { $amount }
change-row-gone = { $row } is no longer in the chart
change-row = row { $limits }
change-product = product { $name }
change-vehicle = food or drink { $name }
change-question = question { $name }
change-caution = caution { $name }
change-contact = contact { $kind } ({ $name })
change-contact-emergency = emergency
change-contact-poison = poison
change-contact-questions = questions
change-contact-refill = refill
change-strength = { $mass } per { $volume }
change-tolerance = { $under } under to { $over } over
change-stale = { $young } under two years, { $older } above
change-most = { $group } { $doses }
change-most-if = if { $question }
change-most-everyone = everyone
change-apart = { $what } by { $length }
change-fluid = { $amount } of { $name }
change-hand-out-plan = what the plan needs and { $spare } to spare
change-hand-out-person = packs for each person
change-first-now = now
change-first-next = at the next round
change-between-enough = “enough”
change-between-next = “next row”
change-kept-room = at room temperature
change-kept-fridge = in the refrigerator
change-water-tap = from the tap
change-water-boil = boiled and cooled
change-water-bottled = from bottles only
change-form-tablet = tablet
change-form-liquid = liquid
change-yes-stop = stop
change-yes-hold = ask a nurse first
change-yes-caution = caution
change-true = yes
change-false = no
change-split-allowed = allowed
change-split-not = not allowed
change-missed-extend = make the course longer
change-missed-not = do not make the course longer
change-invented = demonstration
change-real = real
change-of-between = rule between rows
change-of-product = product of the recipe
change-of-tablets = tablets in a bowl
change-of-water-amount = water
change-of-soak = soak
change-of-step = smallest step
change-of-keep = the mixture keeps
change-of-keep-where = the mixture is kept
change-of-fluid = second fluid
change-of-fluid-contains = second fluid: contains
change-of-water = water
change-of-medicine = medicine
change-of-allergy = allergy class
change-of-interval = time between doses
change-of-supply = handed out now
change-of-course = course
change-of-per-kg = dose for each kilogram
change-of-max = largest dose
change-of-tolerance = allowed distance of the chart
change-of-lightest = lightest weight served
change-of-youngest = youngest age served
change-of-adult = adult from
change-of-least-gap = least gap between doses
change-of-skip = a late dose is skipped if the next is within
change-of-first = first dose
change-of-first-gap = least gap after the first dose
change-of-most-doses = most doses
change-of-apart = to be taken apart
change-of-margin = margin before a bowl's end
change-of-stale-weight = a weight counts for
change-of-expires = the order expires on
change-of-withdraws = withdraws
change-of-sealing-key = sealing key
change-of-hand-out = handed out
change-of-event = event
change-of-split = a dose from two bowls
change-of-missed = missed doses
change-of-title = title
change-of-issuer = issuer
change-of-time-zone = time zone
change-of-languages = languages
change-of-source = source
change-of-kind = kind of order
change-detail-mass = printed mass
change-detail-heavy = also from
change-detail-reason = written reason
change-detail-at-least = at least
change-detail-sugar = sugar
change-detail-from-age = from age
change-detail-to-age = up to age
change-detail-contains = contains
change-detail-form = form
change-detail-strength = strength
change-detail-crush = may be crushed
change-detail-salt = salt
change-detail-packages = package numbers
change-detail-codes = drug codes
change-detail-label = label says
change-detail-pack-size = pack size
change-detail-whole = whole where a row allows it
change-detail-opened = keeps after opening
change-detail-if-yes = a yes means
change-detail-instead = instead
change-detail-phone = phone
change-words-title = the translated title changed
change-words-apart = to be taken apart: the translated names changed
change-words-fluid = second fluid: the translated names changed
change-words-vehicle = { $entry }: the translated names changed
change-words-question = { $entry }: the words of the question changed
change-words-after-yes = { $entry }: the words after a yes changed
change-words-caution = { $entry }: the words changed
change-words-caution-kind = { $entry }: its place among the cautions changed
change-words-hours = { $entry }: the hours changed

# Words of the kitchen table, English. One action a sentence; the name in every question.

name = Hearthdose
motto = From the instructions to the last spoon
back = Back
help = Help
next = Next
list-last = { $first } and { $last }
list-either = { $first } or { $last }
someone = Somebody
this-person = this person
not-your-clinician = This does not replace your clinician.
not-your-clinician-long = This does not replace your doctor or nurse. The instructions and they decide. If you have none, call the number for questions in Help.

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
round-morning = Morning dose
round-afternoon = Afternoon dose
round-night = Night dose

## Strip and shelf

strip-invented = All invented. Practice only.
strip-unsigned = Not signed. Practice only. Compare the mark with your paper.
strip-foreign = Some words here are only in { $language }. Ask somebody who reads it.
language-en = English
language-es = Spanish
language-other = another language
shelf-today = Today
shelf-people = People
shelf-ahead = Days
shelf-code = Show code
shelf-order = Instructions
shelf-record = Record
people-count = { $count ->
    [one] { $count } person
   *[other] { $count } people
}

## Start

start-question = What do you want to do?
start-practise = Practice first
start-practise-detail = With water and an invented family.
start-order = Start with instructions
start-order-detail = From your health district.
leave-practice = Leave practice

## Messages of the program

told-go-on = Go on
told-not-saved = This was not saved
told-full = The disk is full. Nothing was changed. Make room. Then do the last step again. ({ $detail })
told-read-only = This device may not write here. Nothing was changed. Ask whoever looks after the device. ({ $detail })
told-busy = Another window has this record open. Nothing was changed. Close it. Then do the last step again. ({ $detail })
told-newer = This record was made by a newer version. Please update. ({ $detail })
told-store = The record could not be written. Nothing was changed. Do the last step again. ({ $detail })
told-order = These instructions cannot be used. Ask for a good copy. { $detail }
told-salvaged = The record was damaged
told-salvaged-body = What could be read is kept and open now. The damaged file was set aside, not erased. Look at Record before the next dose.
told-no-plan = No dose can begin now
told-no-plan-body = Something in the plan does not fit. Go back to Today. Look again.
clock-moved = The clock was moved
clock-forward = This device’s clock went forward by { $length }. Waits still take their full time. No bowl is kept longer.
clock-back = This device’s clock went back by { $length }. Waits still take their full time. No bowl is kept longer.

## Today

today-day = { $date } · day { $day } of { $days }
today-title = { $round }, { $time }
today-start = Start at { $time }. It takes { $length }.
today-start-now = Start now. It takes { $length }.
round-of-day = { $day }, dose { $number }
late-title = This dose is late
late-body = Give it now, then { $time } as usual.
late-last-body = Give it now. It is the last one.
missed-title = { $round } was missed
missed-body = Skip it. The next one is at { $time }. Never give two together.
skip-title = Skip this one
skip-last-body = It is too late for this one. Skip it. Never give two together.
row-new = new bowl { $number }
row-covered = covered bowl { $number }
row-whole = swallowed whole
row-liquid = from the bottle
row-hold = ask a nurse first
row-hold-amount = No dose yet. Call { $phone }.
row-stop = not this medicine
row-stop-amount = No dose. Call { $phone }.
row-stopped = Stopped after a reaction
row-stopped-nurse = Stopped by a nurse or doctor
row-missing = something is missing
row-missing-amount = No dose yet. Look at People.
bowl-name = Bowl { $number }
bowl-covered = Covered bowl { $number }
bowl-for = { $amount }, for { $name }.
bowl-until = Throw away after { $time }.
bars-title = How long the bowls keep
bars-none = No bowl is kept after this.
log-title = Last time
set-the-table = Set the table
set-the-table-at = Set the table at { $time }
go-on = Go on with the doses
nobody-today = Nobody takes it this time
course-over = The last day is over
course-over-body = Every dose is done. Take tablets that are left back to the site. Do not keep them for a cold.
nobody-left = Nobody may take it now
nobody-left-body = Everyone is stopped or waits for a nurse. There are days to come. Call { $phone } today.
no-round = There is no dose to plan
no-household-body = No home is open. Go back to the start.

## The round

step-of = Step { $step } of { $of }
bowl-alone = Bowl { $numbers }
bowls-together = Bowls { $numbers }, each on its own
something-wrong = Something went wrong

reactions-title = Since the last dose: any rash, swelling or trouble breathing?
reactions-body = Look at everybody who takes this medicine.
reactions-nobody = Nobody
reactions-nobody-detail = All are well
reactions-yes = Yes, { $name }
reactions-yes-detail = Rash, swelling or trouble breathing
reactions-some = What to do now
reaction-stop-title = No more of this medicine for { $names }.
reaction-stop-note = Swelling or trouble breathing?
reaction-stop-emergency = Call { $phone } now.
reaction-stop-body = For a rash alone, call { $phone }. Others go on with their dose.
reaction-stop = I have called, or will call now

label-title = Does the bottle say { $words }?
label-body = Read every word. A capsule, or “delayed release”, is not the same.
label-yes = Yes, the same
label-yes-detail = Every word is on the bottle
label-no = No, or not sure
label-no-detail = Do not use it yet
wrong-bottle-title = Do not use this bottle.
wrong-bottle-note = It may be another medicine or strength.
wrong-bottle-body = Call { $phone }. Read the label to them.
look-again = Look at the bottle again

tool-title = Spoon or syringe?
tool-body = Use the same one for the water and every dose.
tool-spoon = A metal teaspoon
tool-spoon-detail = A kitchen teaspoon, not a soup spoon
tool-syringe = A dose syringe
tool-syringe-detail = With marks in mL

gather-title = Set the table.
gather-then = Into each bowl: the water, then the tablet.
start-the-soak = Start the soak
thing-bowls = { $count ->
    [one] { $count } small bowl to mix in
   *[other] { $count } small bowls to mix in
}
thing-bowls-detail = Call them by number: { $numbers }
thing-tablets = { $count ->
    [one] { $count } tablet
   *[other] { $count } tablets
}
thing-tablets-detail = { $count ->
    [one] { $count } for each bowl
   *[other] { $count } for each bowl
}
thing-water = { $amount } of water into each bowl
thing-spoon = A metal teaspoon
thing-spoon-detail = For water and every dose
thing-syringe = A dose syringe
thing-syringe-detail = For water and every dose
thing-small-bowl = One more small bowl
thing-small-bowl-detail = To give from
water-tap = Clean drinking water
water-boil = Boil it. Let it cool.
water-bottled = From a bottle only

soak-title = { $count ->
    [one] Let the tablet soften.
   *[other] Let the tablets soften.
}
soak-body = Soft at { $time }. You may wait longer.
soak-done = It is soft now.
crush-next = Crush with the back of the spoon
crush-at = Crush at { $time }

crush-title = { $count ->
    [one] Crush with the back of the spoon.
   *[other] Crush in each bowl.
}
crush-body = Press until no piece shows.
crushed = It is crushed
smooth-title = Do you see any pieces?
smooth-body = Tilt the bowl. Look well.
smooth-yes = None
smooth-yes-detail = It is smooth
smooth-no = Some
smooth-no-detail = Crush again
second-title = Add { $name } to the bowl.
second-body = Put in { $amount }. Use the same spoon or syringe.
second-done = It is in
stir-title = { $count ->
    [one] Stir well.
   *[other] Stir each bowl well.
}
stir-body = From the bottom up.
stirred = It is stirred

measure-title = Measure for { $name }.
measure-from = From bowl { $number } into { $name }’s bowl
measure-liquid = From the bottle
measure-stir = Stir again first. Fill the spoon level.
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
give-body = Give it at once. It does not keep.
give-finish = Let { $name } finish all of it.
given = I gave it to { $name }
tablet-title = { $name } swallows the tablet.
tablet-body = With a full glass of water. Sit or stand. Stay upright for half an hour.

outcome-title = Did { $name } get all of it?
outcome-title-tablet = Did { $name } swallow it?
outcome-body = We write it down.
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
throw-left-body = No one takes it next time. Put it in the trash. Never pour it back into the bottle or another bowl.
throw-old-title = Bowl { $number } is too old. Throw it away.
throw-old-body = It may not be used now. If someone still needs a dose, make a new bowl next.
throw-it-away = I threw it away
done-title = Done for now.
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

help-title = Help
help-numbers = Numbers to call
help-careful = Good to know
call-emergency = Call { $phone } now for this
contact-emergency = Emergency
contact-poison = Poison
contact-questions = Questions
contact-refill = More tablets
apart = Keep { $length } between this medicine and { $what }.
order-title = The instructions
order-from = From
order-revision = Revision
order-issued = Issued
order-mark = Their mark
order-mark-is = Mark: { $mark }
order-invented = These instructions are invented. Nobody may be treated by them.
order-unsigned = Compare the mark with the one on the paper from your health district.
order-chart = How much for whom
order-source = Where they come from
record-title = Record
record-empty = Nothing was given yet.
doubled-title = { $name } may have had it twice
doubled-body = Two devices wrote down the same dose. Call { $phone } before the next one.
people-title = People
no-weight = no weight
reason-weight = Weigh first.
reason-questions = Answer the questions first.
reason-young = This chart is not for so small a baby. Ask a nurse first.
reason-implausible = The weight does not fit the age. Weigh again.
reason-other = Ask a nurse first.
reason-call = Call { $phone }.
trace-order = Instructions
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
ahead-fewest-change = Some bowls keep for the next time. Press to make new ones every time.
ahead-fresh = New bowls every time
ahead-fresh-change = No bowl is kept. Press to use fewer tablets.
ahead-paper = Paper and calendar
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
lot-title = What is the lot number?
lot-body = It is on the bottle, often after “LOT”. If this lot is called back, you will see it here.
lot-field = Lot
lot-unknown = I cannot read it
lot-extended = Lot { $lot } keeps longer
lot-extended-body = You may use it until { $date }, whatever the bottle says.
lot-aside = Do not give from bottles marked { $lot } yet
lot-back = Do not give from bottles marked { $lot }
lot-call = Look at your bottle. Does it say so? Set it aside. Call { $phone } for another one.
ahead-bound = Nobody could do with fewer than { $count }.
ahead-bowls = { $count ->
    [0] no new bowl
    [one] { $count } new bowl
   *[other] { $count } new bowls
}
ahead-covered = covered bowl
ahead-end = The end
ahead-end-day = The last dose is on { $date }. Do not stop because the bottle is empty: get more tablets.
about = About
about-what = Hearthdose helps a home take an emergency medicine. It begins with the instructions. It ends with the last dose. Everything stays on this device.
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
set-up-child = Younger than that
set-up-child-detail = The dose depends on the weight
set-up-age-unknown = I do not know the birthday
set-up-birth = When was { $name } born?
set-up-birth-known = I know the birthday
birth-without-day = Is the day not known? Leave the day empty.
birth-whole = The day counts here. Type the day too.
birth-month-only = The day is left out. The last day of the month counts.
birth-day-needed = Type the day too.
birth-day-needed-body = Here each day of age counts. Is the day not known? Press below.
date-unread = This is not a day up to today.
date-unread-body = Type month, day and year, as 07, 19, 2028.
set-up-told = How old is { $name } now?
set-up-early = Was { $name } born early?
set-up-early-body = Early means more than three weeks before the due date.
set-up-swallows = Can { $name } swallow tablets whole?
set-up-swallows-body = If the dose is not a whole tablet, { $name } gets it from the bowl.
set-up-swallows-yes = Yes, whole
set-up-swallows-yes-detail = With a full glass of water
set-up-swallows-no = No, or not well
set-up-swallows-no-detail = You mix it with water
set-up-food = Is { $name } allergic to { $what }?
set-up-food-body = Some drinks that hide the taste have it.
set-up-food-yes = We leave it out
allergen-milk = milk
allergen-soy = soy
allergen-nuts = nuts
set-up-weigh = What does { $name } weigh?
set-up-weigh-body = The dose depends on the weight. No dose until { $name } is weighed. Light clothes, no shoes.
weigh-now = Weigh { $name }
weigh-later = Weigh later
question-place = { $name } · question { $at } of { $of }
outcome-stop = Not this medicine for { $name }.
outcome-hold = { $name }: ask a nurse first.
outcome-no-dose-stop = { $name } does not take this medicine.
outcome-no-dose = { $name } gets no dose until a nurse says yes.
outcome-go-on = Go on. { $name } waits.
outcome-caution = Good to know for { $name }.
more-title = Who is at the table?
more-another = Add another person
more-another-detail = Everybody who takes this medicine
more-everybody = That is everybody
more-everybody-detail = Go on
times-title = When do you want to give the medicine?
times-body = The same times every day. Choose times when everyone is at home.
times-other = Other times
times-first = When is the morning dose?
time-hour = Hour
time-minutes = Minutes
half-before-noon = a.m.
half-after-noon = p.m.
ready-title = Do you have the tablets at home?
ready-body = Look at the bottle. It must say { $words }.
ready-now = Yes. Start now
ready-now-detail = You need not wait for the next time
ready-round = Yes. Start at { $time }
ready-none = Not yet
ready-none-detail = Call { $phone }. It waits here for you.
tablets-title = How many tablets did you get?
tablets-body = Count them, or read it on the bottle. So you hear in time when to get more.
tablets-field = Tablets
tablets-main = Keep this number
tablets-unknown = I do not know
home-of = { $name }’s home
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
weigh-together = You carry { $name }
weigh-together-detail = Step on with { $name }, then alone. Two times.
weigh-clinic = Weighed at a doctor or clinic
weigh-clinic-detail = Copy weight and day from the paper
weigh-site = Weighed where you got the medicine
weigh-site-detail = Copy weight and day from the receipt
weigh-step-on = Step on with { $name }. Then step on alone.
weigh-read = What does the scale say for { $name }?
weigh-read-elsewhere = What did { $name } weigh?
weigh-once-more = Step on again, to be sure.
weigh-with = You with { $name }
weigh-without = You alone
weigh-field = { $name }
weigh-and-ounces = ounces
weigh-then-again = Weigh a second time
weigh-differ = The two weights do not agree.
weigh-differ-body = First { $first }, now { $second }. They must be within half a pound. Weigh again.
weigh-agree-note = The two weights agree
weigh-again = Weigh again
weigh-day = When was { $name } weighed?
weigh-unit-title = { $name }: pounds or kilograms?
weigh-unit-body = { $weight } is unusual for this age. The wrong one makes a wrong dose.
weigh-unit-right = It is { $weight }
weigh-unit-right-detail = I looked at the scale again
weigh-unit-pounds = It was pounds
weigh-unit-kilograms = It was kilograms
weigh-unit-other-detail = Type it again
weigh-result = { $name }: { $weight }
weigh-kilograms = { $kg } kg
weigh-dose-is = The dose is { $amount }.
weigh-dose-stays = The dose stays { $amount }.
weigh-implausible-body = The same again? Call { $phone }. No dose until a nurse says yes.
weigh-implausible-keep = It is the same again. Keep it.
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
dose-changes-body = It was { $old }. From { $time } on:
dose-changes-main = I have seen it
next-dose = the next dose
dose-changes-plan = You may need more tablets. They are counted for you.

## People

person-join = Add a person
person-join-detail = Someone new in this home
person-swallows = Swallows tablets whole
person-answers = Answers
answered-elsewhere = Answered at the site
not-answered = No answer yet. Press to answer.
person-changes = Something changed
person-reaction = A reaction
person-leaves = Moves out
person-leaves-detail = Moves, or stops the medicine here
person-lift = A nurse said it may go on
person-lift-detail = Type who said so
person-stop = A nurse or doctor stops it
person-stop-detail = No more doses until they say so
who-said-it = Who said so?
stop-title = Stop the medicine for { $name }?
stop-body = Only if a nurse or doctor told you. Not sure? Call { $phone }.
stop-main = Stop { $name }’s medicine
stop-not = Keep giving it
lift-title = May { $name } take it now?
lift-body = Only a nurse or doctor can say so. Call { $phone }. Type their name.
lift-main = The answer was yes
lift-not = The answer was no, or none yet
leaves-tablets = How many tablets go with { $name }?
joined-elsewhere = Has { $name } had this medicine before?
joined-elsewhere-yes = Yes
joined-elsewhere-no = No, never
joined-last-day = When did { $name } have the last dose?
joined-today = Today
joined-yesterday = Yesterday
joined-earlier = Before yesterday
joined-last-time = At what time did { $name } have it?
joined-start = When did { $name } start this medicine?
joined-tablets = How many tablets did { $name } bring?
person-born = Born { $date }
person-adult = Adult
person-age-unknown = Age not known
reaction-ask = Did { $name } have a reaction?
reaction-yes = Stop it for { $name }
reaction-yes-detail = Only a nurse or doctor can start it again
reaction-no = No, go back
leaves-title = Is { $name } moving out?
leaves-body = Give the tablets and these lines along. The new home goes on from there.
leaves-last = The last dose was at { $time }.
leaves-yes = Yes, { $name } moves out
leaves-yes-detail = The record stays
leaves-no = No, go back
reason-stop = Not this medicine. Ask a nurse.
other-homes = Other homes on this device
homes-title = Homes on this device
homes-lead = Each home has its own record.
homes-here = You are here
homes-none = There is no home yet.
homes-another = Set up another home
homes-unfinished = A home that is not set up yet

## Putting right

record-lead = Is a line wrong? Press it.
record-line = { $time } · { $name }
record-corrected = put right
record-stopped = { $name }’s medicine is stopped.
conflict-title = Two devices say different things
conflict-body = Until you choose, the safer one counts.
conflict-settle = Choose what is right
correct-title = What happened with { $name }’s dose at { $time }?
correct-body = The first entry stays in the record.
correct-not-given = It was not given at all
correct-not-given-detail = Nothing was swallowed
correct-nothing = It is right as it is

## Orders and notices that arrive

papers-title = Which one is it?
papers-body = Instructions and messages found on this device or on a USB stick.
papers-none = No instructions were found.
papers-none-body = Put the file in Downloads, Documents or on a USB stick. Then look again.
papers-again = Look again
papers-newer = Newer instructions or a message
paper-from = From { $place }.
paper-order = { $issuer }, revision { $revision }.
paper-notice = Message of { $issuer }.
paper-bad = This file cannot be used.
paper-bad-body = Ask for a good copy. Nothing was changed.
take-order-title = Is this the right one?
take-order-another = Another medicine for this home?
take-order-main = Yes, the mark is the same
take-order-new = The mark is the same. Follow it.
take-order-not = No, not this one
take-order-same = You follow these already.
take-order-same-body = Nothing is new in them. You do not have to do anything.
take-order-older = These are older.
take-order-older-body = You follow newer ones. Older ones never take their place. Keep the newer ones.
take-order-changes = What is new
take-notice = I have read it
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
take-order-here = The mark is the same. Add it.
take-order-elsewhere = For another home
other-order-taken = Now say who takes it
other-order-taken-body = On the next page, press each person who takes this medicine. First come its questions.
person-follow = Takes { $medicine } too
person-follow-detail = Its questions come first
follow-too = May { $name } take { $medicine } too?
follow-instead = May { $name } take { $medicine } instead?
follow-body = Every question is answered, and no answer stops it. Keep its bowls apart from the others.
follow-yes = Yes, { $name } takes { $medicine }
follow-not = Not { $medicine } for { $name }.
reason-same-event = Both medicines fight the same danger. Never take them together. Ask a nurse which one to take.
code-title = Your code
code-lead = Show this at the dispensing site.
code-none = This device cannot make a code. Tell the site your people and their weights.
code-what = It has ages, weights and answers. It has no birthday, no address and no phone number. A new code takes the place of the old one.
code-with-names = First names are in it
code-without-names = No names are in it
code-leave-names-out = Press to leave them out
code-put-names-in = Press to put them in, so that bottles are not mixed up
code-picture = Keep it as a picture
code-picture-body = { $name } lies in { $place }. Show it at the site, or send it there.

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
change-words-medicine = the translated name of the medicine changed
change-words-apart = to be taken apart: the translated names changed
change-words-fluid = second fluid: the translated names changed
change-words-vehicle = { $entry }: the translated names changed
change-words-question = { $entry }: the words of the question changed
change-words-after-yes = { $entry }: the words after a yes changed
change-words-caution = { $entry }: the words changed
change-words-caution-kind = { $entry }: its place among the cautions changed
change-words-hours = { $entry }: the hours changed

## Codes that come in

receive-title = Receive a code
receive-body = Hold a scanner to it. Or put a picture of it in Downloads. Then look for it.
receive-field = Scanned code
receive-main = Read it
receive-look = Look for pictures
receive-place = a code
receive-parts = { $have } of { $needed } parts are here. Go on with the next one.
receive-none = No code was found in pictures. Put a picture of it in Downloads. Then look again.
receive-other-file = This part belongs to something else. Begin again.
receive-not-for-you = This code is for a dispensing site. Show it there.
receive-no-home = Set up a home first. Then read the receipt.
receive-other-home = This receipt is for another home. Open that home first.
receive-known = This receipt is in the record already. You do not have to do anything.
receive-sealed = Only the site it was made for can read this code. Show it there.
receive-newer = This code was made by a newer version. Please update.
receive-damaged = The code cannot be read whole. Scan it once more.
receive-foreign = This is another kind of code. Look for the one on your receipt.
receive-receipt = Read a receipt
camera-hold = Hold the code before the camera. A scanner that types works too.
camera-several = There are several codes before the camera. Hold up one alone.
camera-busy = Another program is using the camera. Close it, and this page goes on by itself.
camera-denied = This program may not use the camera. Use a scanner or a picture.
camera-broken = The camera shows nothing. Use a scanner or a picture.
slip-title = Is this what you got?
slip-from = Receipt from { $site }. Compare it with the bottles.
slip-tablets = { $count ->
    [one] { $count } tablet, { $product }
   *[other] { $count } tablets, { $product }
}
slip-bottles = { $count ->
    [one] { $count } bottle, { $product }
   *[other] { $count } bottles, { $product }
}
slip-lot = Lot { $lot }.
slip-expiry = Use it until { $date }.
slip-enough = It is enough until { $date }.
slip-main = Yes, the same
slip-not = No, not the same
slip-taken = The tablets are counted in
slip-taken-body = You will hear in time when to get more. You will hear too if a lot is called back.

## On paper

paper-home = Our home
paper-title = { $home }: { $title }
paper-page = Page { $page } of { $of }
paper-foot = { $home } · { $date }
paper-site = Site { $site } · { $date }
paper-number = { $what }: { $phone }
paper-time-date = { $time } { $date }
paper-instructions = Instructions from { $issuer }, revision { $revision }
paper-first = The first dose is at { $date }.
paper-from-then = From { $date }:
paper-starts = Starts at { $date }
paper-from-bowl = from the bowl that the chart names
paper-no-dose = No dose. Call { $phone }.
paper-how = How to make and give it
paper-reaction = Swelling or trouble breathing? Call { $phone } now.
paper-label-no = No, or not sure? Do not use it.
paper-chart-bowls = The chart says how many new bowls. Call them by number.
paper-soak = Wait { $length }. You may wait longer.
paper-each = each person
paper-stir-syringe = Stir again first. Then fill the syringe.
paper-measure = Take it from the bowl that the chart names. Put it into a second small bowl.
paper-never-pour = Never pour two bowls together.
paper-food-title = Hide the taste.
paper-food-mix = Mix it into the small bowl, for one person at a time. Stir.
paper-food = { $food }: { $how }. For { $names }.
paper-finish = Give all of it. Never keep a dose that has food or drink in it.
paper-tablet = { $count ->
    [one] { $names } swallows the tablet.
   *[other] { $names } swallow the tablets.
}
paper-tick = Tick the box on the chart.
paper-tick-body = Do it at once, for each person. Was it late? Write the time beside it.
paper-cover = Cover the bowls that the chart uses again.
paper-cover-label = Put a label on: for whom, when it was made, and until when.
paper-keep = It keeps { $length } from the moment the water meets the tablet. After that, throw it away.
paper-cold = Was the power off, or are you not sure it stayed cold? Throw it away.
paper-throw = Throw away what is left in all other bowls.
paper-throw-body = Put it in the trash. Never pour it back into the bottle or another bowl.
paper-otherwise = If something is different
paper-midnight = 12 at night
paper-noon = 12 noon
paper-late-until = { $dose }: before { $time }, give it. Then go on as usual.
paper-late-usual = { $dose }: until { $time }, give it. Then go on as usual.
paper-late-moved = { $dose }: later, but before { $time }, give it. Give the next one { $gap } after it.
paper-late-skip = { $dose }: from { $time } on, skip it. Give the next one at its time.
paper-late-last = { $dose }: from { $time } on, skip it. Call { $phone }.
paper-late-never = Never give two together. Never make up for a missed dose.
paper-late-bowl = Is the bowl too old by then? Throw it away. Make a new one.
paper-some = Some of it was left or spilled
paper-some-body = Do not give more now. The next dose is as usual. Call { $phone } if this happens again.
paper-back-up = It came back up
paper-back-up-body = Do not give it again now. If it happens two times in a row, call { $phone } before the next dose.
paper-would-not = Somebody would not take it
paper-would-not-body = Do not force it. Try another food or drink next time. Call { $phone } after two missed doses.
paper-spilled = A bowl spilled or was spoiled
paper-spilled-body = Make a new one with the same number. If a dose was dropped before it was given, measure it again.
paper-short = Too little is left in the bowl
paper-short-body = Give what is there. Write “short” beside the box. Do not fill up from another bowl.
paper-weight = Somebody weighs more or less, is ill, or is pregnant
paper-weight-body = The amounts on this paper are for the weights on it. Call { $phone } before the next dose.
paper-not-your-clinician = This does not replace your doctor or nurse. The instructions and they decide. If you have none, call the number for questions.
paper-chart = Chart to tick
paper-chart-how = Tick a box when the dose is given. The number beside it is the bowl. A line means no dose at this time.
paper-chart-once = The chart goes on with other people. Make each bowl once, for the whole home.
paper-chart-when = When
paper-chart-bowl = Bowls
paper-chart-none = no bowl
paper-box = Box to tick
paper-no-box = No dose at this time
paper-chart-new = New: { $numbers }
paper-chart-keep = Keep { $numbers }, to { $time } { $day }
paper-labels = Labels for bowls that are kept
paper-labels-how = Cut them out. They are for the first { $days }. After that, write your own in the same way.
paper-label-earlier = Made it earlier? Then it ends earlier. Write down when.
paper-strength = { $mass } in { $volume }
paper-receipt = Receipt
paper-receipt-what = What you got
paper-receipt-code = Code of this receipt
paper-receipt-code-body = Scan it with the device at home, or keep this paper. Bring it along when you come again.
paper-for-home = For the whole home
paper-bottle-labels = Labels for bottles
paper-list = Paper list
paper-list-how = Use this list when the device is down. Write one line for each home. Type the lines in later.
paper-list-ask = First ask each person the questions of the instructions. Did anybody say yes, or “not sure”? Send that person to the lead.
paper-list-site = Site: ____________________ Date: ____________________
paper-list-time = Time
paper-list-home = Name or door
paper-list-people = People
paper-list-lot = Lot
paper-list-packs = Packs
paper-list-by = Initials
paper-list-in = Typed in

## In the calendar

calendar-name = Hearthdose
calendar-summary-practice = Hearthdose, practice: { $round }
calendar-about = Set the table at { $start }. The doses are at { $time }. { $paper }
calendar-paper = The amounts are in Hearthdose and on your paper.
calendar-names = For { $names }.
calendar-alarm = Set the table. The doses are at { $time }.

## A dispensing site

start-site = Help at a site
site-name = Dispensing site
site-line = Line
site-find = Find a home
site-waiting = Homes that wait
site-shelves = Shelves
site-day = Today so far
site-orders = Instructions and messages
site-leave = Leave the site
site-next = Next in line
site-practice-place = this program, to practice
site-orders-title = Which instructions do you work by?
site-orders-body = They are on this device or on a USB stick. Ask the person who leads the site which ones are right.
site-work-by = We work by these
line-title = Next in line
line-body = Scan the home's code. A scanner that types writes it into the line below.
line-field = Code
line-main = Show this home
line-family = No code: type the family in
line-pace = Handed out { $homes ->
    [one] once
   *[other] { $homes } times
  } here, for { $people ->
    [one] { $people } person.
   *[other] { $people } people.
  }
line-not-a-home = This is one of our codes, but not the code of a home. Scan the code of a home.
line-nothing-known = Nothing is known of this home yet.
find-title = Which home?
find-field = Name or door
find-none = There is no home of this name here.
find-none-body = Try fewer letters, or scan its code.
waiting-title = Homes that wait
waiting-body = They came, and got nothing yet.
waiting-none = Nobody waits.
home-number = Home { $number }
home-served = Served { $day }, { $time }.
home-seen = Came at { $time }.
desk-lead = { $people ->
    [one] { $people } person
   *[other] { $people } people
  }{ $without ->
    [0] . Everybody may have a dose.
    [one] . { $without } has no dose yet.
   *[other] . { $without } have no dose yet.
  }
desk-people = People
desk-bags = What goes out
desk-for-lead = Ask the lead
desk-no-dose = no dose yet
desk-private = One question is to be asked aside.
desk-weigh-again = Weigh again if you can.
desk-no-bags = Nothing goes out now.
desk-bag-home = For the home
desk-expires = Expires { $day }.
desk-short = { $packs ->
    [one] { $packs } pack is missing on the shelves for { $whom }.
   *[other] { $packs } packs are missing on the shelves for { $whom }.
  }
desk-give = { $packs ->
    [one] Hand out { $packs } pack
   *[other] Hand out { $packs } packs
  }
desk-to-lead = Ask the lead
desk-park = Let them wait aside
desk-back-to-home = Back to the home
desk-person-number = Person { $number }
desk-age = Age
desk-weight = Weight
desk-swallows = Swallows tablets
desk-weigh = Weigh here
desk-not-asked = not asked yet
desk-ask-aside = Ask this aside, where nobody else hears it.
desk-lift = The lead lifts this
desk-age-unknown = not known
desk-adult = grown up
desk-weigh-main = Write this weight down
desk-lift-title = May { $name } have a dose?
desk-lift-body = Only the lead says so, after asking a clinician. Write down who said it, and why.
desk-lift-main = Yes, { $name } may have a dose
lead-title = May this go out?
lead-body = Only the lead decides. Write down why it may go out.
lead-field = Who says so, and why
lead-main = It may go out
lead-served-until = This home was served on { $day }. That is enough until { $until }.
lead-served = This home was served on { $day }.
lead-same-people = People with the same weights and ages were served on { $day } as another home.
lead-conflicting = Two codes of this home do not say the same.
lead-other-order = The code is for other instructions than the ones here.
lead-stopped = The issuer stopped these instructions.
lead-short = { $packs ->
    [one] { $packs } pack is missing on the shelves.
   *[other] { $packs } packs are missing on the shelves.
  }
lead-expires = What there is expires before the last day it is for.
lead-collector = Nobody grown up came to collect.
lead-too-many = One person collects for { $most } people at most.
lead-not-today = By the issuer's message it is not this home's day.
remark-old = { $hours ->
    [one] The code is { $hours } hour old. Ask whether anything changed.
   *[other] The code is { $hours } hours old. Ask whether anything changed.
  }
remark-ask-again = The answers are from before the last hand-out. Ask again.
remark-interpreter = They would like an interpreter. Language: { $language }.
remark-extended = Lot { $lot } may be used until { $until }, by the issuer's message.
remark-at-home = They have lot { $lot } at home. It must not be used. Tell them to bring it back.
remark-over = The last day of { $name } is over.
passed-lot = Do not take lot { $lot }: { $why }
passed-recalled = it was called back.
passed-set-aside = it is set aside.
passed-expired = its last day was { $day }.
passed-empty = nothing of it is left.
passed-unknown = it never came in here.
packs-tablets = { $packs ->
    [one] { $packs } pack of { $each } tablets
   *[other] { $packs } packs of { $each } tablets
  }
packs-bottles = { $packs ->
    [one] { $packs } bottle of { $each } mL
   *[other] { $packs } bottles of { $each } mL
  }
give-not = Nothing was handed out.
give-not-body = No receipt can be made for it. Or the lead has not said why it may go out. Look at the home again.
given-title = Handed out
given-lead = Give them the packs. Let them scan this receipt before they leave, or print it.
family-person = Person { $number }
family-name = Name
family-age = Age: 34, or 8 mo, or born 2029-07
family-weight = Weight with unit: 31 lb 4 oz
family-bowl = Cannot swallow tablets
family-next = Next person
family-all = That is everybody
family-name-missing = Type a name, or what this person wants to be called.
family-age-unread = This age cannot be read. Write 34, or 8 mo, or the month of birth as 2029-07.
family-weight-unread = Pounds or kilograms? Write 31 lb 4 oz, or 14.2 kg.
family-full = More people than one home has. Make two homes of them.
family-question = Question { $number } of { $of }
family-press = Press a name for each answer: first press no, second yes, third not sure.
family-nobody = Everybody here said no
family-asked = These are the answers
family-not-made = The code of this family could not be made. Try again, with shorter names.
shelves-lead = Press a lot to count it.
shelves-recalled = Called back: nothing goes out.
shelves-set-aside = Set aside: nothing goes out.
shelves-unlike = It came in with two different dates or sizes. The safer one counts.
shelves-below-zero = More went out than came in. Count it.
shelves-empty = Nothing came in yet.
shelves-receive = Packs came in
shelf-packs = { $packs ->
    [one] { $packs } pack
   *[other] { $packs } packs
  }
receive-packs-title = What came in?
receive-packs-body = Scan the code of one package, or type what is printed on it. Then count the packs.
receive-packs-code = Code of the package
receive-packs-lot = Lot
receive-packs-expiry = Last day, as 2032-05-31 or 2032-05
receive-packs-count = How many packs
receive-packs-main = Put them on the shelf
receive-packs-result = Lot { $lot }. Expires { $day }.
receive-packs-product = The instructions do not name this product. Set it aside. Ask the lead.
receive-packs-check = The code of the package is damaged. Scan it again.
receive-packs-no-lot = Which lot? Type it from the package.
receive-packs-no-expiry = Until which day? Write it as 2032-05-31, or 2032-05.
receive-packs-no-count = How many? Write a whole number.
count-title = Count lot { $lot }
count-body = { $packs ->
    [one] By what came in and went out there should be { $packs } pack.
   *[other] By what came in and went out there should be { $packs } packs.
  }
count-field = Packs that are there
count-main = Write the count down
day-lead = { $homes ->
    [one] { $homes } hand-out
   *[other] { $homes } hand-outs
  } today, for { $people ->
    [one] { $people } person.
   *[other] { $people } people.
  }
day-hours = Hour by hour
day-nothing = Nothing was handed out today.
day-homes = { $homes ->
    [one] { $homes } hand-out
   *[other] { $homes } hand-outs
  }
day-runs-out = Runs out { $when } at this pace.
day-no-pace = Nothing went out in the last hour.

## Papers from the window

print-home = Papers for the kitchen
print-home-what = Who takes what, how to make it, a chart to tick, labels. Enough without a device.
print-home-body = { $name } lies in { $place }. Print it from there. It has a new code; the one before counts no more.
calendar-make = Doses in a calendar
calendar-what = A file that a calendar program takes in, with an alarm before each dose. No names in it.
calendar-body = { $name } lies in { $place }. Open it with a calendar program. When the plan changes, make it again.
print-receipt = Print the receipt and the labels
print-receipt-body = { $name } lies in { $place }, and the labels for the bottles beside it. Print them from there.
print-there = It is ready
file-open = Open it
file-send = Send it
file-not = Nothing here takes it
file-not-body = No program here takes this file. It stays where it lies. Look for another way to send it.
print-not = This could not be made.
print-not-body = The folder cannot be written. Or a name has letters that cannot be printed. Nothing else changed. Put that right. Then try again.
family-adult = Grown up
family-age-missing = How old is this person? Write an age, or press Grown up.
family-anybody = anybody here
desk-asked-aside = asked aside
desk-aside = A question to ask aside
lead-no = No, let them wait aside
shelves-past = Its last day is past: nothing goes out.
receive-packs-recalled = This lot was called back or set aside. Put it apart. Nothing of it goes out.
receive-packs-past = This day is past. Put it apart. Ask the lead.
receive-packs-differs = The code of the package says another lot or day. Look at the package again.
site-not-these = No, not these
given-what = Handed out: { $what }
given-nothing = Nothing for { $name } yet.
site-notice-lot = { $packs ->
    [one] { $packs } pack of lot { $lot } stands on the shelves here.
   *[other] { $packs } packs of lot { $lot } stand on the shelves here.
  }

## The clock of the device

bell-timer = Ring when it is soft
bell-timer-words = It is soft now: go on with the tablet
bell-alarm = Ring at { $time }
bell-alarm-words = Time to begin the next dose
told-no-bell = No clock
told-no-bell-body = Nothing on this device can ring from here. Set a clock by hand.
told-bell-set = It will ring
told-bell-set-body = Leave this window open. Turn the sound on. When it rings, press anything to stop it.
read-aloud = Read aloud
told-no-voice = No voice
told-no-voice-body = Nothing on this computer can read aloud yet. Put “speech-dispatcher” on it. Then try again. Until then, ask somebody to read the words to you.

## Several tablets of a site

site-shift = Other tablets
shift-title = Bring tablets together
shift-body = Each tablet writes its record to a file. Carry the files on a USB stick. Take them in on the other tablets. It does not matter who goes first, or how often. Without a stick, show the record as codes. Private answers are always locked with the key of the instructions. Keep the stick with you.
shift-write = Write my record
shift-of = Tablet { $mark }: { $count } entries
shift-there = { $name } lies in { $place }. The mark of this tablet is { $mark }.
shift-there-locked = { $name } lies in { $place }. It holds private answers, so it is locked. Only a tablet with the site's key can take it in. The mark of this tablet is { $mark }.
shift-no-lock = Some answers in it are private. The instructions bring no key to lock them. Ask the lead for instructions with a key. Nothing was written.
shift-new-title = Is this one of your tablets?
shift-mark = Mark: { $mark }
shift-compare = It was not met before. The other tablet shows its mark when it writes its record. Compare the two marks.
shift-trust = Yes, take it in
shift-merged = Taken in
shift-merged-body = New entries: { $new }. Known before: { $known }.
shift-twice = Both tablets served these homes. Tell the lead: { $homes }.
shift-below = More went out than came in. Count these lots: { $lots }.
shift-other-device = This file is signed by another key than its tablet had before. It was not taken in. Tell the lead.
shift-not-one = This is not the record of a tablet. Choose another file.
shift-sealed = This file is locked with a key that is not on this tablet. Ask the lead for it.

## A hand-out is taken back

undo-way = This was wrong: take it back
undo-heading = What they got here
undo-title = Take this back?
undo-body = Have the packs in front of you, closed. What was opened never goes back onto the shelf: then count the lot by hand.
undo-receipt = Take the receipt back too. If they scanned it, tell them to correct it at home.
undo-main = Take it back
undo-not = No, it was right
undo-done = Back on the shelf

## PINs of a site

site-roles = For the lead
roles-body = The lead alone lifts a hold, hands out again, takes back, counts, or forgets a home. With a PIN this device asks for it each time.
roles-none = No PIN is set.
roles-none-body = Anybody can say that they are the lead. Set the lead's PIN.
roles-lead = PIN of the lead
roles-volunteer = PIN of the volunteers
roles-is-set = It is set. Press to change it.
roles-not-set = Not set. Press to set it.
roles-lead-first = Set the lead's PIN first.
roles-erasure = Receipt of the home that was forgotten last
pin-open-title = Who works here?
pin-open-body = Type the PIN of the volunteers or of the lead.
pin-lead-title = The lead's PIN
pin-lead-body = Only the lead may do this. Type the lead's PIN.
pin-new-lead = New PIN of the lead
pin-new-volunteer = New PIN of the volunteers
pin-new-body = Choose 4 to 12 digits. Do not choose digits in a row.
pin-again-title = The same PIN again
pin-again-body = Type it once more, to be sure.
pin-field = PIN
pin-spoken = { $count ->
    [0] PIN, nothing typed
    [one] PIN, { $count } digit typed
   *[other] PIN, { $count } digits typed
  }
pin-main = Go on
pin-moment = One moment
pin-wrong = { $count ->
    [one] This is not the PIN. Try again: { $count } more try.
   *[other] This is not the PIN. Try again: { $count } more tries.
  }
pin-wrong-wait = This is not the PIN. Wait { $seconds } seconds. Then try again.
pin-wait = Too many PINs were wrong. Wait { $seconds } seconds. Then try again.
pin-short = That is too short. Type 4 digits or more.
pin-repeated = One digit again and again is easy to guess. Choose others.
pin-in-a-row = Digits in a row are easy to guess. Choose others.
pin-differs = The two were not the same. Choose a PIN again.
pin-same = The other role has this PIN. Choose another one.
pin-set = The PIN is set
pin-set-body = Keep it where you find it again. Only the lead's PIN sets another one.
pin-not = The PIN was not set
pin-not-body = This device could not make it safe. Start the program again. Then try again.

## A home is forgotten

forget-way = Forget this home
forget-title = Forget this home?
forget-body = All that is known of these people leaves this device for good.
forget-others = Other tablets forget them too, as soon as records are brought together.
forget-stays = What went out of each lot stays counted. It names nobody.
forget-unheard = { $count ->
    [one] { $count } entry is in no file of this site yet.
   *[other] { $count } entries are in no file of this site yet.
  }
forget-unheard-body = Write your record first. Or say why it is forgotten without that.
forget-reason = Why, without names
forget-to-shift = Write my record first
forget-main = Forget them for good
forget-not = No, keep this home
forget-failed = Nothing was forgotten
forget-failed-body = No receipt could be made. Write the reason with fewer words. Then try again.
forgotten-title = A home was forgotten
forgotten-count = { $count ->
    [one] { $count } entry is gone.
   *[other] { $count } entries are gone.
  }
forgotten-receipt = This receipt names nobody. Print it for them, or keep a picture of it.
forgotten-reason = Before it was in a file, because: { $why }
forget-print = Print this receipt
forget-printed = { $name } lies in { $place }. Print it from there.

## Families that wait half typed in

family-weight-adult = Weight with unit: not needed here
family-half = Half typed in. Press to go on.
family-unnamed = Nobody has a name yet
family-away = Throw this away
family-away-title = Throw this away?
family-away-body = What was typed of them is gone then.
family-away-main = Throw it away
family-away-not = No, let it wait

## Weighing at a site

site-station = Scale
station-title = Next on the scale
station-body = Scan the home's code, or type a name.
station-field = Name, door, or code
station-who = Who steps on the scale?
station-next = Next on the scale
scale-held = Somebody holds them in their arms
scale-alone = They stand on the scale alone
count-unread = How many are there? Write a whole number.

## A record as codes

codes-field = Part of a record
codes-show = Show my record as codes
codes-title = Let the other tablet scan this
codes-page = Part { $number } of { $of }
codes-file = Record { $number } of { $of }
codes-body = The other tablet shows how many parts it has. It does not matter which part comes first.
codes-next = Next part
codes-by-itself = Turn the parts slowly by itself
codes-by-hand = Stop, I turn them by hand
codes-next-file = Next record
codes-not = Too long for codes
codes-not-body = One entry is too long for a code. Write the record to a file.
codes-not-a-part = This is no part of a tablet's record. Scan the code that the other tablet shows.

## A kitchen table at the door

table-way = At the table
table-title = Sit down at their table?
table-body = This device leads through their doses. What is known of them here is taken over.
table-back = The way back to the site leads to this home again.
table-main = Sit down with them
table-to-site = Back to the site
forget-table = Their record of the kitchen on this device goes too.

## A desk and its mark

desk-title = Is this on the desk's paper?
desk-compare = Look at the site's screen, or at the paper on its desk. Compare each letter and number of the mark.
desk-not-met = This receipt is signed by a desk not met before. You are asked once.
desk-other-key = You know { $site } by another mark. A site may use several tablets. Compare with care.
desk-other-name = This desk was called { $site } before. Compare the mark once more.
desk-doubted = You said before that this mark is not right. Ask at the site before you go on.
desk-same = Yes, the same mark
desk-differs = No, another mark
desk-later = I cannot compare it now
desk-later-said = Nothing was counted in. Keep the receipt. Scan it again when you can compare the mark.
desk-differs-title = This receipt does not count
desk-differs-body = Nothing was counted in. Keep these packs apart. Ask at the site, or call the number for questions under Help.
desk-name-title = What is this site called?
desk-name-body = Homes read the name on their receipts. Use up to { $most } letters. Name a place, not a person.
desk-name-field = Name of the site
desk-name-main = Use this name
desk-name-missing = The site has no name yet. Type it above.
desk-name-long = This name is too long. Use up to { $most } letters.
desk-name-unseen = Some letters in it do not show. Type the name again.
desk-way = Name and mark of this desk
desk-mark = Mark of this desk: { $mark }
desk-print = Print a sheet for the desk
desk-print-body = { $name } lies in { $place }. Print it. Put it where homes can see it.
paper-desk-mark = Mark of this desk
paper-desk-body = When your device reads a receipt of this desk, it shows a mark. It must be the same as this one. Tell us if it is not.

## A paper list is typed in

print-list = Print an empty paper list
print-list-body = { $name } is in { $place }. Print some before the device is down.
list-way = It was given out by the paper list
list-title = Type in a line of the paper list
list-body = Copy what the list says. The lead says yes to each line.
list-time = Time on the list, like 14:20
list-day = Day, like 2031-05-31
list-packs = Packs of lot { $lot }
list-main = Write it down
list-not = No, this home is not on the list
list-done = It is in the record
list-time-unread = This is no time. Type it like 14:20.
list-day-unread = This is no day. Type it like 2031-05-31.
list-no-packs = No packs were typed. Type how many of which lot.
list-no-reason = The reason is missing. Ask the lead.
list-ahead = This time is still to come. Type the day and the time again.
list-known = This is in the record already. Go on with the next line of the list.
list-lot = This lot was never here. Type the packs of another lot, or call the lead.

## Settings

settings = Settings
settings-lead = They hold on this device, for everybody who uses it.
settings-language = Language
settings-size = Size of the words
settings-percent = { $percent } %
settings-dark = Light or dark
settings-light = Light
settings-night = Dark
settings-contrast = Contrast
settings-warm = Warm colors
settings-strong = High contrast
settings-movement = Movement
settings-moves = Pictures move
settings-still = Nothing moves
settings-ring = When it rings
settings-sound = With sound
settings-quiet = No sound
settings-over = When a wait is over
settings-flash = Flash slowly
settings-no-flash = Do not flash
settings-device = What this device has
piece-voice = A voice reads steps aloud.
piece-no-voice = No voice
piece-no-voice-body = Ask somebody to read the words to you. On a computer, put “speech-dispatcher” on it.
piece-sound = It can ring with sound.
piece-no-sound = No sound
piece-no-sound-body = Set a clock by hand. Or look at the window: it shows when a wait is over.
piece-message = It can show a message when it rings.
piece-no-message = No messages
piece-no-message-body = Keep this window where you see it.
piece-camera = A camera reads codes.
piece-no-camera = No camera
piece-no-camera-body = Put a picture of the code into Downloads. Or type the code.
piece-reader = A screen reader can read this window.
piece-no-reader = No screen reader
piece-no-reader-body = Ask somebody to read the words to you. Or make the words larger here.
told-settings = Some settings were lost
told-settings-body = The file with your settings was damaged. What could be read is used. Look at Settings once.
told-settings-unkept = This choice was not kept
told-settings-unkept-body = It holds until you close the program. Make room on the disk. Then choose it again.
over-soak = The tablet is soft now. Go on with the dose.
over-start = It is time for the next dose. Set the table.

## What tablets of a site left to be settled

settle-title = To settle
settle-lead = Tablets of this site do not say the same of these homes. Press a home to choose what is right.
settle-none = Everything fits together.
settle-count = { $count ->
    [one] { $count } thing to settle
   *[other] { $count } things to settle
}
settle-way = Something does not fit together. The lead looks at it.
settle-twice = Two tablets served this home.
settle-changed = One entry was changed in two ways.
settle-twice-title = Two tablets served this home
settle-codes-title = Which code is right?
settle-out-title = Did these packs go out?
settle-changed-title = What is right?
settle-until-twice = Until you choose, both count.
settle-until-codes = Until you choose, the newer code counts. What goes out goes to the lead first.
settle-until-out = Until you choose, they count as handed out.
settle-first-wrong = The first was wrong
settle-second-wrong = The second was wrong
settle-both = Both were right
settle-both-detail = The home got both.
settle-out = They went out
settle-back = They were taken back
settle-gone = This entry was wrong
settle-other = Another entry
settle-code = Code { $number }: { $count ->
    [one] { $count } person
   *[other] { $count } people
}
settle-made = Made { $day }, { $time }, on device { $mark }.
settle-who = { $day }, { $time }, { $tablet }.
settle-here = this tablet
settle-tablet = tablet { $mark }
settle-elsewhere = another tablet
settle-said = The lead said: { $reason }.
settle-home = Look at this home
settle-because = Why is this right?
settle-main = This is right
settle-not = Choose again
settle-done = Settled
settle-count-lots = One tablet noted these packs as back on the shelf. Count these lots: { $lots }.
settle-same = Ages, weights and tablets left are the same.
settle-left = Tablets left: { $count }.

## Who comes to a site, and who stands at its scale

code-interpreter = Does somebody need an interpreter?
code-collects = Who will go?
code-collects-open = Not known yet
code-collects-adult = Grown-up
code-collects-minor = Under 18
code-collects-lead = The lead at the site looks at this first. Nobody is sent away for it.
family-came-title = Who came?
family-came-body = Press a line to change it. Both may stay open.
family-collects = Who collects
family-came-open = not noted
family-interpreter = Language help
family-interpreter-yes = an interpreter is needed
family-interpreter-no = not asked for
table-times = At what times do they want to give the medicine?
table-time = First dose of the day, like 7:30
weigher-title = Who weighs here?
weigher-is = { $name } weighs here
weigher-body = The name stays with each weight that is written down on this tablet.
weigher-field = Name
weigher-main = Use this name
weigher-nobody = Write no name
desk-weighed = Weighed here on { $day }.
desk-weighed-by = Weighed here on { $day } by { $name }.

## What a package says is read once more

lot-read-way = The date is wrong
lot-read-title = What does lot { $lot } say?
lot-read-body = Hold a package in your hand. Only the lead writes down its date.
lot-read-main = The package says this
lot-read-unread = This date cannot be read. Type it as 2032-05-31, or 2032-05.

# Palabras de la mesa de la cocina, español. Needs review by a qualified translator, every message.

name = Hearthdose
motto = De las instrucciones a la última cucharadita
back = Atrás
help = Ayuda
next = Siguiente
list-last = { $first } y { $last }
list-either = { $first } o { $last }
someone = Alguien
this-person = esta persona
not-your-clinician = Esto no reemplaza a su médico.
not-your-clinician-long = Esto no reemplaza a su médico ni a su enfermera. Las instrucciones y ellos deciden. Si no tiene, llame al número de preguntas que está en Ayuda.

## Amounts

amount-teaspoon = { $number } cucharadita ({ $ml } mL)
amount-teaspoons = { $number } cucharaditas ({ $ml } mL)
amount-ml = { $ml } mL
amount-tablets = { $count ->
    [one] { $count } pastilla entera
   *[other] { $count } pastillas enteras
}
spoons-full = { $count ->
    [one] { $count } llena
   *[other] { $count } llenas
}
spoons-half = { $count } media
spoons-quarter = { $count } cuarto
spoons-three-quarters = { $count } tres cuartos
fill-syringe = Llene la jeringa hasta { $ml }.

## Times

time-before-noon = { $hour }:{ $minute } a. m.
time-after-noon = { $hour }:{ $minute } p. m.
time-and-day = { $time } del { $day }
date-line = { $weekday } { $day } de { $month }
weekday-1 = lunes
weekday-2 = martes
weekday-3 = miércoles
weekday-4 = jueves
weekday-5 = viernes
weekday-6 = sábado
weekday-7 = domingo
weekday-short-1 = lun
weekday-short-2 = mar
weekday-short-3 = mié
weekday-short-4 = jue
weekday-short-5 = vie
weekday-short-6 = sáb
weekday-short-7 = dom
month-1 = enero
month-2 = febrero
month-3 = marzo
month-4 = abril
month-5 = mayo
month-6 = junio
month-7 = julio
month-8 = agosto
month-9 = septiembre
month-10 = octubre
month-11 = noviembre
month-12 = diciembre
left-seconds = Faltan { $seconds } s
left-minutes = Faltan { $minutes } min
left-both = Faltan { $minutes } min { $seconds } s
length-minutes = { $count ->
    [one] { $count } minuto
   *[other] { $count } minutos
}
length-hours = { $count ->
    [one] { $count } hora
   *[other] { $count } horas
}
round-morning = Dosis de la mañana
round-afternoon = Dosis de la tarde
round-night = Dosis de la noche

## Strip and shelf

strip-invented = Todo inventado. Solo para practicar.
strip-unsigned = Sin firma. Solo para practicar. Compare la marca con el papel.
strip-foreign = Hay palabras que solo están en { $language }. Pida ayuda a alguien que lo lea.
language-en = inglés
language-es = español
language-other = otro idioma
shelf-today = Hoy
shelf-people = Personas
shelf-ahead = Días
shelf-code = Mostrar código
shelf-order = Instrucciones
shelf-record = Registro
people-count = { $count ->
    [one] { $count } persona
   *[other] { $count } personas
}

## Start

start-question = ¿Qué quiere hacer?
start-practise = Practicar primero
start-practise-detail = Con agua y una familia inventada.
start-order = Empezar con instrucciones
start-order-detail = De su distrito de salud.
leave-practice = Dejar la práctica

## Messages of the program

told-go-on = Seguir
told-not-saved = Esto no se guardó
told-full = El disco está lleno. No cambió nada. Haga espacio. Luego repita el último paso. ({ $detail })
told-read-only = Este aparato no puede escribir aquí. No cambió nada. Pregunte a quien cuida el aparato. ({ $detail })
told-busy = Este registro está abierto en otra ventana. No cambió nada. Ciérrela. Luego repita el último paso. ({ $detail })
told-newer = Este registro es de una versión más nueva. Actualice el programa. ({ $detail })
told-store = No se pudo escribir el registro. No cambió nada. Repita el último paso. ({ $detail })
told-order = Estas instrucciones no se pueden usar. Pida una copia buena. { $detail }
told-salvaged = El registro estaba dañado
told-salvaged-body = Lo que se pudo leer está guardado y abierto. El archivo dañado se apartó, no se borró. Mire el Registro antes de la próxima dosis.
told-no-plan = Ahora no puede empezar una dosis
told-no-plan-body = Algo del plan no cuadra. Vuelva a Hoy. Mire otra vez.
clock-moved = Cambió la hora del reloj
clock-forward = El reloj de este aparato se adelantó { $length }. Las esperas duran lo mismo. Ningún tazón se guarda más tiempo.
clock-back = El reloj de este aparato se atrasó { $length }. Las esperas duran lo mismo. Ningún tazón se guarda más tiempo.

## Today

today-day = { $date } · día { $day } de { $days }
today-title = { $round }, { $time }
today-start = Empiece a { LAS($time) }. Tarda { $length }.
today-start-now = Empiece ahora. Tarda { $length }.
round-of-day = { $day }, dosis { $number }
late-title = Esta dosis va tarde
late-body = Désela ahora. La próxima es a { LAS($time) } como siempre.
late-last-body = Désela ahora. Es la última.
missed-title = Se perdió una dosis: { $round }
missed-body = Sáltela. La próxima es a { LAS($time) }. Nunca dé dos juntas.
skip-title = Sáltela
skip-last-body = Ya es muy tarde para esta. Sáltela. Nunca dé dos juntas.
row-new = tazón nuevo { $number }
row-covered = tazón tapado { $number }
row-whole = se traga entera
row-liquid = del frasco
row-hold = pregunte antes a una enfermera
row-hold-amount = Todavía sin dosis. Llame al { $phone }.
row-stop = esta medicina no
row-stop-amount = Sin dosis. Llame al { $phone }.
row-stopped = Suspendida después de una reacción
row-stopped-nurse = Suspendida por una enfermera o un médico
row-missing = falta algo
row-missing-amount = Todavía sin dosis. Mire en Personas.
bowl-name = Tazón { $number }
bowl-covered = Tazón tapado { $number }
bowl-for = { $amount }, para { $name }.
bowl-until = Bote después de { LAS($time) }.
bars-title = Cuánto duran los tazones
bars-none = No se guarda ningún tazón después.
log-title = La última vez
set-the-table = Preparar la mesa
set-the-table-at = Preparar la mesa a { LAS($time) }
go-on = Seguir con la dosis
nobody-today = Nadie la toma esta vez
course-over = El tratamiento terminó
course-over-body = Ya se dieron todas las dosis. Devuelva las pastillas que sobren. No las guarde para un resfriado.
nobody-left = Nadie puede tomarla ahora
nobody-left-body = Todos esperan a una enfermera o ya no la toman. Aún quedan días. Llame hoy al { $phone }.
no-round = No hay una dosis que planear
no-household-body = No hay un hogar abierto. Vuelva al inicio.

## The round

step-of = Paso { $step } de { $of }
bowl-alone = Tazón { $numbers }
bowls-together = Tazones { $numbers }, cada uno aparte
something-wrong = Algo salió mal

reactions-title = Desde la última dosis: ¿alguien con ronchas, hinchazón o falta de aire?
reactions-body = Mire a todos los que toman esta medicina.
reactions-nobody = Nadie
reactions-nobody-detail = Todos están bien
reactions-yes = Sí, { $name }
reactions-yes-detail = Ronchas, hinchazón o falta de aire
reactions-some = Qué hacer ahora
reaction-stop-title = No más de esta medicina para { $names }.
reaction-stop-note = ¿Hinchazón o falta de aire?
reaction-stop-emergency = Llame ahora al { $phone }.
reaction-stop-body = Si solo hay ronchas, llame al { $phone }. Los demás siguen con su dosis.
reaction-stop = Ya llamé, o llamo ahora

label-title = ¿Dice el frasco { $words }?
label-body = Lea cada palabra. Una cápsula, o una pastilla de liberación retardada, no es lo mismo.
label-yes = Sí, lo mismo
label-yes-detail = Todas las palabras están en el frasco
label-no = No, o no sé
label-no-detail = Todavía no lo use
wrong-bottle-title = No use este frasco.
wrong-bottle-note = Puede ser otra medicina u otra fuerza.
wrong-bottle-body = Llame al { $phone }. Léales la etiqueta.
look-again = Mirar el frasco otra vez

tool-title = ¿Cuchara o jeringa?
tool-body = Use la misma para el agua y cada dosis.
tool-spoon = Una cucharita de metal
tool-spoon-detail = La pequeña de la cocina, no la de sopa
tool-syringe = Una jeringa para dosis
tool-syringe-detail = Con marcas en mL

gather-title = Prepare la mesa.
gather-then = En cada tazón: el agua y luego la pastilla.
start-the-soak = Empezar el remojo
thing-bowls = { $count ->
    [one] { $count } tazón pequeño para mezclar
   *[other] { $count } tazones pequeños para mezclar
}
thing-bowls-detail = Llámelos por número: { $numbers }
thing-tablets = { $count ->
    [one] { $count } pastilla
   *[other] { $count } pastillas
}
thing-tablets-detail = { $count } para cada tazón
thing-water = { $amount } de agua en cada tazón
thing-spoon = Una cucharita de metal
thing-spoon-detail = Para el agua y cada dosis
thing-syringe = Una jeringa para dosis
thing-syringe-detail = Para el agua y cada dosis
thing-small-bowl = Otro tazón pequeño
thing-small-bowl-detail = Para dar la dosis
water-tap = Agua limpia para beber
water-boil = Hiérvala. Déjela enfriar.
water-bottled = Solo de botella

soak-title = { $count ->
    [one] Deje ablandar la pastilla.
   *[other] Deje ablandar las pastillas.
}
soak-body = Blanda a { LAS($time) }. Puede esperar más.
soak-done = Ya está blanda.
crush-next = Aplaste con el dorso de una cuchara
crush-at = Aplastar a { LAS($time) }

crush-title = { $count ->
    [one] Aplaste con el dorso de la cuchara.
   *[other] Aplaste en cada tazón.
}
crush-body = Apriete hasta que no se vea ningún pedazo.
crushed = Ya la aplasté
smooth-title = ¿Ve pedazos?
smooth-body = Incline el tazón. Mire bien.
smooth-yes = Ninguno
smooth-yes-detail = Está todo liso
smooth-no = Algunos
smooth-no-detail = Aplaste otra vez
second-title = Añada { $name } al tazón.
second-body = Ponga { $amount }. Use la misma cuchara o jeringa.
second-done = Ya está
stir-title = { $count ->
    [one] Revuelva bien.
   *[other] Revuelva bien cada tazón.
}
stir-body = Desde el fondo.
stirred = Ya revolví

measure-title = Mida para { $name }.
measure-from = Del tazón { $number } al tazón de { $name }
measure-liquid = Del frasco
measure-stir = Antes revuelva otra vez. Llene la cucharadita al ras.
measure-shake = Antes agite el frasco.
measured = Ya está en el tazón de { $name }
why-this-much = ¿Por qué esta cantidad?
why-title = ¿Por qué tanto para { $name }?
food-title = Disimule el sabor para { $name }.
food-body = En el tazón de { $name }. Revuelva.
food-detail = Al menos { $amount }
food-detail-sugar = Al menos { $amount }, con { $sugar } de azúcar
food-none = Dar sin comida ni bebida
give-title = Désela a { $name } ahora.
give-body = Désela enseguida. No se guarda.
give-finish = Que { $name } la termine toda.
given = Se la di a { $name }
tablet-title = { $name } traga la pastilla.
tablet-body = Con un vaso lleno de agua. De pie o sentado. Sin acostarse por media hora.

outcome-title = ¿{ $name } se la tomó toda?
outcome-title-tablet = ¿{ $name } se tragó la pastilla?
outcome-body = Lo anotamos.
outcome-all = Toda
outcome-all-detail = El tazón está vacío
outcome-all-tablet = Sí, la tragó
outcome-all-tablet-detail = La pastilla bajó
outcome-some = Una parte
outcome-some-detail = Quedó o se derramó algo
outcome-back-up = La vomitó
outcome-back-up-detail = Vomitó toda o una parte
outcome-would-not = No quiso tomarla
outcome-would-not-detail = La escupió o volteó la cara
outcome-all-log = toda
outcome-all-short = toda, faltó un poco
outcome-some-log = una parte
outcome-back-up-log = la vomitó
outcome-would-not-log = no quiso tomarla
answer-later = Contesto después
after-some-title = { $name } tomó una parte.
after-some-body = No dé más ahora. La próxima dosis es como siempre. Llame al { $phone } si pasa otra vez.
after-back-up-title = La vomitó.
after-back-up-body = No se la dé otra vez a { $name } ahora. Si pasa dos veces seguidas, llame al { $phone } antes de la próxima dosis.
after-would-not-title = { $name } no quiso tomarla.
after-would-not-body = No obligue. Pruebe otra comida o bebida la próxima vez. Llame al { $phone } si { $name } pierde dos dosis.

cover-title = Tape el tazón { $number }.
cover-eyebrow = Escriba esto en una etiqueta
cover-room = Guárdelo en el cuarto, lejos de los niños.
cover-fridge = Guárdelo en el refrigerador.
cover-it = Está tapado
label-for = Para { $name }
label-for-detail = { $amount } a { LAS($time) }
label-until = Bote después de { LAS($time) }
label-made = Hecho a { LAS($time) }
cold-title = ¿Siguió frío el tazón { $number } en el refrigerador?
cold-body = Si se fue la luz o no está seguro, la respuesta es no.
cold-yes = Sí, siguió frío
cold-yes-detail = Úselo ahora.
cold-no = No, o no sé
cold-no-detail = Bótelo. Va a hacer un tazón nuevo.
throw-left-title = Bote lo que queda en el tazón { $number }.
throw-left-body = Nadie lo toma la próxima vez. Échelo a la basura. Nunca lo devuelva al frasco ni a otro tazón.
throw-old-title = El tazón { $number } está muy viejo. Bótelo.
throw-old-body = Ya no se puede usar. Si falta una dosis, haga otro tazón después.
throw-it-away = Ya lo boté
done-title = Listo por ahora.
done-next = Después sigue la { $round }.
done-wash = Lave los tazones y la cuchara. Guarde las pastillas lejos de los niños.
done-main = Volver al inicio

wrong-title = ¿Qué salió mal?
wrong-body = Pasa. No se pierde nada.
wrong-bowl = El tazón { $number } se derramó o se dañó
wrong-bowl-detail = Hacemos otro
wrong-dose = Se cayó la dosis de { $name }
wrong-dose-detail = Mida otra vez para { $name }
wrong-tablet = Se cayó o se perdió la pastilla de { $name }
wrong-tablet-detail = Tome una nueva
wrong-short = Queda muy poco para { $name }
wrong-short-detail = Dé lo que hay. Lo anotamos.

## Reading

help-title = Ayuda
help-numbers = Números para llamar
help-careful = Bueno saberlo
call-emergency = Llame ahora al { $phone } por esto
contact-emergency = Emergencia
contact-poison = Envenenamiento
contact-questions = Preguntas
contact-refill = Más pastillas
apart = Deje { $length } entre esta medicina y { $what }.
order-title = Las instrucciones
order-from = De
order-revision = Revisión
order-issued = Fecha
order-mark = Su marca
order-mark-is = Marca: { $mark }
order-invented = Estas instrucciones son inventadas. No trate a nadie con ellas.
order-unsigned = Compare la marca con la del papel de su distrito de salud.
order-chart = Cuánto para quién
order-source = De dónde viene
record-title = Registro
record-empty = Todavía no se ha dado nada.
doubled-title = { $name } quizás la tomó dos veces
doubled-body = Dos aparatos anotaron la misma dosis. Llame al { $phone } antes de la próxima.
people-title = Personas
no-weight = sin peso
reason-weight = Pese primero.
reason-questions = Conteste primero las preguntas.
reason-young = Esta tabla no es para un bebé tan pequeño. Pregunte antes a una enfermera.
reason-implausible = El peso no corresponde a la edad. Pese otra vez.
reason-other = Pregunte antes a una enfermera.
reason-call = Llame al { $phone }.
trace-order = Instrucciones
trace-weight = Peso
trace-age = Edad
trace-row = Línea de la tabla
trace-between-rows = Entre dos líneas
trace-amount = Cantidad
trace-mass = Medicina que lleva
trace-per-kilogram = Por cada kilogramo
trace-maximum = La dosis más grande
trace-invented = Inventada
ahead-title = Próximos días
ahead-tablets = Pastillas
ahead-left = En la casa
ahead-needed = Hacen falta hasta el final
ahead-refill = Consiga más pastillas antes del { $date }.
ahead-refill-now = Consiga más pastillas hoy.
ahead-refill-body = Llame primero al { $phone }. No pare porque se acabó el frasco.
ahead-packs = Llegaron más pastillas
ahead-packs-detail = Anotarlas
ahead-how = Cómo prepararla
ahead-fewest = Con las menos pastillas posibles
ahead-fewest-change = Algunos tazones se guardan para la próxima vez. Toque para hacer nuevos siempre.
ahead-fresh = Tazones nuevos siempre
ahead-fresh-change = No se guarda ninguno. Toque para usar menos pastillas.
ahead-paper = Papel y calendario
ahead-shopping = Para tener en casa
need-tablets = { $medicine }, pastillas de { $strength }
need-liquid = { $medicine }, líquido, { $strength }
need-spare = Pastillas de reserva
need-packs = En frascos de { $size }
need-packs-own = En frascos de { $size }, propios de cada persona
need-bottles = En botellas de { $size } mL
need-water = Agua limpia para beber
need-drink = { $names }, al menos
need-sugar = Azúcar, como mucho
need-bowls = Tazones pequeños con tapa y etiqueta
need-give-bowl = Tazón pequeño para dar
lot-title = ¿Cuál es el número de lote?
lot-body = Está en el frasco, muchas veces después de “LOT”. Si piden devolver este lote, lo verá aquí.
lot-field = Lote
lot-unknown = No lo puedo leer
lot-extended = El lote { $lot } dura más
lot-extended-body = Puede usarlo hasta el { $date }, diga lo que diga el frasco.
lot-aside = No use todavía frascos con la marca { $lot }
lot-back = No use frascos con la marca { $lot }
lot-call = Mire su frasco. ¿La tiene? Póngalo aparte. Llame al { $phone } para recibir otro.
ahead-bound = Nadie podría con menos de { $count }.
ahead-bowls = { $count ->
    [0] ningún tazón nuevo
    [one] { $count } tazón nuevo
   *[other] { $count } tazones nuevos
}
ahead-covered = tazón tapado
ahead-end = El final
ahead-end-day = La última dosis es el { $date }. No pare porque el frasco esté vacío: pida más pastillas.
about = Acerca de
about-what = Hearthdose ayuda a un hogar a tomar una medicina de emergencia. Empieza con las instrucciones. Termina con la última dosis. Todo queda en este aparato.
about-zones = Datos de husos horarios: { $version }.
about-slint = Hecho con Slint, https://slint.dev.
about-font = Letra Andika de SIL International, con la licencia SIL Open Font License 1.1.

## Preparar un hogar

yes = Sí
no = No
unsure = No sé
unsure-detail = Pregunte antes a una enfermera. Hasta entonces, sin dosis.
set-up-first = ¿Quién toma esta medicina?
set-up-next = ¿Quién más la toma?
set-up-name-body = Empiece con una persona. Después puede agregar a las demás.
set-up-name = Nombre
set-up-about = Sobre { $name }
set-up-age = ¿Qué edad tiene { $name }?
set-up-adult = { $years } años o más
set-up-adult-detail = No hace falta el peso
set-up-child = Menos de eso
set-up-child-detail = La dosis depende del peso
set-up-age-unknown = No sé la fecha de nacimiento
set-up-birth = ¿Cuándo nació { $name }?
set-up-birth-known = Sé la fecha de nacimiento
birth-without-day = ¿No se sabe el día? Deje el día vacío.
birth-whole = Aquí cuenta el día. Escriba también el día.
birth-month-only = No se dice el día. Cuenta el último día del mes.
birth-day-needed = Escriba también el día.
birth-day-needed-body = Aquí cuenta cada día de edad. ¿No se sabe el día? Toque abajo.
date-unread = No es un día hasta hoy.
date-unread-body = Escriba día, mes y año, como 19, 07, 2028.
set-up-told = ¿Qué edad tiene { $name } ahora?
set-up-early = ¿Nació { $name } antes de tiempo?
set-up-early-body = Antes de tiempo es más de tres semanas antes de la fecha esperada.
set-up-swallows = ¿Puede { $name } tragar pastillas enteras?
set-up-swallows-body = Si la dosis no es una pastilla entera, { $name } la recibe del tazón.
set-up-swallows-yes = Sí, enteras
set-up-swallows-yes-detail = Con un vaso lleno de agua
set-up-swallows-no = No, o le cuesta
set-up-swallows-no-detail = Se mezcla con agua
set-up-food = ¿Es { $name } alérgico o alérgica a { $what }?
set-up-food-body = Algunas bebidas que disimulan el sabor la tienen.
set-up-food-yes = No la usamos
allergen-milk = la leche
allergen-soy = la soya
allergen-nuts = las nueces
set-up-weigh = ¿Cuánto pesa { $name }?
set-up-weigh-body = La dosis depende del peso. Ninguna dosis hasta pesar a { $name }. Ropa ligera, sin zapatos.
weigh-now = Pesar a { $name }
weigh-later = Pesar más tarde
question-place = { $name } · pregunta { $at } de { $of }
outcome-stop = Esta medicina no es para { $name }.
outcome-hold = { $name }: pregunte antes a una enfermera.
outcome-no-dose-stop = { $name } no toma esta medicina.
outcome-no-dose = { $name } no toma ninguna dosis hasta que una enfermera diga que sí.
outcome-go-on = Seguir. { $name } espera.
outcome-caution = Bueno saber para { $name }.
more-title = ¿Quién está en la mesa?
more-another = Agregar otra persona
more-another-detail = Todos los que toman esta medicina
more-everybody = Están todos
more-everybody-detail = Seguir
times-title = ¿A qué horas quiere dar la medicina?
times-body = Las mismas horas cada día. Elija horas en que todos estén en casa.
times-other = Otras horas
times-first = ¿A qué hora es la dosis de la mañana?
time-hour = Hora
time-minutes = Minutos
half-before-noon = a. m.
half-after-noon = p. m.
ready-title = ¿Tiene las pastillas en casa?
ready-body = Mire el frasco. Debe decir { $words }.
ready-now = Sí. Empezar ahora
ready-now-detail = No hace falta esperar la hora
ready-round = Sí. Empezar a { LAS($time) }
ready-none = Todavía no
ready-none-detail = Llame al { $phone }. Aquí le espera.
tablets-title = ¿Cuántas pastillas recibió?
tablets-body = Cuéntelas, o léalo en el frasco. Así sabremos cuándo hacen falta más.
tablets-field = Pastillas
tablets-main = Guardar este número
tablets-unknown = No sé
home-of = Hogar de { $name }
date-day-first = yes
date-day = Día
date-month = Mes
date-year = Año
date-and-year = { $date } de { $year }
age-years = Años
age-months = Meses
key-point = Punto
key-delete = Borrar

## Pesar

weigh-person = Pesar a { $name }
weigh-how = ¿Cómo pesa a { $name }?
weigh-none = ¿No hay báscula? El centro de entrega tiene una. O llame al { $phone }.
weigh-alone = { $name } se para en la báscula
weigh-alone-detail = Dos veces
weigh-together = Usted carga a { $name }
weigh-together-detail = Suba con { $name } y después sin { $name }. Dos veces.
weigh-clinic = Peso tomado por un médico o una clínica
weigh-clinic-detail = Copie el peso y el día del papel
weigh-site = Peso tomado donde le dieron la medicina
weigh-site-detail = Copie el peso y el día del recibo
weigh-step-on = Suba con { $name }. Luego, solo usted.
weigh-read = ¿Qué dice la báscula para { $name }?
weigh-read-elsewhere = ¿Cuánto pesó { $name }?
weigh-once-more = Suba otra vez, para estar seguros.
weigh-with = Usted con { $name }
weigh-without = Solo usted
weigh-field = { $name }
weigh-and-ounces = onzas
weigh-then-again = Pesar otra vez
weigh-differ = Los dos pesos no coinciden.
weigh-differ-body = Primero { $first }, ahora { $second }. Deben estar a menos de media libra. Pese otra vez.
weigh-agree-note = Los dos pesos coinciden
weigh-again = Pesar de nuevo
weigh-day = ¿Cuándo pesaron a { $name }?
weigh-unit-title = { $name }: ¿libras o kilogramos?
weigh-unit-body = { $weight } es raro para esta edad. Lo equivocado da una dosis equivocada.
weigh-unit-right = Son { $weight }
weigh-unit-right-detail = Miré otra vez la báscula
weigh-unit-pounds = Eran libras
weigh-unit-kilograms = Eran kilogramos
weigh-unit-other-detail = Escríbalo otra vez
weigh-result = { $name }: { $weight }
weigh-kilograms = { $kg } kg
weigh-dose-is = La dosis es { $amount }.
weigh-dose-stays = La dosis sigue igual: { $amount }.
weigh-implausible-body = ¿Otra vez lo mismo? Llame al { $phone }. Ninguna dosis hasta que una enfermera diga que sí.
weigh-implausible-keep = Es lo mismo otra vez. Guardarlo.
weigh-keep = Guardar este peso
weight-again = Pese pronto otra vez a { $name }
weight-until-then = Hasta entonces, la dosis va por el último peso.
weight-no-day = No se sabe el día del último peso.
weight-old = { $days ->
    [one] El último peso es de hace { $days } día.
   *[other] El último peso es de hace { $days } días.
}
weight-grown = Los niños crecen. Tal vez ya toca otra línea de la tabla.
weight-edge = El último peso está cerca de la siguiente línea de la tabla.
weight-lost = Antes era { $weight }. Un solo pesaje no basta para dar menos.
weight-on = { $weight }, { $date }
unit-lb = lb
unit-lb-oz = lb + oz
unit-kg = kg
dose-changes = Cambia la dosis de { $name }.
dose-changes-body = Era { $old }. Desde { $time }:
dose-changes-main = Ya lo vi
next-dose = la próxima dosis
dose-changes-plan = Quizá hagan falta más pastillas. Se cuentan solas.

## Personas

person-join = Agregar una persona
person-join-detail = Alguien nuevo en este hogar
person-swallows = Traga pastillas enteras
person-answers = Respuestas
answered-elsewhere = Contestado en el centro
not-answered = Sin respuesta. Toque para contestar.
person-changes = Algo cambió
person-reaction = Una reacción
person-leaves = Deja este hogar
person-leaves-detail = Se muda, o ya no la toma aquí
person-lift = Una enfermera dijo que puede seguir
person-lift-detail = Escriba quién lo dijo
person-stop = Una enfermera o un médico la suspende
person-stop-detail = Ninguna dosis hasta que digan
who-said-it = ¿Quién lo dijo?
stop-title = ¿Suspender la medicina de { $name }?
stop-body = Solo si se lo dijo una enfermera o un médico. ¿No está seguro? Llame al { $phone }.
stop-main = Suspender la de { $name }
stop-not = Seguir dándola
lift-title = ¿Puede { $name } tomarla ahora?
lift-body = Solo una enfermera o un médico puede decirlo. Llame al { $phone }. Escriba quién lo dijo.
lift-main = La respuesta fue sí
lift-not = La respuesta fue no, o todavía no hay
leaves-tablets = ¿Cuántas pastillas van con { $name }?
joined-elsewhere = ¿{ $name } ya tomó esta medicina antes?
joined-elsewhere-yes = Sí
joined-elsewhere-no = No, nunca
joined-last-day = ¿Cuándo tomó { $name } la última dosis?
joined-today = Hoy
joined-yesterday = Ayer
joined-earlier = Antes de ayer
joined-last-time = ¿A qué hora la tomó { $name }?
joined-start = ¿Cuándo empezó { $name } esta medicina?
joined-tablets = ¿Cuántas pastillas trajo { $name }?
person-born = Nació: { $date }
person-adult = Persona adulta
person-age-unknown = Edad desconocida
reaction-ask = ¿Tuvo { $name } una reacción?
reaction-yes = Suspenderla para { $name }
reaction-yes-detail = Solo si un médico o una enfermera lo dice, se toma otra vez
reaction-no = No, volver
leaves-title = ¿{ $name } se muda?
leaves-body = Dele las pastillas y estas líneas. El hogar nuevo sigue desde ahí.
leaves-last = La última dosis fue a { LAS($time) }.
leaves-yes = Sí, { $name } se muda
leaves-yes-detail = El registro queda
leaves-no = No, volver
reason-stop = Esta medicina no. Pregunte a una enfermera.
other-homes = Otros hogares en este aparato
homes-title = Hogares en este aparato
homes-lead = Cada hogar tiene su propio registro.
homes-here = Está aquí
homes-none = Todavía no hay ningún hogar.
homes-another = Preparar otro hogar
homes-unfinished = Un hogar sin terminar de preparar

## Corregir

record-lead = ¿Una línea está mal? Tóquela.
record-line = { $time } · { $name }
record-corrected = corregido
record-stopped = La medicina de { $name } está suspendida.
conflict-title = Dos aparatos dicen cosas distintas
conflict-body = Hasta que elija, vale lo más seguro.
conflict-settle = Elegir lo correcto
correct-title = ¿Qué pasó con la dosis de { $name } de { LAS($time) }?
correct-body = La primera anotación queda en el registro.
correct-not-given = No se le dio
correct-not-given-detail = No tragó nada
correct-nothing = Está bien así

## Instrucciones y mensajes que llegan

papers-title = ¿Cuál es?
papers-body = Instrucciones y mensajes que hay en este aparato o en una memoria USB.
papers-none = No se encontraron instrucciones.
papers-none-body = Ponga el archivo en Descargas, en Documentos o en una memoria USB. Luego busque otra vez.
papers-again = Buscar otra vez
papers-newer = Instrucciones más nuevas o un mensaje
paper-from = De { $place }.
paper-order = { $issuer }, revisión { $revision }.
paper-notice = Mensaje de { $issuer }.
paper-bad = Este archivo no sirve.
paper-bad-body = Pida una copia buena. Nada cambió.
take-order-title = ¿Son las correctas?
take-order-another = ¿Otra medicina para este hogar?
take-order-main = Sí, la marca es la misma
take-order-new = La marca es la misma. Seguirla.
take-order-not = No, esta no
take-order-same = Ya sigue estas instrucciones.
take-order-same-body = No trae nada nuevo. No tiene que hacer nada.
take-order-older = Esta es más vieja.
take-order-older-body = Usted sigue unas más nuevas. Las viejas nunca toman su lugar. Siga con las nuevas.
take-order-changes = Lo nuevo
take-notice = Ya lo leí
notice-other = Esto no trata de su medicina.
notice-other-body = No tiene que hacer nada.
notice-stop = Deje la medicina
notice-shorten = La medicina termina antes
notice-renew = La medicina sigue más tiempo
notice-extend-lot = Un frasco dura más
notice-quarantine-lot = No use este frasco por ahora
notice-recall-lot = Devuelva este frasco
notice-water = El agua
notice-collection = Recoger la medicina
take-order-here = La marca es la misma. Agregarla.
take-order-elsewhere = Para otro hogar
other-order-taken = Ahora diga quién la toma
other-order-taken-body = En la página que sigue, toque a cada persona que toma esta medicina. Primero vienen sus preguntas.
person-follow = Toma también { $medicine }
person-follow-detail = Primero vienen sus preguntas
follow-too = ¿Puede { $name } tomar también { $medicine }?
follow-instead = ¿Puede { $name } tomar { $medicine } en su lugar?
follow-body = Todas las preguntas tienen respuesta, y ninguna lo impide. Guarde sus tazones aparte de los otros.
follow-yes = Sí, { $name } toma { $medicine }
follow-not = { $name } no debe tomar { $medicine }.
reason-same-event = Las dos medicinas son contra el mismo peligro. Nunca las tome juntas. Pregunte a una enfermera cuál tomar.
code-title = Su código
code-lead = Muestre esto en el centro de entrega.
code-none = Este aparato no puede hacer un código. Diga en el centro quiénes son y cuánto pesan.
code-what = Lleva edades, pesos y respuestas. No lleva fecha de nacimiento, dirección ni teléfono. Un código nuevo toma el lugar del viejo.
code-with-names = Lleva los nombres
code-without-names = No lleva nombres
code-leave-names-out = Toque para quitarlos
code-put-names-in = Toque para ponerlos, así no se confunden los frascos
code-picture = Guardarlo como imagen
code-picture-body = { $name } está en { $place }. Muéstrelo en el centro o mándelo ahí.

## What a newer order changes

length-days = { $count ->
    [one] { $count } día
   *[other] { $count } días
}
length-seconds = { $count ->
    [one] { $count } segundo
   *[other] { $count } segundos
}
length-none = nada de tiempo
age-in-years = { $count ->
    [one] { $count } año
   *[other] { $count } años
}
age-in-months = { $count ->
    [one] { $count } mes
   *[other] { $count } meses
}
age-in-days = { $count ->
    [one] { $count } día
   *[other] { $count } días
}
row-limits-all = para todos
row-limits-up-to = hasta { $to }
row-limits-under = menos de { $to }
row-limits-weight = { $from } o más
row-limits-age = { $from } o más
row-limits-over = más de { $from }
row-limits-between = de { $from } a { $to }
row-limits-over-to = más de { $from } y hasta { $to }
row-limits-to-under = desde { $from } y menos de { $to }
row-limits-over-under = más de { $from } y menos de { $to }
change-other-order = son dos órdenes distintas, “{ $old }” y “{ $new }”
change-older-revision = la revisión { $new } es más vieja que la revisión { $old } y nunca toma su lugar
change-same-revision = los dos archivos dicen revisión { $revision }, pero no son iguales
change-field = { $what }: { $new }; antes: { $old }
change-field-new = { $what }: { $new }; antes no se decía
change-field-gone = { $what }: ya no se dice; antes: { $old }
change-prose = { $what }: cambió el texto
change-detail = { $entry }, { $label }
change-quoted = “{ $text }”
change-entry-new = se añadió: { $entry }
change-entry-gone = ya no está: { $entry }
change-recipe-new = la orden dice ahora cómo preparar la mezcla
change-recipe-gone = la orden ya no dice cómo preparar la mezcla
change-row-amount = { $row }: { $new }; antes: { $old }
change-row-joined = { $row }: ahora es parte de la { $other }, con la misma cantidad
change-row-parted = { $row }: es nueva, con la misma cantidad que antes la { $other }
change-row-new = { $row }: es nueva, { $amount }
change-row-gone = { $row }: ya no está en la tabla
change-row = línea { $limits }
change-product = producto { $name }
change-vehicle = comida o bebida { $name }
change-question = pregunta { $name }
change-caution = cuidado { $name }
change-contact = contacto de { $kind } ({ $name })
change-contact-emergency = emergencia
change-contact-poison = envenenamiento
change-contact-questions = preguntas
change-contact-refill = más pastillas
change-strength = { $mass } por { $volume }
change-tolerance = de { $under } por debajo a { $over } por encima
change-stale = { $young } antes de los dos años, { $older } después
change-most = { $group }: { $doses }
change-most-if = si es sí a { $question }
change-most-everyone = todos
change-apart = { $what }, con { $length } de separación
change-fluid = { $amount } de { $name }
change-hand-out-plan = lo que pide el plan y { $spare } de reserva
change-hand-out-person = envases para cada persona
change-first-now = ahora
change-first-next = a la próxima hora de las dosis
change-between-enough = “la que alcanza”
change-between-next = “la línea siguiente”
change-kept-room = a temperatura ambiente
change-kept-fridge = en el refrigerador
change-water-tap = de la llave
change-water-boil = hervida y enfriada
change-water-bottled = solo de botella
change-form-tablet = pastilla
change-form-liquid = líquido
change-yes-stop = no tomarla
change-yes-hold = preguntar antes a una enfermera
change-yes-caution = tener cuidado
change-true = sí
change-false = no
change-split-allowed = se permite
change-split-not = no se permite
change-missed-extend = alargan el tratamiento
change-missed-not = no alargan el tratamiento
change-invented = de demostración
change-real = verdadera
change-of-between = regla entre líneas
change-of-product = producto que se mezcla
change-of-tablets = pastillas en cada tazón
change-of-water-amount = agua
change-of-soak = remojo
change-of-step = medida más pequeña
change-of-keep = la mezcla dura
change-of-keep-where = la mezcla se guarda
change-of-fluid = segundo líquido
change-of-fluid-contains = segundo líquido, contiene
change-of-water = agua para la mezcla
change-of-medicine = medicina
change-of-allergy = grupo de alergia
change-of-interval = tiempo entre dosis
change-of-supply = se entrega ahora para
change-of-course = tratamiento
change-of-per-kg = dosis por cada kilogramo
change-of-max = dosis más grande
change-of-tolerance = diferencia permitida de la tabla
change-of-lightest = peso mínimo
change-of-youngest = edad mínima
change-of-adult = adulto desde
change-of-least-gap = tiempo mínimo entre dosis
change-of-skip = una dosis atrasada no se da si la próxima es antes de
change-of-first = primera dosis
change-of-first-gap = tiempo mínimo después de la primera dosis
change-of-most-doses = máximo de dosis
change-of-apart = tomar por separado
change-of-margin = margen antes de que venza un tazón
change-of-stale-weight = un peso vale por
change-of-expires = la orden vence el
change-of-withdraws = retira la orden
change-of-sealing-key = clave para cerrar el código
change-of-hand-out = se entrega
change-of-event = suceso
change-of-split = una dosis de dos tazones
change-of-missed = las dosis perdidas
change-of-title = título
change-of-issuer = quién la da
change-of-time-zone = zona horaria
change-of-languages = idiomas
change-of-source = fuente
change-of-kind = tipo de orden
change-detail-mass = cantidad impresa de medicina
change-detail-heavy = también desde
change-detail-reason = razón escrita
change-detail-at-least = al menos
change-detail-sugar = azúcar
change-detail-from-age = desde la edad de
change-detail-to-age = hasta la edad de
change-detail-contains = contiene
change-detail-form = forma
change-detail-strength = concentración
change-detail-crush = se puede aplastar
change-detail-salt = sal
change-detail-packages = números de envase
change-detail-codes = códigos de la medicina
change-detail-label = la etiqueta dice
change-detail-pack-size = cantidad por envase
change-detail-whole = entera donde la línea lo permite
change-detail-opened = dura después de abrir
change-detail-if-yes = un sí quiere decir
change-detail-instead = en su lugar
change-detail-phone = teléfono
change-words-title = cambió el título traducido
change-words-medicine = cambió el nombre traducido de la medicina
change-words-apart = tomar por separado: cambiaron los nombres traducidos
change-words-fluid = segundo líquido: cambiaron los nombres traducidos
change-words-vehicle = { $entry }: cambiaron los nombres traducidos
change-words-question = { $entry }: cambió el texto de la pregunta
change-words-after-yes = { $entry }: cambió lo que se dice después de un sí
change-words-caution = { $entry }: cambió el texto
change-words-caution-kind = { $entry }: cambió su lugar entre los cuidados
change-words-hours = { $entry }: cambió el horario

## Códigos que llegan

receive-title = Recibir un código
receive-body = Acerque un lector. O ponga una foto del código en Descargas. Luego búsquela.
receive-field = Código leído
receive-main = Leerlo
receive-look = Buscar fotos
receive-place = un código
receive-parts = Ya están { $have } de { $needed } partes. Siga con la próxima.
receive-none = No se encontró ningún código en las fotos. Ponga una foto en Descargas. Luego busque otra vez.
receive-other-file = Esta parte es de otra cosa. Empiece otra vez.
receive-not-for-you = Este código es para un centro de entrega. Muéstrelo allí.
receive-no-home = Primero prepare un hogar. Luego lea el recibo.
receive-other-home = Este recibo es de otro hogar. Abra primero ese hogar.
receive-known = Este recibo ya está en el registro. No tiene que hacer nada.
receive-sealed = Solo puede leerlo el centro para el que se hizo. Muéstrelo allí.
receive-newer = Este código lo hizo una versión más nueva. Actualice, por favor.
receive-damaged = El código no se lee entero. Léalo otra vez.
receive-foreign = Este es otro tipo de código. Busque el de su recibo.
receive-receipt = Leer un recibo
camera-hold = Ponga el código delante de la cámara. También sirve un lector que escribe.
camera-several = Hay varios códigos delante de la cámara. Muestre uno solo.
camera-busy = Otro programa usa la cámara. Ciérrelo y esta página sigue sola.
camera-denied = Este programa no puede usar la cámara. Use un lector o una foto.
camera-broken = La cámara no muestra nada. Use un lector o una foto.
slip-title = ¿Es esto lo que le dieron?
slip-from = Recibo de { $site }. Compárelo con los frascos.
slip-tablets = { $count ->
    [one] { $count } pastilla, { $product }
   *[other] { $count } pastillas, { $product }
}
slip-bottles = { $count ->
    [one] { $count } frasco, { $product }
   *[other] { $count } frascos, { $product }
}
slip-lot = Lote { $lot }.
slip-expiry = Úselo hasta el { $date }.
slip-enough = Alcanza hasta el { $date }.
slip-main = Sí, lo mismo
slip-not = No, no es lo mismo
slip-taken = Las pastillas están contadas
slip-taken-body = Le avisaremos a tiempo cuándo buscar más. También si piden devolver un lote.

## En papel

paper-home = Nuestro hogar
paper-title = { $home }: { $title }
paper-page = Página { $page } de { $of }
paper-foot = { $home } · { $date }
paper-site = Centro { $site } · { $date }
paper-number = { $what }: { $phone }
paper-time-date = { $time } del { $date }
paper-instructions = Instrucciones de { $issuer }, revisión { $revision }
paper-first = La primera dosis es a { LAS($date) }.
paper-from-then = Desde { LAS($date) }:
paper-starts = Empieza a { LAS($date) }
paper-from-bowl = del tazón que dice la tabla
paper-no-dose = Sin dosis. Llame al { $phone }.
paper-how = Cómo prepararla y darla
paper-reaction = ¿Hinchazón o falta de aire? Llame ahora al { $phone }.
paper-label-no = ¿No, o no está seguro? No lo use.
paper-chart-bowls = La tabla dice cuántos tazones nuevos. Llámelos por número.
paper-soak = Espere { $length }. Puede esperar más.
paper-each = cada persona
paper-stir-syringe = Primero revuelva otra vez. Luego llene la jeringa.
paper-measure = Sáquela del tazón que dice la tabla. Póngala en otro tazón pequeño.
paper-never-pour = Nunca junte dos tazones.
paper-food-title = Disimule el sabor.
paper-food-mix = Mézclelo en el tazón pequeño, para una persona a la vez. Revuelva.
paper-food = { $food }: { $how }. Para { $names }.
paper-finish = Dela toda. Nunca guarde una dosis que ya tiene comida o bebida.
paper-tablet = { $count ->
    [one] { $names } traga la pastilla.
   *[other] { $names } tragan las pastillas.
}
paper-tick = Marque la casilla de la tabla.
paper-tick-body = Hágalo enseguida, para cada persona. ¿Fue tarde? Escriba la hora al lado.
paper-cover = Tape los tazones que la tabla usa otra vez.
paper-cover-label = Póngales una etiqueta: para quién, cuándo se hizo y hasta cuándo.
paper-keep = Se conserva { $length } desde que el agua toca la pastilla. Después, bótela.
paper-cold = ¿Se fue la luz, o no está seguro de que siguió frío? Bótela.
paper-throw = Bote lo que queda en todos los demás tazones.
paper-throw-body = Échelo a la basura. Nunca lo devuelva al frasco ni a otro tazón.
paper-otherwise = Si algo es diferente
paper-midnight = 12 de la noche
paper-noon = 12 del mediodía
paper-late-until = { $dose }: antes de { LAS($time) }, désela. Luego siga como siempre.
paper-late-usual = { $dose }: hasta { LAS($time) }, désela. Luego siga como siempre.
paper-late-moved = { $dose }: más tarde, pero antes de { LAS($time) }, désela. Dé la siguiente { $gap } después.
paper-late-skip = { $dose }: desde { LAS($time) }, sáltela. Dé la siguiente a su hora.
paper-late-last = { $dose }: desde { LAS($time) }, sáltela. Llame al { $phone }.
paper-late-never = Nunca dé dos juntas. Nunca compense una dosis que faltó.
paper-late-bowl = ¿El tazón ya está muy viejo? Bótelo. Haga uno nuevo.
paper-some = Quedó o se derramó una parte
paper-some-body = No dé más ahora. La próxima dosis es como siempre. Llame al { $phone } si pasa otra vez.
paper-back-up = La vomitó
paper-back-up-body = No la dé otra vez ahora. Si pasa dos veces seguidas, llame al { $phone } antes de la próxima dosis.
paper-would-not = Alguien no quiso tomarla
paper-would-not-body = No obligue a nadie. La próxima vez pruebe otra comida o bebida. Llame al { $phone } después de dos dosis perdidas.
paper-spilled = Un tazón se derramó o se dañó
paper-spilled-body = Haga uno nuevo con el mismo número. Si una dosis se cayó antes de darla, mídala otra vez.
paper-short = Queda muy poco en el tazón
paper-short-body = Dé lo que hay. Escriba «faltó» junto a la casilla. No complete con otro tazón.
paper-weight = Alguien pesa más o menos, está enfermo o está embarazada
paper-weight-body = Las cantidades de este papel son para los pesos que están en él. Llame al { $phone } antes de la próxima dosis.
paper-not-your-clinician = Esto no reemplaza a su médico ni a su enfermera. Las instrucciones y ellos deciden. Si no tiene, llame al número de preguntas.
paper-chart = Tabla para marcar
paper-chart-how = Marque una casilla cuando dé la dosis. El número de al lado es el tazón. Una raya es que no hay dosis a esa hora.
paper-chart-once = La tabla sigue con otras personas. Haga cada tazón una sola vez, para todo el hogar.
paper-chart-when = Cuándo
paper-chart-bowl = Tazones
paper-chart-none = ningún tazón
paper-box = Casilla para marcar
paper-no-box = No hay dosis a esta hora
paper-chart-new = Nuevo: { $numbers }
paper-chart-keep = Guarde { $numbers }, a { $time } { $day }
paper-labels = Etiquetas para tazones que se guardan
paper-labels-how = Recórtelas. Son para los primeros { $days }. Después, escriba las suyas de la misma manera.
paper-label-earlier = ¿Lo hizo antes? Entonces termina antes. Escriba cuándo.
paper-strength = { $mass } en { $volume }
paper-receipt = Recibo
paper-receipt-what = Lo que recibió
paper-receipt-code = Código de este recibo
paper-receipt-code-body = Escanéelo con el aparato de su casa, o guarde este papel. Tráigalo cuando vuelva.
paper-for-home = Para todo el hogar
paper-bottle-labels = Etiquetas para frascos
paper-list = Lista en papel
paper-list-how = Use esta lista cuando el aparato no funcione. Escriba un renglón por cada hogar. Pase los renglones al aparato después.
paper-list-ask = Primero haga a cada persona las preguntas de las instrucciones. ¿Alguien dijo que sí o «no estoy seguro»? Mande a esa persona con la persona encargada.
paper-list-site = Centro de entrega: ____________________ Fecha: ____________________
paper-list-time = Hora
paper-list-home = Nombre o puerta
paper-list-people = Personas
paper-list-lot = Lote
paper-list-packs = Paquetes
paper-list-by = Iniciales
paper-list-in = Pasado

## En el calendario

calendar-name = Hearthdose
calendar-summary-practice = Hearthdose, práctica: { $round }
calendar-about = Ponga la mesa a { LAS($start) }. Las dosis son a { LAS($time) }. { $paper }
calendar-paper = Las cantidades están en Hearthdose y en su papel.
calendar-names = Para { $names }.
calendar-alarm = Ponga la mesa. Las dosis son a { LAS($time) }.

## A dispensing site

start-site = Ayudar en un centro de entrega
site-name = Centro de entrega
site-line = Fila
site-find = Buscar un hogar
site-waiting = Hogares que esperan
site-shelves = Estantes
site-day = Hoy hasta ahora
site-orders = Instrucciones y mensajes
site-leave = Salir del centro
site-next = Siguiente en la fila
site-practice-place = este programa, para practicar
site-orders-title = ¿Con qué instrucciones trabajan?
site-orders-body = Están en este aparato o en una memoria USB. Pregunte a la persona encargada del centro cuáles son las correctas.
site-work-by = Trabajamos con estas
line-title = Siguiente en la fila
line-body = Escanee el código del hogar. Un lector conectado lo escribe en la línea de abajo.
line-field = Código
line-main = Mostrar este hogar
line-family = Sin código: escribir la familia
line-pace = Se entregó { $homes ->
    [one] una vez
   *[other] { $homes } veces
  } aquí, para { $people ->
    [one] { $people } persona.
   *[other] { $people } personas.
  }
line-not-a-home = Es uno de nuestros códigos, pero no el de un hogar. Escanee el código de un hogar.
line-nothing-known = Todavía no se sabe nada de este hogar.
find-title = ¿Qué hogar?
find-field = Nombre o puerta
find-none = No hay ningún hogar con ese nombre.
find-none-body = Pruebe con menos letras, o escanee su código.
waiting-title = Hogares que esperan
waiting-body = Llegaron y aún no recibieron nada.
waiting-none = Nadie espera.
home-number = Hogar { $number }
home-served = Atendido el { $day }, { $time }.
home-seen = Llegó: { $time }.
desk-lead = { $people ->
    [one] { $people } persona
   *[other] { $people } personas
  }{ $without ->
    [0] . Todos pueden tomar una dosis.
    [one] . { $without } aún no tiene dosis.
   *[other] . { $without } aún no tienen dosis.
  }
desk-people = Personas
desk-bags = Lo que se entrega
desk-for-lead = Pregunte a la persona encargada
desk-no-dose = aún sin dosis
desk-private = Hay una pregunta para hacer aparte.
desk-weigh-again = Pese otra vez si puede.
desk-no-bags = Ahora no se entrega nada.
desk-bag-home = Para el hogar
desk-expires = Vence el { $day }.
desk-short = { $packs ->
    [one] Falta { $packs } paquete en los estantes para { $whom }.
   *[other] Faltan { $packs } paquetes en los estantes para { $whom }.
  }
desk-give = { $packs ->
    [one] Entregar { $packs } paquete
   *[other] Entregar { $packs } paquetes
  }
desk-to-lead = Preguntar a la persona encargada
desk-park = Que esperen a un lado
desk-back-to-home = Volver al hogar
desk-person-number = Persona { $number }
desk-age = Edad
desk-weight = Peso
desk-swallows = Traga pastillas
desk-weigh = Pesar aquí
desk-not-asked = aún no se preguntó
desk-ask-aside = Pregunte esto aparte, donde nadie más lo oiga.
desk-lift = La persona encargada lo permite
desk-age-unknown = no se sabe
desk-adult = persona adulta
desk-weigh-main = Anotar este peso
desk-lift-title = ¿Puede { $name } tomar una dosis?
desk-lift-body = Solo lo dice la persona encargada, después de preguntar a un profesional. Anote quién lo dijo y por qué.
desk-lift-main = Sí, { $name } puede tomar una dosis
lead-title = ¿Se puede entregar esto?
lead-body = Solo decide la persona encargada. Anote por qué se puede entregar.
lead-field = Quién lo dice y por qué
lead-main = Se puede entregar
lead-served-until = Este hogar fue atendido el { $day }. Alcanza hasta el { $until }.
lead-served = Este hogar fue atendido el { $day }.
lead-same-people = Personas con los mismos pesos y edades fueron atendidas el { $day } como otro hogar.
lead-conflicting = Dos códigos de este hogar no dicen lo mismo.
lead-other-order = El código es de otras instrucciones.
lead-stopped = Quien dio estas instrucciones las suspendió.
lead-short = { $packs ->
    [one] Falta { $packs } paquete en los estantes.
   *[other] Faltan { $packs } paquetes en los estantes.
  }
lead-expires = Lo que hay vence antes del último día para el que es.
lead-collector = No vino ninguna persona adulta a recoger.
lead-too-many = Una persona recoge para { $most } como máximo.
lead-not-today = Según el mensaje de quien dio las instrucciones, hoy no le toca a este hogar.
remark-old = { $hours ->
    [one] El código tiene { $hours } hora. Pregunte si algo cambió.
   *[other] El código tiene { $hours } horas. Pregunte si algo cambió.
  }
remark-ask-again = Las respuestas son de antes de la última entrega. Pregunte otra vez.
remark-interpreter = Quieren un intérprete. Idioma: { $language }.
remark-extended = El lote { $lot } se puede usar hasta el { $until }. Lo dice un mensaje de quien dio las instrucciones.
remark-at-home = Tienen el lote { $lot } en casa. No se debe usar. Dígales que lo traigan.
remark-over = El último día de { $name } ya pasó.
passed-lot = No tome del lote { $lot }: { $why }
passed-recalled = fue retirado.
passed-set-aside = está apartado.
passed-expired = su último día fue el { $day }.
passed-empty = no queda nada.
passed-unknown = nunca llegó aquí.
packs-tablets = { $packs ->
    [one] { $packs } paquete de { $each } pastillas
   *[other] { $packs } paquetes de { $each } pastillas
  }
packs-bottles = { $packs ->
    [one] { $packs } frasco de { $each } mL
   *[other] { $packs } frascos de { $each } mL
  }
give-not = No se entregó nada.
give-not-body = No se puede hacer el recibo. O la persona encargada no dijo por qué se puede entregar. Mire el hogar otra vez.
given-title = Entregado
given-lead = Dé los paquetes. Que escaneen este recibo antes de irse, o imprímalo.
family-person = Persona { $number }
family-name = Nombre
family-age = Edad: 34, u 8 meses, o nació 2029-07
family-weight = Peso con unidad: 31 lb 4 oz
family-bowl = No puede tragar pastillas
family-next = Siguiente persona
family-all = Son todos
family-name-missing = Escriba un nombre, o como esta persona quiera que la llamen.
family-age-unread = No se entiende esta edad. Escriba 34, u 8 meses, o el mes de nacimiento como 2029-07.
family-weight-unread = ¿Libras o kilos? Escriba 31 lb 4 oz, o 14.2 kg.
family-full = Más personas de las que tiene un hogar. Haga dos hogares.
family-question = Pregunta { $number } de { $of }
family-press = Toque un nombre para cada respuesta: primero no, luego sí, luego no sabe.
family-nobody = Todos dijeron que no
family-asked = Estas son las respuestas
family-not-made = No se pudo hacer el código de esta familia. Pruebe otra vez, con nombres más cortos.
shelves-lead = Toque un lote para contarlo.
shelves-recalled = Retirado: no se entrega nada.
shelves-set-aside = Apartado: no se entrega nada.
shelves-unlike = Llegó con dos fechas o tamaños distintos. Cuenta lo más seguro.
shelves-below-zero = Salió más de lo que llegó. Cuéntelo.
shelves-empty = Todavía no llegó nada.
shelves-receive = Llegaron paquetes
shelf-packs = { $packs ->
    [one] { $packs } paquete
   *[other] { $packs } paquetes
  }
receive-packs-title = ¿Qué llegó?
receive-packs-body = Escanee el código de un paquete, o escriba lo que está impreso. Luego cuente los paquetes.
receive-packs-code = Código del paquete
receive-packs-lot = Lote
receive-packs-expiry = Último día, como 2032-05-31 o 2032-05
receive-packs-count = Cuántos paquetes
receive-packs-main = Ponerlos en el estante
receive-packs-result = Lote { $lot }. Vence el { $day }.
receive-packs-product = Las instrucciones no nombran este producto. Apártelo. Pregunte a la persona encargada.
receive-packs-check = El código del paquete está dañado. Escanéelo otra vez.
receive-packs-no-lot = ¿Qué lote? Cópielo del paquete.
receive-packs-no-expiry = ¿Hasta qué día? Escríbalo como 2032-05-31, o 2032-05.
receive-packs-no-count = ¿Cuántos? Escriba un número entero.
count-title = Contar el lote { $lot }
count-body = { $packs ->
    [one] Según lo que llegó y salió debería haber { $packs } paquete.
   *[other] Según lo que llegó y salió debería haber { $packs } paquetes.
  }
count-field = Paquetes que hay
count-main = Anotar la cuenta
day-lead = { $homes ->
    [one] { $homes } entrega
   *[other] { $homes } entregas
  } hoy, para { $people ->
    [one] { $people } persona.
   *[other] { $people } personas.
  }
day-hours = Hora por hora
day-nothing = Hoy no se entregó nada.
day-homes = { $homes ->
    [one] { $homes } entrega
   *[other] { $homes } entregas
  }
day-runs-out = A este ritmo se acaba: { $when }.
day-no-pace = No salió nada en la última hora.

## Papers from the window

print-home = Papeles para la cocina
print-home-what = Quién toma qué, cómo prepararlo, una tabla para marcar, etiquetas. Bastan sin un aparato.
print-home-body = { $name } está en { $place }. Imprímalo desde ahí. Tiene un código nuevo; el anterior ya no cuenta.
calendar-make = Las dosis en un calendario
calendar-what = Un archivo para un programa de calendario, con una alarma antes de cada dosis. Sin nombres.
calendar-body = { $name } está en { $place }. Ábralo con un programa de calendario. Si el plan cambia, hágalo otra vez.
print-receipt = Imprimir el recibo y las etiquetas
print-receipt-body = { $name } está en { $place }, y las etiquetas de los frascos al lado. Imprímalos desde ahí.
print-there = Está listo
file-open = Abrirlo
file-send = Mandarlo
file-not = Aquí nada lo recibe
file-not-body = Aquí nada abre este archivo. Se queda donde está. Busque otra forma de mandarlo.
print-not = No se pudo hacer.
print-not-body = No se puede escribir en la carpeta. O un nombre tiene letras que no se pueden imprimir. No cambió nada más. Corríjalo. Luego pruebe otra vez.
family-adult = Persona adulta
family-age-missing = ¿Qué edad tiene esta persona? Escríbala, o toque Persona adulta.
family-anybody = alguien aquí
desk-asked-aside = se preguntó aparte
desk-aside = Una pregunta para hacer aparte
lead-no = No, que esperen a un lado
shelves-past = Su último día ya pasó: no se entrega nada.
receive-packs-recalled = Este lote fue retirado o está apartado. Apártelo. No se entrega nada de él.
receive-packs-past = Este día ya pasó. Apártelo. Pregunte a la persona encargada.
receive-packs-differs = El código del paquete dice otro lote u otro día. Mire otra vez el paquete.
site-not-these = No, estas no
given-what = Entregado: { $what }
given-nothing = Aún nada para { $name }.
site-notice-lot = { $packs ->
    [one] Hay { $packs } paquete del lote { $lot } en los estantes.
   *[other] Hay { $packs } paquetes del lote { $lot } en los estantes.
  }

## El reloj del aparato

bell-timer = Avisar cuando esté blanda
bell-timer-words = Ya está blanda: aplaste la pastilla
bell-alarm = Avisar a { LAS($time) }
bell-alarm-words = Es hora de empezar la próxima dosis
told-no-bell = Sin reloj
told-no-bell-body = Nada en este aparato puede sonar desde aquí. Ponga un reloj a mano.
told-bell-set = Va a sonar
told-bell-set-body = Deje esta ventana abierta. Suba el volumen. Cuando suene, toque cualquier cosa para pararlo.
read-aloud = Leer en voz alta
told-no-voice = Sin voz
told-no-voice-body = Nada en esta computadora puede leer en voz alta todavía. Instale «speech-dispatcher». Después pruebe otra vez. Mientras tanto, pida a alguien que le lea las palabras.

## Several tablets of a site

site-shift = Otras tabletas
shift-title = Juntar las tabletas
shift-body = Cada tableta escribe su registro en un archivo. Lleve los archivos en una memoria USB. Súmelos en las otras tabletas. No importa quién empiece ni cuántas veces. Sin memoria, muestre el registro en códigos. Las respuestas privadas siempre se cierran con la clave de las instrucciones. No deje la memoria.
shift-write = Escribir mi registro
shift-of = Tableta { $mark }: { $count } anotaciones
shift-there = { $name } está en { $place }. La marca de esta tableta es { $mark }.
shift-there-locked = { $name } está en { $place }. Tiene respuestas privadas, por eso está cerrado. Solo lo suma una tableta con la clave del centro. La marca de esta tableta es { $mark }.
shift-no-lock = Algunas respuestas son privadas. Las instrucciones no traen una clave para cerrarlas. Pida a la persona encargada instrucciones con clave. No se escribió nada.
shift-new-title = ¿Es una de sus tabletas?
shift-mark = Marca: { $mark }
shift-compare = No se conocía antes. La otra tableta muestra su marca cuando escribe su registro. Compare las dos marcas.
shift-trust = Sí, sumarla
shift-merged = Sumada
shift-merged-body = Anotaciones nuevas: { $new }. Ya conocidas: { $known }.
shift-twice = Las dos tabletas atendieron estos hogares. Avise a la persona encargada: { $homes }.
shift-below = Salió más de lo que llegó. Cuente estos lotes: { $lots }.
shift-other-device = Este archivo está firmado con otra clave que la que su tableta tenía antes. No se sumó. Avise a la persona encargada.
shift-not-one = Esto no es el registro de una tableta. Elija otro archivo.
shift-sealed = Este archivo está cerrado con una clave que no está en esta tableta. Pida la clave a la persona encargada.

## A hand-out is taken back

undo-way = Esto estuvo mal: devolverlo
undo-heading = Lo que recibieron aquí
undo-title = ¿Devolver esto?
undo-body = Tenga los paquetes delante, cerrados. Lo que se abrió nunca vuelve al estante: entonces cuente el lote a mano.
undo-receipt = Recoja también el recibo. Si lo escanearon, dígales que lo corrijan en casa.
undo-main = Devolverlo
undo-not = No, estaba bien
undo-done = De vuelta en el estante

## PINs of a site

site-roles = Para la persona encargada
roles-body = Solo la persona encargada quita una espera, entrega otra vez, devuelve, cuenta u olvida un hogar. Con un PIN, este aparato lo pide cada vez.
roles-none = No hay ningún PIN.
roles-none-body = Cualquiera puede decir que es la persona encargada. Ponga el PIN de la persona encargada.
roles-lead = PIN de la persona encargada
roles-volunteer = PIN de los voluntarios
roles-is-set = Ya hay uno. Toque para cambiarlo.
roles-not-set = No hay ninguno. Toque para ponerlo.
roles-lead-first = Ponga primero el PIN de la persona encargada.
roles-erasure = Recibo del último hogar que se olvidó
pin-open-title = ¿Quién trabaja aquí?
pin-open-body = Escriba el PIN de los voluntarios o el de la persona encargada.
pin-lead-title = El PIN de la persona encargada
pin-lead-body = Solo la persona encargada puede hacer esto. Escriba su PIN.
pin-new-lead = PIN nuevo de la persona encargada
pin-new-volunteer = PIN nuevo de los voluntarios
pin-new-body = Elija de 4 a 12 cifras. No elija cifras seguidas.
pin-again-title = El mismo PIN otra vez
pin-again-body = Escríbalo una vez más, para estar seguros.
pin-field = PIN
pin-spoken = { $count ->
    [0] PIN, nada escrito
    [one] PIN, { $count } cifra escrita
   *[other] PIN, { $count } cifras escritas
  }
pin-main = Seguir
pin-moment = Un momento
pin-wrong = { $count ->
    [one] Este no es el PIN. Pruebe otra vez: queda { $count } intento.
   *[other] Este no es el PIN. Pruebe otra vez: quedan { $count } intentos.
  }
pin-wrong-wait = Este no es el PIN. Espere { $seconds } segundos. Después pruebe otra vez.
pin-wait = Hubo demasiados PIN equivocados. Espere { $seconds } segundos. Después pruebe otra vez.
pin-short = Es demasiado corto. Escriba 4 cifras o más.
pin-repeated = La misma cifra repetida es fácil de adivinar. Elija otras.
pin-in-a-row = Las cifras seguidas son fáciles de adivinar. Elija otras.
pin-differs = Los dos no eran iguales. Elija un PIN otra vez.
pin-same = El otro grupo tiene este PIN. Elija otro.
pin-set = El PIN está guardado
pin-set-body = Guárdelo donde lo encuentre. Solo el PIN de la persona encargada pone otro.
pin-not = El PIN no se puso
pin-not-body = Este aparato no pudo hacerlo seguro. Abra el programa de nuevo. Después pruebe otra vez.

## A home is forgotten

forget-way = Olvidar este hogar
forget-title = ¿Olvidar este hogar?
forget-body = Todo lo que se sabe de estas personas sale de este aparato para siempre.
forget-others = Las otras tabletas también las olvidan cuando se juntan los registros.
forget-stays = Lo que salió de cada lote queda contado. No nombra a nadie.
forget-unheard = { $count ->
    [one] { $count } anotación todavía no está en ningún archivo de este centro.
   *[other] { $count } anotaciones todavía no están en ningún archivo de este centro.
  }
forget-unheard-body = Escriba primero su registro. O diga por qué se olvida sin eso.
forget-reason = Por qué, sin nombres
forget-to-shift = Escribir antes mi registro
forget-main = Olvidarlos para siempre
forget-not = No, guardar este hogar
forget-failed = No se olvidó nada
forget-failed-body = No se pudo hacer el recibo. Escriba la razón con menos palabras. Después pruebe otra vez.
forgotten-title = Se olvidó un hogar
forgotten-count = { $count ->
    [one] Se borró { $count } anotación.
   *[other] Se borraron { $count } anotaciones.
  }
forgotten-receipt = Este recibo no nombra a nadie. Imprímalo para ellos o guarde una foto.
forgotten-reason = Antes de estar en un archivo, porque: { $why }
forget-print = Imprimir este recibo
forget-printed = { $name } está en { $place }. Imprímalo desde allí.

## Families that wait half typed in

family-weight-adult = Peso con unidad: aquí no hace falta
family-half = A medio escribir. Toque para seguir.
family-unnamed = Nadie tiene nombre todavía
family-away = Borrar esto
family-away-title = ¿Borrar esto?
family-away-body = Entonces se pierde lo que se escribió de ellos.
family-away-main = Borrarlo
family-away-not = No, que espere

## Weighing at a site

site-station = Báscula
station-title = Siguiente en la báscula
station-body = Escanee el código del hogar o escriba un nombre.
station-field = Nombre, puerta o código
station-who = ¿Quién sube a la báscula?
station-next = Siguiente en la báscula
scale-held = Alguien le tiene en brazos
scale-alone = Está de pie sin ayuda
count-unread = ¿Cuántos hay? Escriba un número entero.

## A record as codes

codes-field = Parte de un registro
codes-show = Mostrar mi registro en códigos
codes-title = Deje que la otra tableta escanee esto
codes-page = Parte { $number } de { $of }
codes-file = Registro { $number } de { $of }
codes-body = La otra tableta muestra cuántas partes tiene. No importa qué parte va primero.
codes-next = Parte siguiente
codes-by-itself = Pasar las partes despacio, sin tocar
codes-by-hand = Parar, las paso a mano
codes-next-file = Registro siguiente
codes-not = Demasiado largo para códigos
codes-not-body = Una anotación es demasiado larga para un código. Escriba el registro en un archivo.
codes-not-a-part = Esto no es parte del registro de una tableta. Escanee el código que muestra la otra tableta.

## A kitchen table at the door

table-way = En la mesa
table-title = ¿Sentarse a su mesa?
table-body = Este aparato los guía en sus dosis. Lo que se sabe de ellos aquí se toma.
table-back = El camino de vuelta lleva otra vez a este hogar.
table-main = Sentarse con ellos
table-to-site = Volver al centro
forget-table = También se borra su registro de la cocina en este aparato.

## Una mesa y su marca

desk-title = ¿Está esta marca en el papel de la mesa?
desk-compare = Mire la pantalla del centro o el papel de su mesa. Compare cada letra y cada número de la marca.
desk-not-met = Firmó este recibo una mesa que no se conocía. Se le pregunta una sola vez.
desk-other-key = Usted conoce { $site } por otra marca. Un centro puede usar varias tabletas. Compare con cuidado.
desk-other-name = Esta mesa se llamaba antes { $site }. Compare la marca otra vez.
desk-doubted = Usted dijo antes que esta marca no es la correcta. Pregunte en el centro antes de seguir.
desk-same = Sí, la misma marca
desk-differs = No, otra marca
desk-later = Ahora no puedo compararla
desk-later-said = No se contó nada. Guarde el recibo. Escanéelo otra vez cuando pueda comparar la marca.
desk-differs-title = Este recibo no cuenta
desk-differs-body = No se contó nada. Aparte estos paquetes. Pregunte en el centro, o llame al número de preguntas que está en Ayuda.
desk-name-title = ¿Cómo se llama este centro?
desk-name-body = Los hogares leen el nombre en sus recibos. Use hasta { $most } letras. Es el nombre de un lugar, no de una persona.
desk-name-field = Nombre del centro
desk-name-main = Usar este nombre
desk-name-missing = El centro aún no tiene nombre. Escríbalo arriba.
desk-name-long = Este nombre es muy largo. Use hasta { $most } letras.
desk-name-unseen = Algunas letras no se ven. Escriba el nombre otra vez.
desk-way = Nombre y marca de esta mesa
desk-mark = Marca de esta mesa: { $mark }
desk-print = Imprimir una hoja para la mesa
desk-print-body = { $name } está en { $place }. Abra la hoja. Luego imprímala. Póngala donde los hogares la vean.
paper-desk-mark = Marca de esta mesa
paper-desk-body = Cuando su aparato lee un recibo de esta mesa, muestra una marca. Debe ser igual a esta. Avísenos si no lo es.

## A paper list is typed in

print-list = Imprimir una lista en papel vacía
print-list-body = { $name } está en { $place }. Imprima algunas antes de que falle el aparato.
list-way = Se entregó según la lista en papel
list-title = Pase un renglón de la lista en papel
list-body = Copie lo que dice la lista. La persona encargada aprueba cada renglón.
list-time = Hora de la lista, como 14:20
list-day = Día, como 2031-05-31
list-packs = Paquetes del lote { $lot }
list-main = Anotarlo
list-not = No, este hogar no está en la lista
list-done = Está en el registro
list-time-unread = Esto no es una hora. Escríbala como 14:20.
list-day-unread = Esto no es un día. Escríbalo como 2031-05-31.
list-no-packs = No se escribió ningún paquete. Escriba cuántos y de qué lote.
list-no-reason = Falta el motivo. Pregunte a la persona encargada.
list-ahead = Esta hora todavía no llega. Escriba otra vez el día y la hora.
list-known = Esto ya está en el registro. Siga con el próximo renglón de la lista.
list-lot = Este lote nunca estuvo aquí. Escriba los paquetes de otro lote, o llame a la persona encargada.

## Settings

settings = Ajustes
settings-lead = Valen en este aparato, para todos los que lo usan.
settings-language = Idioma
settings-size = Tamaño de la letra
settings-percent = { $percent } %
settings-dark = Claro u oscuro
settings-light = Claro
settings-night = Oscuro
settings-contrast = Contraste
settings-warm = Colores cálidos
settings-strong = Alto contraste
settings-movement = Movimiento
settings-moves = Con movimiento
settings-still = Nada se mueve
settings-ring = Cuando suena
settings-sound = Con sonido
settings-quiet = Sin sonido
settings-over = Al final de una espera
settings-flash = Luz que parpadea
settings-no-flash = Sin parpadeo
settings-device = Lo que tiene este aparato
piece-voice = Una voz lee los pasos.
piece-no-voice = Sin voz
piece-no-voice-body = Pida a alguien que le lea las palabras. En una computadora, instale «speech-dispatcher».
piece-sound = Puede avisar con sonido.
piece-no-sound = Sin sonido
piece-no-sound-body = Ponga un reloj a mano. O mire la ventana: muestra cuando una espera termina.
piece-message = Puede mostrar un mensaje cuando avisa.
piece-no-message = Sin mensajes
piece-no-message-body = Deje esta ventana donde la vea.
piece-camera = Una cámara lee los códigos.
piece-no-camera = Sin cámara
piece-no-camera-body = Ponga una foto del código en Descargas. O escriba el código.
piece-reader = Un lector de pantalla puede leer esta ventana.
piece-no-reader = Sin lector de pantalla
piece-no-reader-body = Pida a alguien que le lea las palabras. O elija aquí una letra más grande.
told-settings = Se perdieron algunos ajustes
told-settings-body = El archivo con sus ajustes estaba dañado. Se usa lo que se pudo leer. Mire Ajustes una vez.
told-settings-unkept = Esto no se guardó
told-settings-unkept-body = Vale hasta que cierre el programa. Haga espacio en el disco. Después elíjalo otra vez.
over-soak = La pastilla ya está blanda. Siga con la dosis.
over-start = Es hora de la próxima dosis. Ponga la mesa.

## What tablets of a site left to be settled

settle-title = Por aclarar
settle-lead = Las tabletas de este centro no dicen lo mismo de estos hogares. Toque un hogar para elegir lo correcto.
settle-none = Todo concuerda.
settle-count = { $count ->
    [one] { $count } asunto por aclarar
   *[other] { $count } asuntos por aclarar
}
settle-way = Algo no concuerda. La persona encargada lo mira.
settle-twice = Dos tabletas atendieron este hogar.
settle-changed = Una anotación se cambió de dos maneras.
settle-twice-title = Dos tabletas atendieron este hogar
settle-codes-title = ¿Qué código es el correcto?
settle-out-title = ¿Salieron estos paquetes?
settle-changed-title = ¿Qué es lo correcto?
settle-until-twice = Hasta que elija, cuentan las dos entregas.
settle-until-codes = Hasta que elija, cuenta el código más nuevo. Lo que sale pasa antes por la persona encargada.
settle-until-out = Hasta que elija, cuentan como entregados.
settle-first-wrong = La primera estuvo mal
settle-second-wrong = La segunda estuvo mal
settle-both = Las dos estuvieron bien
settle-both-detail = El hogar recibió las dos.
settle-out = Salieron
settle-back = Se devolvieron
settle-gone = Esta anotación estuvo mal
settle-other = Otra anotación
settle-code = Código { $number }: { $count ->
    [one] { $count } persona
   *[other] { $count } personas
}
settle-made = Hecho el { $day }, { $time }, en el aparato { $mark }.
settle-who = { $day }, { $time }, { $tablet }.
settle-here = esta tableta
settle-tablet = tableta { $mark }
settle-elsewhere = otra tableta
settle-said = La persona encargada dijo: { $reason }.
settle-home = Ver este hogar
settle-because = ¿Por qué es lo correcto?
settle-main = Esto es lo correcto
settle-not = Elegir otra vez
settle-done = Aclarado
settle-count-lots = Una tableta anotó estos paquetes como devueltos. Cuente estos lotes: { $lots }.
settle-same = Las edades, los pesos y las pastillas que quedan son iguales.
settle-left = Pastillas que quedan: { $count }.

## Who comes to a site, and who stands at its scale

code-interpreter = ¿Alguien necesita un intérprete?
code-collects = ¿Quién irá?
code-collects-open = Todavía no se sabe
code-collects-adult = Una persona adulta
code-collects-minor = Alguien menor de 18 años
code-collects-lead = La persona encargada del centro lo ve primero. No se rechaza a nadie por eso.
family-came-title = ¿Quién vino?
family-came-body = Toque una línea para cambiarla. Las dos pueden quedar abiertas.
family-collects = Quién recoge
family-came-open = sin anotar
family-interpreter = Ayuda con el idioma
family-interpreter-yes = hace falta un intérprete
family-interpreter-no = no se pidió
table-times = ¿A qué horas quieren dar la medicina?
table-time = Primera dosis del día, por ejemplo 7:30
weigher-title = ¿Quién pesa aquí?
weigher-is = { $name } pesa aquí
weigher-body = El nombre queda con cada peso que se anota en esta tableta.
weigher-field = Nombre
weigher-main = Usar este nombre
weigher-nobody = No anotar un nombre
desk-weighed = Se pesó aquí el { $day }.
desk-weighed-by = Se pesó aquí el { $day } con { $name }.

## What a package says is read once more

lot-read-way = La fecha está mal
lot-read-title = ¿Qué dice el lote { $lot }?
lot-read-body = Tenga un paquete en la mano. Solo la persona encargada anota su fecha.
lot-read-main = El paquete dice esto
lot-read-unread = Esta fecha no se puede leer. Escríbala como 2032-05-31 o 2032-05.

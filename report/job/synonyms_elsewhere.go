package job

// wordsElsewhere are words of other languages for those of a job file, which are
// answered with what to type: a sheet says the words of its own language.
var wordsElsewhere = map[string][]Question{
	"fuel": {asks("benzina; gasolina sin plomo; bensin; super 95; super e10; ottokraftstoff; petroleum; bencina", "write petrol"),
		asks("gasóleo; gasoleo; gasolio; diesel kraftstoff; dieselkraftstoff", "write diesel"), asks("flüssiggas; flussiggas; glp", "write lpg"), asks("erdgas; metano; gnv", "write cng"),
		asks("zweitaktgemisch; gemisch; mezcla; miscela; mélange", "write two-stroke mix")},
	"throttle": {asks("vollgas; offen; ganz offen; voll offen; abierto; abierta; a fondo; ouvert; ouverte; aperto; aperta; foot flat; flat out; to the floor; flat to the floor; full pedal; full gas", "write open"),
		asks("zu; geschlossen; cerrado; cerrada; fermé; chiuso; chiusa", "write closed")},
	"temperature": {asks("kalt; kalter motor; frío; frio; froid; à froid; freddo; a freddo", "write cold"), asks("lauwarm; tibio; tiède; tiepido", "write warm"),
		asks("betriebswarm; warm gefahren; heiß; heiss; caliente; chaud; à chaud; caldo; a caldo", "write hot, or warm where it had not come up to temperature")},
	"look of a plug": {asks("rehbraun; braun; hellbraun; in ordnung; gut; marrón; marron; brun; brune; marrone; buena; bueno; bonne", "write normal"),
		asks("verrußt; verrusst; schwarz; rußig; russig; negra; negro; hollín; noire; noir; encrassée; suie; nera; nero; fuliggine", "write sooty where it is dry, oil-wet where it is oily"),
		asks("verölt; veroelt; ölig; oelig; aceitosa; aceite; con aceite; huileuse; grasse; oleosa; unta", "write oil-wet"), asks("nass; benzinnass; mojada; mouillée; noyée; bagnata", "wet with what? write oil-wet, fuel-wet or coolant"),
		asks("weiß; weiss; blanca; blanco; blanche; bianca", "write white"), asks("not out; left in; not pulled; not removed; still in; did not look; didnt look", "write not tested")},
	"place of a leak": {asks("auspuff; auslass; auslaß; auslassventil; escape; échappement; echappement; scarico", "write exhaust"),
		asks("ansaugung; einlass; einlaß; ansaug; einlassventil; vergaser; admisión; admision; admission; aspirazione", "write inlet"),
		asks("kurbelgehäuse; öldeckel; öleinfüllung; peilstab; ölpeilstab; cárter; carter; coppa", "write crankcase"), asks("kühlwasser; kühler; ausgleichsbehälter; refrigerante; radiador; radiateur; radiatore", "write coolant")},
	"state of a test": {asks("nicht geprüft; nicht gemessen; no medido; sin medir; non testé; non mesuré; non misurato", "write not tested"), asks("#n/a; #value!; #ref!; #div/0!; #name?", emptyReading)},
	"pressure":        {asks("kein druck; keine; null druck; sin compresión; sin compresion; aucune; pas de compression; nessuna; none at all; not a thing; absolutely nothing; bugger all", "write 0 or 'no pressure' where the gauge did not move, else what it showed")},
}

// keysElsewhere are the names of keys in other languages.
var keysElsewhere = []Synonym{
	says("engine", "moteur; motore"), says("layout", "bauart; bauform; disposition; disposición; disposicion; zylinder; cilindros; cylindres; cilindri"), says("fuel", "kraftstoff; treibstoff; sprit; carburant; combustible; carburante"),
	says("displacement", "hubraum; cylindrée; cylindree; cilindrada; cilindrata"), says("compression-ratio", "verdichtungsverhältnis; rapport volumétrique; relación de compresión; relacion de compresion"), says("firing-order", "zündfolge; zuendfolge; orden de encendido; ordre d'allumage"),
	says("bore", "bohrung; alésage; alesage"), says("stroke", "hub; course; carrera"), says("unit", "einheit; unité; unidad; unità; unita"), says("compression", "kompression; verdichtung; kompressionsdruck; compresión; compresion; compressione"),
	says("dry", "trocken; à sec; a sec; sec; seco; en seco; secco; a secco; day; fry"), says("wet", "nass; mit öl; mit oel; mouillé; avec huile; avec de l'huile; húmedo; humedo; con aceite; con olio"), says("leakage", "druckverlust; druckverlusttest; fuite; fuites; fuga; fugas; perdite; linkage"),
	says("loss", "verlust; perte; pertes; pérdida; perdida; perdita"), says("plugs", "zündkerzen; zuendkerzen; kerzen; bougies; bujías; bujias; candele"), says("looks", "kerzenbild; aussehen; aspect; aspecto; aspetto; estado"), says("gap", "elektrodenabstand; abstand; écartement; gaps"),
	says("customer", "kunde; cliente"), says("vehicle", "fahrzeug; auto; coche; véhicule; vehicule; voiture; veicolo"), says("plate", "kennzeichen; matrícula; matricula; plaque; immatriculation; targa"), says("odometer", "kilometerstand; km stand; kilométrage; kilometrage; kilometraje; chilometraggio"),
	says("technician", "mechaniker; mécanicien; mecanicien; mecánico; mecanico; meccanico"), says("date", "datum; fecha; data"), says("notes", "notizen; bemerkungen; bemerkung; anmerkungen; remarques; remarque; notas; nota; observaciones; note varie"),
	says("conditions", "bedingungen; condiciones; condizioni"), says("throttle", "drosselklappe; gaspedal; mariposa; papillon; farfalla"), says("battery", "batterie; batería; bateria; batteria"),
	says("fuel-pressure", "kraftstoffdruck; benzindruck; pression d'essence; presión de combustible; presion de combustible"), says("oil-pressure", "öldruck; oeldruck; pression d'huile; presión de aceite; presion de aceite"), says("vacuum", "unterdruck; dépression; depression; vacío; vacio"),
	says("idle", "leerlauf; ralenti; ralentí; minimo; with hose; hose on; vacuum on; regulator on; with vacuum"), says("hose-off", "without hose; hose off regulator; regulator hose off; without vacuum; ohne schlauch; hose removed"), says("limits", "grenzwerte; sollwerte; límites; limites"),
	says("complaints", "beanstandung; beanstandungen; plainte; quejas; queja"), says("return-pinched", "deadhead; dead head; dead headed; deadheaded; blocked return; return blocked"), says("fitted", "eingebaut"),
}

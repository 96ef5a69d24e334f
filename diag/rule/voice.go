package rule

// A Kind is a kind of test, as far as two that agree count for more than one.
type Kind string

// The kinds of tests.
const (
	OfCompression Kind = "compression"
	OfLeakage     Kind = "leakage"
	OfPlugs       Kind = "plugs"
	OfSight       Kind = "seen"
	OfCoolant     Kind = "coolant test"
	OfFuel        Kind = "fuel pressure"
	OfRotors      Kind = "rotors"
	OfEarlier     Kind = "earlier test"
	OfRunning     Kind = "running"
	OfCheck       Kind = "check made"
	OfCodes       Kind = "codes"
	OfOil         Kind = "oil pressure"
	OfVacuum      Kind = "manifold vacuum"
	OfCooling     Kind = "cooling"
	OfClearance   Kind = "valve clearance"
	OfBalance     Kind = "cylinder balance"
	OfInjectors   Kind = "injectors"
	OfTrims       Kind = "fuel trims"
	OfGas         Kind = "exhaust gas"
	OfCrankcase   Kind = "crankcase pressure"
	OfStarting    Kind = "starting"
	OfExhaust     Kind = "back-pressure"
	OfTiming      Kind = "timing"
	OfDiesel      Kind = "diesel tests"
	OfFurther     Kind = "further test"
	OfTest        Kind = "how it was tested"
	OfHistory     Kind = "history" // what is told: it tips the balance and makes nothing sure
)

// A Voice speaks for a cause, or against it where Weight is less than 0.
type Voice struct {
	Cause  string
	Weight int
	Kind   Kind   // "" for the rule's own
	Says   string // of a voice against: the key of the words that say why
}

// The weights of evidence: a place where air is heard outweighs everything, a
// wet test or a look into the bore outweighs what is common, a plug or a first
// stroke only tips the balance.
const (
	Heard = 100 // heard or measured there
	Sight = 80  // seen there
	Known = 60  // known of the engine or of how it was tested
	Wet   = 60  // the wet test
	DryUp = 30  // consistent with it
	Hint  = 20  // tips the balance
)

// commonest is the weight of what a pattern most often comes from; each cause
// after it is a little less common.
const (
	commonest = 50
	rarer     = 5
)

// common is what a pattern comes from, the commonest first.
func common(causes ...string) []Voice {
	list := make([]Voice, len(causes))
	for i, k := range causes {
		list[i] = Voice{Cause: k, Weight: max(commonest-rarer*i, rarer)}
	}
	return list
}

// pathToCoolant is what lets a cylinder and the coolant meet, first what seals
// the two from each other and then what may have cracked: gasket, head and bore of
// an engine with pistons; the coolant seals and the housings of a rotary, which
// has none of these.
func pathToCoolant(seal, crack int) []Voice {
	return append(speaks(seal, "head-gasket", "coolant-seal"), speaks(crack, "warped-or-cracked-head", "cracked-bore", "cracked-housing")...)
}

// noPathToCoolant speaks against all of these.
func noPathToCoolant(weight int, says string) []Voice {
	return denies(weight, says, "head-gasket", "coolant-seal", "warped-or-cracked-head", "cracked-bore", "cracked-housing")
}

// speaks is a voice of one weight for each of some causes.
func speaks(weight int, causes ...string) []Voice {
	list := make([]Voice, len(causes))
	for i, k := range causes {
		list[i] = Voice{Cause: k, Weight: weight}
	}
	return list
}

// denies is a voice against each of some causes, with the words that say why.
func denies(weight int, says string, causes ...string) []Voice {
	list := make([]Voice, len(causes))
	for i, k := range causes {
		list[i] = Voice{Cause: k, Weight: -weight, Says: says}
	}
	return list
}

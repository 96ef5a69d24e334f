package cause

import "gaugesheet/diag/known"

func diesel(c *known.Case) bool { return c.Spec.Diesel() }

// noiseChecks find where a noise comes from. A diesel's injector that fires too early or too
// much knocks as a bearing does, and both are quieter with that cylinder cut out: the injector
// comes out in an hour, the bearing takes the engine apart.
var noiseChecks = []Check{
	{Name: "noise-source", Titles: []string{"finding the noise", "finding the noise by ear"}, Minutes: 10, Whole: true, Way: Runs, Words: []string{"stethoscope", "noise located", "noise listened"},
		Made: func(c *known.Case, _ []string) bool { return len(c.NoiseLoudest()) > 0 || known.NoiseBelow.HoldsIn(c) }, Reads: noisePlace,
		Fits: func(c *known.Case, _ []string) bool { // what reads low, or breathes unlike the others, says more than an ear
			return c.Complains(noise) && len(c.Looking("detonation", "melted", "blistered")) == 0 && c.HasValves() && !c.AnyLow(c.Read()) && !liftFound(c, nil) && c.AllLow() == nil && (c.Compression == nil || len(c.Compression.Running) == 0)
		},
		Outcomes: []Outcome{
			{Name: "at the head", For: []string{"valve-motion", "valve-lash", "valve-springs", "collapsed-lifter", "deactivation-lifter"}, Words: []string{"head", "top"}},
			{Name: "quiets when cut out", For: []string{"diesel-injector", "injector-seat"}, Fits: diesel, Sure: 0.8, Words: []string{"quiets", "quieter", "goes away"}, After: []string{"it quiets as one cylinder is cut out"}},
			{Name: "at the block", For: []string{"bottom-end", "piston"}, Words: []string{"block", "sump", "below"}},
			{Name: "at the drive", For: []string{"timing-drive", "worn-chain"}, Words: []string{"front", "drive", "chain"}, After: []string{"loudest at the timing cover"}},
			{Name: "under load alone", For: []string{"early-ignition", "carbon", "knock", "too-hot"}, Fits: sparked, Words: []string{"pings", "pinks", "pinging", "pinking", "only under load"}, After: []string{"it pings as the engine pulls, and not at idle"}},
			{Name: "elsewhere", Else: true}}},
	{Name: "drive-plate-look", Titles: []string{"a look at the drive plate", "look at the drive plate"}, Minutes: 30, Whole: true, Way: Hand | Covers,
		Words: []string{"drive plate looked at", "flexplate looked at", "inspection cover off"},
		Fits:  func(c *known.Case, _ []string) bool { return noiseBeside.HoldsIn(c) && plated(c) },
		Outcomes: []Outcome{
			{Name: "cracked or loose", For: []string{"drive-plate"}, Words: []string{"crack", "cracked", "loose"}},
			{Name: "sound and tight", Else: true, Words: []string{"sound", "tight", "good", "no crack"}}}},
	{Name: "belt-off", Titles: []string{"running without the drive belt", "a run without the drive belt"}, Minutes: 15, Whole: true, Way: Runs, Words: []string{"drive belt off", "accessory belt off", "belt taken off"},
		Fits: func(c *known.Case, _ []string) bool {
			return noiseBeside.HoldsIn(c) && !c.FlywheelMagneto() && !c.Flies()
		},
		Outcomes: []Outcome{
			{Name: "gone", For: []string{"driven-part"}, Words: []string{"quiet", "goes away"}},
			{Name: "still there", Else: true, Words: []string{"still", "stays", "no change", "same"}}}},
}

// noiseBeside is a noise that comes from beside the cylinders, by the ear or as none of them
// changes it.
var noiseBeside = known.Any(known.NoiseAtSide, known.NoiseUnmoved)

// noisePlace is the outcome of listening that the job's words tell, clause by clause; "" and
// true where they only tell where it is not.
func noisePlace(c *known.Case) (string, bool) {
	loud, quiet := c.NoiseHeard()
	switch {
	case known.NoiseAtSide.HoldsIn(c):
		return known.NoiseBeside, true
	case len(loud) > 0:
		return loud[0], true
	}
	return "", len(quiet) > 0
}

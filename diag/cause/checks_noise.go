package cause

import "gaugesheet/diag/known"

func diesel(c *known.Case) bool { return c.Spec.Diesel() }

// noiseChecks find where a noise comes from. A diesel's injector that fires too early or too
// much knocks as a bearing does, and both are quieter with that cylinder cut out: the injector
// comes out in an hour, the bearing takes the engine apart.
var noiseChecks = []Check{
	{Name: "noise-source", Titles: []string{"finding the noise", "finding the noise by ear"}, Minutes: 10, Whole: true, Way: Runs, Words: []string{"stethoscope", "noise located", "noise listened"},
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
}

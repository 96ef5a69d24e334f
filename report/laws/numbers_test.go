package laws_test

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

var numberLaws = []law{
	{name: "N1 no number that is none", least: 1800, says: "no Inf, NaN, 0/0, minus zero, empty place or '6 % to 6 %' in any word or figure",
		check: func(s *subject, k *tally) {
			k.saw()
			for _, one := range slices.Concat(s.out.said(), s.out.asked()) {
				if m := noNumber(one.text); m != "" {
					k.fail("%s has %q: %q", one.at, m, one.text)
				}
			}
			raw := string(s.raw)
			if i := strings.Index(raw, `"fingerprint"`); i > 0 { // what the user wrote stands before it
				raw = raw[i:]
			}
			if m := badJSON.FindString(raw); m != "" {
				k.fail("the JSON has %q", m)
			}
		}},
	{name: "N1 sums", least: 700, says: "sums in the JSON follow from its readings", check: sumsFollow},
	{name: "N1 numbers in words", least: 100, says: "numbers in a sentence follow from the others in it, to their last digit", check: wordsFollow},
	{name: "N1 numbers have a source", least: 300, says: "a pressure named in a finding is one of the readings, limits and sums of its section", check: pressuresAreKnown},
	{name: "N2 as entered", least: 1000, says: "what was entered is given as entered", check: asEntered},
	{name: "N1 whole sentences", least: 1800, says: "every sentence begins with a capital or a figure, none has two spaces or stops, or lacks its words",
		check: func(s *subject, k *tally) {
			k.saw()
			for _, one := range slices.Concat(s.out.said(), s.out.asked()) {
				for _, bad := range []string{"  ", "..", " .", " ,", "()", "<", "%!", " ;", "[]"} {
					if strings.Contains(one.text, bad) {
						k.fail("%s has %q: %q", one.at, bad, one.text)
					}
				}
			}
			if v := s.out.Verdict; v.Sentence == "" || rank(v.Urgency) < 0 {
				k.fail("the verdict is %q, %q", v.Sentence, v.Urgency)
			}
			for _, f := range s.out.Findings {
				if f.Says == "" || f.Because == "" {
					k.fail("%s says %q because %q", f.Rule, f.Says, f.Because)
				}
			}
		}},
}

var (
	figures   = regexp.MustCompile(figure)
	badJSON   = regexp.MustCompile(`:-0(\.0+)?[,}]|NaN|Inf\b`)
	badNumber = regexp.MustCompile(`(?i)\bnan\b|\b[+-]?inf\b|\binfinity\b|\b0/0\b|<no value>|(^|[^0-9.])-0(\.0+)?($|[^0-9.])`)
	fromTo    = regexp.MustCompile(`([-−]?\d+(?:\.\d+)?)((?: ?(?:%|psi|bar|kPa|MPa|kgf/cm2|kgf/cm²|min|ml))?)(?: to |–| - )(\d+(?:\.\d+)?)((?: ?(?:%|psi|bar|kPa|MPa|kgf/cm2|kgf/cm²|min|ml))?)`)
)

// noNumber gives what stands in the place of a number, or a range that is none.
func noNumber(text string) string {
	if m := badNumber.FindString(text); m != "" {
		return m
	}
	for _, m := range fromTo.FindAllStringSubmatch(text, -1) {
		if m[1] == m[3] && (m[2] == m[4] || m[2] == "") {
			return m[0]
		}
	}
	return ""
}

func sumsFollow(s *subject, k *tally) {
	c := s.out.Compression
	var values []float64
	for _, one := range c.Cylinders {
		if one.Dry == nil {
			continue
		}
		if one.Kind == "at least" {
			return
		}
		values = append(values, *one.Dry)
		if n := len(one.DryReadings); n > 0 {
			sum := 0.0
			for _, v := range one.DryReadings {
				sum += v
			}
			if math.Abs(sum/float64(n)-*one.Dry) > 1e-6**one.Dry+1e-9 {
				k.fail("%s reads %v, the mean of %v is %v", one.Cylinder, *one.Dry, one.DryReadings, sum/float64(n))
			}
		}
		if one.Wet != nil && one.WetRise != nil && math.Abs(*one.Wet-*one.Dry-*one.WetRise) > 1e-6 {
			k.fail("%s rises by %v from %v to %v", one.Cylinder, *one.WetRise, *one.Dry, *one.Wet)
		}
	}
	if len(values) < 2 || c.Highest == nil || c.Lowest == nil {
		return
	}
	k.saw()
	high, low := slices.Max(values), slices.Min(values)
	near := func(what string, got *float64, want, off float64) {
		if got == nil || math.Abs(*got-want) > off {
			k.fail("%s is %v, expected %v of %v", what, show(got), want, values)
		}
	}
	near("highest", c.Highest, high, 1e-6*high)
	near("lowest", c.Lowest, low, 1e-6*high)
	near("difference", c.Difference, high-low, 1e-6*high+1e-9)
	if high > 0 {
		near("spread", c.Spread, 100*(high-low)/high, 0.051)
		for _, one := range c.Cylinders {
			if one.Dry != nil && one.PercentOfHighest != nil {
				near("percent of highest of "+one.Cylinder, one.PercentOfHighest, 100**one.Dry/high, 0.051)
			}
		}
	}
}

func show(v *float64) any {
	if v == nil {
		return nil
	}
	return *v
}

const figure = `(\d+(?:\.\d+)?)`

// Sentences with numbers of which one follows from the others.
var (
	percentOfBest = regexp.MustCompile(`It reads ` + figure + ` \S+; the others? reads? (?:` + figure + ` to )?` + figure + ` \S+\. That is ` + figure + ` % of the best`)
	firstOfLast   = regexp.MustCompile(`gave ` + figure + ` \S+ and its last ` + figure + ` [^.]+\. The first is ` + figure + ` %`)
	roseFromTo    = regexp.MustCompile(`rose by (?:only )?` + figure + ` \S+, from ` + figure + ` \S+ to ` + figure + ` `)
	hoseOnOff     = regexp.MustCompile(`Hose on ` + figure + ` \S+, off ` + figure)
	riseOf        = regexp.MustCompile(`rise ` + figure)
	fellFromTo    = regexp.MustCompile(`From ` + figure + ` (\S+) to ` + figure + ` \S+ in .*(?:down|fall|fell by) ` + figure)
)

func wordsFollow(s *subject, k *tally) {
	for _, one := range s.out.said() {
		if m := percentOfBest.FindStringSubmatch(one.text); m != nil {
			k.saw()
			percentFollows(k, one, m[1], m[3], m[4])
		}
		if m := firstOfLast.FindStringSubmatch(one.text); m != nil {
			k.saw()
			percentFollows(k, one, m[1], m[2], m[3])
		}
		if m := roseFromTo.FindStringSubmatch(one.text); m != nil {
			k.saw()
			if math.Abs(number(m[3])-number(m[2])-number(m[1])) > 1e-6 {
				k.fail("%s: from %s to %s is not %s: %q", one.at, m[2], m[3], m[1], one.text)
			}
		}
		if m := fellFromTo.FindStringSubmatch(one.text); m != nil {
			k.saw()
			if math.Abs(math.Abs(number(m[1])-number(m[3]))-number(m[4])) > 1e-6 {
				k.fail("%s: %q", one.at, one.text)
			}
		}
	}
	for _, f := range s.out.Findings {
		m, r := hoseOnOff.FindStringSubmatch(f.Because), riseOf.FindStringSubmatch(f.Says)
		if m == nil || r == nil {
			continue
		}
		k.saw()
		if math.Abs(number(m[2])-number(m[1])-number(r[1])) > 1e-6 {
			k.fail("%s: rise %s, hose on %s and off %s", f.Rule, r[1], m[1], m[2])
		}
	}
}

func number(text string) float64 {
	v, _ := strconv.ParseFloat(text, 64)
	return v
}

// percentFollows checks a percentage against the two figures printed beside it.
func percentFollows(k *tally, one sentence, part, whole, percent string) {
	_, after, _ := strings.Cut(percent, ".")
	want := 100 * number(part) / number(whole)
	if half := 0.5*math.Pow10(-len(after)) + 1e-9; math.Abs(want-number(percent)) > half {
		k.fail("%s: %s of %s is %.2f %%, not %s: %q", one.at, part, whole, want, percent, one.text)
	}
}

// pressureIn finds pressures in each unit.
var pressureIn = map[string]*regexp.Regexp{}

func init() {
	for unit := range perPSI {
		pressureIn[unit] = regexp.MustCompile(`(?:^| )` + figure + ` ` + regexp.QuoteMeta(unit) + `($|[^a-z0-9/(])`)
	}
}

// pressuresAreKnown looks for every pressure that a finding of the compression
// test names, in the unit of its section, among the readings, limits and sums
// there. Figures that the program knows by itself stand in two units.
func pressuresAreKnown(s *subject, k *tally) {
	c := s.out.Compression
	if c.State != "tested" || c.Unit == "" {
		return
	}
	var known []float64
	add := func(v *float64) {
		if v != nil {
			known = append(known, *v)
		}
	}
	for _, one := range c.Cylinders {
		add(one.Dry)
		add(one.Wet)
		add(one.WetRise)
		known = append(known, one.DryReadings...)
		for _, m := range figures.FindAllString(one.Entered, -1) {
			known = append(known, number(m))
		}
	}
	for _, v := range []*float64{c.Highest, c.Lowest, c.Mean, c.Difference} {
		add(v)
	}
	for _, l := range c.Limits {
		add(l.Limit)
		add(l.Value)
		add(l.U)
	}
	if c.Expected != nil {
		add(c.Expected.Low)
		add(c.Expected.High)
	}
	for _, one := range c.Cylinders { // what it lost since the work
		for _, name := range s.names() {
			if then := s.tree.text("before", "compression", "dry", name); then != "" && one.Dry != nil {
				known = append(known, number(then)-*one.Dry)
			}
		}
	}
	written := s.tree.String()
	pattern := pressureIn[c.Unit]
	for _, f := range s.out.Findings {
		if strings.HasPrefix(f.Rule, "one-") || strings.HasPrefix(f.Rule, "all-low") || strings.HasPrefix(f.Rule, "below-") || strings.HasSuffix(f.Rule, "-low") {
			k.saw()
			for _, m := range pattern.FindAllStringSubmatch(f.Because+" ", -1) {
				v := number(m[1])
				_, after, _ := strings.Cut(m[1], ".")
				half := 0.5*math.Pow10(-len(after)) + 1e-9
				ok := slices.ContainsFunc(known, func(w float64) bool { return math.Abs(v-w) <= half })
				rest := f.Because[strings.Index(f.Because, m[1]):]
				twoUnits := strings.HasPrefix(rest, m[1]+" "+c.Unit+" (")
				uncertain := slices.ContainsFunc([]string{"U ", "may be ", "allowing ", "by ", "over ", "under ", "about "}, func(word string) bool { return strings.Contains(f.Because, word+m[1]) })
				if !ok && !twoUnits && !uncertain && !strings.Contains(written, m[1]) {
					k.fail("%s names %s %s, which is no reading, limit or sum: %q", f.Rule, m[1], c.Unit, f.Because)
				}
			}
		}
	}
}

func asEntered(s *subject, k *tally) {
	for _, c := range s.out.Compression.Cylinders {
		text := s.tree.text("compression", "dry", c.Cylinder)
		if list := s.tree.texts("compression", "dry", c.Cylinder); list != nil {
			text = "[" + strings.Join(list, ", ") + "]"
		}
		if text == "" || c.State != "tested" {
			continue
		}
		k.saw()
		if c.Entered != text {
			k.fail("%s was entered as %q and is given as %q", c.Cylinder, text, c.Entered)
		}
	}
	for _, c := range s.out.Leakage.Cylinders {
		text := s.tree.text("leakage", "dry", c.Cylinder)
		if t := s.tree.text("leakage", "dry", c.Cylinder, "loss"); t != "" {
			text = t
		}
		if text != "" && c.Loss != nil && c.Entered != text {
			k.fail("the leakage of %s was entered as %q and is given as %q", c.Cylinder, text, c.Entered)
		}
	}
	for _, r := range s.out.FuelPressure.Readings {
		path := []string{"fuel-pressure", r.Name}
		if r.Circuit != "" {
			path = []string{"fuel-pressure", "circuits", r.Circuit, r.Name}
		}
		if text := s.tree.text(path...); text != "" && r.Entered != text {
			k.fail("fuel pressure %s was entered as %q and is given as %q", r.Name, text, r.Entered)
		}
	}
}

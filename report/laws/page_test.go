package laws_test

import (
	"regexp"
	"slices"
	"strings"

	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/sheet"
)

// pageShare is the share of the jobs that are drawn: one in so many, each on
// one kind of sheet, because drawing is slow.
const pageShare = 16

var kinds = []string{"customer", "workshop", "invoice", "pre-purchase"}

// A page is the words of a drawn sheet.
type page struct {
	kind   string
	text   string            // all of it, block after block
	blocks map[string]string // by the last part of a block's name
}

// draw gives the words of a job's sheet, the lines of a block joined.
func (s *subject) draw(kind string) (*page, error) {
	drawn, err := sheet.New(s.job, s.d, sheet.Options{Kind: kind, Version: "test"})
	if err != nil {
		return nil, err
	}
	rec := record.New(face.Metrics())
	drawn.Draw(rec)
	p := &page{kind: kind, blocks: map[string]string{}}
	var all strings.Builder
	for _, t := range rec.Texts() {
		words := strings.ReplaceAll(t.String, "\u00a0", " ") + " "
		all.WriteString(words)
		for _, name := range strings.Split(t.Block, "/") {
			p.blocks[name] += words
		}
	}
	p.text = joinLines(all.String())
	for name, text := range p.blocks {
		p.blocks[name] = joinLines(text)
	}
	return p, nil
}

// joinLines is a text with one space between words, whatever the lines.
func joinLines(text string) string { return strings.Join(strings.Fields(text), " ") }

// asks is what the page asks for: its verdict and its checks.
func (p *page) asks() string {
	var parts []string
	for name, text := range p.blocks {
		if name == "next-check" || name == "plan" || name == "verdict" {
			parts = append(parts, answersApart.Replace(text))
		}
	}
	slices.Sort(parts)
	return strings.Join(parts, ". ")
}

// answersApart sets the verdict's three answers, which stand side by side, apart as sentences.
var answersApart = strings.NewReplacer("What next", ". What next", "How sure", ". How sure")

var printedRunning = regexp.MustCompile(`(?i)run the engine|engine running|compression test|working temperature|starter|test (these |them )?again`)

// runsFirst asks, outside the next check, for an engine that runs.
var runsFirst = regexp.MustCompile(`(?i)after it has run warm|run warm and test|run the engine and test|set, run, retest`)

var pageLaws = []law{
	{name: "T2 tick", least: 4, says: "an engine is called proven, and has a tick, only where every main test was made and within, the pressure is enough, nothing is complained of and it did not stand", check: tickNeedsReason},
	{name: "page drawn", least: 100, every: pageShare, says: "a sheet is drawn, on which words, cautions and what the shop wrote are as the laws say", check: onPage},
	{name: "page S1", least: 8, every: pageShare, says: "S1 for the printed words", check: printed(func(s *subject, p *page, k *tally) {
		if s.out.Verdict.Urgency != doNotRun {
			return
		}
		k.saw()
		if c := finds(p.blocks["next-check"], printedRunning); c != "" && !strings.Contains(c, "leak") {
			k.fail("the %s sheet asks %q", p.kind, c)
		}
		for _, name := range []string{"findings", "stories", "verdict", "notices"} {
			if m := runsFirst.FindString(p.blocks[name]); m != "" {
				k.fail("the %s of the %s sheet ask for %q", name, p.kind, m)
			}
		}
		if !strings.Contains(strings.ToLower(p.text), "until") && !strings.Contains(strings.ToLower(p.text), "do not crank") {
			k.fail("the %s sheet does not say that it must not be run", p.kind)
		}
	})},
	{name: "page S2 S3", least: 30, every: pageShare, says: "S2 and S3 for the printed words", check: printed(func(s *subject, p *page, k *tally) {
		what := s.oilTells()
		if what == "" {
			return
		}
		k.saw()
		if c := finds(p.asks(), oilWords); c != "" && !oilRemoval.MatchString(c) {
			k.fail("the %s sheet says %q of %s", p.kind, c, what)
		}
	})},
	{name: "page T2 tick", least: 40, every: pageShare, says: "no reassurance stands beside a complaint or an engine that stood", check: printed(func(s *subject, p *page, k *tally) {
		stood := s.tree.text("vehicle", "stood")
		if len(s.complaints()) == 0 && (stood == "" || strings.Contains(stood, "week")) {
			return
		}
		k.saw()
		if m := nothingWords.FindString(p.blocks["verdict"]); m != "" {
			k.fail("the %s sheet says %q to %v %s", p.kind, m, s.complaints(), s.tree.text("vehicle", "stood"))
		}
	})},
	{name: "page N1", least: 100, every: pageShare, says: "no Inf, NaN, minus zero or '6 % to 6 %' on paper", check: printed(func(s *subject, p *page, k *tally) {
		k.saw()
		for name, text := range p.blocks {
			if name == "identity" || name == "head" || name == "method" || name == "foot" || name == "spread" || name == "engine" || strings.Contains(name, "own") { // the user's own words and axes
				continue
			}
			if m := badNumber.FindString(text); m != "" {
				k.fail("the block %s of the %s sheet has %q", name, p.kind, m)
			}
			if name == "findings" || name == "verdict" || name == "notices" {
				if m := noNumber(text); m != "" {
					k.fail("the block %s of the %s sheet has %q", name, p.kind, m)
				}
			}
		}
	})},
	{name: "page N2 as entered", least: 80, every: pageShare, says: "readings stand on the page as they were entered", check: printed(enteredOnPage)},
	{name: "page N3 recommended, declined, disclaimer", least: 30, every: pageShare / 2, says: "recommended, declined and disclaimer are on every sheet, at least their first words", check: printed(ownWordsOnPage)},
	{name: "page N3 notes, work, codes", least: 40, every: pageShare, says: "notes, work done, codes, photos and the technician's findings are on every sheet, or it names what it left out", check: printed(restOnPage)},
	{name: "page says what the JSON says", least: 100, every: pageShare, says: "the verdict, the next check and every caution of the JSON stand on the job's own sheet", check: samePage},
}

func tickNeedsReason(s *subject, k *tally) {
	if !s.out.Verdict.Proven {
		return
	}
	k.saw()
	if s.out.Verdict.Urgency != noAction || len(s.complaints()) > 0 || s.tree.text("engine", "runs") == "does not run" {
		k.fail("urgency %s, complaints %v, runs %s", s.out.Verdict.Urgency, s.complaints(), s.tree.text("engine", "runs"))
	}
	if stood := s.tree.text("vehicle", "stood"); stood != "" && !strings.Contains(stood, "week") {
		k.fail("it stood %s", stood)
	}
	for _, test := range mainTests {
		if word := s.tree.text(test); word != "" && !strings.HasPrefix(word, "not applicable") {
			k.fail("%s is %q", test, word)
		}
	}
	for what, complete := range map[string]*bool{"compression": s.out.Compression.Complete, "rotors": s.out.Rotors.Complete} {
		if complete != nil && !*complete {
			k.fail("%s is not complete", what)
		}
	}
	for _, l := range slices.Concat(s.out.Compression.Limits, s.out.Rotors.Limits) {
		if l.Verdict == "outside" || l.Verdict == "too close to call" && l.Rule == "minimum" {
			k.fail("%s is %s", l.Rule, l.Verdict)
		}
	}
	for _, r := range s.out.FuelPressure.Readings {
		if r.Verdict == "outside" || r.Verdict == "too close to call" {
			k.fail("fuel pressure %s is %s", r.Name, r.Verdict)
		}
	}
	if len(s.dry()) > 0 && !s.enough() {
		k.fail("nothing says that %v psi is enough", s.dry())
	}
}

// printed is a law on the drawn page, on one kind of sheet after the other.
func printed(law func(*subject, *page, *tally)) func(*subject, *tally) {
	return func(s *subject, k *tally) {
		p, err := s.page(kinds[s.seed/pageShare%uint64(len(kinds))])
		if err == nil { // a page too full is a law of its own
			law(s, p, k)
		}
	}
}

// page draws a job once for all laws.
func (s *subject) page(kind string) (*page, error) {
	if s.drawn == nil {
		s.drawn = map[string]*page{}
	}
	if p := s.drawn[kind]; p != nil {
		return p, nil
	}
	p, err := s.draw(kind)
	if err == nil {
		s.drawn[kind] = p
	}
	return p, err
}

func onPage(s *subject, k *tally) {
	k.saw()
	if _, err := s.page(kinds[s.seed/pageShare%uint64(len(kinds))]); err != nil {
		k.fail("%v", err)
	}
}

// beginning is the first few words of a text, as a page prints them.
func beginning(text string, words int) string {
	fields := strings.Fields(text)
	return strings.Join(fields[:min(words, len(fields))], " ")
}

func ownWordsOnPage(s *subject, p *page, k *tally) {
	for _, key := range []string{"recommended", "declined"} {
		for _, text := range s.tree.texts(key) {
			k.saw()
			if !strings.Contains(p.text, beginning(text, 2)) {
				k.fail("%s %q is not on the %s sheet", key, text, p.kind)
			}
		}
	}
	if text := s.tree.text("shop", "disclaimer"); text != "" {
		k.saw()
		if !strings.Contains(p.text, beginning(text, 2)) {
			k.fail("the disclaimer %q is not on the %s sheet", text, p.kind)
		}
	}
}

var leftOut = regexp.MustCompile(`(?i)left out|not shown here|no room|not printed here|on the workshop sheet|in the job file`)

func restOnPage(s *subject, p *page, k *tally) {
	texts := map[string][]string{
		"notes": {s.tree.text("notes")}, "work-done": s.tree.texts("vehicle", "work-done"), "codes": s.tree.texts("vehicle", "codes"), "findings": s.tree.texts("findings"),
		"stood": {s.tree.text("vehicle", "stood")}, "reason": {s.tree.text("job", "reason")}, "method": {s.tree.text("conditions", "method")},
	}
	if list, _ := s.tree.get("photos").([]any); len(list) > 0 {
		photo, _ := list[0].(*tree)
		texts["photos"] = []string{photo.text("shows")}
	}
	for key, list := range texts {
		for _, text := range list {
			if text == "" {
				continue
			}
			k.saw()
			if !strings.Contains(strings.ToLower(p.text), strings.ToLower(beginning(text, 2))) && !leftOut.MatchString(p.text) {
				k.fail("%s %q is not on the %s sheet, and it does not say that it is left out", key, text, p.kind)
			}
		}
	}
}

func enteredOnPage(s *subject, p *page, k *tally) {
	page := strings.NewReplacer("–", "-", "²", "2").Replace(p.text)
	for _, c := range s.out.Compression.Cylinders {
		text := s.tree.text("compression", "dry", c.Cylinder)
		if text == "" || c.State != "tested" {
			continue
		}
		k.saw()
		text = strings.TrimSuffix(text, " "+c.Entered)
		for _, word := range strings.Fields(text) {
			if word == "about" || word == "over" || word == "pressure" || word == "no" {
				continue
			}
			if !strings.Contains(page, strings.TrimSuffix(word, "+")) {
				k.fail("%s was entered as %q, and %q is not on the %s sheet", c.Cylinder, text, word, p.kind)
				break
			}
		}
		if strings.HasSuffix(text, "+") || strings.HasPrefix(text, "over ") {
			figure := strings.TrimSuffix(strings.TrimPrefix(text, "over "), "+")
			if !strings.Contains(page, figure+"+") && !strings.Contains(page, "over "+figure) && !strings.Contains(page, "≥"+figure) && !strings.Contains(page, "> "+figure) {
				k.fail("%s was entered as %q, and the %s sheet does not print it as a bound", c.Cylinder, text, p.kind)
			}
		}
	}
	for _, c := range s.out.Leakage.Cylinders {
		if text := s.tree.text("leakage", "dry", c.Cylinder, "loss"); text != "" && c.Loss != nil {
			figure := strings.TrimSuffix(strings.TrimPrefix(text, "over "), " %")
			if !strings.Contains(page, figure) || strings.HasPrefix(text, "over ") && !strings.Contains(page, "over "+figure) && !strings.Contains(page, figure+"+") && !strings.Contains(page, figure+" %+") {
				k.fail("the leakage of %s was entered as %q and does not stand so on the %s sheet", c.Cylinder, text, p.kind)
			}
		}
	}
}

// samePage compares the job's own sheet with its JSON: both speak to the same
// reader.
func samePage(s *subject, k *tally) {
	kind := s.tree.text("sheet")
	p, err := s.page(kind)
	if err != nil {
		return
	}
	k.saw()
	bare := func(text string) string {
		return strings.Join(strings.Fields(strings.NewReplacer("\u00a0", " ", "-", " ", "–", " ", "²", "2").Replace(text)), " ")
	}
	text := bare(p.text)
	if !strings.Contains(text, bare(s.out.Verdict.Sentence)) {
		k.fail("the verdict %q is not on the %s sheet", s.out.Verdict.Sentence, kind)
	}
	if c := s.out.Verdict.NextCheck; c != nil && kind != "invoice" && !strings.Contains(text, bare(beginning(c.Do, 5))) {
		k.fail("the next check %q is not on the %s sheet", c.Do, kind)
	}
}

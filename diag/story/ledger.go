package story

import (
	"cmp"
	"slices"
	"sync"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// shownCauses is how many causes a story gives; beyond three nobody acts on
// the list.
const shownCauses = 3

// A ledger sums what speaks for and against each cause of one story.
type ledger struct {
	c  *known.Case
	of int // cylinders of the story, 1 where it is about none
	// ownHeads: none of them share a head, so that no gasket is common to them.
	ownHeads  bool
	accounts  []account // of every cause, in the order in which they were brought in
	brought   cause.Set // these causes
	entries   []diag.Entry
	entered   []entered
	heard     []answer // what answers have said already
	urgent    []string // the rules of the most urgent findings, once they are known
	lesser    []string // those of others that do not come near them
	stops     string   // the rule of liquid in a cylinder, or of oil that is not there, which comes before whatever else is wrong; "" for none
	elsewhere []string // the rules that speak of other cylinders than those that stop the engine
	sighted   bool     // what stops the engine was seen
	gauged    bool     // among the most urgent are pressures of cylinders
	kept      bool     // checks have denied all of its causes
	ranked    []string // the causes in order; nil until asked for and after every voice
}

// An account is what was entered for one cause.
type account struct {
	cause string
	net   int
	kinds []heaviest // what speaks for it, by the kind of test
	at    []string   // cylinders that speak for it by more than what is common
}

// noAccount is that of a cause for which nothing was entered, to be read alone.
var noAccount = &account{}

// account gives what was entered for a cause, an empty one where nothing was; it
// stands where it is until another cause is brought in.
func (b *ledger) account(name string) *account {
	for i := range b.accounts {
		if a := &b.accounts[i]; a.cause == name {
			return a
		}
	}
	return noAccount
}

// open gives the account of a cause, a new one where nothing was entered so far.
func (b *ledger) open(k *cause.Cause) *account {
	if a := b.account(k.Name); a != noAccount {
		return a
	}
	if n := len(b.accounts); n < cap(b.accounts) { // one that was put back
		b.accounts = b.accounts[:n+1]
		b.accounts[n] = account{cause: k.Name, kinds: b.accounts[n].kinds[:0]}
	} else {
		b.accounts = append(b.accounts, account{cause: k.Name})
	}
	b.brought.AddCause(k)
	return &b.accounts[len(b.accounts)-1]
}

// ledgers are those that nobody reads any more, to be written in anew: most are of
// trials.
var ledgers = sync.Pool{New: func() any {
	return &ledger{accounts: make([]account, 0, 16), entries: make([]diag.Entry, 0, 48)}
}}

// newLedger is an empty one for a story of so many cylinders.
func newLedger(c *known.Case, of int, ownHeads bool) *ledger {
	b := ledgers.Get().(*ledger)
	*b = ledger{c: c, of: max(of, 1), ownHeads: ownHeads, accounts: b.accounts[:0], entries: b.entries[:0], entered: b.entered[:0], heard: b.heard[:0], urgent: b.urgent[:0], lesser: b.lesser[:0]}
	return b
}

// putBack gives the ledger of a story that was told to the next one.
func (s *story) putBack() {
	if s.book != nil {
		s.book.c = nil
		ledgers.Put(s.book)
		s.book = nil
	}
}

// net is what speaks for a cause less what speaks against it.
func (b *ledger) net(name string) int { return b.account(name).net }

// knows reports a cause of which something was entered.
func (b *ledger) knows(name string) bool { return b.account(name) != noAccount }

// entered is a rule of which the voices were entered for cylinders.
type entered struct {
	by string
	at []string
}

// heaviest is the greatest weight with which a kind of test speaks for a cause.
type heaviest struct {
	kind   rule.Kind
	weight int
}

// heaviest is the greatest weight with which a kind of test speaks for a cause,
// 0 where it does not.
func (b *ledger) heaviest(name string, kind rule.Kind) int {
	for _, h := range b.account(name).kinds {
		if h.kind == kind {
			return h.weight
		}
	}
	return 0
}

// heavier enters a voice's weight among those of a cause.
func heavier(list []heaviest, voice heaviest) []heaviest {
	for i := range list {
		if list[i].kind == voice.kind {
			list[i].weight = max(list[i].weight, voice.weight)
			return list
		}
	}
	return append(list, voice)
}

// weigh enters every voice on the subject of a story: those of its rules, the
// signs, and the answers of checks that were made.
func (s *story) weigh(c *known.Case) *ledger {
	b := newLedger(c, len(s.Cylinders), c.OwnHeads(s.everyCylinder()) && !c.LosesCoolant())
	for _, m := range s.members {
		if !m.given {
			b.enter(m.rule, m.subject)
		}
	}
	b.signs(s, nil)
	b.answers(s)
	b.renewed(s)
	b.keepLeast()
	return b
}

// signs enters what the signs say, but for causes of which they have been asked before.
func (b *ledger) signs(s *story, asked *cause.Set) {
	each := b.c.ByItself(s.ofCylinders())
	signs := signs()
	for i := range signs {
		if g := &signs[i]; b.hears(g) {
			b.sign(g, s, each, asked)
		}
	}
}

// keepLeast keeps the causes that are denied least where checks have denied all
// of a story, or readings what was seen: a check can miss, and what was found or
// seen has a reason. What speaks
// against them stands beside them, so that they are never sure.
func (b *ledger) keepLeast() {
	denied := slices.ContainsFunc(b.entries, func(e diag.Entry) bool {
		return e.Kind == string(rule.OfCheck) && e.Weight < 0 || e.Kind == string(rule.OfSight) && e.Weight >= rule.Heard
	})
	if !denied || slices.ContainsFunc(b.accounts, func(a account) bool { return a.net > 0 }) {
		return
	}
	spoken := func(a account) bool {
		return slices.ContainsFunc(b.entries, func(e diag.Entry) bool { return e.Cause == a.cause && e.Weight > 0 })
	}
	most, any := 0, false
	for _, a := range b.accounts {
		if spoken(a) && (!any || a.net > most) {
			most, any = a.net, true
		}
	}
	for i := range b.accounts {
		if a := &b.accounts[i]; spoken(*a) && a.net == most {
			a.net = 1
		}
	}
	b.ranked, b.kept = nil, true
}

// everyCylinder are the cylinders on which a story's findings are.
func (s *story) everyCylinder() []string {
	names := slices.Clone(s.Cylinders)
	for _, m := range s.members {
		names = appendNew(names, m.subject.Cylinders)
	}
	return names
}

// ofCylinders are the cylinders that a story is about, or of a story of the whole
// engine those on which its findings are.
func (s *story) ofCylinders() []string {
	if s.About != diag.AboutEngine {
		return s.Cylinders
	}
	var names []string
	for _, m := range s.members {
		if m.rule.About == diag.AboutCylinders {
			names = appendNew(names, m.subject.Cylinders)
		}
	}
	return names
}

// appendNew appends the names that are not there yet.
func appendNew(names, more []string) []string {
	for _, n := range more {
		if !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return names
}

func (b *ledger) enter(r *rule.Rule, subject known.Subject) {
	b.hear(r, subject, r.For)
	b.hear(r, subject, r.Against)
	if r.Weigh != nil {
		b.weigh(r, subject)
	}
	b.entered = append(b.entered, entered{r.Name, subject.Cylinders})
}

// weigh enters the voices that depend on the subject. Of a rule that is asked of
// every cylinder by itself each gives its own, so that the first does not speak
// for the others; what several say alike is entered once, for all of them.
func (b *ledger) weigh(r *rule.Rule, subject known.Subject) {
	if !r.Of.Each || len(subject.Cylinders) < 2 {
		b.hear(r, subject, r.Weigh(b.c, subject))
		return
	}
	var said []alike
	for _, one := range b.c.ByItself(subject.Cylinders) {
		for _, v := range r.Weigh(b.c, one) {
			i := slices.IndexFunc(said, func(a alike) bool { return a.voice[0] == v && a.by[len(a.by)-1] != one.Name() })
			if i < 0 {
				i, said = len(said), append(said, alike{voice: []rule.Voice{v}})
			}
			said[i].by = append(said[i].by, one.Name())
		}
	}
	slices.SortStableFunc(said, func(a, b alike) int { return cmp.Compare(b.voice[0].Weight, a.voice[0].Weight) })
	for _, a := range said {
		b.hear(r, known.Subject{Cylinders: a.by}, a.voice)
		b.entered = append(b.entered, entered{r.Name, a.by})
	}
}

// alike is a voice that a rule gives for several cylinders.
type alike struct {
	voice []rule.Voice // one
	by    []string
}

func (b *ledger) hear(r *rule.Rule, subject known.Subject, voices []rule.Voice) {
	for _, v := range voices {
		// What cylinders share is not the likelier for being said of two sets.
		if v.Weight > 0 && cause.Shared(v.Cause) && b.said(r.Name, v.Cause, subject.Cylinders) {
			continue
		}
		b.add(v, b.read(cmp.Or(v.Kind, r.Kind), subject.Cylinders), r.Name, subject.Cylinders)
	}
}

// read is a kind of test as far as it was made: a rule that joins several kinds
// may speak of a cylinder on which its own was not, and then speaks for none.
func (b *ledger) read(kind rule.Kind, at []string) rule.Kind {
	needs := readings[kind]
	if len(needs) > 0 && !slices.ContainsFunc(needs, b.c.Has) {
		return ""
	}
	if kind == rule.OfLeakage && len(at) > 0 && !slices.ContainsFunc(at, func(n string) bool { return b.c.Leak(n) != nil }) {
		return ""
	}
	return kind
}

// said reports a voice of a rule for a cause that was entered for other
// cylinders already.
func (b *ledger) said(by, cause string, at []string) bool {
	before := slices.ContainsFunc(b.entered, func(e entered) bool { return e.by == by && !slices.Equal(e.at, at) })
	return before && slices.ContainsFunc(b.entries, func(e diag.Entry) bool { return e.By == by && e.Cause == cause && e.Weight > 0 })
}

// sign enters a sign that holds: of the story, or of its cylinders, each by itself.
func (b *ledger) sign(g *sign, s *story, each []known.Subject, asked *cause.Set) {
	if len(g.Among) > 0 && (s.About == diag.AboutCylinders || !slices.ContainsFunc(g.Among, b.knows)) {
		return
	}
	ofEach := g.About == string(diag.AboutCylinders) && (s.About == diag.AboutCylinders || s.About == diag.AboutEngine)
	if !ofEach && g.About != "any" && (g.About != string(s.About) || s.About == diag.AboutCylinders) || !b.c.Opens(&g.gate) {
		return
	}
	var at []string
	if ofEach {
		for _, one := range each {
			if g.When.HoldsFor(b.c, one) {
				at = append(at, one.Name())
			}
		}
		if len(at) == 0 {
			return
		}
	} else if !g.When.HoldsFor(b.c, known.Subject{Cylinders: s.Cylinders, Circuit: s.circuit()}) {
		return
	}
	for _, v := range g.Voices() {
		if b.minds(v) && (asked == nil || !asked.Has(v.Cause)) {
			b.add(v, v.Kind, g.Words(), at)
		}
	}
}

// proof is the weight of a fault that a check showed, and of one that it would
// have shown where it is there: who looked, and wrote down what there was, knows
// more than any reading from which it is guessed.
const proof = 2 * rule.Heard

// minds reports a voice of a sign that counts: a sign weighs among the causes
// that a pattern brought in or that it speaks for strongly enough to bring in
// itself.
func (b *ledger) minds(v rule.Voice) bool {
	return v.Weight >= rule.Known || b.knows(v.Cause)
}

// A sign is one of package rule with the causes of which one has to be in a story
// for any of its voices to count; what it asks need not be asked where none does.
type sign struct {
	*rule.Sign
	gate  known.Gate
	among cause.Set
}

var signs = sync.OnceValue(func() []sign {
	all := rule.Signs()
	list := make([]sign, len(all))
	for i := range all {
		list[i].Sign = &all[i]
		list[i].gate = known.Gate{Needs: all[i].Needs, When: &all[i].When, Place: i, Of: len(all)}
		for _, v := range all[i].Voices() {
			list[i].among.Add(v.Cause)
		}
	}
	return list
})

// hears reports a sign of which any voice counts.
func (b *ledger) hears(g *sign) bool { return g.Brings() || g.among.Meets(&b.brought) }

// mostLone is in how many cylinders that leak alike there may be a fault that befalls one
// by itself: judgement, no source.
const mostLone = 2

// add enters a voice. What holds for some of the story's cylinders only counts
// for that part, except for a cause that they share.
func (b *ledger) add(v rule.Voice, kind rule.Kind, by string, at []string) {
	k := cause.Named(v.Cause)
	if k == nil {
		return
	}
	if as := k.Meant(b.c); as != k {
		if b.spokenOf(by, as.Name) { // several voices of a rule are of one cause here
			return
		}
		k, v.Cause = as, as.Name
	}
	if part := cause.MostlyIn(b.c, v.Cause); part != "" { // which has every voice, and the rest of it fewer
		b.add(rule.Voice{Cause: part, Weight: v.Weight, Kind: v.Kind, Says: v.Says}, kind, by, at)
		if v.Weight > 0 {
			v.Weight -= v.Weight / 5
		}
	}
	if !k.FitsIn(b.c) || b.ownHeads && cause.OfHead(v.Cause) && v.Weight < rule.Heard {
		return
	}
	b.ranked = nil
	weight := v.Weight
	if len(at) > 0 && len(at) < b.of && !k.IsShared() {
		weight = weight * len(at) / b.of
		if 2*len(at) < b.of { // what was found of one of four does not speak against the four
			v.Says = ""
		}
	}
	if len(at) > mostLone && weight > 0 && kind == rule.OfLeakage && k.Lone {
		weight /= len(at)
	}
	of := b.open(k)
	of.net += weight
	if weight > 0 {
		of.kinds = heavier(of.kinds, heaviest{kind, v.Weight})
		if v.Weight > 50 {
			of.at = appendNew(of.at, at)
		}
	}
	b.entries = append(b.entries, diag.Entry{Cause: v.Cause, Weight: weight, Kind: string(kind), By: by, Against: v.Says, At: at})
}

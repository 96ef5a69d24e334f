package sheet

import (
	"gaugesheet/diag"
	"gaugesheet/layout/figure"
)

// howUrgent is the first answer.
func (v *view) howUrgent() figure.Answer {
	key := string(v.d.Urgency)
	switch {
	case v.d.Urgency != diag.NoAction:
	case v.d.Withheld || v.lead() == nil:
		key = "unknown"
	case v.d.Proven:
		key = "nothing"
	}
	why := "urgent.why." + key
	occasion := why + "." + v.occasion()
	if v.d.Next == nil {
		why = v.ifThere(why, why+".no-check")
		if v.repair() != "" {
			why = v.ifThere(why, "urgent.repair."+key)
		}
	}
	said := v.optional(occasion, v.label(why))
	warns := v.words.UrgentUntil(v.d)
	if warns != "" {
		said = onPage(warns)
	}
	return figure.Answer{Question: v.label("ask.urgent"), Word: v.label("urgent.word." + key), Why: said, WithWhy: warns != ""}
}

// occasion is what the sheet is asked for, where that changes its words; a test that has
// to be made again is one whatever the sheet, as its readings bear no decision yet.
func (v *view) occasion() string {
	switch lead := v.lead(); {
	case v.sheet.Occasion != "":
		return v.sheet.Occasion
	case v.test.History.ForBuyer:
		return "purchase"
	case lead != nil && lead.About == diag.AboutTest:
		return "test"
	}
	return ""
}

// ifThere is the other label where there are words for it.
func (v *view) ifThere(key, other string) string {
	if v.words.Has("labels", other) {
		return other
	}
	return key
}

// whatNext is the second answer: the check in the box, or why there is none.
func (v *view) whatNext() figure.Answer {
	a := figure.Answer{Question: v.label("ask.next")}
	if next := v.d.Next; next != nil {
		said, err := v.words.CheckBriefly(*next, v.sheet.Audience)
		v.keep("", err)
		a.Word = onPage(said.Name)
		a.Why = onPage(said.For)
		return a
	}
	key := "none"
	switch {
	case v.d.Withheld || v.lead() == nil:
		key = "unknown"
	case v.repair() != "":
		a.Word, a.Why = v.optional("next.word.repair."+v.sheet.Occasion, v.label("next.word.repair")), v.repair()
		return a
	case v.d.Urgency != diag.NoAction:
		key = "nothing-left"
	}
	a.Word, a.Why = v.label("next.word."+key), v.label("next.why."+key)
	return a
}

// repair is what is done about what leads, "" where that is not known yet.
func (v *view) repair() string {
	lead := v.lead()
	if lead == nil || lead.Repair == "" {
		return ""
	}
	return v.label("repair."+lead.Repair, "Cylinders", diag.Names(lead.Cylinders))
}

// howSure is the third answer, and why.
func (v *view) howSure() figure.Answer {
	a := figure.Answer{Question: v.label("ask.sure")}
	lead := v.lead()
	if lead == nil || v.d.Withheld || lead.Confidence == "" {
		a.Word, a.Why = v.label("sure.word.unknown"), v.label("sure.why.unknown")
		return a
	}
	a.Word, a.Sure = v.label("sure.word."+string(lead.Confidence)), squares[lead.Confidence]
	a.Why = v.sureBecause(lead)
	return a
}

// squares are how many of three squares are filled.
var squares = map[diag.Confidence]int{diag.Weak: 1, diag.Fair: 2, diag.Strong: 3}

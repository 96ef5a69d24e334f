package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// ownWords is on what a customer tells in words of which the program knows none.
var ownWords = []Rule{{
	Name: "told-in-own-words", Title: "Something is told of which no word is known", Class: Elsewhere, About: diag.AboutEngine,
	Why: "Whoever came with something wanted it answered. What no word of the program's stands for is not understood, and is no less wrong for that: the sheet says it back as it was told, " +
		"and that nothing here answers it.",
	Source: "common practice, no source",
	Of:     theEngine, When: known.OfEngine("a complaint in words of which none is known", func(c *known.Case) bool { return len(c.OwnWords()) > 0 }),
	Kind: OfHistory, Say: func(c *known.Case, _ known.Subject) diag.Finding {
		return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Facts: diag.Facts{"told": diag.Names(c.OwnWords())}}
	}, Headline: "told-in-own-words",
}}

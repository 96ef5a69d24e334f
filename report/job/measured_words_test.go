package job

import (
	"testing"

	"gaugesheet/templates"
)

// Every reading and every choice of a further test has its words for the page.
func TestFurtherTestsHaveTheirWords(t *testing.T) {
	words, err := templates.Words("en")
	if err != nil {
		t.Fatal(err)
	}
	need := func(label string) {
		if !words.Has("labels", label) {
			t.Errorf("templates/words has no label '%s'", label)
		}
	}
	var walk func(section, group string, keys []key)
	walk = func(section, group string, keys []key) {
		for _, k := range keys {
			if k.name == "unit" || k.name == "limits" { // said with the readings
				continue
			}
			name := joinName(group, k.name)
			switch k.form {
			case asGroup, asByBank:
				walk(section, name, k.keys)
			case asWord, asText, asYesNo, asAllTexts:
				need("ticked." + section + " " + name)
				for _, w := range k.words {
					need("tick." + w)
				}
			case asMeasured, asReadings, asAtSpeeds, asAtTimes:
				need("measured." + section + " " + name)
			}
		}
	}
	for _, s := range measuredSections {
		need("kind." + s.name)
		need("system." + s.name)
		walk(s.name, "", s.keys)
	}
}

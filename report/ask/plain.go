package ask

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/report/job"
)

// plainTopics ask for the further tests of a job file that have no topic among
// those that were written for the bench: key by key, in the words of the file's
// own help.
func plainTopics(written []topic) []topic {
	var out []topic
	for _, section := range job.FurtherTests() {
		if !slices.ContainsFunc(written, func(t topic) bool { return t.section == section }) {
			out = append(out, plainTopic(section))
		}
	}
	return out
}

func plainTopic(section string) topic {
	return topic{section: section, say: strings.ReplaceAll(section, "-", " "), questions: func(*Session) []*question {
		return plainQuestions(section, section, keyAt(section).Keys)
	}}
}

// plainQuestions ask for each key below a path, readings in the unit of their
// section where it has one.
func plainQuestions(section, path string, keys []job.Key) []*question {
	unit := ""
	if k := keyAt(section + ".unit"); len(k.Words) > 0 {
		unit = " " + k.Words[0].Name
	}
	var out []*question
	for _, k := range keys {
		at, say := path+"."+k.Name, strings.TrimSuffix(k.Doc, ".")
		switch {
		case k.Name == "unit" || k.Name == "before" || k.As != "": // asked for with the readings, and of the other test
		case k.ByCylinder:
			out = append(out, each(section, at, say))
		case len(k.Keys) > 0:
			out = append(out, plainQuestions(section, at, k.Keys)...)
		case len(k.Words) > 0:
			out = append(out, word(at, say))
		case unit != "" && strings.Trim(k.Example, "0123456789.") == "" && !strings.Contains(path, ".limits"):
			out = append(out, line(section, say, cmp.Or(k.Example, "12")+unit, field{at, say}))
		default:
			out = append(out, text(at, say))
		}
	}
	return out
}

package cli

import (
	"fmt"
	"strings"

	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// helpJob says what the job file can hold: all of it, or a key with what
// stands below it.
func (c *Command) helpJob(args []string) error {
	var b strings.Builder
	if len(args) == 0 {
		b.WriteString(jobIntroduction)
		for _, k := range job.Keys() {
			b.WriteString("\n")
			writeKey(&b, k, "", "")
		}
		return c.write([]byte(b.String()))
	}
	k, err := keyNamed(args[0])
	if err != nil {
		return err
	}
	writeKey(&b, k, "", args[0])
	return c.write([]byte(b.String()))
}

const jobIntroduction = `The job file: every key in the order of the bench, with the words that it takes
and an example. Only 'engine' and one set of readings are needed.

Two spaces further in stands what belongs under a key. A number takes its
section's unit or brings its own: 160, 11.2 bar, about 155, 150-155, over 300.
For no reading write: not tested, could not test (why), declined. Readings by
cylinder are {1: 160, 2: 158}, or a list for all of them in numerical order.
`

// writeKey writes one key with those below it. The name is what it is called
// where that is more than its own.
func writeKey(b *strings.Builder, k job.Key, indent, name string) {
	if name == "" {
		name = k.Name
	}
	b.WriteString(hanging(indent+name+"  ", k.Doc))
	in := indent + "    "
	if len(k.Words) > 0 {
		b.WriteString(hanging(in, wordsOf(k)))
	}
	if k.InsteadOf != "" && !strings.HasPrefix(k.Doc, "Instead of") {
		b.WriteString(in + "instead of '" + k.InsteadOf + "'\n")
	}
	if k.Example != "" {
		b.WriteString(in + k.Name + ": " + k.Example + "\n")
	}
	if k.As != "" {
		b.WriteString(in + "its keys: as under " + k.As + "\n")
	}
	for _, sub := range k.Keys {
		writeKey(b, sub, indent+"  ", "")
	}
}

// wordsOf lists the words of a key, with others that are taken for them.
func wordsOf(k job.Key) string {
	parts := make([]string, len(k.Words))
	for i, w := range k.Words {
		parts[i] = w.Name
		if strings.Contains(w.Name, ",") {
			parts[i] = "'" + w.Name + "'"
		}
		if len(w.Also) > 0 {
			parts[i] += " (also " + strings.Join(w.Usual(), ", ") + ")"
		}
	}
	return k.Written + ": " + strings.Join(parts, " | ")
}

// keyNamed finds a key by its path, 'compression.dry'; one that only one
// section has by its name alone.
func keyNamed(path string) (job.Key, error) {
	keys, found := job.Keys(), job.Key{}
	for part := range strings.SplitSeq(strings.ReplaceAll(strings.TrimSuffix(path, ":"), "/", "."), ".") {
		var names []string
		found = job.Key{}
		for _, k := range keys {
			names = append(names, k.Name)
			if strings.EqualFold(k.Name, part) {
				found = k
			}
		}
		if found.Name == "" {
			return job.Key{}, unknownKey(part, path, names)
		}
		keys = found.Keys
	}
	return found, nil
}

func unknownKey(part, path string, names []string) error {
	f := wrongUse("the job file has no key '%s'", path)
	for _, known := range keyPaths() {
		if strings.HasSuffix(known, "."+part) {
			return f.withHint("did you mean '%s'?", known)
		}
	}
	if near := templates.Nearest(part, names); near != "" {
		return f.withHint("did you mean '%s'?", near)
	}
	return f.withHint("'gaugesheet help job' lists the keys")
}

// keyPaths are the paths of all keys.
func keyPaths() []string {
	var paths []string
	var add func(keys []job.Key, before string)
	add = func(keys []job.Key, before string) {
		for _, k := range keys {
			paths = append(paths, before+k.Name)
			add(k.Keys, before+k.Name+".")
		}
	}
	add(job.Keys(), "")
	return paths
}

// keysAsManual writes the keys for the manual page of the job file.
func keysAsManual(b *strings.Builder, keys []job.Key) {
	for _, k := range keys {
		fmt.Fprintf(b, ".TP\n.B %s\n%s\n", roff(k.Name), roff(k.Doc))
		for _, line := range []string{joined(len(k.Words) > 0, wordsOf(k)), joined(k.Example != "", k.Name+": "+k.Example),
			joined(k.As != "", "Its keys: as under "+k.As+".")} {
			if line != "" {
				fmt.Fprintf(b, ".br\n%s\n", roff(line))
			}
		}
		if len(k.Keys) > 0 {
			b.WriteString(".RS\n")
			keysAsManual(b, k.Keys)
			b.WriteString(".RE\n")
		}
	}
}

// joined is the text where there is something to say.
func joined(there bool, text string) string {
	if there {
		return text
	}
	return ""
}

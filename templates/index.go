package templates

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"
)

// sections are the kinds of words, as the files have them.
var sections = []string{"findings", "notices", "causes", "against", "doubts", "steps", "verdicts", "cautions", "labels"}

// An item is one entry of a catalogue as it stands in its file. A page says a
// tenth of what the files hold, and reading YAML is slow: an item is read when
// it is first said.
type item struct {
	file  string
	line  int
	lines string // the entry's lines
	once  sync.Once
	value any
	err   error
}

// index notes where each entry of a file stands. Sections begin in the first
// column, entries two columns in, and what belongs to an entry stands deeper.
func (c *Catalogue) index(name, data string) error {
	var section map[string]*item
	var open *item
	var title string
	number, start, end := 0, 0, 0
	finish := func() {
		if open != nil {
			open.lines = data[start:end]
		}
	}
	for line := range strings.Lines(data) {
		number++
		place := func() string { return fmt.Sprintf("%s:%d", name, number) }
		body := strings.TrimRight(line, "\r\n ")
		switch indent := len(body) - len(strings.TrimLeft(body, " ")); {
		case body == "" || strings.TrimSpace(body)[0] == '#' && indent <= 2:
		case indent == 0:
			finish()
			title = strings.TrimSuffix(body, ":")
			if section = c.sections[title]; section == nil {
				return fmt.Errorf("%s: unexpected section %q", place(), body)
			}
			open = nil
		case section == nil || indent == 1:
			return fmt.Errorf("%s: expected a section before %q", place(), body)
		case indent == 2:
			key, _, ok := strings.Cut(body[2:], ":")
			if !ok || section[key] != nil {
				return fmt.Errorf("%s: %s: %q is no key, or stands twice", place(), title, body[2:])
			}
			finish()
			start, open = end, &item{file: name, line: number}
			section[key] = open
		case open == nil:
			return fmt.Errorf("%s: expected a key before %q", place(), body)
		}
		end += len(line)
	}
	finish()
	return nil
}

// lookup reads an entry; it is not ok where the catalogue has none.
func lookup[T any](c *Catalogue, section, key string) (value T, ok bool, err error) {
	it := c.sections[section][key]
	if it == nil {
		return value, false, nil
	}
	it.once.Do(func() {
		var one map[string]T
		if err := yaml.Unmarshal([]byte(it.lines), &one); err != nil {
			it.err = fmt.Errorf("%s:%d: %w", it.file, it.line, err)
			return
		}
		it.value = one[key]
	})
	if it.err != nil {
		return value, true, it.err
	}
	return it.value.(T), true, nil
}

// Keys are the entries of a section, sorted.
func (c *Catalogue) Keys(section string) []string { return sorted(c.sections[section]) }

// Has reports whether the catalogue has an entry in a section ("findings",
// "notices", "causes", "against", "doubts", "steps", "verdicts",
// "cautions", "labels").
func (c *Catalogue) Has(section, key string) bool { return c.sections[section][key] != nil }

func sorted[T any](m map[string]T) []string { return slices.Sorted(maps.Keys(m)) }

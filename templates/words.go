// Package templates holds what is on the sheets without being drawn (which blocks
// go on which sheet, sheets/*.yaml, and the words in which findings, notices,
// checks and cautions are said, words/LANGUAGE/*.yaml), and knows the names and
// facts of a diagnosis, but no rule and no block. All of it is
// embedded. A language is a folder, or a file of terms that take the place of
// another's (words/en-GB.yaml), so that adding one changes no code.
package templates

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"sort"
	"strings"
	"sync"
	"text/template"

	"gopkg.in/yaml.v3"

	"gaugesheet/diag"
)

//go:embed words sheets
var files embed.FS

// An Audience is who reads the words: the owner of the engine, or the next
// mechanic.
type Audience uint8

// The audiences.
const (
	Customer Audience = iota
	Workshop
)

// A Catalogue is the words of one language. It is safe for concurrent use.
type Catalogue struct {
	Language string

	sections map[string]map[string]*item
	reword   func(string) string // what is done to every text before facts are put in; nil for nothing
	chambers diag.Chambers       // what it speaks of: cylinders, the only one, or rotors
	funcs    template.FuncMap
}

// Of is the catalogue as it speaks of an engine: of cylinders, of the only one, or of the
// rotors of a rotary engine.
func (c *Catalogue) Of(chambers diag.Chambers) *Catalogue {
	if chambers == c.chambers {
		return c
	}
	of := *c
	of.chambers = chambers
	of.funcs = of.wordFuncs()
	return &of
}

// entry is one text for each audience; a plain text in the file serves both.
type entry[T any] struct{ Customer, Workshop T }

func (e entry[T]) of(a Audience) T {
	if a == Workshop {
		return e.Workshop
	}
	return e.Customer
}

// UnmarshalYAML takes a mapping with customer and workshop, or one text for both.
func (e *entry[T]) UnmarshalYAML(node *yaml.Node) error {
	if node.Kind == yaml.MappingNode && has(node, "customer") {
		var both struct{ Customer, Workshop T }
		if err := decodeStrict(node, []string{"customer", "workshop"}, &both); err != nil {
			return err
		}
		e.Customer, e.Workshop = both.Customer, both.Workshop
		return nil
	}
	if err := node.Decode(&e.Customer); err != nil {
		return err
	}
	e.Workshop = e.Customer
	return nil
}

type findingText struct {
	Says, Because text
}

// UnmarshalYAML takes a mapping of exactly says and because.
func (f *findingText) UnmarshalYAML(node *yaml.Node) error {
	type plain findingText
	return decodeStrict(node, []string{"says", "because"}, (*plain)(f))
}

// text is a sentence with places for facts, compiled when it is first said.
type text struct{ source *source }

type source struct {
	name, body string
	said       [diag.KindsOfChambers]compiled // as it speaks of each kind of chambers
}

// compiled is a text ready to be said: in the words of its language and, where
// it has places, as a template.
type compiled struct {
	once     sync.Once
	plain    string
	template *template.Template
	parts    []part // of a text that needs no template
	err      error
}

// UnmarshalYAML takes a scalar.
func (t *text) UnmarshalYAML(node *yaml.Node) error {
	if node.Kind != yaml.ScalarNode || node.Tag == "!!null" {
		return fmt.Errorf("line %d: expected a text", node.Line)
	}
	t.source = &source{name: fmt.Sprintf("line %d", node.Line), body: strings.TrimSpace(node.Value)}
	return nil
}

func (t text) empty() bool { return t.source == nil || t.source.body == "" }

// say puts the facts in their places, in the catalogue that the text is of. A
// text without places costs next to nothing.
func (c *Catalogue) say(t text, facts map[string]any) (string, error) {
	if t.empty() {
		return "", nil
	}
	of := &t.source.said[c.chambers]
	of.once.Do(func() { of.compile(t.source, c) })
	if of.err != nil || of.template == nil {
		return of.plain, of.err
	}
	var b strings.Builder
	if len(of.parts) > 0 && c.put(&b, of.parts, facts) {
		return b.String(), nil
	}
	b.Reset()
	if err := of.template.Execute(&b, facts); err != nil {
		return "", err
	}
	return b.String(), nil
}

func (of *compiled) compile(s *source, c *Catalogue) {
	if !strings.Contains(s.body, "{{") {
		of.plain = s.body
		if c.reword != nil {
			of.plain = c.reword(s.body)
		}
		return
	}
	of.template, of.err = template.New(s.name).Option("missingkey=error").Funcs(c.funcs).Parse(s.body)
	if of.err == nil && c.reword != nil {
		rewordTree(of.template.Root, c.reword)
	}
	if of.err == nil {
		of.parts, _ = partsOf(of.template.Root)
	}
}

var catalogues sync.Map // language -> func() (*Catalogue, error)

// Words gives the catalogue of a language ("en"). It is read once.
func Words(language string) (*Catalogue, error) {
	load, _ := catalogues.LoadOrStore(language, sync.OnceValues(func() (*Catalogue, error) { return readWords(language) }))
	return load.(func() (*Catalogue, error))()
}

// Reworded gives a language's catalogue with every text of it put through a
// function, before facts are put in their places.
func Reworded(language string, reword func(string) string) (*Catalogue, error) {
	c, err := readWords(language)
	if err != nil {
		return nil, err
	}
	if own := c.reword; own != nil {
		c.reword = func(s string) string { return reword(own(s)) }
	} else {
		c.reword = reword
	}
	return c, nil
}

// Files name the language whose sentences are American as such.
const (
	english  = "en"
	american = "en-US"
)

// Tag is how files name a language of Languages (a tag of BCP 47).
func Tag(language string) string {
	if language == english {
		return american
	}
	return language
}

// Tagged is the language that a file names, "" where there is none such.
func Tagged(tag string) string {
	if tag == american {
		return english
	}
	if slices.Contains(Languages(), tag) {
		return tag
	}
	return ""
}

// Languages are the languages that have a catalogue.
func Languages() []string {
	entries, err := fs.ReadDir(files, "words")
	if err != nil {
		return nil
	}
	var names []string
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ".yaml"))
	}
	sort.Strings(names)
	return names
}

func readWords(language string) (*Catalogue, error) {
	if !slices.Contains(Languages(), language) {
		return nil, fmt.Errorf("no words for the language %q; there are: %s", language, strings.Join(Languages(), ", "))
	}
	c := &Catalogue{Language: language, sections: map[string]map[string]*item{}}
	c.funcs = c.wordFuncs()
	folder := language
	if data, err := files.ReadFile("words/" + language + ".yaml"); err == nil {
		over, err := readTerms(data)
		if err != nil {
			return nil, fmt.Errorf("words/%s.yaml: %w", language, err)
		}
		folder, c.reword = over.Sentences, over.reword
	}
	names, err := fs.Glob(files, "words/"+folder+"/*.yaml")
	if err != nil || len(names) == 0 {
		return nil, fmt.Errorf("the language %q has no sentences", language)
	}
	for _, section := range sections {
		c.sections[section] = map[string]*item{}
	}
	for _, name := range names {
		data, err := files.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if err := c.index(name, string(data)); err != nil {
			return nil, err
		}
	}
	return c, nil
}

func has(node *yaml.Node, key string) bool {
	for i := 0; i+1 < len(node.Content); i += 2 {
		if node.Content[i].Value == key {
			return true
		}
	}
	return false
}

// decodeStrict decodes a mapping that must have every key of need and may have
// those of extra, and no other.
func decodeStrict(node *yaml.Node, need []string, into any, extra ...string) error {
	if node.Kind != yaml.MappingNode {
		return fmt.Errorf("line %d: expected keys %s", node.Line, strings.Join(append(need, extra...), ", "))
	}
	known := map[string]bool{}
	for _, k := range append(append([]string{}, need...), extra...) {
		known[k] = true
	}
	for i := 0; i+1 < len(node.Content); i += 2 {
		if !known[node.Content[i].Value] {
			return fmt.Errorf("line %d: unexpected key %q", node.Content[i].Line, node.Content[i].Value)
		}
	}
	for _, k := range need {
		if !has(node, k) {
			return fmt.Errorf("line %d: the key %q is missing", node.Line, k)
		}
	}
	return node.Decode(into)
}

package templates

import (
	"fmt"
	"slices"
	"strings"
	"text/template/parse"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// terms are a language that shares another's sentences and has its own terms:
// British English says inlet where American says intake. They are put into the
// sentences as the catalogue has them, never into a finished text, so that what
// stands in a job file is left as it was written.
type terms struct {
	Sentences string            // the language whose sentences they are
	Terms     map[string]string // a word or words of that language, and what is said instead

	byFirst map[string][]string // the terms that begin with a word, longest first
}

func readTerms(data []byte) (*terms, error) {
	var t terms
	if err := yaml.Unmarshal(data, &t); err != nil {
		return nil, err
	}
	t.byFirst = map[string][]string{}
	for term, instead := range t.Terms {
		if t.Terms[instead] != "" && instead != term {
			return nil, fmt.Errorf("%q becomes %q, which is a term itself", term, instead)
		}
		first := firstWord(term)
		t.byFirst[first] = append(t.byFirst[first], term)
	}
	for _, list := range t.byFirst {
		slices.SortFunc(list, func(a, b string) int { return len(b) - len(a) })
	}
	return &t, nil
}

// reword puts the terms into a text: whole words only, the longest term that
// fits, with a capital where the text has one that is not the term's own.
func (t *terms) reword(text string) string {
	var b strings.Builder
	for text != "" {
		word := firstWord(text)
		if word == "" {
			_, size := utf8.DecodeRuneInString(text)
			b.WriteString(text[:size])
			text = text[size:]
			continue
		}
		said, size := word, len(word)
		for _, term := range t.termsAt(word) {
			if n := begins(text, term); n > 0 {
				said, size = t.Terms[term], n
				if startsUpper(word) && (!startsUpper(term) || b.Len() == 0 || strings.HasSuffix(b.String(), ". ")) {
					said = capital(said)
				}
				break
			}
		}
		b.WriteString(said)
		text = text[size:]
	}
	return b.String()
}

func startsUpper(s string) bool {
	first, _ := utf8.DecodeRuneInString(s)
	return unicode.IsUpper(first)
}

// termsAt are the terms that begin with a word, as it stands or with a small
// letter.
func (t *terms) termsAt(word string) []string {
	if list, ok := t.byFirst[word]; ok {
		return list
	}
	first, size := utf8.DecodeRuneInString(word)
	return t.byFirst[string(unicode.ToLower(first))+word[size:]]
}

// firstWord is the word that a text begins with; "" where it begins with none.
func firstWord(text string) string {
	if end := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }); end >= 0 {
		return text[:end]
	}
	return text
}

// begins gives how many bytes of a text are the term that it begins with, 0
// where it does not. A space of the term is any space of the text.
func begins(text, term string) int {
	rest, first := text, true
	for _, want := range term {
		r, size := utf8.DecodeRuneInString(rest)
		same := r == want || first && unicode.ToLower(r) == want || want == ' ' && unicode.IsSpace(r)
		if size == 0 || !same {
			return 0
		}
		rest, first = rest[size:], false
	}
	if next, _ := utf8.DecodeRuneInString(rest); unicode.IsLetter(next) {
		return 0
	}
	return len(text) - len(rest)
}

// saidByCall are the functions of templates that print texts which they are
// given, and from which argument on.
var saidByCall = map[string]int{"plural": 2, "where": 2}

// rewordTree puts the texts of a template through a function: what stands
// between its places, and what its calls are given to print. Texts that a place
// compares with are names, and stay.
func rewordTree(node parse.Node, reword func(string) string) {
	switch n := node.(type) {
	case *parse.ListNode:
		if n == nil {
			return
		}
		for _, one := range n.Nodes {
			rewordTree(one, reword)
		}
	case *parse.TextNode:
		n.Text = []byte(reword(string(n.Text)))
	case *parse.ActionNode:
		rewordTree(n.Pipe, reword)
	case *parse.PipeNode:
		for _, command := range n.Cmds {
			rewordTree(command, reword)
		}
	case *parse.CommandNode:
		name, ok := n.Args[0].(*parse.IdentifierNode)
		from, says := 0, false
		if ok {
			from, says = saidByCall[name.Ident]
		}
		for i, arg := range n.Args {
			if text, ok := arg.(*parse.StringNode); ok && says && i >= from {
				text.Text = reword(text.Text)
			} else if pipe, ok := arg.(*parse.PipeNode); ok {
				rewordTree(pipe, reword)
			}
		}
	case *parse.IfNode:
		rewordBranch(&n.BranchNode, reword)
	case *parse.RangeNode:
		rewordBranch(&n.BranchNode, reword)
	case *parse.WithNode:
		rewordBranch(&n.BranchNode, reword)
	}
}

func rewordBranch(n *parse.BranchNode, reword func(string) string) {
	rewordTree(n.Pipe, reword)
	rewordTree(n.List, reword)
	rewordTree(n.ElseList, reword)
}

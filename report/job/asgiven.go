package job

import (
	"bytes"
	"encoding/json"
)

// An Object is a JSON object whose keys keep their order.
type Object []Member

// A Member is one key of an Object.
type Member struct {
	Key   string
	Value any
}

// MarshalJSON writes the keys in order.
func (o Object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(m.Key)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(m.Value)
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// AsGiven is the file as a tree for JSON: keys and words as in the file and in
// its order, numbers with the digits they were written with, dates as texts.
func (j *Job) AsGiven() any { return asGiven(j.root) }

var jsonNumber = lazily(`^-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?$`)

func asGiven(n *node) any {
	switch n.kind {
	case mapping:
		out := make(Object, 0, len(n.entries))
		for _, e := range n.entries {
			out = append(out, Member{e.key, asGiven(e.value)})
		}
		return out
	case list:
		out := make([]any, 0, len(n.items))
		for _, item := range n.items {
			out = append(out, asGiven(item))
		}
		return out
	}
	switch {
	case n.null:
		return nil
	case n.plain && (n.tag == "!!int" || n.tag == "!!float") && jsonNumber().MatchString(n.text):
		return json.Number(n.text)
	case n.plain && n.tag == "!!bool":
		return n.text == "true" || n.text == "True" || n.text == "TRUE"
	}
	return n.text
}

package conform

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// An operation is an operator of the page's content with what stands before it:
// numbers as float64, names as string with their slash, strings as []byte,
// dictionaries as the text between their brackets.
type operation struct {
	name string
	args []any
}

// operations takes a content apart (ISO 32000-1, 7.8.2).
func operations(data []byte) ([]operation, error) {
	var ops []operation
	var args []any
	for at := 0; at < len(data); {
		switch c := data[at]; {
		case strings.IndexByte(" \t\r\n\f\x00", c) >= 0:
			at++
		case c == '(':
			s, next, err := literal(data, at)
			if err != nil {
				return nil, err
			}
			args, at = append(args, s), next
		case c == '[' || c == ']':
			at++ // only dashes and pieces of text stand in arrays
		case bytes.HasPrefix(data[at:], []byte("<<")):
			end := bytes.Index(data[at:], []byte(">>"))
			if end < 0 {
				return nil, fmt.Errorf("a dictionary without end")
			}
			args, at = append(args, string(data[at+2:at+end])), at+end+2
		default:
			end := at + 1
			for end < len(data) && strings.IndexByte(" \t\r\n\f\x00()<>[]/", data[end]) < 0 {
				end++
			}
			word := string(data[at:end])
			at = end
			if n, err := strconv.ParseFloat(word, 64); err == nil {
				args = append(args, n)
			} else if word[0] == '/' {
				args = append(args, word)
			} else {
				ops, args = append(ops, operation{word, args}), nil
			}
		}
	}
	return ops, nil
}

// literal reads a string in parentheses.
func literal(data []byte, at int) (s []byte, next int, err error) {
	depth := 0
	for ; at < len(data); at++ {
		switch c := data[at]; c {
		case '(':
			if depth++; depth > 1 {
				s = append(s, c)
			}
		case ')':
			if depth--; depth == 0 {
				return s, at + 1, nil
			}
			s = append(s, c)
		case '\\':
			at++
			if at >= len(data) {
				return nil, at, fmt.Errorf("a string without end")
			}
			if i := strings.IndexByte("nrtbf", data[at]); i >= 0 {
				s = append(s, "\n\r\t\b\f"[i])
			} else if data[at] >= '0' && data[at] <= '7' {
				n := 0
				for k := 0; k < 3 && at < len(data) && data[at] >= '0' && data[at] <= '7'; k++ {
					n = 8*n + int(data[at]-'0')
					at++
				}
				at--
				s = append(s, byte(n))
			} else {
				s = append(s, data[at])
			}
		default:
			s = append(s, c)
		}
	}
	return nil, at, fmt.Errorf("a string without end")
}

// Package readings is what each section says of a cylinder as columns of values,
// one table that the page, the terminal and whoever else prints readings take
// theirs from; it knows no words and no pages. A column's heading is
// the label "column." with its key.
package readings

import (
	"math"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// A Column is one thing that is said of every cylinder of a section.
type Column struct {
	Key     string // of its heading
	Numbers bool   // else words
	Of      func(cylinder string) Value
}

// A Value is what a column says of one cylinder. The zero Value says nothing.
type Value struct {
	Text string // a number as printed, or the job file's own words

	// Terms are words of one of the program's lists ("grade", "look", "air-at",
	// "state"), to be said as the reader has them.
	List   string
	Terms  []string
	Reason string // of a state, in the job file's words
}

// Said reports a value that says something.
func (v Value) Said() bool { return v.Text != "" || len(v.Terms) > 0 }

// State is the state that stands in place of a reading, "" where there is a
// reading.
func (v Value) State() diag.State {
	if v.List != "state" || len(v.Terms) == 0 {
		return ""
	}
	return diag.State(v.Terms[0])
}

// String is the value with the lists' own words.
func (v Value) String() string {
	s := v.Text
	if len(v.Terms) > 0 {
		s = strings.Join(v.Terms, ", ")
	}
	if v.Reason != "" {
		s += " (" + v.Reason + ")"
	}
	return s
}

// Used are the columns that say something of one of the cylinders.
func Used(columns []Column, cylinders []string) []Column {
	var used []Column
	for _, c := range columns {
		for _, name := range cylinders {
			if c.Of(name).Said() {
				used = append(used, c)
				break
			}
		}
	}
	return used
}

// Print prints a reading, or a limit on one, with its section's usual decimals
// or those that it has of its own.
func Print(value float64, decimals int) string {
	return quantity.Format(value, quantity.DecimalsRead(value, decimals))
}

// Printed is the number that Print writes: what a reader can reckon with.
func Printed(value float64, decimals int) float64 {
	v, err := strconv.ParseFloat(Print(value, decimals), 64)
	if err != nil {
		return value
	}
	return v
}

// Less is the difference of two readings as printed, to their last digit.
func Less(a, b float64, decimals int) (difference float64, digits int) {
	digits = max(quantity.DecimalsRead(a, decimals), quantity.DecimalsRead(b, decimals))
	return Printed(a, decimals) - Printed(b, decimals), digits
}

// Part is a reading in percent of another, both as printed.
func Part(value, of float64, decimals int) float64 {
	return 100 * Printed(value, decimals) / Printed(of, decimals)
}

// Signed prints a difference with its sign, and 0 without.
func Signed(value float64, decimals int) string {
	s := quantity.Format(math.Abs(value), decimals)
	switch {
	case strings.Trim(s, "0.") == "":
		return s
	case value < 0:
		return "\u2212" + s
	}
	return "+" + s
}

// Entered is an entry of the job file without the brackets of a list.
func Entered(text string) string { return strings.Trim(text, "[]") }

func term(list, word string) Value {
	if word == "" {
		return Value{}
	}
	return Value{List: list, Terms: []string{word}}
}

func state(s diag.State, reason string) Value {
	v := term("state", string(s))
	v.Reason = reason
	return v
}

func text(s string) Value { return Value{Text: s} }

func number(value *float64, decimals int) Value {
	if value == nil {
		return Value{}
	}
	return text(Print(*value, decimals))
}

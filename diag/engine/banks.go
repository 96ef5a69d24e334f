package engine

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// The two ways in which engines of two banks are commonly numbered.
const (
	AcrossBanks = "across banks" // 1 on the first bank, 2 opposite: 1-3-5-7 / 2-4-6-8
	BankByBank  = "bank by bank" // the first bank through, then the other: 1-2-3-4 / 5-6-7-8
)

// split deals names, in the order of the numbers, to the first and the second
// bank, each front to rear.
func split(names []string, numbering string) (first, second []string) {
	if numbering == BankByBank {
		return names[:len(names)/2], names[len(names)/2:]
	}
	for i, name := range names {
		if i%2 == 0 {
			first = append(first, name)
		} else {
			second = append(second, name)
		}
	}
	return first, second
}

// numbers gives "1".."n".
func numbers(n int) []string {
	names := make([]string, n)
	for i := range names {
		names[i] = strconv.Itoa(i + 1)
	}
	return names
}

// ownNames gives the cylinders' names in the order of their numbers, and
// whether they serve.
func (b *builder) ownNames() ([]string, bool) {
	n := b.layout.Count
	if len(b.spec.Names) == 0 {
		return numbers(n), true
	}
	names := trimAll(b.spec.Names)
	ok := b.checkNames("cylinders", names, same)
	if len(names) != n {
		b.report("cylinders", -1, fmt.Sprintf("%s has %d to name; %d names are given", b.layout, n, len(names)), "")
		ok = false
	}
	return names, ok
}

// checkNames reports empty and doubled names; index gives the element of the
// field in which the i-th name stands.
func (b *builder) checkNames(field string, names []string, index func(i int) int) bool {
	seen := map[string]bool{}
	ok := true
	for i, name := range names {
		switch {
		case name == "":
			b.report(field, index(i), "a cylinder without a name", "give it a number or a word")
			ok = false
		case seen[name]:
			b.report(field, index(i), fmt.Sprintf("cylinder %s is named twice", name), "every cylinder stands in one place")
			ok = false
		}
		seen[name] = true
	}
	return ok
}

func same(i int) int { return i }

func trimAll(names []string) []string {
	out := make([]string, len(names))
	for i, name := range names {
		out[i] = strings.TrimSpace(name)
	}
	return out
}

// oneBank gives the only bank of an inline, narrow V, radial or single engine.
func (b *builder) oneBank() (Bank, bool) {
	bank := Bank{Name: b.layout.Kind.bankName()}
	if len(b.spec.Banks) == 0 {
		var ok bool
		bank.Cylinders, ok = b.ownNames()
		return bank, ok
	}
	if len(b.spec.Banks) > 1 {
		hint := ""
		if b.layout.Kind == NarrowV {
			hint = "both rows share one head: list all cylinders in one bank, front to rear, as they alternate"
		}
		b.report("banks", 1, fmt.Sprintf("%s has one bank; %d are listed", b.layout, len(b.spec.Banks)), hint)
		return bank, false
	}
	bank.Cylinders = trimAll(b.spec.Banks[0].Cylinders)
	ok := b.checkNames("banks", bank.Cylinders, func(int) int { return 0 })
	if len(bank.Cylinders) != b.layout.Count {
		b.report("banks", 0, fmt.Sprintf("%s has %d cylinders; the bank lists %d", b.layout, b.layout.Count, len(bank.Cylinders)), "")
		ok = false
	}
	return bank, ok
}

// twoBanks gives the banks of a V, flat or W engine from whichever of banks,
// numbering with first bank, or names of sides was given.
func (b *builder) twoBanks() (banks []Bank, numbered, ok bool) {
	if len(b.spec.Banks) > 0 {
		banks, ok = b.listedBanks()
		if ok {
			ok = b.checkAgreement(banks)
		}
		return banks, true, ok
	}
	names, ok := b.ownNames()
	if sides, named := b.namedBySides(names); ok && named {
		return sides, true, b.checkSides("cylinders", sides)
	}
	if b.spec.Unnumbered && b.spec.Numbering == "" {
		return b.unnumberedBanks(), false, true
	}
	numbering, numberingOK := b.numbering()
	first, firstOK := b.firstBank()
	if !ok || !numberingOK || !firstOK {
		return nil, true, false
	}
	one, two := split(names, numbering)
	return []Bank{{first, one}, {opposite[first], two}}, true, true
}

// namedBySides takes the names of an engine of two cylinders as its banks
// where they say the sides: left and right, or front and rear.
func (b *builder) namedBySides(names []string) ([]Bank, bool) {
	if len(b.spec.Names) != 2 || len(names) != 2 || b.spec.Numbering != "" || b.spec.FirstBank != "" {
		return nil, false
	}
	one, two := parseSide(names[0]), parseSide(names[1])
	if one == "" || opposite[one] != two {
		return nil, false
	}
	return []Bank{{one, names[:1]}, {two, names[1:]}}, true
}

func (b *builder) unnumberedBanks() []Bank {
	first := left
	if isCrosswise(b.mount) {
		first = front
	}
	if side := parseSide(b.spec.FirstBank); side != "" {
		first = side
	}
	banks := []Bank{{Name: first}, {Name: opposite[first]}}
	for i := range banks {
		for n := range b.layout.Count / 2 {
			banks[i].Cylinders = append(banks[i].Cylinders, placeName(banks[i].Name, n))
		}
	}
	return banks
}

func (b *builder) numbering() (string, bool) {
	given := plainWords(b.spec.Numbering)
	switch given {
	case AcrossBanks, BankByBank:
		return given, true
	case "":
		// With one cylinder in each bank both numberings are the same.
		if b.layout.Count == 2 && b.spec.FirstBank != "" {
			return AcrossBanks, true
		}
		message := fmt.Sprintf("the numbering of the %s is not given, and it cannot be guessed: both ways are in use", b.layout)
		if b.layout.Count == 2 {
			message = fmt.Sprintf("where the cylinders of the %s are is not given, and it cannot be guessed", b.layout)
		}
		b.report("numbering", -1, message, b.numberingHint())
	default:
		b.report("numbering", -1, fmt.Sprintf("unknown numbering '%s'", b.spec.Numbering), b.numberingHint())
	}
	return "", false
}

// numberingHint spells out both numberings with this engine's own numbers.
func (b *builder) numberingHint() string {
	n := b.layout.Count
	first, second := left, right
	if isCrosswise(b.mount) {
		first, second = front, rear
	}
	if n == 2 {
		return fmt.Sprintf("either 'first-bank: %s' (or %s) for the bank of cylinder 1, or name the cylinders: 'banks: {%s: [%s], %s: [%s]}'",
			first, second, first, first, second, second)
	}
	show := func(numbering string) string {
		one, two := split(numbers(n), numbering)
		return strings.Join(one, "-") + " / " + strings.Join(two, "-")
	}
	one, two := split(numbers(n), AcrossBanks)
	return fmt.Sprintf("either 'numbering: %s' (%s) or 'numbering: %s' (%s), each with 'first-bank'; "+
		"or list the cylinders front to rear, such as 'banks: {%s: [%s], %s: [%s]}'; see the engine's manual",
		AcrossBanks, show(AcrossBanks), BankByBank, show(BankByBank),
		first, strings.Join(one, ", "), second, strings.Join(two, ", "))
}

func (b *builder) firstBank() (string, bool) {
	if b.spec.FirstBank == "" {
		if b.spec.Numbering != "" {
			b.report("first-bank", -1, "'numbering' is given but not the bank that cylinder 1 is on",
				"'first-bank': "+sideHint("", b.mount))
		}
		return "", false
	}
	if message, hint := sideProblem(b.spec.FirstBank, b.mount); message != "" {
		b.report("first-bank", -1, message, hint)
		return "", false
	}
	return parseSide(b.spec.FirstBank), true
}

// listedBanks reads banks as the user listed them.
func (b *builder) listedBanks() ([]Bank, bool) {
	var banks []Bank
	var all []string
	var bankOf []int
	for k, spec := range b.spec.Banks {
		bank := Bank{parseSide(spec.Name), trimAll(spec.Cylinders)}
		if bank.Name == "" {
			bank.Name = spec.Name
		}
		banks = append(banks, bank)
		for _, name := range bank.Cylinders {
			all = append(all, name)
			bankOf = append(bankOf, k)
		}
	}
	if len(banks) != 2 {
		b.report("banks", -1, fmt.Sprintf("%s has two banks; %d listed", b.layout, len(banks)), b.numberingHint())
		return nil, false
	}
	ok := b.checkSides("banks", banks)
	ok = b.checkNames("banks", all, func(i int) int { return bankOf[i] }) && ok
	for i, bank := range banks {
		if want := b.layout.Count / 2; len(bank.Cylinders) != want {
			b.report("banks", i, fmt.Sprintf("%s has %d in each bank; the %s bank lists %d", b.layout, want, bank.Name, len(bank.Cylinders)), "")
			ok = false
		}
	}
	return banks, ok
}

// checkSides reports banks that are not the two opposite sides of the vehicle.
func (b *builder) checkSides(field string, banks []Bank) bool {
	ok := true
	for i, bank := range banks {
		if message, hint := sideProblem(bank.Name, b.mount); message != "" {
			b.report(field, i, message, hint)
			ok = false
		}
	}
	if ok && opposite[banks[0].Name] != banks[1].Name {
		b.report(field, -1, fmt.Sprintf("banks %s and %s are not opposite sides", banks[0].Name, banks[1].Name),
			"left and right, or front and rear for a crosswise engine")
		ok = false
	}
	return ok
}

// checkAgreement compares listed banks with a numbering or first bank that
// was given as well: the list rules, but it must not be contradicted.
func (b *builder) checkAgreement(banks []Bank) bool {
	one := slices.IndexFunc(banks, func(bank Bank) bool { return slices.Contains(bank.Cylinders, "1") })
	ok := true
	if b.spec.FirstBank != "" {
		first, firstOK := b.firstBank()
		ok = firstOK
		if firstOK && (one < 0 || banks[one].Name != first) {
			b.report("first-bank", -1, fmt.Sprintf("'first-bank' says %s, but 'banks' does not list cylinder 1 there", first), "'banks' alone is enough")
			ok = false
		}
	}
	if b.spec.Numbering == "" {
		return ok
	}
	numbering, numberingOK := b.numbering()
	if !numberingOK {
		return false
	}
	first, second := split(numbers(b.layout.Count), numbering)
	if one < 0 || !slices.Equal(banks[one].Cylinders, first) || !slices.Equal(banks[1-one].Cylinders, second) {
		b.report("numbering", -1, fmt.Sprintf("'%s' means %s / %s, but 'banks' lists %s / %s", numbering,
			strings.Join(first, "-"), strings.Join(second, "-"),
			strings.Join(banks[0].Cylinders, "-"), strings.Join(banks[1].Cylinders, "-")), "'banks' alone is enough")
		return false
	}
	return ok
}

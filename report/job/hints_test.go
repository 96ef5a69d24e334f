package job

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// hinted finds what a hint says to type, in quotes or as one word.
var (
	hintedKey   = regexp.MustCompile(`(?:'([a-z][a-z-]*: [^']*)'|write ([a-z][a-z-]*: [^';]*?)(?:$|, if|;))`)
	hintedValue = regexp.MustCompile(`^(?:write |did you mean )(?:'([^']+)'|([^'",;:(){}\[\]?]+?)(?:$|\?|[,;(]| if | where | in | and | for | or |: ))`)
	inWordsOnly = regexp.MustCompile(`^(?:the|what|it|one|those|each|both|how)\b`)
	isAnswer    = regexp.MustCompile(`^'([a-z.-]+)(?:\.[^']*)?' is '([^']*)'`)
)

// TestHintsAreTaken follows every hint literally: where a message says what to
// type in the place of what was typed, that is taken there.
func TestHintsAreTaken(t *testing.T) {
	texts := map[string]string{}
	for _, r := range rows(t) {
		if r.mark == "??" {
			text, _ := in(r.frame, r.typed)
			texts[r.file+": "+r.about] = text
		}
	}
	files, _ := filepath.Glob("testdata/err/*.yaml")
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		texts[file] = string(data)
	}
	followed := 0
	for name, text := range texts {
		_, problems := typedOn.Read("job.yaml", []byte(text))
		for _, p := range problems {
			after, at, ok := follow(text, p)
			if !ok {
				continue
			}
			followed++
			_, then := typedOn.Read("job.yaml", []byte(after))
			for _, q := range then {
				if q.Line == p.Line && (q.Col == at || q.Message == p.Message) {
					t.Errorf("%s: '%s' is answered:\n  %s\n  hint: %s\nand that, followed, by\n  %s\n  hint: %s\n%s", name, typedLine(text, p.Line), p.Message, p.Hint, q.Message, q.Hint, typedLine(after, p.Line))
				}
			}
		}
	}
	if followed < 100 {
		t.Errorf("only %d hints could be followed", followed)
	}
	t.Log(followed)
}

// follow puts what a hint says in the place of what it answers, and gives the
// column from which it stands there.
func follow(text string, p Problem) (after string, at int, ok bool) {
	lines := strings.Split(text, "\n")
	m := isAnswer.FindStringSubmatch(p.Message)
	if p.Line < 1 || p.Line > len(lines) || m == nil || strings.Contains(m[2], "…") {
		return "", 0, false
	}
	line := []rune(lines[p.Line-1])
	from := p.Col - 1
	if from < 0 || from > len(line) || !strings.HasPrefix(string(line[from:]), m[2]) {
		return "", 0, false
	}
	before, behind := string(line[:from]), string(line[from:])[len(m[2]):]
	if strings.TrimSpace(behind) != "" && !strings.ContainsAny(behind[:1], ",}]") {
		return "", 0, false
	}
	start := strings.TrimRight(before, " ")
	for _, typed := range hintedKey.FindAllStringSubmatch(p.Hint, -1) {
		whole := typed[1] + typed[2]
		key, _, _ := strings.Cut(whole, ": ")
		if strings.Contains(whole, "...") || !strings.HasSuffix(start, key+":") || key == "notes" {
			continue
		}
		lines[p.Line-1] = strings.TrimSuffix(start, key+":") + whole + behind
		return strings.Join(lines, "\n"), p.Col, true
	}
	typed := hintedValue.FindStringSubmatch(p.Hint)
	if typed == nil || inWordsOnly.MatchString(typed[1]+typed[2]) || strings.Contains(typed[1], ": ") || strings.HasSuffix(typed[0], ": ") {
		return "", 0, false
	}
	value := strings.TrimSpace(typed[1] + typed[2])
	if strings.Contains(value, ", ") {
		value = `"` + value + `"`
	}
	lines[p.Line-1] = before + value + behind
	return strings.Join(lines, "\n"), p.Col, true
}

func typedLine(text string, line int) string {
	return strings.TrimSpace(strings.Split(text, "\n")[line-1])
}

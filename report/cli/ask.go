package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"unicode"

	"gaugesheet/diag/story"
	"gaugesheet/layout/face"
	"gaugesheet/report/ask"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// askFor asks for an engine's readings and writes the job file. Where -o names
// none it is called by the number of the job.
func (c *Command) askFor(engine, output string, force bool) error {
	if output != "" && output != standard {
		if err := mayReplace(output, force, nothing); err != nil {
			return err
		}
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	next := c.lines(ctx)
	place := output // whose folder the shop profile is looked for in
	if place == "" || place == standard {
		place = "job.yaml"
	}
	reader := job.Reader{Open: besides(place), HasGlyph: face.Metrics().Has, Today: c.today()}
	s := &ask.Session{Next: next, Out: visible{c.Stderr}, Reader: reader, Shop: profileFor(place), Echo: !isTerminalInput(c.Stdin)}
	r := s.Run(engine)
	if r.File == nil {
		c.complain("nothing was entered, and no file written")
		return nil
	}
	name, err := c.keepEntered(r, output, force)
	if err != nil {
		return err
	}
	c.tellEntered(r, name)
	switch {
	case r.Job == nil || name == standard:
		return nil
	case !r.Ended || ctx.Err() != nil:
		c.drawsIt(name)
		return nil
	}
	return c.offerSheet(name, next)
}

// drawsIt says how a sheet is drawn later.
func (c *Command) drawsIt(name string) {
	c.complain("'gaugesheet draw %s' draws it", filepath.ToSlash(name))
}

// lines gives the lines of standard input one by one, until it ends or the
// program is interrupted.
func (c *Command) lines(ctx context.Context) func() (string, error) {
	typed := make(chan string)
	go func() {
		defer close(typed)
		in := bufio.NewScanner(c.Stdin)
		for in.Scan() {
			typed <- in.Text()
		}
	}()
	return func() (string, error) {
		select {
		case line, ok := <-typed:
			if !ok {
				return "", io.EOF
			}
			return line, nil
		case <-ctx.Done():
			return "", ctx.Err()
		}
	}
}

// keepEntered writes the job file and gives its name.
func (c *Command) keepEntered(r ask.Result, output string, force bool) (string, error) {
	switch output {
	case standard:
		return standard, c.put(standard, r.File)
	case "":
		output = freeName(r)
	default:
		if err := mayReplace(output, force, nothing); err != nil {
			return "", err
		}
	}
	if err := c.put(output, r.File); err != nil {
		return "", err
	}
	return output, c.say("wrote %s", output)
}

// freeName names a job file by the number of its job, or where that is taken by
// that and a number behind it.
func freeName(r ask.Result) string {
	base := "job"
	if r.Job != nil {
		if number := asFileName(r.Job.Number.Value); number != "" {
			base = number
		}
	}
	name := base + ".yaml"
	for i := 2; ; i++ {
		if _, err := os.Lstat(name); errors.Is(err, os.ErrNotExist) {
			return name
		}
		name = fmt.Sprintf("%s-%d.yaml", base, i)
	}
}

// asFileName writes a text so that it can name a file in the folder.
func asFileName(text string) string {
	name := strings.Map(func(r rune) rune {
		switch {
		case unicode.IsLetter(r), unicode.IsDigit(r), strings.ContainsRune("-_", r):
			return r
		case unicode.IsSpace(r), strings.ContainsRune("/.", r):
			return '-'
		}
		return -1
	}, strings.TrimSpace(text))
	return strings.Trim(name, "-")
}

// tellEntered says what the readings say, or what is still to be entered.
func (c *Command) tellEntered(r ask.Result, name string) {
	if r.Job == nil {
		c.complain("%s is not a sheet yet:", called(name))
		for _, p := range r.Lacks {
			c.complain("  %s", p.Message)
			if p.Hint != "" {
				c.complain("    hint: %s", p.Hint)
			}
		}
		return
	}
	d := story.Diagnose(r.Job.Test())
	words, err := templates.Words(r.Job.Language.Value)
	if err != nil {
		return
	}
	if sentence, err := words.Of(d.Chambers).Verdict(d.Verdict, templates.Workshop); err == nil {
		c.complain("%s", onLine("%s; urgency: %s", sentence, d.Urgency))
	}
}

// offerSheet draws the sheet of a job file that was just written, where that is
// wanted.
func (c *Command) offerSheet(name string, next func() (string, error)) error {
	fmt.Fprint(c.Stderr, "Draw the sheet now (y or n): ")
	line, err := next()
	if !isTerminalInput(c.Stdin) {
		c.complain("%s", line)
	}
	if err != nil || !strings.HasPrefix(strings.ToLower(strings.TrimSpace(line)), "y") {
		c.drawsIt(name)
		return nil
	}
	var d drawing
	if err := c.prepare(&d, ""); err != nil {
		return err
	}
	tasks, err := c.plan([]string{name}, d)
	if err != nil {
		return err
	}
	return c.draw(tasks, d)
}

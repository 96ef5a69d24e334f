package known

import (
	"regexp"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Voltages of a fuel pump that runs. It has what the battery has, less half a volt in its
// wires; where nobody read the battery, no charged one lets it have less than pumpLeast, and
// what it has from pumpEnough on is enough. Common practice, no source.
const (
	pumpDrop   = 0.5
	pumpLeast  = 11.0
	pumpEnough = 12.0
)

// atPump is a voltage at the fuel pump in a line of words, atBattery one at the battery.
var (
	atPump    = regexp.MustCompile(`\bpump\b[^.;,]*?(\d+(?:\.\d+)?) ?v(?:olts?)?\b|(\d+(?:\.\d+)?) ?v(?:olts?)?\b[^.;,]*?\bpump\b`)
	otherPump = regexp.MustCompile(`\b(?:water|oil|vacuum|steering|injection|washer) pump`)
	atBattery = regexp.MustCompile(`\bbattery\b[^.;]*?(\d+(?:\.\d+)?) ?v(?:olts?)?\b`)
)

// PumpVolts is the voltage that was read at the fuel pump, and whether it is low: among the
// other readings, or in a line of what was found or done.
func (c *Case) PumpVolts() (volts float64, read, low, right bool) {
	volts, read = c.voltsOf("pump", atPump, func(name string) bool { return strings.Contains(name, "pump") && !otherPump.MatchString(name) })
	if !read {
		return 0, false, false, false
	}
	battery, known := c.voltsOf("battery", atBattery, func(name string) bool { return strings.Contains(name, "battery") && !strings.Contains(name, "pump") })
	if rest := c.Conditions.Battery.RestV; !known && rest != nil {
		battery, known = *rest, true
	}
	if known {
		return volts, true, battery-volts > pumpDrop+1e-9, battery-volts <= pumpDrop+1e-9
	}
	return volts, true, volts < pumpLeast, volts >= pumpEnough
}

// voltsOf finds the voltage of a part among the other readings by their names, or in words.
func (c *Case) voltsOf(part string, words *regexp.Regexp, named func(string) bool) (float64, bool) {
	if r := c.Measured(diag.OtherReadings); r != nil {
		for i := range r.Readings {
			if m := &r.Readings[i]; m.Unit == quantity.Volt && named(strings.ToLower(m.Name)) {
				return m.Value, true
			}
		}
	}
	for _, lines := range [][]string{c.History.Findings, c.History.WorkDone} {
		for _, line := range lines {
			if !strings.ContainsAny(line, "0123456789") { // few lines have a figure
				continue
			}
			line = strings.ToLower(line)
			if !strings.Contains(line, part) || otherPump.MatchString(line) {
				continue
			}
			at := words.FindStringSubmatch(line)
			for i := 1; i < len(at); i++ {
				if v, err := strconv.ParseFloat(at[i], 64); err == nil {
					return v, true
				}
			}
		}
	}
	return 0, false
}

// Conditions on the voltage at the fuel pump.
var (
	PumpVoltsRead  = OfEngine("a voltage at the fuel pump among the other readings or the findings", func(c *Case) bool { _, read, _, _ := c.PumpVolts(); return read })
	PumpVoltsLow   = OfEngine("the fuel pump's voltage more than 0.5 V under the battery's, or under 11 V where that was not read", func(c *Case) bool { _, _, low, _ := c.PumpVolts(); return low })
	PumpVoltsRight = OfEngine("the fuel pump's voltage within 0.5 V of the battery's, or 12 V and more where that was not read", func(c *Case) bool { _, _, _, right := c.PumpVolts(); return right })
)

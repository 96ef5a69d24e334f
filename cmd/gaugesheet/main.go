// Gaugesheet makes a one-page sheet for a customer from an engine's test
// readings; this package knows only where arguments come from and where the
// exit code goes.
package main

import (
	"os"
	"time"

	"gaugesheet/report/cli"
)

func main() {
	c := cli.Command{Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr, Now: time.Now, Version: cli.BuildVersion()}
	os.Exit(c.Main(os.Args[1:]))
}

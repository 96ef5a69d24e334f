// Package loop holds tests only: a bench of simulated engines with one known
// fault each, or none, which knows what a sheet asks for and nothing of how it
// came to ask. The simulator takes the first readings that a mechanic
// would take, writes them as a job file, and then makes every check that the
// sheet asks for, until the sheet asks for nothing more. What comes out is a
// table: how often the fault was named first, after how many checks and
// minutes, which sheets asked in circles, and which asked for a check that does
// not fit the engine.
//
//	go test ./report/loop -v               # a few engines of each fault
//	go test ./report/loop -v -engines 40   # more of them
//	go test ./report/loop -v -engines 1 -fault rings-one -steps   # every step of one
//	go test ./report/loop -v -run FurtherTestsHelp -engines 20    # four tests against all of them
//
// The table is a measure and no pass mark: the rate fails no test. Sheets that go
// in circles and checks that do not fit their engine do. The engines
// are rough: a leak, a loss of breath and a loss of volume are each one number,
// chosen so that readings lie where published cases have them (common
// practice, no source), and nothing of the diagnosis is used to draw them.
package loop

package job_test

import (
	"fmt"
	"os"

	"gaugesheet/report/job"
)

func ExampleRead() {
	file := `engine: {layout: inline-3}
compression:
  unit: psi
  dry: {1: 160, 2: about 155, 3: [150, 152]}
`
	j, problems := job.Read("w2041.yaml", []byte(file), os.ReadFile)
	if len(problems) > 0 {
		problems.Print(os.Stderr, true)
		return
	}
	for _, name := range j.Test().Engine.Names() {
		value, _ := j.Test().Compression.Dry[name].Value()
		fmt.Println(name, value, j.Test().Compression.Unit)
	}
	// Output:
	// 1 160 psi
	// 2 155 psi
	// 3 151 psi
}

func ExampleProblems_Print() {
	file := `engine: {layout: inline-2}
compression:
  unit: psi
  dry: {1: 145/148, 2: }
`
	_, problems := job.Read("w2041.yaml", []byte(file), nil)
	problems.Print(os.Stdout, true)
	// Output:
	// w2041.yaml:4:12: 'compression.dry.1' is '145/148', expected a pressure such as 120, 11.2 bar, about 120, 145-155 or over 300
	//     4 |   dry: {1: 145/148, 2: }
	//                    ^
	//   hint: two readings of one cylinder are '[145, 148]'; of two cylinders, each stands by its own; held of supplied goes under 'leakage'
	// w2041.yaml:4:24: 'compression.dry.2' has no value
	//     4 |   dry: {1: 145/148, 2: }
	//                                ^
	//   hint: say which you mean: not tested, could not test (why), declined, not applicable, or 0 for no pressure
}

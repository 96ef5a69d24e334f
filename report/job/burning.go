package job

import (
	"errors"
	"strconv"

	"gaugesheet/diag"
)

// Burning is the spec of an engine of which only the fuel is known, in any of
// the words that a job file may have for it.
func Burning(fuel string) (diag.Spec, error) {
	j, problems := ReadForBlank("fuel", []byte("engine: {layout: single, fuel: "+strconv.Quote(fuel)+"}"), nil)
	if len(problems) > 0 {
		return diag.Spec{}, errors.New(problems[0].Message)
	}
	return j.Test().Spec, nil
}

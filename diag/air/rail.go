package air

import (
	"fmt"
	"math"

	"gaugesheet/diag/quantity"
)

// InjectorFlowPercent gives the flow of an injector in percent of its flow at
// the wanted pressure: 100 sqrt(actual / wanted), common practice, from the
// flow through an orifice. Both are pressures across the injector, rail less
// manifold, in one unit.
func InjectorFlowPercent(actual, wanted float64) (float64, error) {
	if !(wanted > 0) || math.IsInf(wanted, 0) {
		return 0, &InputError{"wanted pressure across the injector", fmt.Sprint(wanted), "more than 0"}
	}
	if !(actual >= 0) || math.IsInf(actual, 0) {
		return 0, &InputError{"pressure across the injector", fmt.Sprint(actual), "0 or more"}
	}
	return 100 * math.Sqrt(actual/wanted), nil
}

// RegulatorRise gives, in the unit asked for, how much the rail pressure
// should rise when the hose to the manifold is taken off: a regulator holds
// rail less manifold constant, so the rise is the manifold's vacuum (0 to 32
// inHg). A bare number is taken as inHg.
func RegulatorRise(vacuum quantity.Value, unit quantity.Unit) (float64, error) {
	inHg, err := vacuum.In(quantity.InHg)
	if err != nil {
		return 0, err
	}
	if !(inHg >= 0 && inHg <= 32) {
		return 0, &InputError{"manifold vacuum", fmt.Sprintf("%v %s", vacuum.Number, vacuum.Unit), "0 to 32 inHg below the atmosphere"}
	}
	return quantity.Convert(inHg, quantity.InHg, unit)
}

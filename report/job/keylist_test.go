package job

import "testing"

// Every key is described with an example or by the keys below it, and its
// example is one that its schema takes.
func TestKeys(t *testing.T) {
	n := 0
	var check func(keys []Key, path string)
	check = func(keys []Key, path string) {
		for _, k := range keys {
			n++
			if k.Doc == "" || k.Example == "" && len(k.Keys) == 0 && k.As == "" {
				t.Errorf("%s%s: no description or no example", path, k.Name)
			}
			check(k.Keys, path+k.Name+".")
		}
	}
	check(Keys(), "")
	if n < 300 {
		t.Errorf("%d keys are listed", n)
	}
	taken := func(path, at string, keys []key) {
		for _, k := range keys {
			if example := k.shown(path + k.name); example != "" && !k.speeds {
				if err := compile(t, at+"/properties/"+k.name).Validate(value(t, exampleValue(example))); err != nil {
					t.Errorf("%s%s: example %s: %v", path, k.name, example, err)
				}
			}
		}
	}
	taken("", "#", fileKeys)
	taken("job.", "#/properties/job", jobKeys)
	taken("shop.", "#/$defs/shop", shopKeys)
	taken("vehicle.", "#/properties/vehicle", vehicleKeys)
	taken("engine.", "#/properties/engine", engineKeys)
	taken("engine.cylinders.", "#/$defs/place", placeKeys)
	taken("conditions.", "#/properties/conditions", conditionKeys)
	taken("plugs.looks.", "#/$defs/plug", plugKeys)
}

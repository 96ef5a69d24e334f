package sample

import "gaugesheet/diag"

// ran gives idle and snap readings in psi, in the order of four cylinders or
// fewer; a snap of 0 was not read.
func ran(pairs ...[2]float64) Change {
	readings := map[string]diag.Running{}
	for i, p := range pairs {
		name := string(rune('1' + i))
		idle := Read(p[0])
		readings[name] = diag.Running{Idle: &idle}
		if p[1] > 0 {
			snap := Read(p[1])
			readings[name] = diag.Running{Idle: &idle, Snap: &snap}
		}
	}
	return Running(readings)
}

// runningRows are compression read with the engine running.
func runningRows() []Row {
	good := [2]float64{75, 120}
	misfire, weak := Complains("misfire"), Complains("low power")
	return []Row{
		{Name: "one low on the snap", Test: Dry("inline-4", even4, misfire, ran(good, good, [2]float64{60, 60}, good)), Fires: []string{"breathes-in-poorly"}, Not: []string{"running-even", "breathes-out-poorly", "sealing-sound-look-elsewhere"}},
		{Name: "one low on the snap and when cranked", Test: Dry("inline-4", []float64{150, 151, 100, 149}, Leak("3", 6), ran(good, good, [2]float64{35, 60}, good)), Fires: []string{"breathes-in-poorly", "low-but-tight"}},
		{Name: "one high on the snap", Test: Dry("inline-4", even4, misfire, ran(good, good, [2]float64{80, 148}, good)), Fires: []string{"breathes-out-poorly"}, Not: []string{"running-even", "breathes-in-poorly"}},
		{Name: "one high at idle", Test: Dry("inline-4", even4, misfire, ran(good, [2]float64{110, 120}, good, good)), Fires: []string{"breathes-out-poorly"}},
		{Name: "all high on the snap", Test: Dry("inline-4", even4, weak, ran([2]float64{80, 150}, [2]float64{80, 149}, [2]float64{82, 151}, [2]float64{80, 148})), Fires: []string{"breathes-out-poorly"}, Not: []string{"running-even", "sealing-sound-look-elsewhere"}},
		{Name: "all breathe alike", Test: Dry("inline-4", even4, misfire, ran(good, good, good, good)), Fires: []string{"running-even", "sealing-sound-look-elsewhere"}, Not: []string{"breathes-in-poorly", "breathes-out-poorly"}},
		{Name: "two are no median", Test: Dry("inline-2", []float64{150, 150}, misfire, ran(good, [2]float64{60, 60})), Not: []string{"breathes-in-poorly", "running-even"}},
	}
}

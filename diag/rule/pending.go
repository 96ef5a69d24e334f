package rule

var signs = concatSigns(compressionSigns, wetSigns, runningSigns, leakageSigns, plugSigns, fuelSigns, historySigns, codeSigns, testSigns, mixtureSigns)

func concatSigns(lists ...[]Sign) []Sign {
	var all []Sign
	for _, l := range lists {
		all = append(all, l...)
	}
	for i := range all {
		all[i].words = all[i].When.String()
	}
	return all
}

package rule

var signs = concatSigns(compressionSigns, wetSigns, runningSigns, leakageSigns, plugSigns, fuelSigns, historySigns, testSigns, mixtureSigns)

func concatSigns(lists ...[]Sign) []Sign {
	var all []Sign
	for _, l := range lists {
		all = append(all, l...)
	}
	return all
}

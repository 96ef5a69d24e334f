package rule

// Families that are still to be written in the new form.
var (
	testRules        []Rule
	compressionRules []Rule
	wetRules         []Rule
	rotorRules       []Rule
	earlierRules     []Rule
	leakageRules     []Rule
	plugRules        []Rule
	fuelRules        []Rule
	engineTogether   []Rule
	mixtureTogether  []Rule
	historyRules     []Rule

	compressionSigns, wetSigns, leakageSigns, plugSigns, fuelSigns, historySigns, testSigns, mixtureSigns []Sign
)

var signs = concatSigns(compressionSigns, wetSigns, leakageSigns, plugSigns, fuelSigns, historySigns, testSigns, mixtureSigns)

func concatSigns(lists ...[]Sign) []Sign {
	var all []Sign
	for _, l := range lists {
		all = append(all, l...)
	}
	return all
}


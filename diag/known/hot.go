package known

// ranHotWords are what a two-stroke does that got too hot, or that ran dry of oil.
var ranHotWords = append([]string{"nipped up", "overheated", "ran hot", "got hot", "got too hot", "no oil in the fuel", "without oil", "straight fuel", "straight gas"}, pairs("piston|engine|it|motor|cylinder|saw|rear|front", "seized|seizing|seizure|locked up|stuck hot")...)

// portLooked are words of a look in through the ports.
var portLooked = []string{"exhaust port", "exhaust ports", "through the port", "through the ports", "port look", "ports looked"}

// PlugRanLean reports a cylinder whose plug shows that it ran lean or hot.
func (c *Case) PlugRanLean(name string) bool {
	return c.Looks(name, hotLooks...)
}

// RanHot is a cylinder of a two-stroke that ran lean or hot, by its plug, or where that was
// not read or is not normal by what is told of the engine, and into which nobody has looked.
var RanHot = OfAll("one of a two-stroke without valves whose plug is white, blistered or melted, or, where its plug is not normal, of an engine that seized, got hot or ran lean; not looked into", func(c *Case, n string) bool {
	if !c.Ported() || c.Looked(n) || c.WorkDone(portLooked...) {
		return false
	}
	told := c.Complains("overheating", "lean running") || c.told(ranHotWords...)
	return c.PlugRanLean(n) || told && !c.Looks(n, "normal")
})

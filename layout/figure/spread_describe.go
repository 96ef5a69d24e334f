package figure

// A Bar is one cylinder in a spread chart.
type Bar struct {
	Label     string
	Value     float64
	Text      string  // the value as entered, over the bar
	Low, High float64 // ends of the whisker; equal to Value for none
	Ghost     float64 // wet or earlier reading behind the bar; used when HasGhost
	HasGhost  bool
	GhostText string
	Missing   string // why there is no bar: "not tested"; empty where there is one
	AtLeast   bool   // a lower bound: the bar is open at the top
	Tone      Tone
	Highest   bool
	Lowest    bool
	Group     int // bars of another group stand apart: banks, rotors
}

// A RuleLine is a limit drawn across a chart.
type RuleLine struct {
	Value float64
	Text  string // the limit with its rule: "116 psi = 75 % of the highest"
}

// A Spread describes a bar chart of one reading per cylinder, from zero.
type Spread struct {
	Title, Sub  string
	Unit        string
	Bars        []Bar
	Lines       []RuleLine
	GhostName   string   // what the ghost bars are: "after oil", "2 Nov 2025"
	WhiskerName string   // what the whiskers are: "what the gauge can tell apart"
	Captions    []string // under the chart
}

package figure

// A SpreadBar is one cylinder on the ruler: a bar from the best one to how far
// it lies from that.
type SpreadBar struct {
	Number    string  // in the tab at the bar's end
	Value     float64 // how far below the best; above it where it is less than zero
	Low, High float64 // where the value may lie as well; equal to Value for an exact one
	Less      bool    // known only to be that much at most
	More      bool    // known only to be that much at least
}

// A SpreadZone is a stretch of the ruler, up to a value. The last goes on to the
// end.
type SpreadZone struct {
	To   float64
	Word string
	Tone Tone // Plain is tinted, Hatch hatched, any other clear
}

// A RuleLine is a limit drawn across a figure.
type RuleLine struct {
	Value float64
	Text  string
}

// An Unread is cylinders that have no place on the ruler, and why.
type Unread struct {
	Mark    Mark
	Numbers []string
	Why     string
}

// A Spread describes how far the cylinders lie apart, on a ruler.
type Spread struct {
	Title, Sub string
	Alt        string // what the ruler shows, in words
	Bars       []SpreadBar
	Zones      []SpreadZone
	Lines      []RuleLine
	Zero       string  // the word for zero on the axis: "best"
	Unit       string  // behind the axis's numbers, with the space before it
	Least      float64 // the axis goes at least so far
	Most       float64 // and never further; 0 for no end
	Gauge      float64 // up to which difference it is only the gauge; 0 not known
	GaugeName  string  // behind a bar as long as that
	GaugeWords string  // where such a bar would be too long
	Unread     []Unread
	Say        func(bars []int) []string // words for bars that stand together, the longest first
	Captions   []string
}

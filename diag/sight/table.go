package sight

// The house's words of what was seen, where no list of words had any before.
const (
	BrokenRing  = "§ring broken"     // a ring, or the land between two
	BrokenLand  = "§land broken"     // that land
	RingPiece   = "§ring piece"      // some of a ring out of its groove
	StuckRing   = "§ring stuck"      // a ring that does not spring
	CrackedPist = "§piston cracked"  // a piston cracked, or broken below its crown
	CrackedHead = "§head cracked"    // a head cracked, burned or warped
	CrackedWall = "§wall cracked"    // a wall cracked or eaten through
	BrokenValve = "§valve broken"    // a valve without its head
	HotValve    = "§valve heat"      // the colors of heat at one side of a valve
	LeakyValve  = "§valve leaks"     // a valve or seat pitted, warped, worn or not closing
	BlownGasket = "§gasket blown"    // a gasket blown, burned or broken
	BrokenPlug  = "§plug broken"     // an electrode or insulator gone, or hit
	MeltedPlug  = "§plug melted"     // an electrode melted away
	PinClip     = "§pin clip out"    // the clip of a piston's pin missing, or the pin walked
	LooseThing  = "§loose thing"     // a thing that does not belong there
	OilSeen     = "§wet with oil"    // oil on what should be dry
	FuelSeen    = "§wet with fuel"   // fuel there
	WetSeen     = "§wet"             // wet, nobody says with what
	WornSeen    = "§worn parts"      // wear that a camera shows
	PittedWall  = "§wall pitted"     // pits on the wall
	CarbonCrumb = "§carbon crumb"    // a piece of carbon that lies on a seat
	InletCarbon = "§inlet carbon"    // carbon on the back of an inlet valve, or in its port
	PortCarbon  = "§port carbon"     // carbon that narrows a port
	LightScore  = "§light scoring"   // marks on the wall that are called light
	DeepScore   = "§score not light" // others
)

// elsewhere is what other lists of words make out by themselves.
const elsewhere = "§"

// A row is what some harms of some parts come to, in the house's words: some of them
// stand in the lists of package known already.
type row struct{ parts, harms, says string }

// table is read from its top: the first row that has a part and a harm says what it is.
var table = []row{
	{"skirt", "chip melt burn erode", "wall scored"},
	{"ring land", "object caught", BrokenRing + "; " + RingPiece},
	{"land", "crack broken missing chip melt burn erode hole bad hit blow peel", BrokenRing + "; " + BrokenLand},
	{"ring", "missing", BrokenRing + "; " + RingPiece},
	{"ring", "crack broken chip bad bend loose melt hit burn peel", BrokenRing},
	{"ring land", "stick seize carbon", StuckRing},
	{"ring land", "wear leak blow score line", WornSeen},
	{"piston crown skirt", "hole blow", "crown holed"},
	{"piston crown skirt", "broken missing chip object", "piston broken"},
	{"piston crown skirt", "crack bad", CrackedPist},
	{"piston crown skirt", "melt erode", "piston melted"},
	{"crown", "burn", "piston melted"},
	{"piston skirt", "burn", "piston melted"},
	{"piston crown skirt", "hit", "crown marked"},
	{"crown", "mark bend warp", "crown marked"},
	{"crown piston skirt", "pit", "crown marked"},
	{"piston skirt", "mark line smear seize score metal", "wall scored"},
	{"crown", "metal smear", LooseThing},
	{"piston skirt", "wear loose leak", WornSeen},
	{"piston skirt", "peel", "wall scored"},
	{"crown", "peel", "crown marked"},
	{"crown", "score line", "crown marked"},
	{"crown", "wear", WornSeen},
	{"crown", "carbon", "carbon on the crown"},
	{"piston skirt", "carbon", "carbon on the piston"},
	{"crown piston skirt", "wash bare", "washed"},
	{"wall pot", "crack broken hole chip missing", CrackedWall},
	{"wall pot", "erode melt burn", CrackedWall},
	{"wall pot", "score seize smear metal bad peel", "wall scored"},
	{"wall pot", "leak blow", CrackedWall},
	{"wall", "line mark hit", "wall scored"},
	{"wall pot", "pit", "wall rusty; " + PittedWall},
	{"wall pot", "rust", "wall rusty"},
	{"wall pot hone", "glaze", "wall glazed"},
	{"hone", "missing wear", "wall glazed"},
	{"hone", "score line", "wall scored"},
	{"wall", "wear warp", WornSeen},
	{"wall pot", "wash", "washed"},
	{"pot", "object", LooseThing},
	{"wall", "object", LooseThing},
	{"head hole", "crack hole broken chip missing melt erode warp burn bad score blow bend peel", CrackedHead},
	{"head", "pit hit mark", "crown marked"},
	{"head", "rust", "rusty head; " + CrackedHead},
	{"head", "leak", CrackedHead},
	{"head hole valve vside seat", "metal", LooseThing},
	{"head", "object", LooseThing},
	{"vhead", "missing broken crack object", BrokenValve},
	{"valve vside", "object", "valve chipped"},
	{"valve vside vback", "missing broken", BrokenValve},
	{"valve vside vback", "crack burn chip melt erode hole bad", "valve burned"},
	{"valve vside vback", "bend", "valve bent"},
	{"valve vside", "hit", "crown marked"},
	{"valve vside", "stick loose", "valve stuck"},
	{"valve vside vback", "rust", "valves rust"},
	{"seat", "rust", "seat rust"},
	{"seat", "hit", LeakyValve},
	{"valve vside vback seat", "pit leak warp score line wear blow smear peel", LeakyValve},
	{"valve vside", "heat", HotValve},
	{"valve vside vhead seat", "dark bare", elsewhere}, // soot, or what burned off; at one side alone it is heat
	{"seat", "crack burn chip melt erode hole bad broken object heat", "seat burned"},
	{"seat", "loose missing stick bend", "seat loose"},
	{"vback ivalve", "carbon choke dark", "valves carbon; " + InletCarbon},
	{"port", "carbon choke", PortCarbon},
	{"valve vside seat", "carbon", "carbon on the seat"},
	{"gear", "broken crack missing loose bend chip hit object bad stick", "rocker broken"},
	{"gear", "wear pit score", "lobe worn"},
	{"gasket", "crack broken missing burn blow hole erode melt bad leak chip line rust carbon mark object pit bend", BlownGasket},
	{"plug", "melt erode burn", MeltedPlug},
	{"plug", "broken missing crack chip hit bend object", BrokenPlug},
	{"nozzle", "broken missing hit melt chip object", LooseThing},
	{"plug", "metal smear", "metal on the plug"},
	{"clip", "missing broken loose bend caught bad wear object crack stick seize", PinClip},
	{"rod", "bend warp broken crack missing bad", "bent rod"},
	{"port vback", "broken crack chip hit melt missing hole", CrackedWall},
	{"port vback", "score seize smear metal line peel", "wall scored"},
	{"port vback", "object", LooseThing},
	{"*", "carbon", "carbon on the crown"},
	{"*", "wash", "washed"},
	{"*", "score seize smear", "wall scored"},
	{"*", "rust", "wall rusty"},
	{"*", "oil", OilSeen},
	{"*", "fuel", FuelSeen},
	{"*", "flood", "liquid"},
	{"*", "wet", WetSeen},
	{"*", "water", "water"},
	{"*", "pool bare", elsewhere},
	{"*", "object", LooseThing},
	// Without a part that they belong to.
	{"", "pit", "wall rusty; " + PittedWall},
	{"", "glaze", "wall glazed"},
	{"", "hit", "crown marked"},
	{"", "hole", "crown holed"},
	{"", "melt", "piston melted"},
}

// outlying are parts that are told of with other words than those of a look into a cylinder,
// where it is not said that somebody looked there.
var outlying = map[part]bool{"vside": true, "nozzle": true, "gear": true, "rod": true, "port": true, "vback": true, "hole": true}

// headed are harms between places of a head: a crack from its seat to its plug hole is in it.
var headed = map[part]bool{"ivalve": true, "seat": true, "nozzle": true, "vside": true, "hole": true, "valve": true, "head": true}

// alsoIs is what a part is where the table has no row of its own for it.
var alsoIs = map[part]part{"ivalve": "valve"}

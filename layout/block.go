package layout

// A Detail says how much of itself a block shows. A page that is too full asks
// its blocks to step down, one at a time.
type Detail uint8

// The levels of detail. A block that has fewer than three shows the same at
// its last ones.
const (
	Full Detail = iota
	Compact
	Brief
	Out // not on the page: what it shows stands in other blocks too
)

// String is the level's name as templates write it.
func (d Detail) String() string { return [...]string{"full", "compact", "brief", "out"}[d] }

// A Block is one part of a page: it is laid out for a width and a level of
// detail, once, and then drawn where the page puts it.
type Block interface {
	// Name is the block's name in templates and messages.
	Name() string
	// Lay sets the block in a width. It must not draw. It is never asked for
	// a block that is out.
	Lay(t Theme, width Length, d Detail) Frame
}

// A Frame is a block laid out: how high it is, how much higher it may usefully
// be drawn, and how to draw it.
type Frame struct {
	// Height is the least height; the width is that given to Lay.
	Height Length
	// Stretch is how much free height the block can use, 0 for none.
	Stretch Length
	// Richer lays the block out once more for a height that the page turns out
	// to have for it, so that it shows more than this frame does; the frame it
	// gives is no higher than that. It is nil where there is no more to show.
	Richer func(height Length) Frame
	// Lacks is how much of what it has to show it leaves out, in parts of its own.
	Lacks int
	// Narrow says that the block was laid out in less width than it wants; a
	// block that flows goes elsewhere.
	Narrow bool
	// Draw draws into an area as wide as was laid out and at least Height high.
	Draw func(s Surface, area Rect)
}

// A Wider is a block that has a width of its own, at which nothing in it has
// to wrap.
type Wider interface {
	Natural(t Theme) Length
}

// A Follower is a block that goes on from another, and never stands before it.
type Follower interface {
	Follows() string // the other's name; "" for none
}

// A Cell is a column of a row: blocks under one another. Share is its part of
// the width beside its neighbours' shares; 0 counts as 1. Least is the share
// down to which it gives width to a neighbour that is much higher; 0 gives none.
// Most is the share up to which it is wider where one of its blocks, a Wider,
// would like to be; 0 for no more than its share.
type Cell struct {
	Share  float64
	Least  float64
	Most   float64
	Blocks []Block
	Gap    Length // between its blocks
}

// A Row is cells side by side. The row is as high as its highest cell. A cell
// whose blocks have no height gives its width to the others; a row without
// height takes no room at all.
//
// Flows are blocks that belong to no cell: they go under the cells, in their
// order, so that cells end level, or into an earlier row where a column has
// room for them.
//
// Foot rows stand together at the page's foot where the page is not full.
type Row struct {
	Cells []Cell
	Flows []Block
	Gap   Length // between cells
	Foot  bool
	Above Length // least space above the row, grows with free height; none above the first row
}

// A Step is one concession of a page that is too full: the named block steps
// down to the level, and another with it that takes over what it leaves out.
type Step struct {
	Block string
	To    Detail
	With  string // "" for no other
	// Closely: before this step is taken, spaces and lines close up, as before
	// every step that leaves a block out.
	Closely bool
}

// A Page is what is to be fitted: the paper, the rows and the order in which
// they give way.
type Page struct {
	Paper    Size
	Area     Rect // inside the margins
	Rows     []Row
	GivesWay []Step
	// LeastSpace is the part of the spaces between blocks that stays when every
	// step was taken; lines then stand closer too. 0 changes neither.
	LeastSpace float64
	// LeastScale is the smallest type scale allowed when every step was taken;
	// 0 allows none but the theme's own.
	LeastScale float64
}

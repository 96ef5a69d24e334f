package sight

import "strings"

// A part is something that is looked at, a harm what may have come to it; both by their
// names in the tables below.
type part string
type harm string

// partWords are the parts that a camera or an opened cover shows, each with its names; one
// that ends in a star is the beginning of words.
var partWords = map[part]string{
	"ring":   "ring|rings|piston ring|piston rings|compression ring|oil ring|oil rings|oil control ring|top ring|scraper ring|apex seal|apex seals|side seal|side seals|corner seal|corner seals",
	"land":   "ring land|ring lands|land|lands|top land|second land|ring groove|ring grooves",
	"skirt":  "skirt|skirts|piston skirt|piston skirts",
	"piston": "piston|pistons|pin boss|piston boss|boss|bosses",
	"crown":  "crown|crowns|piston crown|piston top|piston tops|piston head|top of the piston|top of piston|dome|piston edge|edge of the piston|edge of piston",
	"wall":   "wall|walls|bore|bores|cylinder wall|cylinder walls|barrel|barrels|liner|liners|sleeve|sleeves|block|cylinder block|plating|chrome|nikasil|lining|coating|flange|thrust side|thrust face|above the ports",
	"pot":    "cylinder|cylinders|cyl|pot|pots|inside|in there|thing", // which is the wall where no other part is named
	"head":   "head|heads|cylinder head|cylinder heads|chamber|chambers|combustion chamber|roof|squish band|prechamber|pre chamber|precombustion chamber|swirl chamber|head face|deck|head deck|fire deck|block deck|valve bridge|valve bridges",
	"hole":   "plug hole|plug holes|glow plug hole|glow plug holes|spark plug hole|plug bore|plug thread|plug threads|injector hole|injector bore|injector seat|nozzle hole",
	"valve":  "valve|valves|exhaust valve|exhaust valves|valve face|valve faces|valve edge|valve margin|valve stem|stem|stems|margin",
	"ivalve": "inlet valve|inlet valves|intake valve|intake valves|inlet valve stem|inlet valve stems|intake valve stem|intake valve stems", // a valve on which more grows
	"vside":  "inlet|intake|exhaust|inlets|intakes|exhausts",                                                                                // which is its valve, in a look into a cylinder
	"nozzle": "injector|injectors|nozzle|nozzles|injector tip|nozzle tip",
	"vback":  "back of the inlet valve|backs of the inlet valves|back of the intake valve|backs of the intake valves|back of an inlet valve|back of an intake valve|backs of inlet valves|backs of intake valves|backs of the valves|valve backs|inlet tulip|inlet tulips|intake tulip|intake tulips|inlet port|inlet ports|intake port|intake ports",
	"vhead":  "valve head|valve heads|exhaust valve head|exhaust valve heads|inlet valve head|inlet valve heads|intake valve head|intake valve heads|head of the valve|head of a valve|head of the exhaust valve|head of the inlet valve|head of the intake valve|its head|stem only|only the stem",
	"seat":   "seat|seats|valve seat|valve seats|seat ring|seat rings|seat insert|insert|inserts|exhaust seat|inlet seat|intake seat|valve guide|valve guides|guide|guides",
	"gear":   "spring|springs|valve spring|valve springs|rocker|rockers|rocker arm|pushrod|pushrods|push rod|push rods|lobe|lobes|lifter|lifters|tappet|tappets|camshaft|cam|cams|keeper|keepers|collet|collets|retainer",
	"gasket": "gasket|head gasket|cylinder head gasket|gaskets|fire ring|fire rings|gasket ring|gasket bead|gasket edge",
	"plug":   "electrode|electrodes|plug electrode|center electrode|side electrode|ground electrode|ground strap|strap|insulator|insulator nose|porcelain|plug nose|plug tip|glow plug|glow plugs|glow plug tip|plug|plugs|spark plug|spark plugs",
	"clip":   "circlip|circlips|snap ring|snap rings|pin clip|pin clips|wrist pin clip|piston pin clip|gudgeon pin clip|pin retainer|wrist pin|gudgeon pin|piston pin|pin button",
	"rod":    "rod|rods|connecting rod|connecting rods|conrod|con rod|big end|small end",
	"port":   "port|ports|exhaust port|exhaust ports|transfer port|transfer ports|reed|reeds|port bridge|port edge|port window",
	"hone":   "crosshatch|cross hatch|crosshatching|cross hatching|hatch|hone|hone mark|hone marks|honing|honing marks|honing mark|hone pattern|hone lines|machining marks|grinding marks",
}

// harmWords are what may be seen of a part, likewise.
var harmWords = map[harm]string{
	"crack":   "crack*|fractur*|split|splits|fissure*|cleft",
	"broken":  "broken|broke|breaks|break|snapped|shattered|smashed|in two|in pieces|in two pieces|in three pieces|disintegrat*|failed|let go|crumbl*|burst",
	"missing": "missing|gone|vanished|disappeared|erased|faded|fading|faded to nothing|worn to nothing|polished off|polished away|rubbed off|rubbed away|absent|lost|not there|fell off|fallen off|came off|dropped|dropped off|fell in|fallen in|fell out|fallen out|fallen|broken off|broke off|broken away|broke away|snapped off|come off|out of its groove|out of place|out of its place",
	"chip":    "chip|chips|chipped|chipping|nick|nicks|nicked|notch|notched|bite|bites|bitten|tear|torn",
	"peel":    "peel*|flaking|flaked|flaked off|flakes off|spall*|coming off|lifting",
	"hole":    "hole|holes|holed|pinhole|pinholes|pin hole|pin holes|perforat*|punctur*|porous|porosity|worm hole*|daylight|pitted through|rusted through|eaten through|corroded through|rotted through|worn through to the water",
	"burn":    "burn|burns|burned|burnt|burning|burned away|burned out|torch*|guttered|gutter*|blowtorched|scorch*|charred",
	"melt":    "melt*|molten",
	"erode":   "erod*|erosion|eaten|eaten away|washed out|sandblasted|sand blasted",
	"choke":   "half shut|half closed|nearly shut|nearly closed|almost shut|almost closed|choked|choked up|narrowed|clogged|clogged up|blocked|plugged|plugged up",
	"pit":     "pit|pits|pitted|pitting|crater*|pock*|rust pits|rust pitting",
	"rust":    "rust*|corrod*|corros*|oxid*|verdigris",
	"score":   "scor*|scratch*|groov*|goug*|scuff*|gall|galls|galled|galling|tram lines|vertical lines|deep lines|furrow*|rut|ruts|rubbed through|worn through",
	"line":    "line|lines|vertical mark|vertical marks|streak|streaks|streaked",
	"seize":   "seiz*|seizure*|nipped|nipped up|picked up|pick up|cold seizure|four corner*|siezed",
	"smear":   "smear*|transferred|transfer of|metal pickup|metal pick up|welded to|welded on|deposited on",
	"metal":   "aluminum|alumin*|alloy|white metal|metal specks|specks of metal|silver specks",
	"bend":    "bent|bend|bends|bowed|buckled|twisted|crooked",
	"warp":    "warped|distorted|tuliped|tulip*|cupped|dished|stretched",
	"hit":     "dent|dents|dented|hammer*|pepper*|struck|strike*|impact*|peened|beaten|battered|bashed|hit|hits|ding|dings|dinged|witness mark*|foreign mark*|foreign object damage|like hail|shot blasted|crushed|pushed in|pushed shut|closed up|gap closed|flattened|valve mark*|valve print*|kissed",
	"mark":    "mark|marks|marked|marking|markings|spot|spots|patch|patches|blemish*|stain|stains|stained|ring mark",
	"object":  "piece|pieces|bit|bits|fragment*|debris|screw|screws|nut|nuts|bolt|bolts|washer|washers|swarf|shavings|particles|foreign|foreign object|foreign body|foreign matter|foreign bodies|chunk|chunks|lump|lumps|flake|flakes|shard*|splinter*|crumb|crumbs|something loose|something metallic|something|loose thing|loose part|loose object|loose metal|glass|wire|corner",
	"loose":   "loose|backed out|moved|wobbl*|wobbly|play|rattl*|come loose|came loose|worked out|spun|turned in|shifted|walked",
	"stick":   "stuck|stick|sticks|sticking|hang|hangs|hanging|frozen|jammed|does not move|does not close|does not shut|not closing|not closed|stays open|stuck open|hung open|hanging open|gummed|seized in its groove|stuck in its groove",
	"caught":  "caught|catches|catching|snagged|trapped|sticking out|hanging out|sticks out|protrud*|poking out|out of the groove|standing out",
	"blow":    "blown|blew|blow by|blowing|burned through|burnt through|leak path|leak track|track|tracks|tracking|breach*|combustion track|gas track",
	"leak":    "leak|leaks|leaked|leaking|seep*|weep*|drip|drips|dripping|hiss*|bubbl*|passing|not sealing|not seated|not seating|does not seal|not tight",
	"oil":     "oil|oily|oiled|oil wet",
	"fuel":    "fuel|petrol|gasoline|diesel|raw fuel|fuel wet",
	"water":   "antifreeze|steam|moisture|emulsion|milky",
	"pool":    "water|coolant|liquid|fluid", // which is looked for by its own words
	"wet":     "wet|damp",
	"flood":   "soaked|drenched|swimming|flooded|full of|pool*|puddle*",
	"carbon":  "tar|tarry|like tar|carbon*|coke*|coked|coking|deposit*|soot|sooty|sooted|caked|crust*|buildup|build up|sludge|varnish|ash|white powder|furred*|furry|coated|carbon ring|ring of carbon|ring of deposits|carbon ridge",
	"bare":    "bare|bare of|bare metal|burned clean|burnt clean",
	"wash":    "washed|washed clean|brighter|cleaner|steam clean*|bright clean|fuel washed|clean patch|washed patch",
	"glaze":   "glaz*|mirror|like a mirror|mirror finish|polished|polish|like glass|glassy|shiny",
	"wear":    "worn|wear|wears|ridge|ridges|lip|step|stepped|recess|recessed|receded|recession|sunk|sunken|pocketed|oval|tapered|out of round|egg shaped|barrel shaped|thin|thinned|worn away|worn off|worn out|worn smooth|sloppy",
	"heat":    "hot spot*|hotspot*|blue|blued|bluing|green|greenish|pale|white|whitish|bleached|lighter|discolor*|off center|uneven color*|uneven colors|different color*|two colors|overheated|purple|yellow|straw|asymmetr*|local heat|localized heat|heat pattern|heat mark*",
	"dark":    "black|blackened|blackish|dark|darker",
	"bad":     "bad|badly|damage|damaged|damages|defect*|ruined|destroyed|wrecked|faulty|finished",
	"odd":     "wrong|poor|terrible|horrible|strange|odd|suspect|suspicious|unusual|abnormal|uneven|rough|ugly|irregular|funny|weird|questionable|doubtful",
}

// The other words that carry a meaning.
var (
	soundWords = "good|free|freely|springy|clean|plain|plainly|crisp|distinct|unbroken|untouched|faultless|flawless|immaculate|pristine|textbook|beautiful|lovely|pretty|well|decent|satisfactory|reassuring|regular|consistent|identical|alike|legible|readable|as it should be|as they should be|as it should|as they should|as expected|better than expected|nothing to worry about|nothing to report|bright|gleaming|silvery|satin|tidy|neat|respectable|snug|firm|healthy looking|no drama|nicely|square|squarely|fine|ok|okay|normal|sound|smooth|straight|intact|perfect|nice|healthy|dry|unmarked|undamaged|unremarkable|as new|like new|even|evenly|tan|brown|red brown|light brown|uniform|concentric|" +
		"usual|tight|closes|closed|sealed|seals|seals well|true|round|flat|unworn|in order|in place|present|complete|symmetrical|bright ring|original|great|excellent|spotless|serviceable|acceptable|within limits|same as the others|like the others|all well|nothing wrong|nothing to see|nothing to be seen|nothing found|nothing unusual|nothing abnormal|alright|all right"
	lightWords = "hardly|hardly any|barely|scarcely|light|lightly|slight|slightly|faint|minor|superficial|shallow|trace|traces|some|little|a little|a bit|a bit of|film|few|a few|normal|usual|fine"
	denyWords  = "no|not|without|never|nor|neither|none|nothing|nowhere|isn't|aren't|wasn't|weren't|free of|free from|zero|nil|never any|no sign of|no trace of|no signs of|no longer"
	askedWords = "looked for|checked for|check for|searched for|inspected for|tested for|look for|looking for|checking for|in case of|dye"
	// mendWords say that a thing was put right.
	mendWords = "replaced|renewed|repaired|welded|fixed|mended|reground|lapped|rebored|resleeved|sleeved|refaced|recut"
	// idleWords are of the look itself, and of nothing seen.
	idleWords = "wet test|squirted|fogging oil|preserving oil|oil hole|oil holes|bolt hole|bolt holes|burned oil|burning oil|broken in|camera|borescope|borescoped|boroscope|endoscope|scope|scoped|lens|probe|photo|photos|picture|pictures|image|images|video|view|viewed|poor light|bad light|low light|poor view|bad view|poor picture|access|lit|focus|blurred|mirror used|cleaned|wiped|removed|refitted|installed|out|taken|saved|file|" +
		"looked|looked at|looked into|looked in|inspected|checked|examined|judged|through the plug hole|through the port|through the injector hole|plug hole thread|by hand|retest|again next|not looked at|not seen|not reached|not possible|not available|measured|hours|service|fitted|by phone|recorded|customer|owner|see photo|see picture|first look|second look|new"
	// layWords are of what lies on a part, or is its look: what is gone of these has left the part
	// whole. sideWords are of less than all of it.
	layWords  = "color|colors|coloring|pattern|layer|film|paint|varnish"
	sideWords = "half|edge|edges|side|half moon|moon|third|quarter|patch|spot|corner|sector|segment|o'clock|clock"
	// placeWords set a place before a part, from which it is not read of that part.
	placeWords = "at|near|beside|by|around|between|from|to|toward|towards|through|above|below|under|underneath|behind|next to|over|facing|opposite|into|against|close to|along"
	ownWords   = "in|of|on|across|the|a|an|its|out|with"
	onWords    = "on|in|at|under|behind|underneath|above|between|over|into|inside|by|against|near"
	fillWords  = "skirt coating|piston coating|coating on the skirt|coating of the skirt|weep hole|weep holes|weephole|weepholes|half moon|moon|sector|segment|gap|gaps|ring gap|ring gaps|open|opened|coolant passage|coolant passages|water passage|water jacket|water side|coolant side|coolant hole|water hole|the|a|an|its|it|it's|is|are|was|were|has|have|had|be|been|being|and|or|with|in|of|on|for|as|than|then|there|here|this|that|these|those|all|both|each|every|one|two|three|four|five|six|half|quarter|third|first|second|only|very|quite|rather|much|many|more|most|less|still|also|just|so|too|now|yet|" +
		"seen|visible|found|noted|looks|look|looking|appears|appear|seems|shows|show|showing|can|could|be felt|felt|fingernail|finger nail|nail|with a|top|bottom|upper|lower|middle|mid|center|centre|front|rear|back|left|right|side|sides|edge|edges|end|ends|face|faces|corner|north|south|inner|outer|inlet side|intake side|exhaust side|thrust|major|minor side|full|whole|length|" +
		"deep|deeply|heavy|heavily|large|big|small|tiny|long|short|wide|narrow|vertical|horizontal|diagonal|fresh|old|new|recent|severe|severely|serious|clear|clearly|obvious|definite|possible|possibly|maybe|probably|perhaps|hairline|thick|whole|travel|stroke|tdc|bdc|dead|position|o'clock|clock|running|runs|run|lying|standing|stands|sitting|sits|lies|goes|going|reaching|extends|extending|about|approximately|approx|roughly|around|" +
		"mm|cm|inch|inches|in|thou|degrees|deg|percent|number|no|nr|cylinder|cyl|cyls|others|other|rest|left|another|same|different|area|zone|place|places|point|points|spread|surface|surfaces|metal|material|layer|level|up|down|over|after|before|while|when|where|which|during|already|starting|started|start|begins|beginning|beginnings|just|due|because|likely|like|little|pattern|color|colors|coloring|tip|plus|pair|total|quantity|amount|lot|lots|plenty|any|anything|everything|otherwise"
)

// likeWords are written in one way where there are two.
var likeWords = strings.NewReplacer("aluminium", "aluminum", "colour", "color", "grey", "gray", "-", " ", "–", " ", "’", "'", "cross-hatch", "crosshatch", "centre", "center", "push-rod", "pushrod", "mould", "mold", "/", " ", "\"", " ", "seat's", "seat", "piston's", "piston", "valve's", "valve", "plug's", "plug", "ring's", "ring")

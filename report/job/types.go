package job

import (
	"crypto/sha256"
	"encoding/hex"
	"time"

	"gaugesheet/diag"
)

// Text is a text of the file with its place. The zero Text was not given.
type Text struct {
	Value string
	Pos   Pos
}

// Given reports whether the file has the text.
func (t Text) Given() bool { return t.Value != "" }

func (t Text) String() string { return t.Value }

// Date is a date of the calendar. The zero Date was not given.
type Date struct {
	time.Time
	Entered Text
}

// A Job is a job file that was read without a problem.
type Job struct {
	Name  string // the file's name, as given to Read
	Raw   []byte // the file's bytes
	Files []File // other files that the job draws on, in the order in which it names them

	Sheet Text // customer where not given, the Pos then being zero
	Paper Text // the shop's, or letter, where not given
	// Language is one of templates.Languages: the shop's, or that of Paper where
	// not given, the Pos then being zero.
	Language Text

	Number, Technician, Reason, OrderedBy, Invoice, Place, Started Text
	Date                                                           Date
	Complaints                                                     []string // words of the list
	OwnWords                                                       []string // complaints of which no word is in it
	said                                                           []string // the sentences that some of them stood in
	Authorised                                                     Authorisation
	Valid                                                          Validity

	Shop             Shop
	Customer, Seller Person
	Independence     Text
	Vehicle          Vehicle

	Photos                          []Photo
	Findings, Recommended, Declined []Text
	Notes                           Text

	test *diag.Test
	root *node
}

// Authorisation is who allowed the work.
type Authorisation struct{ By, When, How Text }

// Validity is how long the sheet is good for.
type Validity struct {
	Days     int  // 0 not given
	Distance Text // as entered, with its unit
}

// Person is a customer or a seller.
type Person struct{ Name, Address, Phone, Email Text }

// Shop is the shop that made the test.
type Shop struct {
	Name, Address, Phone, Email, Registration Text
	Accent, Paper, Language, Disclaimer, Font Text
	Logo                                      Text   // file name as given
	LogoData                                  []byte // PNG or JPEG
}

// Vehicle is the vehicle that the engine is in.
type Vehicle struct {
	Description, VIN, VINReadAt, Plate, EngineNumber Text
	Odometer, OdometerStatus                         Text // with its unit; actual, not actual, unknown
	VINMatches, StateOnArrival, Stood, DriverSide    Text
	Codes, WorkDone                                  []Text
}

// Photo is a photo that belongs to the job.
type Photo struct {
	Name, Shows, File Text
	Data              []byte // nil where no file is named
}

// The roles of files that a job draws on.
const (
	RoleShop    = "shop"
	RoleLogo    = "logo"
	RoleEarlier = "earlier"
	RolePhoto   = "photo"
)

// A File is a file that a job draws on. Its Name is a slash-separated path
// relative to the job file's folder: what the Opener was asked for.
type File struct {
	Name string
	Role string
	Data []byte
}

// Test is the job's readings, ready for a diagnosis.
func (j *Job) Test() *diag.Test { return j.test }

// Fingerprint is the SHA-256 of the job file's bytes in lower-case hex.
func (j *Job) Fingerprint() string {
	sum := sha256.Sum256(j.Raw)
	return hex.EncodeToString(sum[:])
}

// Entered gives the text that the file has at a path of keys, such as
// "engine", "displacement"; "" where there is no single value.
func (j *Job) Entered(path ...string) string {
	n := j.at(path)
	if n == nil || n.kind != scalar {
		return ""
	}
	return n.text
}

func (j *Job) at(path []string) *node {
	n := j.root
	for _, key := range path {
		n = n.get(key)
	}
	return n
}

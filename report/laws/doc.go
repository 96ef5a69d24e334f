// Package laws holds whole random jobs against the laws that no sheet may break,
// in tests only, and knows nothing of how a rule works. A job is made as YAML,
// read, diagnosed and put into words as for a user, and what comes out is looked
// at from outside: the JSON for every job, the printed page for a part of them.
//
// A law is named by a letter and a number: S is safety, T truth, O one story,
// N numbers and paper. Each says in words what must hold, counts how often it
// was put to the test, and prints the seed and the job where it fails.
//
//	go test ./report/laws -v                       # the table of all laws
//	go test ./report/laws -jobs 10000 -seed 5000   # more, and other, jobs
//	go test ./report/laws -v -run TestLaws -law S1 -examples 20
//
// A law that needs something which the JSON does not have counts the jobs as
// 'not there'; one that is asked of fewer jobs than it should be fails too.
package laws

// Package laws holds whole random jobs against the laws that no sheet may
// break; it has tests only. A job is made as YAML, read, diagnosed and put into
// words as for a user, and what comes out is looked at from outside: the JSON
// for every job, the printed page for a part of them. Nothing here knows how a
// rule works.
//
// A law is named by a letter and a number: S is safety, T truth, O one story,
// N numbers and paper. Each says in words what must hold, counts how often it
// was put to the test, and prints the seed and the job where it fails.
package laws

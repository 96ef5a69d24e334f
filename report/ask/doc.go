// Package ask asks for the readings of an engine one at a time, in the order of
// the bench, and makes the job file from the answers; it knows lines of text, and
// nothing of terminals or pages. Each answer is read by the reader of job files as
// it is given, so that what is wrong with it is said at once and in the same words.
package ask

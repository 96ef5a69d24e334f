// Package job reads the job file, the YAML in which a mechanic writes down an
// engine and its test readings, and knows nothing of what the readings mean or of
// pages.
//
// The file is walked node by node, so that every problem has its line and
// column and all problems of a file are reported in one run. Nothing is
// guessed: where a notation has two meanings, the problem offers both.
//
// The keys of the file stand in one table (keys.go) from which the reader
// takes its lists of keys and words and [Schema] its JSON Schema.
package job

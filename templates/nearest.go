package templates

// Nearest gives the known word that a misspelt one is closest to, or "" where
// none is within a third of its length in edits.
func Nearest(word string, known []string) string {
	best, least := "", len(word)/3+1
	for _, k := range known {
		if d := distance(word, k); d <= least && (best == "" || d < distance(word, best)) {
			best = k
		}
	}
	return best
}

// distance is the Levenshtein distance in bytes.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

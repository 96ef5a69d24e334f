package job

import "strings"

// numberWords are the words that a figure is said with.
var numberWords = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
	"seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}

// figureInWords gives a number up to 999 that is written in words, 'ninety', 'a
// hundred and fifty' and, as it is said at the bench, 'one fifty'; 0 for any other
// text.
func figureInWords(text string) int {
	sum, last := 0, 0
	for _, word := range strings.Fields(plainWords(text)) {
		v := numberWords[word]
		switch {
		case word == "a" || word == "and":
			continue
		case word == "hundred" && sum < 10:
			sum, last = 100*max(sum, 1), 100
			continue
		case v == 0:
			return 0
		case v >= 10 && last > 0 && last < 10: // one fifty
			sum = 100*sum + v
		case last == 0 || last == 100 || last >= 20 && last < 100 && v < 10:
			sum += v
		default:
			return 0
		}
		last = v
	}
	return sum
}

package diag

import "strings"

// Nearest returns the candidate closest to word by edit distance (insertions,
// deletions, substitutions and swaps of neighbours; Damerau 1964, restricted
// form), or "" when none is within a third of the word's length plus one.
// Ties go to the earlier candidate.
func Nearest(word string, candidates []string) string {
	best, bestDist := "", len([]rune(word))/3+2
	low := strings.ToLower(word)
	for _, c := range candidates {
		if d := distance(low, strings.ToLower(c)); d < bestDist {
			best, bestDist = c, d
		}
	}
	return best
}

// distance is the optimal string alignment distance of two strings, in runes.
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	rows := [3][]int{}
	for i := range rows {
		rows[i] = make([]int, len(t)+1)
	}
	for j := range rows[1] {
		rows[1][j] = j
	}
	for i := 1; i <= len(s); i++ {
		before, prev, row := rows[(i+2)%3], rows[i%3], rows[(i+1)%3]
		row[0] = i
		for j := 1; j <= len(t); j++ {
			cost := 1
			if s[i-1] == t[j-1] {
				cost = 0
			}
			row[j] = min(prev[j]+1, row[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
	}
	return rows[(len(s)+1)%3][len(t)]
}

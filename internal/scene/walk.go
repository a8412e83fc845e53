package scene

import "iter"

// Texts goes through every text in a list of items and its groups, in painting
// order.
func Texts(items []Item) iter.Seq[Text] {
	return func(yield func(Text) bool) { eachText(items, yield) }
}

func eachText(items []Item, yield func(Text) bool) bool {
	for _, it := range items {
		switch it := it.(type) {
		case Text:
			if !yield(it) {
				return false
			}
		case Group:
			if !eachText(it.Items, yield) {
				return false
			}
		}
	}
	return true
}

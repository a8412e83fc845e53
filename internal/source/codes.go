package source

import "loomwright/internal/diag"

// Codes are the diagnostics of this package.
func Codes() []diag.Code {
	return []diag.Code{
		{Code: "yaml-syntax", Severity: diag.Error, Says: "the text is not YAML at this place", Notice: "the file cannot be read until it is mended"},
		{Code: "yaml-tab", Severity: diag.Error, Says: "a line is indented with a tab", Notice: "the file cannot be read: YAML indents with spaces"},
		{Code: "yaml-character", Severity: diag.Error, Says: "a character that a file may not hold", Notice: "the file cannot be read until it is taken out"},
		{Code: "yaml-feature", Severity: diag.Error, Says: "anchors, aliases, tags, directives, merge keys and keys marked with ? are not used in these files", Notice: "write the value out where it is meant"},
		{Code: "yaml-key", Severity: diag.Error, Says: "a key is missing or is not a single text", Notice: "the value belongs to nothing"},
		{Code: "yaml-documents", Severity: diag.Error, Says: "the file holds more than one document", Notice: "only one is read: put the other in its own file"},
		{Code: "yaml-top", Severity: diag.Error, Says: "the file is one text instead of keys with values", Notice: "nothing in it can be read"},
		{Code: "too-large", Severity: diag.Error, Says: "the file is larger, or nested deeper, than any real one", Notice: "it is not read"},
		{Code: "duplicate-key", Severity: diag.Error, Says: "a key stands twice in one place", Notice: "it is not clear which of the two is meant; the first is taken"},
		{Code: "unknown-key", Severity: diag.Error, Says: "a key that means nothing here", Notice: "what it says is not used"},
		{Code: "missing-key", Severity: diag.Error, Says: "a key that must be there is not", Notice: "the rest cannot be understood without it"},
		{Code: "missing-value", Severity: diag.Error, Says: "a key or list item with nothing after it", Notice: "the value is not known"},
		{Code: "wrong-kind", Severity: diag.Error, Says: "a text where a list or keys are expected, or the other way round", Notice: "what stands there is not used"},
		{Code: "bad-value", Severity: diag.Error, Says: "a value outside those that the key can have", Notice: "the value is not used"},
	}
}

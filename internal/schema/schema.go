// Package schema makes JSON Schemas (2020-12) from the Go types that the
// source decoder fills.
package schema

// For returns the JSON Schema of v's type.
func For(v any, title string) ([]byte, error) { return nil, nil }

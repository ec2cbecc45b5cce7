// Package key models keys, modes and scales as they are spelled.
package key

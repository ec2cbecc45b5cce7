// Package tools keeps what generated clients import among the modules that are
// pinned here.
package tools

import _ "github.com/oapi-codegen/runtime"

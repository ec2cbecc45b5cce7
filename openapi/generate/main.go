// Generate writes the documents of the HTTP API anew: swagger.json, Swagger 2.0
// as swag finds it in the comments of the code, with what its comments cannot
// say laid over it; and openapi.json, the same in OpenAPI 3.
//
//	go generate ./openapi
package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"github.com/getkin/kin-openapi/openapi2"
	"github.com/getkin/kin-openapi/openapi2conv"
)

func main() {
	log.SetFlags(0)
	root, err := moduleRoot()
	if err != nil {
		log.Fatal(err)
	}
	files, err := documents(root)
	if err != nil {
		log.Fatal(err)
	}
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(root, "openapi", name), content, 0o644); err != nil {
			log.Fatal(err)
		}
	}
}

// moduleRoot is the directory of the module that is worked in.
func moduleRoot() (string, error) {
	file, err := exec.Command("go", "env", "GOMOD").Output()
	return filepath.Dir(strings.TrimSpace(string(file))), err
}

// documents are the contents of the generated files by name.
func documents(root string) (map[string][]byte, error) {
	old, err := swagger(root)
	if err != nil {
		return nil, err
	}
	lay(old)
	doc, err := openapi2conv.ToV3(old)
	if err != nil {
		return nil, fmt.Errorf("conversion to OpenAPI 3: %w", err)
	}
	layAnew(doc)
	files := map[string][]byte{}
	for name, document := range map[string]any{"swagger.json": old, "openapi.json": doc} {
		if files[name], err = printed(document); err != nil {
			return nil, err
		}
	}
	return files, nil
}

// swagger is what swag makes of the comments.
func swagger(root string) (*openapi2.T, error) {
	out, err := os.MkdirTemp("", "openapi")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(out)
	// A field is required unless its tag says omitempty.
	swag := exec.Command("go", "tool", "-modfile=tools/go.mod", "swag", "init", "--quiet",
		"--dir", "api,api/wire", "--generalInfo", "doc.go", "--useStructName", "--requiredByDefault",
		"--outputTypes", "json", "--output", out)
	swag.Dir = root
	if said, err := swag.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("swag: %w\n%s", err, said)
	}
	content, err := os.ReadFile(filepath.Join(out, "swagger.json"))
	if err != nil {
		return nil, err
	}
	var doc openapi2.T
	return &doc, json.Unmarshal(content, &doc)
}

// printed is the document as JSON, its fields in the order of the alphabet.
func printed(document any) ([]byte, error) {
	content, err := json.Marshal(document)
	if err != nil {
		return nil, err
	}
	var fields any
	if err := json.Unmarshal(content, &fields); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err = e.Encode(fields)
	return b.Bytes(), err
}

package main

import (
	"maps"
	"slices"
	"strings"

	"github.com/getkin/kin-openapi/openapi2"
	"github.com/getkin/kin-openapi/openapi3"
)

// lay lays over the Swagger document what comments cannot say:
//
//   - what a body consists of takes no other fields, since unknown ones are
//     refused; answers may get more fields one day;
//   - a shape that is null where there is none allows that itself, since beside
//     a reference it would not count;
//   - the values in a list may be null where the list is marked so.
func lay(doc *openapi2.T) {
	doc.Info.Contact = nil // swag writes an empty one
	closed := map[string]bool{}
	for _, path := range doc.Paths {
		for _, operation := range path.Operations() {
			for _, p := range operation.Parameters {
				if p.In == "body" {
					closeFields(doc, p.Schema, closed)
				}
			}
		}
	}
	for _, schema := range doc.Definitions {
		for _, field := range schema.Value.Properties {
			if field.Value != nil && field.Value.Extensions["x-nullable-items"] != nil {
				delete(field.Value.Extensions, "x-nullable-items")
				field.Value.Items.Value.Extensions = map[string]any{"x-nullable": true}
			}
			if field.Value == nil || len(field.Value.AllOf) != 1 || field.Value.Extensions["x-nullable"] == nil {
				continue
			}
			shape := doc.Definitions[nameIn(field.Value.AllOf[0].Ref)].Value
			if shape.Extensions == nil {
				shape.Extensions = map[string]any{}
			}
			shape.Extensions["x-nullable"] = true
		}
	}
}

// closeFields refuses other fields in a schema and in all that it is made of.
func closeFields(doc *openapi2.T, schema *openapi2.SchemaRef, closed map[string]bool) {
	if schema == nil {
		return
	}
	if schema.Ref != "" {
		name := nameIn(schema.Ref)
		if !closed[name] {
			closed[name] = true
			closeFields(doc, doc.Definitions[name], closed)
		}
		return
	}
	s := schema.Value
	if s.Type.Is("object") {
		no := false
		s.AdditionalProperties.Has = &no
	}
	closeFields(doc, s.Items, closed)
	for _, part := range s.AllOf {
		closeFields(doc, part, closed)
	}
	for _, field := range s.Properties {
		closeFields(doc, field, closed)
	}
}

// nameIn is the name of the shape that a reference leads to.
func nameIn(ref string) string { return ref[strings.LastIndexByte(ref, '/')+1:] }

// bearer names the tokens in the document.
const bearer = "bearer"

const (
	mediaText    = "text/plain"
	mediaJSON    = "application/json"
	mediaLines   = "application/x-ndjson"
	mediaProblem = "application/problem+json"
)

// layAnew lays over the OpenAPI document what Swagger 2.0 does not know: which
// media type goes with which answer of an operation, that what is no JSON is no
// object, examples of parameters and bodies, and bearer tokens.
func layAnew(doc *openapi3.T) {
	doc.Components.SecuritySchemes = openapi3.SecuritySchemes{bearer: &openapi3.SecuritySchemeRef{Value: openapi3.NewSecurityScheme().
		WithType("http").WithScheme("bearer").WithDescription("Asked for where the service was started with a file of tokens.")}}
	for _, path := range doc.Paths.Map() {
		for _, operation := range path.Operations() {
			if operation.Responses.Value("401") != nil { // a token is asked for, or none
				operation.Security = openapi3.NewSecurityRequirements().
					With(openapi3.NewSecurityRequirement()).
					With(openapi3.NewSecurityRequirement().Authenticate(bearer))
			}
			if operation.RequestBody != nil {
				body := operation.RequestBody.Value
				body.Extensions = nil // the parameter's name in Swagger 2.0
				if media := body.Content[mediaJSON]; media != nil {
					example := exampleOf(doc, media.Schema)
					media.Example = example
					setTexts(body.Content, example["changes"])
				}
			}
			for _, p := range operation.Parameters {
				p.Value.Example = p.Value.Extensions["x-example"]
				delete(p.Value.Extensions, "x-example")
			}
			for status, response := range operation.Responses.Map() {
				content := response.Value.Content
				if status[0] >= '4' {
					response.Value.Content = openapi3.Content{mediaProblem: only(content)}
				} else if lines := content[mediaLines]; lines != nil {
					content[mediaLines] = lineOf(doc, lines)
				} else {
					setTexts(content, nil)
				}
			}
		}
	}
}

// setTexts makes what is no JSON a string, of bytes where it is neither text
// nor XML. The example is that of plain text.
func setTexts(content openapi3.Content, example any) {
	for name := range content {
		if name == mediaJSON || name == mediaLines {
			continue
		}
		schema := openapi3.NewStringSchema()
		if !strings.HasPrefix(name, "text/") && !strings.HasSuffix(name, "+xml") && !strings.HasSuffix(name, "/xml") {
			schema.Format = "binary"
		}
		content[name] = openapi3.NewMediaType().WithSchema(schema)
		if name == mediaText {
			content[name].Example = example
		}
	}
}

// only is the media type that all kinds of a content share.
func only(content openapi3.Content) *openapi3.MediaType {
	for media := range maps.Values(content) {
		return media
	}
	return nil
}

// lineOf is the schema of a line of a stream: an answer, or a problem in its
// place.
func lineOf(doc *openapi3.T, answer *openapi3.MediaType) *openapi3.MediaType {
	const name = "LineProblem"
	number := openapi3.NewIntegerSchema().WithMin(1)
	number.Description, number.Example = "The number of the line, from 1.", 3
	problem := openapi3.NewObjectSchema()
	problem.Description = "Stands in the answer to a stream in the place of a line that was refused."
	problem.Required = []string{"line", "problem"}
	problem.Properties = openapi3.Schemas{
		"line":    number.NewRef(),
		"problem": openapi3.NewSchemaRef("#/components/schemas/Problem", nil),
	}
	doc.Components.Schemas[name] = problem.NewRef()
	line := &openapi3.Schema{
		Description: "One line; the answer has one for every line of the request.",
		OneOf:       openapi3.SchemaRefs{answer.Schema, openapi3.NewSchemaRef("#/components/schemas/"+name, nil)},
	}
	return openapi3.NewMediaType().WithSchema(line)
}

// exampleOf is an object of the examples that the fields of a shape have
// themselves, and of the shapes that it must have; other shapes and lists of shapes
// are left out, so that of the two ways to give a chart it has the one that is a
// text.
func exampleOf(doc *openapi3.T, schema *openapi3.SchemaRef) map[string]any {
	example := map[string]any{}
	shape := doc.Components.Schemas[nameIn(schema.Ref)].Value
	for name, field := range shape.Properties {
		within := field
		if field.Value != nil && len(field.Value.AllOf) == 1 { // a reference that is described
			within = field.Value.AllOf[0]
		}
		switch {
		case field.Value != nil && field.Value.Example != nil:
			example[name] = field.Value.Example
		case within.Ref != "" && slices.Contains(shape.Required, name):
			example[name] = exampleOf(doc, within)
		}
	}
	return example
}

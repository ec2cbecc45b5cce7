package api

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"strings"
)

// unpacked is the score in a compressed file that was read without a fault: the
// first that its container lists or, without a container, the only one.
func unpacked(file []byte) ([]byte, error) {
	archive, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		return nil, err
	}
	root, err := rootOf(archive)
	if err != nil {
		return nil, err
	}
	for _, f := range archive.File {
		extension := strings.ToLower(path.Ext(f.Name))
		if f.Name == root || root == "" && !strings.HasPrefix(f.Name, "META-INF/") && (extension == ".xml" || extension == ".musicxml") {
			return member(archive, f.Name)
		}
	}
	return nil, errors.New("no score in the archive")
}

// rootOf is the name of the score that the container gives; empty without a
// container.
func rootOf(archive *zip.Reader) (string, error) {
	data, err := member(archive, "META-INF/container.xml")
	if data == nil || err != nil {
		return "", err
	}
	var container struct {
		Roots []struct {
			Path string `xml:"full-path,attr"`
			Type string `xml:"media-type,attr"`
		} `xml:"rootfiles>rootfile"`
	}
	if err := xml.Unmarshal(data, &container); err != nil {
		return "", err
	}
	for _, r := range container.Roots {
		if r.Path != "" && (r.Type == "" || r.Type == mediaScore || r.Type == mediaCompressed) {
			return r.Path, nil
		}
	}
	return "", errors.New("the container names no score")
}

// member is the content of the first file of a name; nil if there is none. How
// large it is was seen when the score was read.
func member(archive *zip.Reader, name string) ([]byte, error) {
	for _, f := range archive.File {
		if f.Name != name {
			continue
		}
		r, err := f.Open()
		if err != nil {
			return nil, err
		}
		defer r.Close()
		return io.ReadAll(r)
	}
	return nil, nil
}

package musicxml

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

// MaxBytes bounds a score, compressed or not, in bytes.
const MaxBytes = 32 << 20

// Names in a compressed file. The container lists the score as its first
// rootfile (MusicXML 4.0, compressed .mxl files).
const (
	containerName = "META-INF/container.xml"
	containerType = "application/vnd.recordare.musicxml"
	scoreType     = "application/vnd.recordare.musicxml+xml"
)

// IsCompressed reports whether data starts as compressed MusicXML does.
func IsCompressed(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }

// archive is a compressed file and the place of the score in it.
type archive struct {
	files *zip.Reader
	score *zip.File
}

func openArchive(data []byte) (*archive, error) {
	files, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, &Error{Msg: "the compressed file is damaged", Hint: "export it again", cause: err}
	}
	a := &archive{files: files}
	name, err := a.scoreName()
	if err != nil {
		return nil, err
	}
	if a.score = a.find(name); a.score == nil {
		return nil, &Error{Msg: fmt.Sprintf("the compressed file has no %q, which its container names as the score", name)}
	}
	return a, nil
}

func (a *archive) find(name string) *zip.File {
	for _, f := range a.files.File {
		if f.Name == name {
			return f
		}
	}
	return nil
}

// scoreName is the file that the container names first; where there is no
// container, the only file that may be a score.
func (a *archive) scoreName() (string, error) {
	f := a.find(containerName)
	if f == nil {
		return a.onlyScore()
	}
	data, err := unzip(f, 1<<16)
	if err != nil {
		return "", err
	}
	var container struct {
		Roots []struct {
			Path string `xml:"full-path,attr"`
			Type string `xml:"media-type,attr"`
		} `xml:"rootfiles>rootfile"`
	}
	if err := xml.Unmarshal(data, &container); err != nil {
		return "", &Error{Msg: containerName + " is no XML that can be read", cause: err}
	}
	for _, r := range container.Roots {
		if r.Path != "" && (r.Type == "" || r.Type == scoreType || r.Type == containerType) {
			return r.Path, nil
		}
	}
	return "", &Error{Msg: containerName + " names no score", Hint: "export the file again"}
}

func (a *archive) onlyScore() (string, error) {
	name := ""
	for _, f := range a.files.File {
		lower := strings.ToLower(f.Name)
		if strings.HasPrefix(f.Name, "META-INF/") || !strings.HasSuffix(lower, ".xml") && !strings.HasSuffix(lower, ".musicxml") {
			continue
		}
		if name != "" {
			return "", &Error{Msg: fmt.Sprintf("the compressed file has no container, and both %q and %q may be the score", name, f.Name)}
		}
		name = f.Name
	}
	if name == "" {
		return "", &Error{Msg: "the compressed file holds no score", Hint: "compressed MusicXML holds a .musicxml file and " + containerName}
	}
	return name, nil
}

// unzip is the content of a file of at most so many bytes; what it claims of
// its size is not believed.
func unzip(f *zip.File, most int) ([]byte, error) {
	r, err := f.Open()
	if err != nil {
		return nil, &Error{Msg: fmt.Sprintf("%q cannot be unpacked", f.Name), cause: err}
	}
	defer r.Close()
	data, err := io.ReadAll(io.LimitReader(r, int64(most)+1))
	switch {
	case len(data) > most:
		return nil, tooLarge(fmt.Sprintf("%q, unpacked,", f.Name), most)
	case err != nil:
		return nil, &Error{Msg: fmt.Sprintf("%q cannot be unpacked", f.Name), Hint: "export the file again", cause: err}
	}
	return data, nil
}

func tooLarge(what string, most int) error {
	size := fmt.Sprintf("%d MiB", most>>20)
	if most < 1<<20 {
		size = fmt.Sprintf("%d KiB", most>>10)
	}
	return &Error{Msg: fmt.Sprintf("%s has more than %s", what, size), Hint: "export the lead sheet alone", cause: ErrTooLarge}
}

// ErrTooLarge is what the fault of a file beyond [MaxBytes] wraps.
var ErrTooLarge = errors.New("the file is too large")

// with is the archive with another score; all else is copied as it is.
func (a *archive) with(score []byte) ([]byte, error) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	w.SetComment(a.files.Comment)
	for _, f := range a.files.File {
		if f != a.score {
			if err := w.Copy(f); err != nil {
				return nil, &Error{Msg: fmt.Sprintf("%q cannot be copied", f.Name), cause: err}
			}
			continue
		}
		if err := add(w, &zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: f.Modified, Comment: f.Comment}, score); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// Compress is a score as a compressed .mxl file.
func Compress(score []byte) ([]byte, error) {
	const name = "score.musicxml"
	container := `<?xml version="1.0" encoding="UTF-8"?>
<container><rootfiles><rootfile full-path="` + name + `" media-type="` + scoreType + `"/></rootfiles></container>
`
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	w.RegisterCompressor(zip.Deflate, func(out io.Writer) (io.WriteCloser, error) {
		return flate.NewWriter(out, flate.BestCompression)
	})
	for _, f := range []struct {
		header zip.FileHeader
		data   []byte
	}{
		{zip.FileHeader{Name: "mimetype", Method: zip.Store}, []byte(containerType)},
		{zip.FileHeader{Name: containerName, Method: zip.Deflate}, []byte(container)},
		{zip.FileHeader{Name: name, Method: zip.Deflate}, score},
	} {
		if err := add(w, &f.header, f.data); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func add(w *zip.Writer, header *zip.FileHeader, data []byte) error {
	f, err := w.CreateHeader(header)
	if err == nil {
		_, err = f.Write(data)
	}
	return err
}

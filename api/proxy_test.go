package api

import (
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The addresses are those that RFC 5737 and RFC 3849 keep for documents.
func TestClientOf(t *testing.T) {
	const trusted = "10.0.0.0/8,192.0.2.7,2001:db8:1::/48"
	tests := []struct {
		name, trusted, peer string
		list, standard      []string // X-Forwarded-For, Forwarded
		want                string
	}{
		{"no proxy is trusted", "", "10.0.0.1:80", []string{"203.0.113.9"}, nil, "10.0.0.1"},
		{"another than the proxies", trusted, "198.51.100.1:80", []string{"203.0.113.9"}, nil, "198.51.100.1"},
		{"the proxy itself", trusted, "10.0.0.1:80", nil, nil, "10.0.0.1"},
		{"one hop", trusted, "10.0.0.1:80", []string{"203.0.113.9"}, nil, "203.0.113.9"},
		{"what the client made up stands left", trusted, "10.0.0.1:80", []string{"198.51.100.66, 203.0.113.9"}, nil, "203.0.113.9"},
		{"two proxies", trusted, "10.0.0.1:80", []string{"198.51.100.66, 203.0.113.9, 192.0.2.7"}, nil, "203.0.113.9"},
		{"in two headers", trusted, "10.0.0.1:80", []string{"198.51.100.66", "203.0.113.9"}, nil, "203.0.113.9"},
		{"proxies alone", trusted, "10.0.0.1:80", []string{"10.0.0.3, 10.0.0.2"}, nil, "10.0.0.3"},
		{"made up, posing as a proxy", trusted, "10.0.0.1:80", []string{"198.51.100.66, 10.0.0.9, 203.0.113.9"}, nil, "203.0.113.9"},
		{"no address", trusted, "10.0.0.1:80", []string{"198.51.100.66, me"}, nil, "10.0.0.1"},
		{"empty", trusted, "10.0.0.1:80", []string{""}, nil, "10.0.0.1"},
		{"with a port", trusted, "10.0.0.1:80", []string{"203.0.113.9:4711"}, nil, "203.0.113.9"},
		{"IPv6", trusted, "[2001:db8:1::5]:80", []string{"2001:db8:2::9"}, nil, "2001:db8:2::9"},
		{"IPv6 with a port", trusted, "10.0.0.1:80", []string{"[2001:db8:2::9]:4711"}, nil, "2001:db8:2::9"},
		{"IPv4 as IPv6", trusted, "[::ffff:10.0.0.1]:80", []string{"::ffff:203.0.113.9"}, nil, "203.0.113.9"},
		// The forms are those of RFC 7239, section 4.
		{"standard", trusted, "10.0.0.1:80", nil, []string{"for=198.51.100.66, FOR=203.0.113.9;proto=https;by=192.0.2.7"}, "203.0.113.9"},
		{"standard, IPv6", trusted, "10.0.0.1:80", nil, []string{`For="[2001:db8:2::9]:4711"`}, "2001:db8:2::9"},
		{"standard, hidden", trusted, "10.0.0.1:80", nil, []string{"for=198.51.100.66, for=_hidden"}, "10.0.0.1"},
		{"standard, without for", trusted, "10.0.0.1:80", nil, []string{"for=198.51.100.66, proto=https"}, "10.0.0.1"},
		{"standard, a quote left open", trusted, "10.0.0.1:80", nil, []string{`for="198.51.100.66`, "for=203.0.113.9"}, "10.0.0.1"},
		{"standard, a comma in quotes", trusted, "10.0.0.1:80", nil, []string{`for="a, b", for=203.0.113.9`}, "203.0.113.9"},
		{"both agree", trusted, "10.0.0.1:80", []string{"203.0.113.9"}, []string{"for=203.0.113.9"}, "203.0.113.9"},
		{"both disagree", trusted, "10.0.0.1:80", []string{"203.0.113.9"}, []string{"for=198.51.100.66"}, "10.0.0.1"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			trusted, err := ParseProxies(test.trusted)
			require.NoError(t, err)
			r := httptest.NewRequest(http.MethodGet, "/", nil)
			r.RemoteAddr = test.peer
			r.Header["X-Forwarded-For"] = test.list
			r.Header["Forwarded"] = test.standard
			assert.Equal(t, test.want, proxies(trusted).clientOf(r).String())
		})
	}
}

func TestParseProxies(t *testing.T) {
	got, err := ParseProxies(" 10.0.0.0/8, 192.0.2.1 ,2001:db8::/32,,::1")
	require.NoError(t, err)
	var printed []string
	for _, n := range got {
		printed = append(printed, n.String())
	}
	assert.Equal(t, []string{"10.0.0.0/8", "192.0.2.1/32", "2001:db8::/32", "::1/128"}, printed)
	for bad, why := range map[string]string{
		"proxy.example": "a name",
		"10.0.0.1/8":    "an address within a network",
		"10.0.0.0/33":   "more bits than there are",
		"10.0.0.0-9":    "a range",
	} {
		_, err := ParseProxies(bad)
		assert.EqualError(t, err, `"`+bad+`" is no address and no network: expected such as 192.0.2.1 or 10.0.0.0/8`, why)
	}
}

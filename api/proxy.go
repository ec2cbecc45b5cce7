package api

import (
	"fmt"
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// proxies are the addresses of the proxies before the service. Who else asks
// may write what they like into X-Forwarded-For and Forwarded.
type proxies []netip.Prefix

// ParseProxies reads a list of addresses and networks, divided by commas, for
// [Options.Proxies]: 10.0.0.0/8, 192.0.2.1, 2001:db8::/32.
func ParseProxies(list string) ([]netip.Prefix, error) {
	var networks []netip.Prefix
	for item := range strings.SplitSeq(list, ",") {
		item = strings.TrimSpace(item)
		if item == "" {
			continue
		}
		network, err := netip.ParsePrefix(item)
		if address, ok := addressIn(item); ok && err != nil {
			network, err = netip.PrefixFrom(address, address.BitLen()), nil
		}
		if err != nil || network != network.Masked() {
			return nil, fmt.Errorf("%q is no address and no network: expected such as 192.0.2.1 or 10.0.0.0/8", item)
		}
		networks = append(networks, network)
	}
	return networks, nil
}

func (p proxies) trust(a netip.Addr) bool {
	return slices.ContainsFunc(p, func(n netip.Prefix) bool { return n.Contains(a) })
}

// clientOf is the address of who asks: the connection's, or behind a proxy the
// one that the last trusted proxy saw. Where X-Forwarded-For (common practice) and
// Forwarded (RFC 7239) disagree, one of them is the client's own invention, and
// neither counts. The zero Addr stands for an address that is none.
func (p proxies) clientOf(r *http.Request) netip.Addr {
	peer, _ := addressIn(r.RemoteAddr)
	if !p.trust(peer) {
		return peer
	}
	list, standard := r.Header.Values("X-Forwarded-For"), r.Header.Values("Forwarded")
	byList := p.seenBy(peer, strings.Split(strings.Join(list, ","), ","))
	byStandard := p.seenBy(peer, forwardedFor(strings.Join(standard, ",")))
	switch {
	case len(standard) == 0:
		return byList
	case len(list) == 0, byList == byStandard:
		return byStandard
	}
	return peer
}

// seenBy follows the hops from the last to the first as long as who names the
// next one is trusted.
func (p proxies) seenBy(client netip.Addr, hops []string) netip.Addr {
	for _, hop := range slices.Backward(hops) {
		next, ok := addressIn(hop)
		if !ok || !p.trust(client) {
			break
		}
		client = next
	}
	return client
}

// forwardedFor are the values of for= in a Forwarded header, one for each hop;
// empty for a hop without one. Of a header with a quote left open there are none.
func forwardedFor(header string) (hops []string) {
	quoted := false
	elements := strings.FieldsFunc(header, func(r rune) bool {
		if r == '"' {
			quoted = !quoted
		}
		return r == ',' && !quoted
	})
	if quoted {
		return nil
	}
	for _, element := range elements {
		hop := ""
		for pair := range strings.SplitSeq(element, ";") {
			if name, value, _ := strings.Cut(strings.TrimSpace(pair), "="); strings.EqualFold(name, "for") {
				hop = strings.Trim(value, `"`)
			}
		}
		hops = append(hops, hop)
	}
	return hops
}

// addressIn reads an address that may have a port, and one of IPv6 brackets.
func addressIn(s string) (netip.Addr, bool) {
	s = strings.TrimSpace(s)
	if withPort, err := netip.ParseAddrPort(s); err == nil {
		return withPort.Addr().Unmap().WithZone(""), true
	}
	if inner, ok := strings.CutPrefix(s, "["); ok {
		s, ok = strings.CutSuffix(inner, "]")
		if !ok {
			return netip.Addr{}, false
		}
	}
	a, err := netip.ParseAddr(s)
	return a.Unmap().WithZone(""), err == nil
}

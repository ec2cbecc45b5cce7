package roadmap

import (
	"fmt"

	"fifthwise/pkg/chart"
)

// notes is what there is to warn of, each thing once.
type notes struct {
	list []chart.Warning
	told map[chart.Warning]bool
}

func (n *notes) warn(bar int, format string, args ...any) {
	w := chart.Warning{Bar: bar, Message: fmt.Sprintf(format, args...)}
	if n.told[w] {
		return
	}
	if n.told == nil {
		n.told = map[chart.Warning]bool{}
	}
	n.told[w] = true
	n.list = append(n.list, w)
}

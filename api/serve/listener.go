package main

import (
	"net"
	"sync"
)

// listener accepts a number of connections at a time; others wait until one is
// closed.
type listener struct {
	net.Listener
	places chan struct{}
	closed chan struct{}
	close  func() error
}

func limited(l net.Listener, connections int) listener {
	closed := make(chan struct{})
	return listener{
		Listener: l,
		places:   make(chan struct{}, connections),
		closed:   closed,
		close: sync.OnceValue(func() error {
			close(closed)
			return l.Close()
		}),
	}
}

func (l listener) Close() error { return l.close() }

func (l listener) Accept() (net.Conn, error) {
	select {
	case l.places <- struct{}{}:
	case <-l.closed:
		return nil, net.ErrClosed
	}
	leave := func() { <-l.places }
	c, err := l.Listener.Accept()
	if err != nil {
		leave()
		return nil, err
	}
	return conn{c.(*net.TCPConn), sync.OnceFunc(leave)}, nil
}

// conn is a connection that gives its place back, and on which refusals of the
// HTTP server itself are problems.
type conn struct {
	*net.TCPConn
	leave func()
}

func (c conn) Close() error {
	defer c.leave()
	return c.TCPConn.Close()
}

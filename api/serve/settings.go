package main

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"fifthwise/api"
)

// settings are what the flags say.
type settings struct {
	listen      string
	tokens      string
	log         string
	version     bool
	connections int
	headerTime  time.Duration
	writeTime   time.Duration
	idleTime    time.Duration
	noticeTime  time.Duration
	drainTime   time.Duration
	options     api.Options
}

const usage = `usage: %s [flags]

Answers the HTTP API until it is interrupted or gets SIGTERM. README.md, "Running
it for others", tells what to set where others reach it. SIGHUP reads the file of
-tokens anew. Times are written 10s, 1m30s.

`

// Upper ends of flags, beyond which a number is a slip.
const (
	maxRate        = 1_000_000
	maxReadings    = 1_000
	maxWaiting     = 100_000
	maxConnections = 1_000_000
	maxMemory      = 1 << 20 // MiB
)

// read reads the flags. Asked for help it gives that, with [flag.ErrHelp].
func read(args []string) (settings, error) {
	s := settings{
		connections: 1_000,
		headerTime:  10 * time.Second,
		writeTime:   time.Minute,
		idleTime:    2 * time.Minute,
		noticeTime:  time.Second,
		drainTime:   20 * time.Second,
		log:         "text",
	}
	s.options.BodyTime = time.Minute
	memory := 128
	flags := flag.NewFlagSet(program(), flag.ContinueOnError)
	flags.SetOutput(io.Discard) // a fault is told in one line, without the help
	flags.StringVar(&s.listen, "listen", cmp.Or(os.Getenv("FIFTHWISE_LISTEN"), "127.0.0.1:8080"), "`host:port` to listen on; the environment's FIFTHWISE_LISTEN sets the default")
	flags.Func("allow-origin", "`origins`, comma-separated, whose pages may call the API from a browser; * is any", func(list string) (err error) {
		s.options.AllowOrigins, err = api.ParseOrigins(list)
		return err
	})
	flags.StringVar(&s.tokens, "tokens", "", "`file` of bearer tokens, one a line, # begins a comment; each request has to bring one of them in the header Authorization: Bearer TOKEN. Without -tokens everybody is answered")
	flags.Func("proxies", "`networks`, comma-separated, such as 10.0.0.0/8, of the proxies whose X-Forwarded-For or Forwarded tells the client's address; without -proxies no such header is believed", func(list string) (err error) {
		s.options.Proxies, err = api.ParseProxies(list)
		return err
	})
	flags.Func("rate", "how many `requests` a second each client address may make over time; without -rate any number", func(text string) (err error) {
		s.options.Rate, err = strconv.ParseFloat(text, 64)
		if err != nil || !(s.options.Rate > 0 && s.options.Rate <= maxRate) {
			return fmt.Errorf("expected a number more than 0 and at most %d", maxRate)
		}
		return nil
	})
	flags.Var(number{&s.options.Readings, maxReadings}, "readings", "`number` of charts that are read at the same time; without -readings one for each processor")
	flags.Var(number{&s.options.Waiting, maxWaiting}, "waiting", "`number` of requests that may wait, a second at most, until their chart can be read; further ones are answered 503. Without -waiting 8 times -readings")
	flags.Var(number{&s.connections, maxConnections}, "connections", "`number` of connections that are open at the same time; further clients wait")
	flags.Var(number{&memory, maxMemory}, "memory", "`MiB` that the large bodies and answers of all requests may take together; further ones are answered 503. The first 64 KiB of each request are not counted")
	flags.Var(span{&s.headerTime, 1}, "header-time", "`time` in which the head of a request has to arrive")
	flags.Var(span{&s.options.BodyTime, 1}, "body-time", "`time` in which the body of a request has to arrive")
	flags.Var(span{&s.writeTime, 1}, "write-time", "`time`, on top of -body-time, in which the client has to take the answer")
	flags.Var(span{&s.idleTime, 1}, "idle-time", "`time` that an open connection may wait for its next request")
	flags.Var(span{&s.noticeTime, 0}, "notice-time", "`time` after SIGTERM in which requests are still taken while /readyz answers 503; 0s for none")
	flags.Var(span{&s.drainTime, 1}, "drain-time", "`time` after -notice-time in which answers that are begun have to end")
	flags.Func("log", "`form` of the log: text or json (default text)", func(form string) error {
		if form != "text" && form != "json" {
			return errors.New("expected text or json")
		}
		s.log = form
		return nil
	})
	flags.BoolVar(&s.version, "version", false, "print the version, and the commit where it is known, and stop")
	err := flags.Parse(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		flags.SetOutput(os.Stderr)
		fmt.Fprintf(flags.Output(), usage, flags.Name())
		flags.PrintDefaults()
	case err == nil && flags.NArg() > 0:
		err = fmt.Errorf("expected flags only, not %q", flags.Arg(0))
	case err == nil:
		err = checkAddress(s.listen)
	}
	s.options.Memory = int64(memory) << 20
	return s, err
}

// program is the name under which this one was started.
func program() string { return filepath.Base(os.Args[0]) }

// checkAddress refuses what is not host:port.
func checkAddress(address string) error {
	if _, _, err := net.SplitHostPort(address); err == nil {
		return nil
	}
	example := "127.0.0.1:8080"
	if _, err := strconv.ParseUint(address, 10, 16); err == nil {
		example = "127.0.0.1:" + address
	}
	return fmt.Errorf("invalid value %q for -listen or FIFTHWISE_LISTEN: expected host:port, such as %s", address, example)
}

// number is a flag from 1 to max.
type number struct {
	n   *int
	max int
}

func (f number) Set(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > f.max {
		return fmt.Errorf("expected a whole number from 1 to %d", f.max)
	}
	*f.n = n
	return nil
}

func (f number) String() string {
	if f.n == nil || *f.n == 0 {
		return ""
	}
	return strconv.Itoa(*f.n)
}

// span is a flag for a time of min or more.
type span struct {
	d   *time.Duration
	min time.Duration
}

func (f span) Set(text string) error {
	d, err := time.ParseDuration(text)
	switch {
	case err != nil || d < 0:
		return errors.New("expected a time such as 10s or 1m30s")
	case d < f.min:
		return errors.New("expected a time more than 0s")
	}
	*f.d = d
	return nil
}

func (f span) String() string {
	if f.d == nil {
		return ""
	}
	return f.d.String()
}

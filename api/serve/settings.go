package main

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"os"
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

const usage = `usage: serve [flags]

Answers the HTTP API until it is interrupted or gets SIGTERM. README.md, "For
others to use", tells what to set where others reach it. SIGHUP reads the tokens
anew. Times are written 10s, 1m30s.

`

// Upper ends of flags, beyond which a number is a slip.
const (
	maxRate        = 1_000_000
	maxReadings    = 1_000
	maxWaiting     = 100_000
	maxConnections = 1_000_000
	maxMemory      = 1 << 20 // MiB
)

// read reads the flags; what is wrong with them it says itself.
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
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.Usage = func() {
		fmt.Fprint(flags.Output(), usage)
		flags.PrintDefaults()
	}
	flags.StringVar(&s.listen, "listen", cmp.Or(os.Getenv("FIFTHWISE_LISTEN"), "127.0.0.1:8080"), "`host:port` to listen on; the environment's FIFTHWISE_LISTEN sets the default")
	flags.Func("allow-origin", "`origins`, comma-separated, whose pages may call the API from a browser; * is any", func(list string) (err error) {
		s.options.AllowOrigins, err = api.ParseOrigins(list)
		return err
	})
	flags.StringVar(&s.tokens, "tokens", "", "`file` of bearer tokens, one a line, # begins a comment; who asks has to send one. Without it everybody is answered")
	flags.Func("proxies", "`networks`, comma-separated, such as 10.0.0.0/8, of the proxies whose X-Forwarded-For or Forwarded tells the client's address; without it none is believed", func(list string) (err error) {
		s.options.Proxies, err = api.ParseProxies(list)
		return err
	})
	flags.Func("rate", "how many `requests` a second each client, an address, may make over time; without it any number", func(text string) (err error) {
		s.options.Rate, err = strconv.ParseFloat(text, 64)
		if err != nil || !(s.options.Rate > 0 && s.options.Rate <= maxRate) {
			return fmt.Errorf("expected a number more than 0 and at most %d", maxRate)
		}
		return nil
	})
	flags.Var(number{&s.options.Readings, maxReadings}, "readings", "how `many` charts are read at a time; without it one for each processor")
	flags.Var(number{&s.options.Waiting, maxWaiting}, "waiting", "how `many` requests may wait for that, each a second at most; others are answered 503. Without it 8 for each of -readings")
	flags.Var(number{&s.connections, maxConnections}, "connections", "how `many` connections are open at a time; others wait")
	flags.Var(number{&memory, maxMemory}, "memory", "how many `MiB` are kept of large bodies and answers; others are answered 503. What is below 64 KiB is free")
	flags.Var(span{&s.headerTime, 1}, "header-time", "`time` in which the head of a request has to arrive")
	flags.Var(span{&s.options.BodyTime, 1}, "body-time", "`time` in which the body has to arrive")
	flags.Var(span{&s.writeTime, 1}, "write-time", "`time` beyond that in which the answer has to be taken")
	flags.Var(span{&s.idleTime, 1}, "idle-time", "`time` that a connection may wait for its next request")
	flags.Var(span{&s.noticeTime, 0}, "notice-time", "`time` after SIGTERM in which requests are still taken while /readyz answers 503; 0s for none")
	flags.Var(span{&s.drainTime, 1}, "drain-time", "`time` after that in which answers begun have to end")
	flags.Func("log", "`form` of the log: text or json (default text)", func(form string) error {
		if form != "text" && form != "json" {
			return errors.New("expected text or json")
		}
		s.log = form
		return nil
	})
	flags.BoolVar(&s.version, "version", false, "print the version and stop")
	err := flags.Parse(args)
	if err == nil && flags.NArg() > 0 {
		err = fmt.Errorf("expected flags only, not %q", flags.Arg(0))
		fmt.Fprintln(flags.Output(), err)
		flags.Usage()
	}
	s.options.Memory = int64(memory) << 20
	return s, err
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

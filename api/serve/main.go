// Serve is the HTTP API as a program. It listens on 127.0.0.1:8080, or where
// -listen or the environment's FIFTHWISE_LISTEN says, until it is told to stop;
// then it finishes what it is answering.
package main

import (
	"cmp"
	"context"
	"errors"
	"flag"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/signal"
	"strconv"
	"syscall"
	"time"

	"fifthwise/api"
)

const (
	headerTime = 10 * time.Second // in which the head of a request has to arrive
	idleTime   = 2 * time.Minute  // that a connection may wait for its next request
	stopTime   = 20 * time.Second // in which answers begun have to end
)

func main() {
	address, options, err := settings(os.Args[1:])
	switch {
	case errors.Is(err, flag.ErrHelp):
		return
	case err != nil:
		os.Exit(2)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	options.Stopping = ctx
	l, err := net.Listen("tcp", address)
	if err == nil {
		err = serve(ctx, l, options)
	}
	if err != nil {
		slog.Error("cannot serve", "cause", err)
		os.Exit(1)
	}
}

// settings reads the flags; what is wrong with them it says itself.
func settings(args []string) (address string, options api.Options, err error) {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.StringVar(&address, "listen", cmp.Or(os.Getenv("FIFTHWISE_LISTEN"), "127.0.0.1:8080"), "`host:port` to listen on; by default FIFTHWISE_LISTEN, if set")
	flags.Func("allow-origin", "`origins`, comma-separated, whose pages may call the API from a browser; * is any", func(list string) (err error) {
		options.AllowOrigins, err = api.ParseOrigins(list)
		return err
	})
	flags.Func("rate", "how many `requests` a second each client may make over time; without it any number", func(s string) (err error) {
		options.Rate, err = strconv.ParseFloat(s, 64)
		if err != nil || !(options.Rate > 0 && options.Rate <= maxRate) {
			return fmt.Errorf("expected a number more than 0 and at most %d", maxRate)
		}
		return nil
	})
	if err = flags.Parse(args); err == nil && flags.NArg() > 0 {
		err = fmt.Errorf("expected flags only, not %q", flags.Arg(0))
		fmt.Fprintln(flags.Output(), err)
		flags.Usage()
	}
	return address, options, err
}

const maxRate = 1_000_000

// serve answers until ctx is done.
func serve(ctx context.Context, l net.Listener, options api.Options) error {
	server := http.Server{
		Handler:           api.New(options),
		ReadHeaderTimeout: headerTime,
		IdleTimeout:       idleTime,
	}
	slog.Info("listening", "address", "http://"+l.Addr().String())
	stopped := make(chan error, 1)
	context.AfterFunc(ctx, func() {
		slog.Info("stopping")
		deadline, cancel := context.WithTimeout(context.Background(), stopTime)
		defer cancel()
		stopped <- server.Shutdown(deadline)
	})
	if err := server.Serve(listener{l}); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return <-stopped
}

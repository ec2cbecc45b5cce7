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
	listen := flag.String("listen", cmp.Or(os.Getenv("FIFTHWISE_LISTEN"), "127.0.0.1:8080"), "`host:port` to listen on; by default FIFTHWISE_LISTEN, if set")
	var origins []string
	flag.Func("allow-origin", "`origins`, comma-separated, whose pages may call the API from a browser; * is any", func(list string) (err error) {
		origins, err = api.ParseOrigins(list)
		return err
	})
	flag.Parse()
	if flag.NArg() > 0 {
		fmt.Fprintf(flag.CommandLine.Output(), "%s takes no arguments, only flags\n", os.Args[0])
		flag.Usage()
		os.Exit(2)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := serve(ctx, *listen, origins); err != nil {
		slog.Error("cannot serve", "cause", err)
		os.Exit(1)
	}
}

// serve answers until ctx is done.
func serve(ctx context.Context, address string, origins []string) error {
	listener, err := net.Listen("tcp", address)
	if err != nil {
		return err
	}
	server := http.Server{
		Handler:           api.New(api.Options{AllowOrigins: origins, Stopping: ctx}),
		ReadHeaderTimeout: headerTime,
		IdleTimeout:       idleTime,
	}
	slog.Info("listening", "address", "http://"+listener.Addr().String())
	stopped := make(chan error, 1)
	context.AfterFunc(ctx, func() {
		slog.Info("stopping")
		deadline, cancel := context.WithTimeout(context.Background(), stopTime)
		defer cancel()
		stopped <- server.Shutdown(deadline)
	})
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return <-stopped
}

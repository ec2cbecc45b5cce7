// Serve is the HTTP API as a program. It listens on 127.0.0.1:8080, or where
// -listen or the environment's FIFTHWISE_LISTEN says, until it is told to stop;
// then it finishes what it is answering. -h tells its limits.
package main

import (
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

func main() {
	s, err := read(os.Args[1:])
	switch {
	case errors.Is(err, flag.ErrHelp):
		return
	case err != nil:
		fmt.Fprintf(os.Stderr, "%s: %v; -h tells the flags\n", program(), err)
		os.Exit(2)
	case s.version:
		fmt.Println(version())
		return
	}
	slog.SetDefault(newLog(s.log))
	if err := run(s); err != nil {
		slog.Error("cannot serve", "cause", err)
		os.Exit(1)
	}
}

// newLog writes to the standard error.
func newLog(form string) *slog.Logger {
	if form == "json" {
		return slog.New(slog.NewJSONHandler(os.Stderr, nil))
	}
	return slog.New(slog.NewTextHandler(os.Stderr, nil))
}

// run serves until the process is told to stop. Told again it stops at once.
func run(s settings) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)
	defer stop()
	if s.tokens != "" {
		known, err := openTokens(s.tokens)
		if err != nil {
			return err
		}
		s.options.Admits = known.admits
		defer reloading(known)()
	}
	l, err := net.Listen("tcp", s.listen)
	if err != nil {
		return err
	}
	return serve(ctx, l, s)
}

// reloading reads the tokens anew at each SIGHUP until it is stopped.
func reloading(known *tokens) (stop func()) {
	hangups := make(chan os.Signal, 1)
	signal.Notify(hangups, syscall.SIGHUP)
	go func() {
		for range hangups {
			if err := known.reload(); err != nil {
				slog.Error("the tokens are those of before", "cause", err)
			}
		}
	}()
	return func() {
		signal.Stop(hangups)
		close(hangups)
	}
}

// serve answers until ctx is done: then for a while as before but that /readyz
// asks for no more, so that a balancer sends nothing any more, and then what is
// begun.
func serve(ctx context.Context, l net.Listener, s settings) error {
	s.options.Stopping = ctx
	s.options.Requests = slog.Default()
	server := http.Server{
		Handler:           api.New(s.options),
		ReadHeaderTimeout: s.headerTime,
		ReadTimeout:       s.headerTime + s.options.BodyTime,
		WriteTimeout:      s.options.BodyTime + s.writeTime,
		IdleTimeout:       s.idleTime,
		MaxHeaderBytes:    maxHeader,
		ErrorLog:          slog.NewLogLogger(slog.Default().Handler(), slog.LevelWarn),
	}
	slog.Info("listening", "address", "http://"+l.Addr().String(), "version", version())
	warnOfOthers(l.Addr(), s.tokens != "")
	stopped := make(chan error, 1)
	context.AfterFunc(ctx, func() {
		slog.Info("stopping", "notice", s.noticeTime.String(), "drain", s.drainTime.String())
		time.Sleep(s.noticeTime)
		deadline, cancel := context.WithTimeout(context.Background(), s.drainTime)
		defer cancel()
		stopped <- server.Shutdown(deadline)
	})
	if err := server.Serve(limited(l, s.connections)); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	if err := <-stopped; err != nil {
		return fmt.Errorf("answers were cut off, since they did not end in %v: %w", s.drainTime, err)
	}
	slog.Info("stopped")
	return nil
}

// maxHeader bounds the head of a request, in bytes.
const maxHeader = 64 << 10

// warnOfOthers says when others than the users of this machine may ask.
func warnOfOthers(a net.Addr, tokens bool) {
	tcp, ok := a.(*net.TCPAddr)
	if !ok || tcp.IP.IsLoopback() {
		return
	}
	if tokens {
		slog.Warn("other machines reach this service; tokens are sent in the clear unless a proxy adds TLS", "address", a.String())
		return
	}
	slog.Warn("other machines reach this service and everybody is answered; -tokens and -rate limit that", "address", a.String())
}

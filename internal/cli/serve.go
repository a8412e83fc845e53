package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"loomwright/internal/server"
)

func (a *app) serveCommand() *cobra.Command {
	var address string
	cmd := &cobra.Command{
		Use:   "serve [FOLDER]",
		Short: "Open the page on the looms of a folder, on this machine only",
		Long: `Serve answers on a loopback address and prints it; open it in a browser. It
reads the *.yaml looms below the folder (this one when none is named), and saves
one there when the page is told to: whole or not at all, and never over a text
that changed meanwhile. Stop it with Ctrl-C.

Parts and lead codes of your own are read from --shelf; where that is not given,
from the folder "shelf" beside the looms, if there is one.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			folder := "."
			if len(args) == 1 {
				folder = args[0]
			}
			return a.serve(cmd.Context(), folder, address)
		},
	}
	cmd.Flags().StringVar(&address, "address", "127.0.0.1:7447", "loopback address to answer on; port 0 takes a free one")
	return cmd
}

// serve answers until interrupted.
func (a *app) serve(ctx context.Context, folder, address string) error {
	if ctx == nil {
		ctx = context.Background()
	}
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		return fmt.Errorf("%s is not a folder that can be read", folder)
	}
	host, _, err := net.SplitHostPort(address)
	if ip := net.ParseIP(host); err != nil || host != "localhost" && (ip == nil || !ip.IsLoopback()) {
		return fmt.Errorf("%s is not a loopback address: serve is for this machine only", address)
	}
	root, err := os.OpenRoot(folder) // nothing outside the folder is read, whatever links say
	if err != nil {
		return err
	}
	defer func() { _ = root.Close() }()
	server.Sweep(root, time.Now())
	parts, err := a.partsFor(root, folder)
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", address)
	if err != nil {
		return fmt.Errorf("%w (another address: --address 127.0.0.1:0)", err)
	}
	fmt.Fprintf(a.streams.Out, "http://%s/\n", listener.Addr())
	return untilInterrupted(ctx, &http.Server{Handler: server.Handler(root, parts), ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout: time.Minute, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 1 << 16}, listener)
}

// partsFor is the shelf for a served folder: the one that the user named, one
// beside the looms, or the one that every command reads; nil for none.
func (a *app) partsFor(root *os.Root, folder string) (fs.FS, error) {
	if info, err := root.Stat(server.Shelf); a.shelf == "" && err == nil && info.IsDir() {
		inside, err := root.OpenRoot(server.Shelf)
		if err != nil {
			return nil, err
		}
		fmt.Fprintf(a.streams.Err, "parts of your own: %s (for other commands: --shelf %[1]s)\n", filepath.Join(folder, server.Shelf))
		return inside.FS(), nil
	}
	dir, err := a.shelfFolder()
	if dir == "" || err != nil {
		return nil, err
	}
	return os.DirFS(dir), nil
}

func untilInterrupted(ctx context.Context, s *http.Server, l net.Listener) error {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
	defer stop()
	done := make(chan error, 1)
	go func() { done <- s.Serve(l) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	closing, cancel := context.WithTimeout(context.Background(), 3*time.Second)
	defer cancel()
	if err := s.Shutdown(closing); err != nil {
		return err
	}
	if err := <-done; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

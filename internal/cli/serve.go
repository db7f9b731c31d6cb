package cli

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/signal"
	"runtime/debug"
	"strconv"
	"time"

	"rsc.io/qr"

	"rillwright/workbench"
)

type serveCommand struct {
	Folder string `arg:"" optional:"" help:"The folder with your designs. If left out, the built-in ones are shown and nothing is saved."`
	Port   int    `default:"0" help:"Port to listen at; 8417 if left out, or any that is free if that is not." placeholder:"PORT"`
	Lan    bool   `help:"Also take requests from other machines in your network, such as a phone, with a key."`
	Assets string `hidden:"" help:"Read the page's files from this folder, for work on them."`
}

// Help tells what the page is and who may see it.
func (*serveCommand) Help() string {
	return `Shows your designs as a page in the browser: the enclosure, the water, every answer, and what changes when you change it. The page is served to this machine alone. With --lan others in your network can open it too, with the key in the address; whoever has that can read and change the designs in the folder. Ends with Ctrl+C.` + "\n" + exitHelp
}

// Run serves the page until it is interrupted.
func (c *serveCommand) Run(std *Streams) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	return c.serve(ctx, std)
}

func (c *serveCommand) serve(ctx context.Context, std *Streams) error {
	if c.Port < 0 || c.Port > 65535 {
		return refuse(std, fmt.Errorf("there is no port %d\n  do: give one from 1024 to 65535, or leave --port out", c.Port))
	}
	o := workbench.Options{Folder: c.Folder, Assets: c.Assets}
	address := "127.0.0.1"
	if c.Lan {
		address = ""
		o.Key = rand.Text()
		for _, ip := range lanAddresses() {
			o.Hosts = append(o.Hosts, ip.String())
		}
	}
	bench, err := workbench.New(o)
	if err != nil {
		return refuse(std, fmt.Errorf("%w\n  do: name a folder that is there", err))
	}
	defer func() { _ = bench.Close() }() // the program ends
	l, err := c.listen(ctx, address)
	if err != nil {
		return refuse(std, fmt.Errorf("port %d cannot be used: %w\n  do: leave --port out, or end what uses it", c.Port, err))
	}
	c.tell(std, l.Addr(), &o)
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(workbench.HeapGrowth)
	}
	server := bench.Server()
	done := make(chan error, 1)
	go func() { done <- server.Serve(l) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	_ = bench.Close() // ends the streams, which would keep the server up
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), 3*time.Second)
	defer cancel()
	if err := server.Shutdown(last); err != nil && !errors.Is(err, context.DeadlineExceeded) && !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// usualPort is tried first. A browser keeps what was typed by address and port, so
// that a page finds it, and the program, again only where they were.
const usualPort = 8417

func (c *serveCommand) listen(ctx context.Context, address string) (net.Listener, error) {
	var listen net.ListenConfig
	if c.Port == 0 {
		if l, err := listen.Listen(ctx, "tcp", net.JoinHostPort(address, strconv.Itoa(usualPort))); err == nil {
			return l, nil
		}
	}
	return listen.Listen(ctx, "tcp", net.JoinHostPort(address, strconv.Itoa(c.Port)))
}

// tell prints where the page is.
func (c *serveCommand) tell(std *Streams, at net.Addr, o *workbench.Options) {
	port := "0"
	if tcp, ok := at.(*net.TCPAddr); ok {
		port = strconv.Itoa(tcp.Port)
	}
	query := ""
	if o.Key != "" {
		query = "?key=" + o.Key
	}
	fmt.Fprintf(std.Out, "http://127.0.0.1:%s/%s\n", port, query)
	for i, host := range o.Hosts {
		link := fmt.Sprintf("http://%s/%s", net.JoinHostPort(host, port), query)
		fmt.Fprintln(std.Out, link)
		if i == 0 {
			printCode(std, link)
		}
	}
	if o.Key != "" && len(o.Hosts) == 0 {
		fmt.Fprintln(std.Err, "This machine has no address in a private network just now: join one and start again.")
	}
	if o.Key != "" {
		fmt.Fprintln(std.Err, "Whoever has the key can read and change the designs in the folder. It is new every time.")
	}
	fmt.Fprintln(std.Err, "End with Ctrl+C.")
}

// lanAddresses are this machine's addresses in its own networks.
func lanAddresses() []net.IP {
	var out []net.IP
	list, err := net.InterfaceAddrs()
	if err != nil {
		return nil // then only the loopback address is told
	}
	for _, a := range list {
		if n, ok := a.(*net.IPNet); ok && n.IP.To4() != nil && n.IP.IsPrivate() {
			out = append(out, n.IP)
		}
	}
	return out
}

// printCode draws a link as a code for a phone's camera, two rows a line.
func printCode(std *Streams, link string) {
	code, err := qr.Encode(link, qr.L)
	if err != nil {
		return // the link itself stands above
	}
	const quiet = 2 // the margin that readers need, at least
	for y := -quiet; y < code.Size+quiet; y += 2 {
		line := "  "
		for x := -quiet; x < code.Size+quiet; x++ {
			switch up, low := code.Black(x, y), code.Black(x, y+1); {
			case up && low:
				line += " "
			case up:
				line += "▄"
			case low:
				line += "▀"
			default:
				line += "█"
			}
		}
		fmt.Fprintln(std.Err, line)
	}
}

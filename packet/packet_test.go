package packet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/keeping"
	"rillwright/sheets"
	"rillwright/works"
)

// input computes all that a packet of a design is made of.
func input(t testing.TB, file []byte, p drawing.Format) Input {
	t.Helper()
	s, err := answers.NewSurvey(trial.Resolved(t, file, enclosure.Resolve))
	if err != nil {
		t.Fatal(err)
	}
	list := s.All(trial.Parts(t))
	holds, err := s.Structure()
	if err != nil {
		t.Fatal(err)
	}
	f, err := s.Floods(answers.FaultOptions{})
	if err != nil {
		t.Fatal(err)
	}
	list = append(append(list, holds...), f.Answers...)
	buy, spent, err := s.Purchases(nil, false)
	if err != nil {
		t.Fatal(err)
	}
	list = append(list, spent...)
	answers.Sort(list)
	work, _, lines, err := works.PlanLikely(s.E, 0)
	if err != nil {
		t.Fatal(err)
	}
	on := sheets.Print{Paper: p, Date: "2026-11-25", Mark: "0123abcd"}
	return Input{
		Survey: s, Faults: f, Answers: list, Print: on, Work: work, Lines: lines, Upkeep: sheets.Upkeep(s.E, keeping.Chores(s.E), nil, "", on),
		Shopping: sheets.Shopping(s.E, buy, on), Tables: []Table{{Name: "shopping", Rows: buy.Rows(s.E.Units)}},
	}
}

func written(t testing.TB, in Input) []File {
	t.Helper()
	p, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	var out []File
	if err := p.Files(func(f File) error { out = append(out, f); return nil }); err != nil {
		t.Fatal(err)
	}
	return out
}

var demos = []struct {
	name string
	file []byte
}{{"corridor-cabinet", examples.CorridorCabinet}, {"counter-wall", examples.CounterWall}}

// The same design gives the same bytes, computed anew from its text; on either paper
// nothing lies off a sheet or over other words, every page tells its number, date and
// mark, and the PDF is no larger than 2 MB.
func TestPacket(t *testing.T) {
	for _, d := range demos {
		for _, paper := range []drawing.Format{drawing.A4(), drawing.Letter()} {
			in := input(t, d.file, paper)
			a := written(t, in)
			if paper.Name == "A4" {
				b := written(t, input(t, d.file, paper))
				if len(a) != len(b) {
					t.Fatalf("%s: %d files, then %d", d.name, len(a), len(b))
				}
				for i := range a {
					if a[i].Name != b[i].Name || !bytes.Equal(a[i].Data, b[i].Data) {
						t.Errorf("%s: %s differs from run to run", d.name, a[i].Name)
					}
				}
			}
			if a[0].Name != PDFName || len(a[0].Data) > 2<<20 {
				t.Errorf("%s: %s of %d bytes", d.name, a[0].Name, len(a[0].Data))
			}
			names := map[string]bool{}
			for _, f := range a {
				if names[f.Name] || strings.ContainsAny(f.Name, " /\\:") {
					t.Errorf("%s: file %q twice, or not plain", d.name, f.Name)
				}
				names[f.Name] = true
			}
			p, err := Of(in)
			if err != nil {
				t.Fatal(err)
			}
			for i := range p.Sheets {
				page(t, &p.Sheets[i], paper, fmt.Sprintf("page %d of %d", i+1, len(p.Sheets)))
			}
			t.Logf("%s, %s: %d pages, %d bytes of PDF", d.name, paper.Name, len(p.Sheets), len(a[0].Data))
		}
	}
}

// page checks one sheet of a packet.
func page(t *testing.T, s *drawing.Sheet, paper drawing.Format, number string) {
	t.Helper()
	if s.Group == "" {
		t.Errorf("%s has no group", s.Title)
	}
	if (s.Width != paper.Width || s.Height != paper.Height) && (s.Width != paper.Height || s.Height != paper.Width) {
		t.Errorf("%s: %g x %g mm on %s", s.Title, s.Width, s.Height, paper.Name)
	}
	for _, i := range s.Outside() {
		t.Errorf("%s: off the sheet: %+v", s.Title, i)
	}
	var texts []*drawing.Text
	all := ""
	for _, i := range s.Items {
		x, ok := i.(*drawing.Text)
		if !ok {
			continue
		}
		all += x.Text + "\n"
		if x.Height < 2.25 {
			t.Errorf("%s: %q has capitals of %g mm", s.Title, x.Text, x.Height)
		}
		for _, y := range texts {
			if x.Bounds().Overlaps(y.Bounds()) {
				t.Errorf("%s: %q lies over %q", s.Title, x.Text, y.Text)
			}
		}
		texts = append(texts, x)
	}
	for _, want := range []string{number, "2026-11-25", "0123abcd"} {
		if !strings.Contains(all, want) {
			t.Errorf("%s does not say %q", s.Title, want)
		}
	}
}

// The contents name the pages on which each sheet stands, those of one title together:
// the first, the last and all between begin with it, and neither of those beside does.
func TestContents(t *testing.T) {
	p, err := Of(input(t, examples.CorridorCabinet, drawing.A4()))
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for i := range p.Sheets {
		if p.Sheets[i].Title != "Contents" {
			continue
		}
		var words []*drawing.Text
		for _, k := range p.Sheets[i].Items {
			if x, ok := k.(*drawing.Text); ok {
				words = append(words, x)
			}
		}
		for k := 1; k < len(words); k++ {
			var n, last int
			if many, _ := fmt.Sscanf(words[k].Text, "%d to %d", &n, &last); many == 1 {
				last = n
			}
			if n == 0 || words[k].Anchor != drawing.Right || strings.HasPrefix(words[k].Text, "page") {
				continue
			}
			found++
			title := words[k-1].Text
			of := func(page int) bool {
				return page <= len(p.Sheets) && (p.Sheets[page-1].Title == title || strings.HasPrefix(p.Sheets[page-1].Title, title+", "))
			}
			for page := n; page <= last; page++ {
				if !of(page) {
					t.Errorf("%q is said to be on page %s", title, words[k].Text)
				}
			}
			if of(n-1) || of(last+1) {
				t.Errorf("%q is on more pages than %s", title, words[k].Text)
			}
		}
	}
	if found < 15 {
		t.Errorf("%d pages are listed", found)
	}
}

// Sheets and tables that are made elsewhere are bound where they belong, and without
// faults there is no card.
func TestBoundIn(t *testing.T) {
	in := input(t, examples.CorridorCabinet, drawing.A4())
	in.Faults = nil
	in.CutLayouts = []drawing.Sheet{{Title: "Cut layout", Group: "Cut layouts", Width: 210, Height: 297}}
	in.Shopping = []drawing.Sheet{{Title: "Shop", Group: "Shopping list", Width: 210, Height: 297}}
	in.Tables = []Table{{Name: "shopping", Rows: [][]string{{"what"}, {`a "b", c`}}}}
	p, err := Of(in)
	if err != nil {
		t.Fatal(err)
	}
	var groups []string
	for i := range p.Sheets {
		if g := p.Sheets[i].Group; len(groups) == 0 || groups[len(groups)-1] != g {
			groups = append(groups, g)
		}
	}
	want := "Read first, Views, Plumbing, Panes, Drilling templates, Cell maps, Cut layouts, Shopping list, Order of work, Tests, Keeping it, Curves"
	if got := strings.Join(groups, ", "); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	last := len(p.Tables) - 1
	if plan := p.Tables[last]; plan.Name != "plan" || len(plan.Rows) != len(in.Lines)+1 {
		t.Errorf("the table of %d steps is %s with %d rows", len(in.Lines), plan.Name, len(plan.Rows))
	}
	data, err := p.Tables[last-1].CSV()
	if err != nil || string(data) != "what\r\n\"a \"\"b\"\", c\"\r\n" {
		t.Errorf("%q, %v", data, err)
	}
	for _, table := range p.Tables {
		data, err := table.CSV()
		if err != nil {
			t.Fatal(err)
		}
		if rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll(); err != nil || len(rows) != len(table.Rows) {
			t.Errorf("%s: %d rows of %d, %v", table.Name, len(rows), len(table.Rows), err)
		}
	}
	in.Lines = nil
	bare, err := Of(in)
	if err != nil || slices.ContainsFunc(bare.Sheets, func(s drawing.Sheet) bool { return s.Group == "Order of work" }) || len(bare.Tables) != last {
		t.Errorf("without a plan there are its papers, or %v", err)
	}
	stop := errors.New("stop")
	if err := p.Files(func(File) error { return stop }); !errors.Is(err, stop) {
		t.Errorf("an error of the writer is lost: %v", err)
	}
}

// poppler runs one of its programs, another reader of PDF, on a file. The test is
// skipped where it is missing, unless RILLWRIGHT_CROSSCHECK=1 says it must be there.
func poppler(t *testing.T, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(args[0])
	if err != nil {
		if os.Getenv("RILLWRIGHT_CROSSCHECK") == "1" {
			t.Fatal(err)
		}
		t.Skipf("no cross-check without poppler (Debian: poppler-utils): %v", err)
	}
	out, err := exec.Command(path, args[1:]...).Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// As poppler reads the file: every page has its number, date and mark as words, each
// is of the paper's size, and none is blank.
func TestReadBack(t *testing.T) {
	for k, d := range demos {
		paper := []drawing.Format{drawing.A4(), drawing.Letter()}[k]
		in := input(t, d.file, paper)
		data := written(t, in)[0].Data
		name := filepath.Join(t.TempDir(), "packet.pdf")
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
		pages := strings.Split(strings.TrimSuffix(poppler(t, "pdftotext", "-layout", name, "-"), "\f"), "\f")
		for i, text := range pages {
			for _, want := range []string{fmt.Sprintf("page %d of %d", i+1, len(pages)), "2026-11-25", "0123abcd"} {
				if !strings.Contains(text, want) {
					t.Errorf("%s, page %d: no %q", d.name, i+1, want)
				}
			}
		}
		if !strings.Contains(pages[0], "FAILS") {
			t.Errorf("%s: the cover does not begin with what fails", d.name)
		}
		sizes := regexp.MustCompile(`Page +\d+ size: +([\d.]+) x ([\d.]+) pts`).FindAllStringSubmatch(poppler(t, "pdfinfo", "-l", fmt.Sprint(len(pages)), name), -1)
		if len(sizes) != len(pages) {
			t.Errorf("%s: sizes of %d pages, words of %d", d.name, len(sizes), len(pages))
		}
		for i, s := range sizes {
			var w, h float64
			if _, err := fmt.Sscan(s[1]+" "+s[2], &w, &h); err != nil {
				t.Fatal(err)
			}
			const mm = 25.4 / 72 // a point
			if w > h {
				w, h = h, w
			}
			if w*mm < paper.Width-0.1 || w*mm > paper.Width+0.1 || h*mm < paper.Height-0.1 || h*mm > paper.Height+0.1 {
				t.Errorf("%s, page %d: %.1f x %.1f mm", d.name, i+1, w*mm, h*mm)
			}
		}
		blank(t, name, len(pages))
	}
}

// blank looks at every page as a picture at a quarter of its size.
func blank(t *testing.T, name string, pages int) {
	t.Helper()
	pictures := poppler(t, "pdftoppm", "-gray", "-r", "25", name)
	rest := []byte(pictures)
	for n := range pages {
		var wide, high, most int
		if _, err := fmt.Fscanf(bytes.NewReader(rest), "P5\n%d %d\n%d", &wide, &high, &most); err != nil {
			t.Fatalf("page %d is no picture: %v", n+1, err)
		}
		head := len(fmt.Sprintf("P5\n%d %d\n%d\n", wide, high, most))
		ink := 0.0
		for _, v := range rest[head : head+wide*high] {
			ink += 1 - float64(v)/255
		}
		rest = rest[head+wide*high:]
		// A frame of 0.35 mm alone takes about 0.5 % of a page.
		if share := ink / float64(wide*high); share < 0.006 || share > 0.4 {
			t.Errorf("page %d: %.2f %% of it is ink", n+1, 100*share)
		}
	}
}

// Every sheet has a bookmark of its title, and every group one.
func TestBookmarks(t *testing.T) {
	p, err := Of(input(t, examples.CorridorCabinet, drawing.A4()))
	if err != nil {
		t.Fatal(err)
	}
	data, err := p.PDF()
	if err != nil {
		t.Fatal(err)
	}
	groups := 0
	for i := range p.Sheets {
		if i == 0 || p.Sheets[i].Group != p.Sheets[i-1].Group {
			groups++
		}
	}
	// Each entry of the outline has a destination and a parent.
	got := len(regexp.MustCompile(`/Title[^/]*\n?/Parent`).FindAll(data, -1))
	if want := len(p.Sheets) + groups; got != want {
		t.Errorf("%d bookmarks, want %d sheets and %d groups", got, len(p.Sheets), groups)
	}
}

func BenchmarkPacket(b *testing.B) {
	for b.Loop() {
		written(b, input(b, examples.CorridorCabinet, drawing.A4()))
	}
}

// BenchmarkPapers is the part of it after all is computed.
func BenchmarkPapers(b *testing.B) {
	in := input(b, examples.CorridorCabinet, drawing.A4())
	for b.Loop() {
		written(b, in)
	}
}

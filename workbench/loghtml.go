package workbench

import "html/template"

// logTemplate is the page of a log.
var logTemplate = template.Must(template.New("log").Parse(`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{.Title}}: log</title>
<style>{{.Style}}</style>
</head>
<body><main>
<p><a href="{{.Back}}">To the design</a></p>
<h1>{{.Title}}: log</h1>
{{with .Typed.Noted}}<p class="noted" role="status">Noted: {{.}}</p>{{end}}
{{with .Typed.Fault}}<p class="fault" role="alert">{{.}}{{with $.Typed.Do}}<br>Do: {{.}}{{end}}</p>{{end}}
<form method="post" action="{{.Path}}">
<label>What <select name="what">{{range .Choices}}<option value="{{.Value}}"{{if .Chosen}} selected{{end}}>{{.Label}}</option>{{end}}</select></label>
<label>Figures <input name="value" value="{{.Typed.Value}}" autocomplete="off" autocapitalize="off" spellcheck="false" placeholder="10 L in 43 s, 44 s, 43 s" aria-describedby="how"></label>
<small id="how">A flow: 10 L in 43 s, 44 s. A height: 12 mm or 1/2 in. Cups: 40 38 41 ml in 30 s. Tried: ok, or not ok. Cleaned: strainer.</small>
<label>Note <input name="note" value="{{.Typed.Note}}" autocomplete="off"></label>
<button>Note it</button>
</form>
{{with .Fault}}<p class="fault">{{.}}</p>{{end}}
{{range .Findings}}<p class="fault">{{.}}</p>{{end}}
{{if .Due}}<h2>Due</h2><table>{{range .Due}}<tr><td>{{.What}}<br><small>{{.How}}</small></td><td class="n">{{.When}}</td></tr>{{end}}</table>{{end}}
{{if .Count}}<h2>What is wrong?</h2>
{{with .Two}}<p>{{.}}</p>{{end}}
{{if .Suspects}}<table>{{range .Suspects}}<tr><td class="n">{{.Share}}</td><td>{{.What}}<br><small>Do: {{.Do}}</small></td></tr>{{end}}</table>{{with .Next}}<p>{{.}}</p>{{end}}<p><a href="{{.Back}}/trouble">See where that is</a></p>
{{else if .LookFault}}<p class="fault">{{.LookFault}}</p>{{else}}<p><a href="{{.Path}}?look=1">Set the last three days against the first month</a></p>{{end}}{{end}}
{{if .Trends}}<h2>Where it is going</h2>{{range .Trends}}<p>{{.ID}}: {{.Say}} ({{.FirstFlow}})</p>
<svg viewBox="0 0 300 60" preserveAspectRatio="none" role="img" aria-label="{{.ID}} in time: {{.Say}}"><line x1="0" x2="300" y1="{{.Limit}}" y2="{{.Limit}}"/><polyline points="{{.Line}}"/></svg>{{end}}{{end}}
<h2>{{if .Count}}The last of {{.Count}} notes{{else}}Nothing is noted yet{{end}}</h2>
<table>{{range .Rows}}<tr><td><small>{{.When}}</small></td><td>{{.ID}} {{.Text}}{{with .Figure}}: {{.}}{{end}}{{with .Verdict}}<br><small>{{.}}</small>{{end}}{{with .Note}}<br><small># {{.}}</small>{{end}}</td></tr>{{end}}</table>
</main></body>
</html>
`))

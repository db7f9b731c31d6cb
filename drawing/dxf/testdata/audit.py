"""Reads a DXF file with ezdxf, audits it, and prints what is in it as JSON."""

import json
import sys

import ezdxf

doc = ezdxf.readfile(sys.argv[1])
audit = doc.audit()
out = {
    "version": doc.dxfversion,
    "units": doc.header.get("$INSUNITS", -1),
    "errors": [e.message for e in audit.errors] + [e.message for e in audit.fixes],
    "layers": sorted(l.dxf.name for l in doc.layers),
    "kinds": {},
    "lines": [],
    "circles": [],
    "arcs": [],
    "polylines": [],
    "texts": [],
}
for e in doc.modelspace():
    kind = e.dxftype()
    out["kinds"][kind] = out["kinds"].get(kind, 0) + 1
    if kind == "LINE":
        out["lines"].append([e.dxf.start.x, e.dxf.start.y, e.dxf.end.x, e.dxf.end.y])
    elif kind == "CIRCLE":
        out["circles"].append([e.dxf.center.x, e.dxf.center.y, e.dxf.radius])
    elif kind == "ARC":
        out["arcs"].append([e.dxf.center.x, e.dxf.center.y, e.dxf.radius, e.start_point.x, e.start_point.y, e.end_point.x, e.end_point.y])
    elif kind == "POLYLINE":
        out["polylines"].append({"closed": bool(e.is_closed), "points": [[v.dxf.location.x, v.dxf.location.y] for v in e.vertices]})
    elif kind == "TEXT":
        out["texts"].append({"text": e.plain_text(), "height": e.dxf.height, "turned": e.dxf.rotation})
json.dump(out, sys.stdout)

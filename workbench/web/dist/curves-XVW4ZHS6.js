import{b as a,c as b}from"./chunk-CX4I3N3B.js";import"./chunk-6L5Q7NKX.js";import"./chunk-WEJSMPFS.js";import"./chunk-WOT6VMZA.js";export{b as axes,a as default};

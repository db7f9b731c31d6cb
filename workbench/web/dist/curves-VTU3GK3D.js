import{b as a,c as b}from"./chunk-4THE2YWG.js";import"./chunk-6L5Q7NKX.js";import"./chunk-OGQAN3OT.js";import"./chunk-WOT6VMZA.js";export{b as axes,a as default};

import{b as a,c as b}from"./chunk-GKYJOEHT.js";import"./chunk-6L5Q7NKX.js";import"./chunk-4MW4JHBK.js";import"./chunk-WOT6VMZA.js";export{b as axes,a as default};

import{b as a,c as b}from"./chunk-AUX2IUFN.js";import"./chunk-6L5Q7NKX.js";import"./chunk-4MW4JHBK.js";export{b as axes,a as default};
